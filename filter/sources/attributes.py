"""Reading of pandoc's attributes, `{#id .class key="value"}`, with the place of each part."""

from __future__ import annotations

import re
from dataclasses import dataclass

from physcalc.problems import Span, Text

from .source import Source

#: The longest run of characters between the braces that is taken for attributes.
_LONGEST = 4000

#: Blanks between attributes: a line may end between two of them, and the next may begin inside a block quote.
_BLANKS = re.compile(r"[ \t]*(?:\r?\n[ \t>]*)?")
_WORD = re.compile(r"[^\W\d][\w:.\-]*|[\w:.\-]+")
_CLASS = re.compile(r"\.([^\W\d][\w:.\-]*)")
_ID = re.compile(r"#([^\s{}]+)")
_KEY = re.compile(r"([^\W\d][\w:.\-]*)=")
_VALUE = re.compile(
    r"\"((?:[^\"\\]|\\.)*)\"|'((?:[^'\\]|\\.)*)'|((?:[^\s}\"'\\]|\\.)(?:[^\s}\\]|\\.)*)?", re.DOTALL
)
_TAG_PAIR = re.compile(r"([^\W\d][\w:.\-]*)(?:\s*=\s*(?:\"([^\"]*)\"|'([^']*)'|([^\s\"'>]+)))?")
_ESCAPE = re.compile(r"\\([^\w\s])")


@dataclass(frozen=True, slots=True)
class Attributes:
    """Attributes as typed.

    Attributes:
        identifier: the id without its sign; None where there is none.
        classes: the classes, without their dots.
        pairs: keys with their values; a value's place is inside its quotes.
        span: the place of the whole, from the opening brace.
        end: offset just past the closing brace.
    """

    identifier: Text | None
    classes: tuple[Text, ...]
    pairs: tuple[tuple[Text, Text], ...]
    span: Span
    end: int

    def get(self, key: str) -> Text | None:
        """The value of the last pair with this key (pandoc keeps one), or None."""
        for name, value in reversed(self.pairs):
            if name.value == key:
                return value
        return None

    def key(self, key: str) -> Text | None:
        """The key of that pair with its place, or None."""
        for name, _ in reversed(self.pairs):
            if name.value == key:
                return name
        return None

    @property
    def names(self) -> tuple[str, ...]:
        """The classes as plain strings."""
        return tuple(name.value for name in self.classes)


def read_attributes(source: Source, start: int) -> Attributes | None:
    """The attributes whose opening brace stands at offset `start`, or None where none can be read there."""
    text = source.text
    if text[start : start + 1] != "{":
        return None
    identifier: Text | None = None
    classes: list[Text] = []
    pairs: list[tuple[Text, Text]] = []
    at = start + 1
    limit = min(len(text), start + _LONGEST)
    while at < limit:
        at = _skip(text, at)
        if at >= len(text):
            return None
        if text[at : at + 1] == "}":
            span = source.span(start, at + 1)
            return Attributes(identifier, tuple(classes), tuple(pairs), span, at + 1)
        if found := _CLASS.match(text, at):
            classes.append(source.piece(*found.span(1)))
        elif found := _ID.match(text, at):
            identifier = source.piece(*found.span(1))
        elif found := _KEY.match(text, at):
            key = source.piece(*found.span(1))
            value = _VALUE.match(text, found.end())
            if value is None:
                return None
            group = value.lastindex or 0
            first, last = value.span(group) if group else (value.end(), value.end())
            typed = Text(_ESCAPE.sub(r"\1", text[first:last]), source.span(first, last))
            # Pandoc takes these two keys for the other spellings of an id and a class.
            if key.value == "id":
                identifier = typed
            elif key.value == "class":
                classes.extend(_words(typed))
            else:
                pairs.append((key, typed))
            found = value
        elif text[at] == "-" and text[at + 1 : at + 2] in {" ", "}"}:
            # Pandoc's short spelling of the class "unnumbered".
            classes.append(Text("unnumbered", source.span(at, at + 1)))
            at += 1
            continue
        else:
            return None
        at = found.end()
    return None


def read_word_class(source: Source, start: int, end: int) -> Attributes | None:
    """The one class of the short form (```` ``` calc ````, `::: question`) at `text[start:end]`, or None."""
    found = _WORD.fullmatch(source.text, start, end)
    if found is None:
        return None
    word = source.piece(start, end)
    return Attributes(None, (word,), (), word.span, end)


def read_tag(source: Source, start: int, name: str) -> Attributes | None:
    """The attributes of the HTML tag `<name …>` that begins at offset `start`, or None where none does."""
    tag = re.compile(rf"<{name}(?=[\s>])((?:\"[^\"]*\"|'[^']*'|[^\"'<>])*)>", re.IGNORECASE)
    whole = tag.match(source.text, start, start + _LONGEST)
    if whole is None:
        return None
    identifier: Text | None = None
    classes: list[Text] = []
    pairs: list[tuple[Text, Text]] = []
    for found in _TAG_PAIR.finditer(source.text, *whole.span(1)):
        key = source.piece(*found.span(1))
        group = found.lastindex or 1
        value = source.piece(*found.span(group)) if group > 1 else Text("", key.span)
        if key.value == "id":
            identifier = value
        elif key.value == "class":
            classes.extend(_words(value))
        else:
            pairs.append((Text(key.value.removeprefix("data-"), key.span), value))
    return Attributes(identifier, tuple(classes), tuple(pairs), source.span(*whole.span()), whole.end())


def _words(text: Text) -> list[Text]:
    return [text.part(*word.span()) for word in re.finditer(r"\S+", text.value)]


def _skip(text: str, at: int) -> int:
    found = _BLANKS.match(text, at)
    return found.end() if found else at
