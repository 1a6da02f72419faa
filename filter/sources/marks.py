"""What the scan finds: a stretch of raw text that may be an element of ours."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal, get_args

from physcalc.problems import Span, Text

from .attributes import Attributes

Kind = Literal[
    "given",
    "calc",
    "options",
    "draw",
    "code-value",
    "span-value",
    "define",
    "mark",
    "question",
    "answer",
    "only",
    "grid",
    "heading",
]
KINDS: tuple[Kind, ...] = get_args(Kind)

Element = Literal["block", "code", "span", "section"]

#: For each sort of element, which classes make it ours; where it has several, the first in this order counts.
CLASSES: dict[Element, dict[str, Kind]] = {
    "block": {"given": "given", "calc": "calc", "options": "options", "draw": "draw"},
    "code": {"value": "code-value"},
    "span": {"value": "span-value", "define": "define", "mark": "mark"},
    "section": {"question": "question", "answer": "answer", "only": "only", "grid": "grid"},
}


#: The class of a span whose numbers are meant to stand for themselves.
UNTIED = "untied"


@dataclass(frozen=True, slots=True)
class Mark:
    """A place in the raw text that may be an element of ours.

    Attributes:
        kind: what it would be.
        text: what it is matched by: a block's body, inline code, a span's text as typed; for headings and
            divs their classes and attributes (see `attribute_text`).
        span: the place of its content: what is typed between the backticks or brackets, a heading's text; for
            blocks and divs, the attributes that open them.
        start, end: offsets in the source's text of the content (what `fix` may write over); of a block, of
            its body from the first character of its first line to the end of its last.
        attributes: its attributes with the place of each.
        lines: for a block, each line of its body with its own place; empty otherwise.
        likely: False where the scan believes it stands in a comment, in a code block or in front matter, so
            that a twin elsewhere is preferred.
    """

    kind: Kind
    text: str
    span: Span
    start: int
    end: int
    attributes: Attributes
    lines: tuple[Text, ...] = ()
    likely: bool = True

    @property
    def body(self) -> str:
        """A block's body, lines joined by line feeds."""
        return "\n".join(line.value for line in self.lines)

    def attribute(self, key: str) -> Text | None:
        """The value of an attribute with its place, or None where it has none of that name."""
        return self.attributes.get(key)


def kind_of(element: Element, classes: Iterable[str]) -> Kind | None:
    """What an element of pandoc's is by its classes, or None where it is not ours.

    Args:
        element: "block" for a code block, "code" for inline code, "span", "section" for a heading or div.
        classes: its classes.
    """
    present = set(classes)
    for name, kind in CLASSES[element].items():
        if name in present:
            return kind
    return None


def attribute_text(classes: Iterable[str], pairs: Iterable[tuple[str, str]]) -> str:
    """The text by which headings and divs are matched: classes and attributes, but no id.

    Ids are left out because pandoc gives a heading one of its own where none is typed.
    """
    typed = sorted(f"{key}={' '.join(value.split())}" for key, value in pairs)
    return " ".join([*sorted("." + name for name in classes), *typed])


def section_text(attributes: Attributes) -> str:
    """`attribute_text` of attributes as typed."""
    return attribute_text(
        [name.value for name in attributes.classes],
        [(key.value, value.value) for key, value in attributes.pairs],
    )


def joined(lines: Sequence[Text]) -> str:
    """The lines of a body as one text."""
    return "\n".join(line.value for line in lines)
