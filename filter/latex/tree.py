"""The tree of a TeX document, as if pandoc had read it: what the entries say, and nothing of the text around them."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

import panflute as pf

from physcalc.problems import Problem, Span, Text

from ..document import read_markup
from ..editions.text import inlines_of
from ..sources import Attributes, FrontMatter, Kind, Mark, tex_text
from .entries import OPENING, Entry, Run
from .places import Files, Placed, attributes_of, pairs_of, value_of

_BLOCKS: Mapping[str, Kind] = {"given": "given", "calculation": "calc", "options": "options", "draw": "draw"}
_DIVS: Mapping[str, Kind] = {"question": "question", "answer": "answer", "only": "only", "grid": "grid"}
#: What is markup of TeX in a typed text.
MARKUP = re.compile(r"[\\$~{}^_&]|--|``|''")
#: Between typed texts that pandoc reads in one run; no text of an author's.
_BETWEEN = "physcalcnext"


@dataclass(slots=True)
class TexTree:
    """The tree of a document.

    Attributes:
        document: pandoc's tree, with the settings in its metadata.
        front: the places of the settings.
        marks: the place of each element, by Python's identity of it.
        entries: the entry of each element, likewise.
    """

    document: pf.Doc
    front: FrontMatter
    marks: dict[int, Mark] = field(default_factory=dict)
    entries: dict[int, Placed] = field(default_factory=dict)


def tree_of(run: Run, files: Files) -> TexTree:
    """The tree of what a run of TeX wrote.

    Args:
        run: what it wrote.
        files: the files of the document.

    Raises:
        EntriesOld: a file was changed since.
    """
    placed = {entry.number: files.place(entry) for entry in run.entries()}
    typed = _typed_inlines(list(placed.values()))
    values: dict[str, pf.MetaValue] = {}
    places: dict[str, tuple[Text, Text]] = {}
    front = FrontMatter(Span(files.shown("")), places)
    tree = TexTree(pf.Doc(), front)
    # What is open, the innermost last; the first list is the document's.
    stack: list[list[Any]] = [[]]
    opened: list[pf.Div] = []
    for event in run.events:
        if not isinstance(event, Entry):
            opened.pop().content = stack.pop()
            continue
        one = placed[event.number]
        if event.kind == "setup":
            for key, value in pairs_of(one.options):
                _set(values, places, list(value_of(one.options, key, value)))
            continue
        element = _element(one, typed.get(event.number, []), tree)
        if isinstance(element, pf.Div | pf.CodeBlock | pf.Header):
            stack[-1].append(element)
        else:
            stack[-1].append(pf.Para(element))
        if event.kind in OPENING:
            opened.append(element)
            stack.append([])
    if run.partial:
        values.pop("total", None)
    document = pf.Doc(*stack[0])
    document.metadata["physcalc"] = pf.MetaMap(**values)
    tree.document = document
    return tree


def _set(
    values: dict[str, pf.MetaValue],
    places: dict[str, tuple[Text, Text]],
    found: Sequence[tuple[str, Text, Text]],
) -> None:
    """A setting, with those in its braces; what holds others has no value of its own."""
    made: dict[str, Any] = {}
    paths = [path for path, _, _ in found]
    for path, key, value in found:
        places[f"physcalc.{path}"] = (key, value)
        holds = any(other.startswith(path + ".") for other in paths)
        made[path] = pf.MetaMap() if holds else pf.MetaString(value.value)
        above, _, name = path.rpartition(".")
        if above:
            made[above][name] = made[path]
        else:
            values[name] = made[path]


def _element(one: Placed, typed: list[Any], tree: TexTree) -> Any:
    """The element of an entry, with its mark."""
    entry = one.entry
    attributes = attributes_of(one)
    kind: Kind
    lines: tuple[Text, ...] = ()
    place = one.span
    text = ""
    element: Any
    match entry.kind:
        case "given" | "calculation" | "options" | "draw":
            kind, lines = _BLOCKS[entry.kind], one.body
            text = "\n".join(line.value for line in lines)
            element = pf.CodeBlock(text, classes=[kind])
        case "question" | "answer" | "only" | "grid":
            kind = _DIVS[entry.kind]
            element = pf.Div(classes=[kind])
            place = one.span if not entry.options else one.options.part(0, len(one.options.value)).span
        case "section":
            kind, place = "heading", one.typed.text().span if one.typed else place
            element = pf.Header(*typed, level=1)
        case "mark":
            kind, place = "mark", one.typed.text().span if one.typed else place
            element = pf.Span(*typed, classes=["mark"])
        case _:
            name = _name(one)
            if one.typed is None:
                kind = "code-value" if entry.kind == "value" else "define"
                element = (
                    pf.Code(name.value, classes=["value"])
                    if entry.kind == "value"
                    else pf.Span(*inlines_of(name.value), classes=["define"])
                )
                text, place = name.value, name.span
            else:
                kind = "span-value" if entry.kind == "value" else "define"
                element = pf.Span(*typed, classes=["value" if entry.kind == "value" else "define"])
                pairs = ((Text("of", name.span), name), *attributes.pairs)
                attributes = Attributes(attributes.identifier, (), pairs, one.span, 0)
                text, place = one.typed.value, one.typed.text().span
    element.identifier = attributes.identifier.value if attributes.identifier is not None else ""
    element.attributes = {key.value: value.value for key, value in attributes.pairs}
    tree.marks[id(element)] = Mark(kind, text, place, 0, 0, attributes, lines)
    tree.entries[id(element)] = one
    return element


def _name(one: Placed) -> Text:
    """The name of a value or a definition; TeX's own signs in it become plain ones."""
    typed = one.name.text() if one.name is not None else Text("", one.span)
    plain = tex_text(typed.value) if "\\" in typed.value else typed.value
    return Text(plain.replace("~", " ").replace("$", ""), typed.span)


def _typed_inlines(entries: Sequence[Placed]) -> dict[int, list[Any]]:
    """The typed text of each entry that has one, as inlines, by the entry's number."""
    found: dict[int, list[Any]] = {}
    marked: list[tuple[int, str]] = []
    for one in entries:
        text = one.typed_text
        if text is None:
            continue
        found[one.entry.number] = inlines_of(text)
        if MARKUP.search(text):
            marked.append((one.entry.number, text))
    read = _read_all([text for _, text in marked])
    for (number, text), inlines in zip(marked, read, strict=True):
        found[number] = inlines if inlines is not None else inlines_of(tex_text(text))
    return found


def _read_all(texts: Sequence[str]) -> list[list[Any] | None]:
    """Texts with TeX's markup as inlines; None for one that pandoc does not read as one paragraph."""
    if not texts:
        return []
    joined = f"\n\n{_BETWEEN}\n\n".join(texts)
    try:
        blocks = list(read_markup(joined, reader="latex").content)
    except Problem:
        return [None] * len(texts)
    groups: list[list[Any]] = [[]]
    for block in blocks:
        if isinstance(block, pf.Para) and pf.stringify(block).strip() == _BETWEEN:
            groups.append([])
        else:
            groups[-1].append(block)
    if len(groups) != len(texts):
        return [None] * len(texts)
    return [
        list(group[0].content) if len(group) == 1 and isinstance(group[0], pf.Para) else None
        for group in groups
    ]
