"""Options in brackets, `[marks=4, axis={up is positive}]`, as attributes with their places."""

from __future__ import annotations

import re
from collections.abc import Iterator

from physcalc.problems import Text

from ..attributes import Attributes
from ..source import Source
from .arguments import trimmed

#: What may follow the text of a typed value: a comma that is no decimal one, a word, an equals sign.
_BEHIND = re.compile(r",\s*(?=[a-z][a-z-]+\s*=)")
#: A comment, with the blanks that begin the next line.
_COMMENT = re.compile(r"(?<!\\)%[^\n]*\n?[ \t]*")


def read_options(source: Source, stretch: tuple[int, int] | None, whole: tuple[int, int]) -> Attributes:
    """The options of an environment or a command.

    Args:
        source: the source.
        stretch: what stands inside the brackets; None where there are none.
        whole: the stretch that is the place of the whole.
    """
    identifier: Text | None = None
    pairs: list[tuple[Text, Text]] = []
    for key, value in pairs_of(source, stretch) if stretch is not None else ():
        if key.value == "id":
            identifier = value
        else:
            pairs.append((key, value))
    return Attributes(identifier, (), tuple(pairs), source.span(*whole), whole[1])


def pairs_of(source: Source, stretch: tuple[int, int]) -> Iterator[tuple[Text, Text]]:
    """Each option with its value; braces around a value are left out. A key without a value has an empty one."""
    text = source.text
    for start, end in _pieces(text, stretch):
        equals = text.find("=", start, end)
        key = _text(source, (start, end if equals < 0 else equals))
        if not key.value:
            continue
        if equals < 0:
            yield key, Text("", key.span)
            continue
        inner = trimmed(text, (equals + 1, end))
        if text[inner[0] : inner[0] + 1] == "{" and text[inner[1] - 1] == "}" and inner[1] - inner[0] > 1:
            inner = inner[0] + 1, inner[1] - 1
        yield key, _text(source, inner)


def inner_pairs(source: Source, text: Text) -> list[tuple[Text, Text]]:
    """The pairs in a value that holds pairs itself, `labels={question=Oefening}`; none where it holds none."""
    if "=" not in text.value:
        return []
    start = source.offset(text.span)
    return list(pairs_of(source, (start, start + len(text.value))))


def typed_and_options(text: str, stretch: tuple[int, int]) -> tuple[tuple[int, int], tuple[int, int] | None]:
    """The text of a typed value, and the options behind it: `[6752, part=number]`."""
    found = _BEHIND.search(text, *stretch)
    if found is None:
        return stretch, None
    return (stretch[0], found.start()), (found.end(), stretch[1])


def _pieces(text: str, stretch: tuple[int, int]) -> Iterator[tuple[int, int]]:
    depth = 0
    start, end = stretch
    at = start
    while at < end:
        sign = text[at]
        if sign == "\\":
            at += 1
        elif sign == "%":
            # A comment is no option; what stands before it may be.
            line_end = text.find("\n", at, end)
            if not text[start:at].strip():
                start = at = end if line_end < 0 else line_end
            else:
                at = end if line_end < 0 else line_end
            continue
        elif sign == "{":
            depth += 1
        elif sign == "}":
            depth -= 1
        elif sign == "," and depth == 0:
            yield start, at
            start = at + 1
        at += 1
    yield start, end


def _text(source: Source, stretch: tuple[int, int]) -> Text:
    start, end = trimmed(source.text, stretch)
    raw = source.text[start:end]
    if "%" in raw:
        raw = _COMMENT.sub("", raw).strip()
    return Text(" ".join(raw.split()) if "\n" in raw else raw, source.span(start, max(end, start + 1)))
