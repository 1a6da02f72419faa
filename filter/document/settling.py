"""Settings in force at each part of a document: front matter, then questions from the outside in."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

import panflute as pf

from physcalc.language import Axis, Conventions, read_axis
from physcalc.language.points import read_points
from physcalc.problems import Problem, Span, Text, nearest

from ..problems import AttributeUnknown, SettingUnknown
from ..settings import LOCAL_NAMES, Settings
from ..sources import FrontMatter
from .findings import Findings
from .keys import CALCULATION_KEYS, OPTIONS_KEYS
from .plain import plain_text
from .tree import AnswerPart, BlockPart, DefinePart, GridPart, Part, Question, Tree, ValuePart

#: Attributes that any element may have for pandoc's own writers.
_GENERAL = frozenset({"lang", "dir", "style", "custom-style", "role", "width", "height"})


def metadata_values(document: pf.Doc) -> tuple[dict[str, object], str]:
    """What stands below `physcalc` in the metadata, as plain texts and mappings; and the language.

    Where `physcalc` is no mapping, the first is `{"physcalc": its text}`, which no setting allows.
    """
    metadata = document.metadata
    lang = _plain(metadata["lang"]) if "lang" in metadata else ""
    below = _plain(metadata["physcalc"]) if "physcalc" in metadata else {}
    values = below if isinstance(below, dict) else {"physcalc": below}
    return values, lang if isinstance(lang, str) else ""


def metadata_text(document: pf.Doc, key: str) -> str:
    """A value of the metadata as plain text; empty where there is none, or no text."""
    value = _plain(document.metadata[key]) if key in document.metadata else ""
    return value.strip() if isinstance(value, str) else ""


def settle_document(
    document: pf.Doc,
    front: FrontMatter | None,
    overrides: Iterable[tuple[Text, object]],
    findings: Findings,
    name: str = "",
) -> Settings:
    """The settings of the document as a whole.

    Args:
        document: pandoc's tree, for its metadata.
        front: the places in the front matter; None where they are not known.
        overrides: settings of the command line, which win.
        findings: takes what is wrong.
        name: the document's name in messages.
    """
    values, lang = metadata_values(document)
    places = front.below("physcalc") if front is not None else {}
    where = front.span if front is not None else Span(name)
    typed = front.places if front is not None else {}
    if set(values) == {"physcalc"}:  # It is no mapping: the place is its own.
        places = {"physcalc": typed.get("physcalc", (Text("physcalc", where), Text("", where)))}
    for key in document.metadata.content:
        # Other programs have keys of their own; one that is nearly ours would be passed over without a word.
        if key != "physcalc" and _nearly_ours(key.lower()) and "physcalc" not in document.metadata:
            place = typed[key][0].span if key in typed else where
            findings.add(None, [SettingUnknown(place, key, "physcalc")])
    settings, problems = Settings.from_metadata(values, places, lang=lang, where=where)
    findings.add(None, problems)
    settings, problems = settings.with_overrides(overrides)
    findings.add(None, problems)
    return settings


def _nearly_ours(key: str) -> bool:
    # Every document has keys, and to compare words takes a library that few documents need.
    return ("phy" in key or "calc" in key) and nearest(key, ("physcalc",)) is not None


def settle_parts(tree: Tree, settings: Settings, findings: Findings) -> dict[int, Settings]:
    """The settings of every question and of every block's question, by the part's key.

    Attributes of questions are read here; those of the other parts are checked.
    """
    settled: dict[int, Settings] = {tree.root.key: settings}
    stack: list[Question] = [tree.root]
    while stack:
        question = stack.pop()
        for part in question.parts:
            inside = settled[question.key]
            if isinstance(part, Question):
                inside = _question_settings(part, inside, findings)
                stack.append(part)
            else:
                _check_attributes(part, findings)
            settled[part.key] = inside
    return settled


def conventions_of(settings: Settings) -> Conventions:
    """What the engine obeys.

    Raises:
        PhraseUnreadable: the axis or the points cannot be read.
    """
    axis: Axis | None = read_axis(settings.axis, settings.lang) if settings.axis is not None else None
    return Conventions(
        decimal=settings.decimal,
        style=settings.numbers,
        form=settings.form,
        rule=settings.rule,
        carry=settings.carry,
        uncertainty=settings.uncertainty,
        uncertainty_figures=settings.uncertainty_figures,
        axis_labels=settings.axis_labels,
        signs=settings.signs,
        axis=axis,
        units_in_substitution=settings.units_in_substitution,
        unit_style=settings.unit_style,
        points=read_points(settings.points, settings.decimal),
        lang=settings.lang,
    )


def safe_conventions(settings: Settings, part: Part | None, findings: Findings) -> Conventions:
    """The same, with a problem found where the axis cannot be read."""
    with findings.catching(part):
        return conventions_of(settings)
    return conventions_of(replace(settings, axis=None, points=()))


def _question_settings(question: Question, outer: Settings, findings: Findings) -> Settings:
    own = {"marks", "topic", "level"}
    pairs: list[tuple[Text, object]] = []
    for name in question.element.attributes:
        if name in own or _is_general(name):
            continue
        value = question.attribute(name)
        pairs.append((question.attribute_key(name), value))
    known = [pair for pair in pairs if pair[0].value in _local(LOCAL_NAMES)]
    settings, problems = outer.with_overrides(known, scope="question")
    findings.add(question, problems)
    for key, _ in pairs:
        if key.value not in _local(LOCAL_NAMES):
            findings.add(question, _unknown_or_misplaced(outer, key, (*own, *LOCAL_NAMES)))
    return settings


def _local(names: Sequence[str]) -> frozenset[str]:
    # `numbers` holds keys, which an attribute cannot.
    return frozenset(names) - {"numbers"}


def _unknown_or_misplaced(settings: Settings, key: Text, known: Sequence[str]) -> Iterable[Problem]:
    _, problems = settings.with_overrides([(key, Text("", key.span))], scope="question", also=known)
    if any(problem.slug == "setting-misplaced" for problem in problems):
        return problems
    return [AttributeUnknown(key.span, "a question", key.value, nearest(key.value, list(known)))]


#: What is typed as a line of a block, so that nobody looks for it among the attributes.
_BLOCK_KEYS = {"calc": CALCULATION_KEYS, "options": OPTIONS_KEYS}


def _check_attributes(part: Part, findings: Findings) -> None:
    own: tuple[str, ...]
    match part:
        case BlockPart():
            element, own = f"a {part.kind} block", ()
        case ValuePart():
            element, own = "a value", _value_attributes(part)
        case DefinePart():
            element, own = "a definition", ("of", "marks")
        case AnswerPart():
            element, own = "a written answer", ("marks",)
        case GridPart():
            element, own = "a grid", ("in",)
        case _:
            element, own = "a div with class only", ("in",)
    for name in part.element.attributes:
        if name not in own and not _is_general(name):
            key = part.attribute_key(name)
            line = ""
            if isinstance(part, BlockPart) and name in (*_BLOCK_KEYS.get(part.kind, ()), *LOCAL_NAMES):
                line = f"{name}: {part.element.attributes[name]}"
            findings.add(part, [AttributeUnknown(key.span, element, name, nearest(name, list(own)), line)])


def _value_attributes(part: ValuePart) -> tuple[str, ...]:
    """What a value in the text may say: a typed one may be a part of it, which may be counted in another unit."""
    if part.typed is None:
        return ()
    kind = part.attribute("part")
    counted = kind is not None and kind.value.strip() in ("number", "unit")
    return ("of", "part", "in") if counted else ("of", "part")


def _is_general(name: str) -> bool:
    return name in _GENERAL or name.startswith(("data-", "aria-"))


def _plain(value: object) -> object:
    """A value of the metadata without pandoc's elements."""
    match value:
        case pf.MetaMap():
            return {str(key): _plain(value[key]) for key in value.content}
        case pf.MetaList():
            return [_plain(item) for item in value]
        case pf.MetaInlines():
            return plain_text(value.content)
        case pf.MetaBlocks():
            return " ".join(plain_text(block.content) for block in value.content if hasattr(block, "content"))
        case pf.MetaBool():
            return bool(value.boolean)
        case pf.MetaString():
            return str(value.text)
        case Mapping():
            return {str(key): _plain(inner) for key, inner in value.items()}
        case _:
            return value
