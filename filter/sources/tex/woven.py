"""A LaTeX document with the files that it reads in their places."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path

from physcalc.limits import limit
from physcalc.problems import Problem, Span, nearest

from ...problems import FileTooLarge, TexInputUnreadable
from ..source import Source, read_source
from .arguments import argument, skip_blanks
from .names import INPUTS
from .tokens import Token, tokens

#: More files than this, or more of them inside one another, are no paper and no book.
_LONGEST_NAME = 300
_ENDING = ".tex"


@dataclass(frozen=True, slots=True)
class Part:
    """A stretch of a woven text.

    Attributes:
        start: its offset there.
        source: the file that it comes from.
        begin: its offset in that file.
    """

    start: int
    source: Source
    begin: int


@dataclass(frozen=True, slots=True)
class Woven(Source):
    """A document's text with those of the files that it reads; places are those in the files.

    Attributes:
        parts: where each stretch comes from, in order; the first begins at 0.
    """

    parts: tuple[Part, ...] = field(default=(), repr=False, compare=False)

    def part_at(self, offset: int) -> Part:
        """The stretch that holds an offset."""
        return self.parts[max(0, bisect_right(self.parts, offset, key=lambda part: part.start) - 1)]

    def span(self, start: int, end: int) -> Span:
        """The place of `text[start:end]` in its file, cut at the end of its first line."""
        part = self.part_at(start)
        begin = part.begin + start - part.start
        return part.source.span(begin, max(begin, begin + end - start))

    def offset(self, span: Span) -> int:
        """The offset in the woven text of a place in one of the files."""
        for index, part in enumerate(self.parts):
            if part.source.name != span.file:
                continue
            at = part.source.offset(span)
            last = index + 1 == len(self.parts)
            length = (len(self.text) if last else self.parts[index + 1].start) - part.start
            if part.begin <= at < part.begin + length or (at == part.begin + length and last):
                return part.start + at - part.begin
        return 0

    def sources(self) -> tuple[Source, ...]:
        """All files that have a stretch of the text, each once."""
        return tuple({part.source.name: part.source for part in self.parts}.values())

    def others(self) -> tuple[Source, ...]:
        """The files that the document reads, each once."""
        return tuple(source for source in self.sources() if source.name != self.name)


def weave(
    source: Source, folder: Path, instead: Mapping[str, Source] | None = None
) -> tuple[Woven, list[Problem]]:
    """A document with the files that it reads.

    Args:
        source: the document.
        folder: its folder, outside of which nothing is read.
        instead: texts that stand in the place of those of files, by the files' names.

    Returns:
        The woven text, and a problem for each file that could not be read.
    """
    weaver = _Weaver(folder, instead or {})
    weaver.add(source, (Path(source.name).resolve(),))
    parts = tuple(weaver.parts)
    if len({part.source.name for part in parts}) > 1:
        named = {part.source.name: replace(part.source, among=True) for part in parts}
        parts = tuple(replace(part, source=named[part.source.name]) for part in parts)
    return Woven(source.name, "".join(weaver.texts), source.bom, parts=parts), weaver.problems


class _Weaver:
    def __init__(self, folder: Path, instead: Mapping[str, Source]) -> None:
        self.folder = folder
        self.inside = folder.resolve()
        self.instead = instead
        self.texts: list[str] = []
        self.parts: list[Part] = []
        self.problems: list[Problem] = []
        self.length = 0
        self.files = 0

    def put(self, source: Source, start: int, end: int) -> None:
        if end > start:
            self.parts.append(Part(self.length, source, start))
            self.texts.append(source.text[start:end])
            self.length += end - start

    def add(self, source: Source, above: tuple[Path, ...]) -> None:
        """A file's text from its beginning to its end."""
        text = source.text
        at = 0
        ended = False
        for token in tokens(text):
            if token.sort == "end" and token.name == "document":
                ended = True
            if ended or token.sort != "command" or token.name not in INPUTS or token.start < at:
                continue
            named = _named(text, token)
            if named is None:
                continue
            (start, end), stop = named
            read = self.read(source, start, end, above)
            if read is not None:
                self.put(source, at, token.start)
                self.add(read[0], (*above, read[1]))
                at = stop
        self.put(source, at, len(text))
        if not self.parts:
            self.parts.append(Part(0, source, 0))

    def read(
        self, source: Source, start: int, end: int, above: tuple[Path, ...]
    ) -> tuple[Source, Path] | None:
        name = source.text[start:end].strip()
        span = source.span(start, end)
        if not name or "#" in name or "\\" in name:
            self.refuse(span, name, "is named by a macro, which is not followed")
            return None
        self.files += 1
        if self.files > (most := limit("tex-files")):
            if self.files == most + 1:
                self.refuse(span, name, f"is one of more than {most} files", limit="tex-files")
            return None
        path = self.path(span, name)
        if path is None:
            return None
        real = path.resolve()
        if real in above:
            self.refuse(span, name, "reads itself")
            return None
        if len(above) >= (most := limit("tex-depth")):
            self.refuse(span, name, f"stands more than {most} deep in other files", limit="tex-depth")
            return None
        shown = str(path)
        try:
            read = self.instead.get(shown) or read_source(path, shown)
            if self.length + len(source.text) + len(read.text) > (most := limit("file-size")):
                raise FileTooLarge(span, self.length + len(source.text) + len(read.text), most)
        except Problem as problem:
            if problem.slug != "file-empty":
                self.problems.append(problem)
            return None
        return read, real

    def path(self, span: Span, name: str) -> Path | None:
        """The file of a name, as TeX looks for it; None, with a problem, where there is none."""
        try:
            tried = [self.folder / name] if Path(name).suffix else []
            tried.append(self.folder / (name + _ENDING))
            if len(name) > _LONGEST_NAME:
                raise ValueError
            for path in tried:
                if not path.resolve().is_relative_to(self.inside):
                    self.refuse(span, name, "lies outside the document's folder")
                    return None
                if path.is_file():
                    return path
        except (OSError, ValueError):
            self.refuse(span, name, "has no name of a file")
            return None
        self.refuse(span, name, "is not there", self.nearest(name))
        return None

    def nearest(self, name: str) -> str:
        here = (self.folder / name).parent
        try:
            # Inside the document's folder, as was seen above.
            names = [str(one.relative_to(self.folder).with_suffix("")) for one in here.glob("*" + _ENDING)]
        except (OSError, ValueError):
            return ""
        return nearest(name.removesuffix(_ENDING), names[:500]) or ""

    def refuse(self, span: Span, name: str, reason: str, near: str = "", limit: str = "") -> None:
        self.problems.append(TexInputUnreadable(span, name[:_LONGEST_NAME], reason, near, limit))


def _named(text: str, token: Token) -> tuple[tuple[int, int], int] | None:
    """The stretch of the name that follows a command that reads a file, and the offset behind it."""
    at = skip_blanks(text, token.end)
    if text[at : at + 1] == "{":
        inner = argument(text, at, "{}")
        return None if inner is None else (inner, inner[1] + 1)
    end = at
    while end < len(text) and not text[end].isspace() and text[end] not in "{}%\\":
        end += 1
    return ((at, end), end) if token.name == "input" and end > at else None
