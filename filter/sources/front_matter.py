"""Front matter: which lines it takes, and where each of its keys stands.

Pandoc reads its values; here only the places are found, so what is too clever to be followed simply has none.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from itertools import islice

from physcalc.limits import allow, limit
from physcalc.problems import Span, Text

from ..problems import FrontMatterUnreadable
from .source import Source

_KEY = re.compile(
    r"(?P<quote>[\"']?)(?P<key>[^\s\"'#{}\[\],&*!|>%@`:][^:\"']*?)(?P=quote)[ \t]*:(?=[ \t]|$)[ \t]*"
)
_FLOW_KEY = re.compile(r"[\"']?([^\s\"'{}\[\],:][^\"'{}\[\],:]*?)[\"']?\s*:(?:\s+|$)")
_FOLDED = re.compile(r"[|>][-+0-9]*\s*(?:#.*)?$")
#: An alias where a value begins.
_ALIAS = re.compile(
    r"(?:[:\-?][ \t]+|[\[{,][ \t]*|^[ \t]+)(\*[^\s\[\]{},*]+)(?=[ \t]*(?:[\]},#]|$))", re.MULTILINE
)
_COMMENT = re.compile(r"(?:^|[ \t])#.*$")


@dataclass(frozen=True, slots=True)
class FrontMatter:
    """The places in a document's front matter.

    Attributes:
        span: the place of its opening line.
        places: for each key, by its path ("lang", "physcalc.sheet", "physcalc.numbers.decimal"), the key and
            its value as typed on the key's line, without quotes; the value is empty where it stands on lines
            of its own.
    """

    span: Span
    places: Mapping[str, tuple[Text, Text]] = field(default_factory=dict)

    def below(self, key: str) -> dict[str, tuple[Text, Text]]:
        """The places of what stands below a key, by the path from there."""
        start = key + "."
        return {path[len(start) :]: place for path, place in self.places.items() if path.startswith(start)}


def front_matter_lines(source: Source) -> tuple[int, int] | None:
    """Numbers (from 0) of the lines that open and close the front matter; None where there is none."""
    first = _opening(source)
    if first is None:
        return None
    for number in range(first + 1, len(source.starts)):
        if source.line_text(number).rstrip(" \t") in {"---", "..."}:
            return first, number
    return None


def front_matter(source: Source) -> FrontMatter | None:
    """The front matter at the top of a source, or None where it has none.

    Raises:
        FrontMatterUnreadable: it is not closed, or a tab stands in its indentation.
    """
    lines = front_matter_lines(source)
    if lines is None:
        first = _opening(source)
        if first is not None and source.line_text(first + 1).startswith(("physcalc:", "title:", "lang:")):
            raise FrontMatterUnreadable(
                source.span(source.starts[first], source.starts[first] + 3),
                "the front matter is not closed",
                "put a line of three hyphens below it",
            )
        return None
    opening, closing = lines
    reader = _Reader(source)
    for number in range(opening + 1, closing):
        reader.line(number)
    return FrontMatter(source.span(source.starts[opening], source.starts[opening] + 3), reader.places)


def refuse_aliases(source: Source) -> None:
    """Refuse front matter that repeats itself without end.

    Whoever reads YAML puts what an anchor holds in the place of each alias; a few aliases of aliases of aliases make
    millions of texts of it. So they are counted before anybody reads them.

    Raises:
        FrontMatterUnreadable: it has more aliases than may be.
    """
    lines = front_matter_lines(source)
    if lines is None:
        return
    start, end = source.starts[lines[0] + 1], source.starts[lines[1]]
    most = limit("aliases")
    found = next(islice(_ALIAS.finditer(source.text, start, end), most, None), None)
    if found is not None:
        raise FrontMatterUnreadable(
            source.span(found.start(1), found.end(1)),
            f"the front matter has more than {most} aliases",
            f"write the texts out{allow('aliases')}",
        )


def _opening(source: Source) -> int | None:
    for number in range(len(source.starts)):
        line = source.line_text(number).rstrip(" \t")
        if line == "---":
            # With a blank line below it, it is a rule across the page.
            below = number + 1 < len(source.starts) and source.line_text(number + 1).strip()
            return number if below else None
        if line:
            return None
    return None


class _Reader:
    def __init__(self, source: Source) -> None:
        self.source = source
        self.places: dict[str, tuple[Text, Text]] = {}
        self._levels: list[tuple[int, str]] = []
        self._folded: int | None = None

    def line(self, number: int) -> None:
        raw = self.source.line_text(number)
        content = raw.lstrip(" ")
        indent = len(raw) - len(content)
        if not content or content.startswith("#"):
            return
        if self._folded is not None:
            if indent > self._folded:
                return
            self._folded = None
        start = self.source.starts[number]
        if content[0] == "\t":
            raise FrontMatterUnreadable(
                self.source.span(start + indent, start + indent + 1),
                "a tab stands in the indentation of the front matter",
                "indent with spaces",
            )
        while self._levels and self._levels[-1][0] >= indent:
            self._levels.pop()
        found = _KEY.match(raw, indent)
        if found is None:
            return
        path = ".".join([*(name for _, name in self._levels), found["key"]])
        self._levels.append((indent, found["key"]))
        key = self.source.piece(start + found.start("key"), start + found.end("key"))
        value = raw[found.end() :]
        if value.startswith("{"):
            self.places.setdefault(path, (key, Text("", key.span)))
            self._flow(path, start + found.end(), start + len(raw))
        elif _FOLDED.match(value):
            self._folded = indent
            self.places.setdefault(path, (key, Text("", key.span)))
        else:
            self.places.setdefault(path, (key, self._value(start + found.end(), start + len(raw), key)))

    def _value(self, start: int, end: int, key: Text) -> Text:
        raw = self.source.text[start:end]
        if raw[:1] in {'"', "'"} and (closing := raw.find(raw[0], 1)) > 0:
            return self.source.piece(start + 1, start + closing)
        raw = _COMMENT.sub("", raw).rstrip()
        return self.source.piece(start, start + len(raw)) if raw else Text("", key.span)

    def _flow(self, path: str, start: int, end: int) -> None:
        """Keys of a mapping in braces, on one line."""
        text = self.source.text
        names = [path]
        at = start + 1
        last = path
        while at < end:
            sign = text[at]
            if sign == "{":
                names.append(last)
                at += 1
            elif sign == "}":
                if len(names) == 1:
                    return
                names.pop()
                at += 1
            elif found := _FLOW_KEY.match(text, at, end):
                key = self.source.piece(*found.span(1))
                stop = found.end()
                if stop < end and text[stop] in "\"'":
                    stop = max(stop, text.find(text[stop], stop + 1, end))
                while stop < end and text[stop] not in ",{}":
                    stop += 1
                last = f"{names[-1]}.{key.value}"
                self.places.setdefault(last, (key, self._value(found.end(), stop, key)))
                at = stop
            else:
                at += 1
