"""In pandoc's tree, the elements that stand-ins stand for."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import Any

import panflute as pf

from physcalc.problems import Problem, Span

from ...problems import TexPlaceLost, ValueMisplaced
from ...sources import Item, Mark, TexScan, tex_text
from ..walking import in_order

_CLASSES = {"code-value": "value", "span-value": "value"}
_OURS = frozenset(
    {"given", "calc", "options", "draw", "value", "define", "mark", "question", "answer", "only", "grid"}
)
#: The end of a stretch is looked for among so many elements behind its beginning.
_FARTHEST = 2_000
_WHAT = {
    "given": "a block of data", "calc": "a calculation", "options": "the options", "draw": "a figure",
    "code-value": "a value", "span-value": "a value", "define": "a definition", "mark": "a ticked phrase",
    "question": "a question", "answer": "a written answer", "only": "what stands in some editions",
    "grid": "the grid of marks", "heading": "the heading of a section",
}  # fmt: skip


class Standins:
    """Puts the elements into a tree, and keeps what is known of each."""

    def __init__(self, scan: TexScan) -> None:
        """Begin.

        Args:
            scan: what was found in the source.
        """
        self.scan = scan
        self.marks: dict[int, Mark] = {}
        self.problems: list[Problem] = []
        # Elements are told apart by Python's identity, so none of them may go.
        self.kept: list[pf.Element] = []
        self._seen: set[int] = set()
        # No more figures than a number can have: an author's macros may put together what looks like such a word.
        self._word = re.compile(rf"{scan.stem}([0-9]{{1,9}})([bepvdh])", re.IGNORECASE)
        self._math = re.compile(
            rf"{scan.stem}([0-9]{{1,9}})p|{scan.stem}([0-9]{{1,9}})b(.*?)(?:\{{\}})?{scan.stem}\2e", re.DOTALL
        )

    def put_in(self, document: pf.Doc) -> None:
        """Replaces every stand-in of a tree."""
        for element in list(in_order(document)):
            if isinstance(element, pf.Header):
                self._heading(element)
            for name in element._children:
                held = getattr(element, name, None)
                if name == "metadata" or not isinstance(held, pf.ListContainer):
                    continue
                made = list(self._made(list(held)))
                if len(made) != len(held) or any(new is not old for new, old in zip(made, held, strict=True)):
                    setattr(element, name, made)
        for value in document.metadata.content.values():
            self._metadata(value)
        for element in in_order(document):
            self._clean(element)

    def lost(self) -> list[int]:
        """The numbers of what is ours and did not come back, without what stands in another such."""
        found: list[int] = []
        end = -1
        for number, item in enumerate(self.scan.items):
            if number in self._seen or item.defined or item.mark.start < end:
                continue
            found.append(number)
            end = self.scan.ends.get(number, end)
        return found

    def told(self, number: int) -> Problem:
        """The problem that one of them is lost."""
        mark = self.scan.items[number].mark
        return TexPlaceLost(mark.span, _WHAT[mark.kind])

    def _made(self, held: Sequence[pf.Element]) -> Iterator[pf.Element]:
        """What becomes of a list of elements."""
        inlines = list(self._split(held))
        at = 0
        while at < len(inlines):
            one = inlines[at]
            found = self._word.fullmatch(one.text) if isinstance(one, pf.Str) else None
            if found is not None and found[2].lower() == "b":
                end = f"{self.scan.stem}{found[1]}e"
                stop = next(
                    (
                        index
                        for index in range(at + 1, min(len(inlines), at + _FARTHEST))
                        if isinstance(inlines[index], pf.Str) and inlines[index].text.lower() == end
                    ),
                    -1,
                )
                if stop > 0:
                    inner = list(self._made(inlines[at + 1 : stop]))
                    yield from self._element(int(found[1]), inner)
                    at = stop
            elif found is not None and found[2].lower() == "p":
                yield from self._element(int(found[1]), [])
            elif found is None:
                yield from self._block(one)
            at += 1

    def _split(self, held: Sequence[pf.Element]) -> Iterator[pf.Element]:
        """The same with every word of a stand-in in an element of its own."""
        for one in held:
            if isinstance(one, pf.Str) and self._word.search(one.text):
                at = 0
                for found in self._word.finditer(one.text):
                    if found.start() > at:
                        yield pf.Str(one.text[at : found.start()])
                    yield pf.Str(found[0])
                    at = found.end()
                if at < len(one.text):
                    yield pf.Str(one.text[at:])
            elif isinstance(one, pf.Math) and self._word.search(one.text):
                yield from self._mathematics(one)
            elif _bare(one) and any(
                isinstance(inner, pf.Str) and self._word.search(inner.text) for inner in one.content
            ):
                # Braces around a stand-in are our own.
                yield from self._split(list(one.content))
            else:
                yield one

    def _block(self, one: pf.Element) -> Iterator[pf.Element]:
        match one:
            case pf.CodeBlock():
                found = self._word.fullmatch(one.text.strip())
                item = self._item(found[1], "block") if found is not None else None
                if item is not None and found is not None:
                    made = pf.CodeBlock(item.mark.body, classes=[item.mark.kind])
                    yield self._with(made, item, int(found[1]))
                    return
            case pf.Div() if len(one.classes) == 1:
                found = self._word.fullmatch(one.classes[0])
                item = self._item(found[1], "div") if found is not None else None
                if item is not None and found is not None:
                    one.classes = [item.mark.kind]
                    if item.titled and one.content and isinstance(one.content[0], pf.Header):
                        one.content[0].classes = []
                    yield self._with(one, item, int(found[1]))
                    return
        foreign = id(one) not in self.marks
        if foreign and isinstance(one, pf.Div | pf.CodeBlock | pf.Code | pf.Span | pf.Header):
            # An environment of another author's may be called "question", and is none of ours.
            one.classes = [name for name in one.classes if name not in _OURS]
        yield one

    def _heading(self, heading: pf.Header) -> None:
        """A heading of ours says what the section below it has for marks."""
        for inline in heading.content:
            found = self._word.search(inline.text) if isinstance(inline, pf.Str) else None
            if found is None or found[2].lower() != "h":
                continue
            item = self._item(found[1], "heading")
            if item is not None:
                self._with(heading, item, int(found[1]))
                return

    def _element(self, number: int, inner: list[pf.Element]) -> Iterator[pf.Element]:
        item = self.scan.items[number] if number < len(self.scan.items) else None
        if item is None or item.sort not in ("point", "stretch"):
            return
        kind = item.mark.kind
        made: Any
        if kind == "code-value":
            made = pf.Code(item.mark.text, classes=["value"])
        else:
            made = pf.Span(*(inner or words_of(item.mark.text)), classes=[_CLASSES.get(kind, kind)])
        yield self._with(made, item, number)

    def _item(self, number: str, sort: str) -> Item | None:
        at = int(number)
        item = self.scan.items[at] if at < len(self.scan.items) else None
        return item if item is not None and item.sort == sort else None

    def _with(self, element: Any, item: Item, number: int) -> pf.Element:
        typed = item.mark.attributes
        element.identifier = typed.identifier.value if typed.identifier is not None else ""
        element.attributes = {key.value: value.value for key, value in typed.pairs}
        self.marks[id(element)] = item.mark
        self.kept.append(element)
        self._seen.add(number)
        return element

    def _mathematics(self, math: pf.Math) -> Iterator[pf.Element]:
        """Mathematics in a line ends before a value, and begins again behind it."""
        at = depth = 0
        fenced = False
        pieces: list[pf.Element] = []
        for found in self._math.finditer(math.text):
            number = int(found[1] or found[2])
            before = math.text[at : found.start()]
            depth += before.count("{") - before.count("}")
            fenced = fenced or "\\left" in before
            if math.format != "InlineMath" or depth or fenced:
                self._misplaced(number, "in displayed mathematics, or in its braces")
                yield pf.Math(self._word.sub("", math.text), format=math.format)
                return
            if before.strip():
                pieces += [pf.Math(before.strip(), format="InlineMath"), pf.Space()]
            pieces += self._element(number, words_of(tex_text(found[3])) if found[3] else [])
            at = found.end()
        rest = math.text[at:].strip()
        if rest:
            pieces += [*([pf.Space()] if at and rest[0] not in ",.;:)" else []), pf.Math(rest)]
        yield from pieces

    def _metadata(self, value: object) -> None:
        match value:
            case pf.MetaMap():
                for inner in value.content.values():
                    self._metadata(inner)
            case pf.MetaList():
                for inner in value.content:
                    self._metadata(inner)
            case pf.MetaInlines() | pf.MetaBlocks():
                for element in in_order(list(value.content)):
                    if isinstance(element, pf.Str):
                        for found in self._word.finditer(element.text):
                            self._misplaced(int(found[1]), "in the title of the document")
                    self._clean(element)

    def _misplaced(self, number: int, where: str) -> None:
        if number in self._seen or number >= len(self.scan.items):
            return
        self._seen.add(number)
        mark = self.scan.items[number].mark
        name = mark.attribute("of")
        span: Span = mark.span
        self.problems.append(ValueMisplaced(span, where, mark.text or (name.value if name else "")))

    def _clean(self, element: pf.Element) -> None:
        """Takes out what words are left, and makes TeX's thin blanks those that numbers have."""
        for name in ("text", "identifier", "url", "title"):
            text = getattr(element, name, None)
            if not isinstance(text, str) or not text:
                continue
            clean = self._word.sub("", text) if self.scan.stem in text.lower() else text
            if isinstance(element, pf.Str):
                # Pandoc writes \, as a blank that may be broken; TeX does not break there.
                clean = clean.replace("\u2006", "\u202f")
            if clean != text:
                setattr(element, name, clean)


def words_of(text: str) -> list[Any]:
    """A text as inline elements."""
    made: list[Any] = []
    for piece in re.split(r"([ \n]+)", text):
        if piece.strip(" \n"):
            made.append(pf.Str(piece))
        elif piece:
            made.append(pf.Space())
    return made


def _bare(element: pf.Element) -> bool:
    return (
        isinstance(element, pf.Span)
        and not element.identifier
        and not element.classes
        and not element.attributes
    )
