"""A LaTeX document with the files that it reads in their places."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from os.path import realpath  # Unlike Path.resolve, it does not stop at a link that leads to itself.
from pathlib import Path

from physcalc.limits import limit
from physcalc.problems import Problem, Span, nearest
from physcalc.witness import looked_at, looked_into

from ...problems import FileTooLarge, TexInputUnreadable
from ..source import Source, read_source
from .inputs import Asked, Search, asked_for, body_of, defined_inputs
from .names import INPUTS
from .tokens import tokens

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
        paths: the folders in which what it names is looked for before the document's own.
    """

    start: int
    source: Source
    begin: int
    paths: tuple[str, ...] = ()


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
    weaver.add(source, (Path(realpath(source.name)),), Search(), (0, len(source.text)))
    parts = tuple(weaver.parts)
    if len({part.source.name for part in parts}) > 1:
        named = {part.source.name: replace(part.source, among=True) for part in parts}
        parts = tuple(replace(part, source=named[part.source.name]) for part in parts)
    return Woven(source.name, "".join(weaver.texts), source.bom, parts=parts), weaver.problems


class _Weaver:
    def __init__(self, folder: Path, instead: Mapping[str, Source]) -> None:
        self.folder = folder
        self.inside = realpath(folder)
        self.instead = instead
        self.texts: list[str] = []
        self.parts: list[Part] = []
        self.problems: list[Problem] = []
        self.length = 0
        self.files = 0
        self.defined: frozenset[str] = frozenset()

    def put(self, source: Source, start: int, text: str, search: Search) -> None:
        if text:
            self.parts.append(Part(self.length, source, start, search.paths))
            self.texts.append(text)
            self.length += len(text)

    def add(self, source: Source, above: tuple[Path, ...], search: Search, stretch: tuple[int, int]) -> None:
        """A stretch of a file's text, from its beginning to its end."""
        text = source.text
        self.defined |= defined_inputs(text)
        at, end = stretch
        ended = False
        for token in tokens(text):
            if token.start < at:
                continue
            if token.start >= end:
                break
            if token.sort == "end" and token.name == "document":
                ended = True
            if ended or token.sort != "command" or token.name not in INPUTS or token.name in self.defined:
                continue
            asked = asked_for(text, token, search)
            read = self.read(source, asked, above) if asked is not None else None
            if asked is None or read is None:
                continue
            self.put(source, at, text[at : token.start] + ("\n\n" if asked.apart else ""), search)
            self.add(read[0], (*above, read[1]), asked.search, read[2])
            at = self.closed(read[0], read[2][1], source, asked)
        self.put(source, at, text[at:end], search)
        if not self.parts:
            self.parts.append(Part(0, source, 0))

    def closed(self, read: Source, end: int, source: Source, asked: Asked) -> int:
        """Ends the last line of a file that was read, as TeX does; where the text above it goes on."""
        if asked.apart:
            self.put(read, end, "\n\n", asked.search)
        elif not (self.texts and self.texts[-1].endswith("\n")):
            self.put(read, end, "\n", asked.search)
        # The end of a line behind another would end the paragraph.
        line_end = source.text.find("\n", asked.stop)
        blank = line_end >= 0 and not source.text[asked.stop : line_end].strip()
        return line_end + 1 if blank else asked.stop

    def read(
        self, source: Source, asked: Asked, above: tuple[Path, ...]
    ) -> tuple[Source, Path, tuple[int, int]] | None:
        """The file that is asked for, its path, links followed, and the stretch of it that counts."""
        name = asked.folder + asked.name
        span = source.span(asked.start, asked.end)
        if not asked.name or "#" in name or "\\" in name:
            self.refuse(span, name, "is named by a macro, which is not followed")
            return None
        self.files += 1
        if self.files > (most := limit("tex-files")):
            if self.files == most + 1:
                self.refuse(span, name, f"is one of more than {most} files", limit="tex-files")
            return None
        path = self.path(span, asked)
        if path is None:
            return None
        real = Path(realpath(path))
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
        stretch = body_of(read.text) if asked.subfile else (0, len(read.text))
        if stretch is None:
            self.refuse(span, name, "has \\documentclass, and no \\begin{document} below it")
            return None
        return read, real, stretch

    def path(self, span: Span, asked: Asked) -> Path | None:
        """The file that is asked for, as TeX looks for it; None, with a problem, where there is none."""
        shown = asked.folder + asked.name
        tried: list[Path] = []
        try:
            for name in asked.names():
                if len(name) > _LONGEST_NAME:
                    raise ValueError
                endings = ("", _ENDING) if Path(name).suffix else (_ENDING,)
                for path in (self.folder / (name + ending) for ending in endings):
                    if path in tried:
                        continue
                    tried.append(path)
                    if not Path(realpath(path)).is_relative_to(self.inside):
                        looked_at(path, None)
                        self.refuse(span, shown, "lies outside the document's folder", tried=tried)
                        return None
                    if path.is_file():
                        return path
                    looked_at(path, None)
        except (OSError, ValueError):
            for path in tried[-1:]:
                looked_at(path, None)
            self.refuse(span, shown, "has no name of a file")
            return None
        beside = asked.folder or next(iter(asked.search.paths), "")
        near = self.nearest(beside, asked.name)
        self.refuse(span, shown, "is not there", near, tried=tried, beside=beside)
        return None

    def nearest(self, beside: str, name: str) -> str:
        top = self.folder / beside
        here = (top / name).parent
        try:
            # Inside the document's folder, as was seen above.
            looked_into(here)
            names = [str(one.relative_to(top).with_suffix("")) for one in here.glob("*" + _ENDING)]
        except (OSError, ValueError):
            return ""
        typed = name.removesuffix(_ENDING)
        # A link that leads nowhere may have that very name.
        return nearest(typed, [one for one in names[:500] if one != typed]) or ""

    def refuse(
        self,
        span: Span,
        name: str,
        reason: str,
        near: str = "",
        limit: str = "",
        tried: Sequence[Path] = (),
        beside: str = "",
    ) -> None:
        paths = tuple(map(str, tried))
        self.problems.append(
            TexInputUnreadable(span, name[:_LONGEST_NAME], reason, near, limit, paths, beside)
        )
