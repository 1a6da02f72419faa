"""Where something stands in a source text."""

from __future__ import annotations

from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Span:
    """A stretch of one line of a source.

    Attributes:
        file: name of the source as it is shown to the author; empty where the text came from no file.
        line: line number, from 1.
        column: column of the first character, from 1, counted in characters.
        length: how many characters it covers (at least 1 when shown).
        among: whether the document consists of several files, so that the line alone would not say where it is.
    """

    file: str = ""
    line: int = 1
    column: int = 1
    length: int = 1
    among: bool = field(default=False, repr=False, compare=False)

    @property
    def line_in_words(self) -> str:
        """Its line for a sentence: "line 12", or "line 12 of parts/power.tex" where there are several files."""
        return f"line {self.line} of {self.file}" if self.among else f"line {self.line}"

    @property
    def order(self) -> tuple[str, int, int]:
        """Key that sorts spans in the order of the document."""
        return (self.file, self.line, self.column)


@dataclass(frozen=True, slots=True)
class Text:
    """A piece of source text (one line) together with its place.

    Attributes:
        value: the characters, verbatim.
        span: where they stand.
    """

    value: str
    span: Span = Span()

    def at(self, start: int, end: int | None = None) -> Span:
        """The place of `value[start:end]`; a place past the end is one character wide."""
        stop = len(self.value) if end is None else end
        span = self.span
        return Span(span.file, span.line, span.column + start, max(1, stop - start), span.among)

    def part(self, start: int, end: int | None = None) -> Text:
        """`value[start:end]` with its own place, stripped of the blanks at both ends."""
        stop = len(self.value) if end is None else end
        piece = self.value[start:stop]
        lead = len(piece) - len(piece.lstrip())
        stripped = piece.strip()
        return Text(stripped, self.at(start + lead, start + lead + len(stripped)))
