"""Where something stands in a source text."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Span:
    """A stretch of one line of a source.

    Attributes:
        file: name of the source as it is shown to the author; empty where the text came from no file.
        line: line number, from 1.
        column: column of the first character, from 1, counted in characters.
        length: how many characters it covers (at least 1 when shown).
    """

    file: str = ""
    line: int = 1
    column: int = 1
    length: int = 1

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
        return Span(self.span.file, self.span.line, self.span.column + start, max(1, stop - start))

    def part(self, start: int, end: int | None = None) -> Text:
        """`value[start:end]` with its own place, stripped of the blanks at both ends."""
        stop = len(self.value) if end is None else end
        piece = self.value[start:stop]
        lead = len(piece) - len(piece.lstrip())
        stripped = piece.strip()
        return Text(stripped, self.at(start + lead, start + lead + len(stripped)))
