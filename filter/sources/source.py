"""A source file as text: reading, places, and writing over stretches of it."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable
from dataclasses import dataclass, field
from pathlib import Path

from physcalc.limits import LIMITS, limit
from physcalc.problems import Span, Text, nearest
from physcalc.witness import looked_at

from ..problems import TEX_ENDINGS, FileEmpty, FileMissing, FileNotUtf8, FileTooLarge

#: The largest file that is read, in bytes: a thick book of text has no more.
LARGEST_FILE = LIMITS["file-size"].usual

#: Of a folder with more documents no nearest name is looked for.
_MOST_NAMES = 500

_BOM = b"\xef\xbb\xbf"


def is_tex(name: str) -> bool:
    """Whether a file is LaTeX, by its name."""
    return name.lower().endswith(TEX_ENDINGS)


@dataclass(frozen=True, slots=True)
class Source:
    """The text of a source.

    Lines end with a line feed, or with a carriage return and a line feed; both stay in `text`, so that
    offsets are those of the file. The byte order mark is not part of `text`.

    Attributes:
        name: the path as it is shown to the author.
        text: all characters, line endings as they are in the file.
        bom: whether the file begins with a byte order mark.
        among: whether it is one of several files of a document.
        starts: offset in `text` of the first character of each line; made from `text`.
    """

    name: str
    text: str
    bom: bool = False
    among: bool = field(default=False, repr=False, compare=False)
    starts: tuple[int, ...] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        starts = [0]
        at = self.text.find("\n")
        while at >= 0:
            starts.append(at + 1)
            at = self.text.find("\n", at + 1)
        object.__setattr__(self, "starts", tuple(starts))

    def line_at(self, offset: int) -> int:
        """The number (from 0) of the line that holds an offset."""
        return bisect_right(self.starts, offset) - 1

    def line_text(self, line: int) -> str:
        """The characters of a line (number from 0) without its ending."""
        return self.text[self.starts[line] : self.line_end(line)]

    def line_end(self, line: int) -> int:
        """The offset behind the last character of a line (number from 0), before its ending."""
        end = self.starts[line + 1] - 1 if line + 1 < len(self.starts) else len(self.text)
        if end > self.starts[line] and self.text[end - 1] == "\r" and end < len(self.text):
            end -= 1
        return end

    def span(self, start: int, end: int) -> Span:
        """The place of `text[start:end]`, cut at the end of its first line."""
        line = self.line_at(start)
        # Not by the line's text: a long line with many places in it would be cut out for each of them.
        stop = min(end, self.line_end(line))
        return Span(self.name, line + 1, start - self.starts[line] + 1, max(1, stop - start), self.among)

    def piece(self, start: int, end: int) -> Text:
        """`text[start:end]`, which is taken to be on one line, with its place."""
        return Text(self.text[start:end], self.span(start, end))

    def offset(self, span: Span) -> int:
        """The offset in `text` of a place in this source."""
        return self.starts[span.line - 1] + span.column - 1

    def encode(self, text: str) -> bytes:
        """The bytes of a changed text, with the byte order mark that the file had."""
        return (_BOM if self.bom else b"") + text.encode("utf-8")


@dataclass(frozen=True, slots=True)
class Edit:
    """New characters for a stretch of a source.

    Attributes:
        start, end: offsets of the stretch in the source's text.
        new: what shall stand there.
    """

    start: int
    end: int
    new: str


def read_source(path: Path, shown: str = "") -> Source:
    """The text of a file.

    Args:
        path: the file.
        shown: its name in messages; the path itself where empty.

    Raises:
        FileMissing, FileTooLarge, FileEmpty, FileNotUtf8.
    """
    return decode_source(read_bytes(path, shown or str(path)), shown or str(path))


def read_bytes(path: Path, name: str, limited: str = "file-size") -> bytes:
    """What a file holds.

    Args:
        path: the file.
        name: its name in messages.
        limited: the limit that its size has.

    Raises:
        FileMissing, FileTooLarge.
    """
    data: bytes | None = None
    try:
        size = path.stat().st_size
        if path.is_dir():
            raise FileMissing(Span(name), name, "is a folder")
        if size > (most := limit(limited)):
            raise FileTooLarge(Span(name), size, most, limited)
        with path.open("rb") as file:
            read = file.read(most + 1)  # A pipe has no size, and a file may grow meanwhile.
        if len(read) > most:
            raise FileTooLarge(Span(name), len(read), most, limited)
        data = read
    except FileNotFoundError:
        raise FileMissing(Span(name), name, nearest=_nearest(path)) from None
    except OSError as error:
        reason = (error.strerror or "no reason given").lower()
        raise FileMissing(Span(name), name, f"cannot be read: {reason}") from None
    finally:
        looked_at(path, data)
    return data


def _nearest(path: Path) -> str:
    """A document of the same folder whose name is nearly that of a file that is not there; empty for none."""
    try:
        names = [other.name for other in path.parent.iterdir() if other.suffix in (".md", ".tex")]
    except OSError:
        return ""
    tried = (path.name, f"{path.name}.md", f"{path.name}.tex")
    close = next((near for name in tried if (near := nearest(name, names[:_MOST_NAMES]))), None)
    return str(path.with_name(close)) if close else ""


def decode_source(data: bytes, name: str) -> Source:
    """The text of a file's bytes.

    Raises:
        FileEmpty: nothing but blanks.
        FileNotUtf8: with the place of the first bad byte; a zero byte is one.
    """
    bom = data.startswith(_BOM)
    body = data[len(_BOM) :] if bom else data
    bad = body.find(b"\x00")
    try:
        text = body.decode("utf-8")
    except UnicodeDecodeError as error:
        bad = error.start if bad < 0 else min(bad, error.start)
        text = ""
    if bad >= 0:
        # What stands before the first bad byte is sound, so its characters can be counted.
        before = body[:bad].decode("utf-8", errors="ignore")
        line = before.count("\n") + 1
        column = len(before) - (before.rfind("\n") + 1) + 1
        raise FileNotUtf8(Span(name, line, column), body[bad])
    if not text.strip():
        raise FileEmpty(Span(name), name)
    return Source(name, text, bom)


def splice(text: str, edits: Iterable[Edit]) -> str:
    """`text` with every edit made and no other character touched.

    Raises:
        ValueError: two edits overlap, or one lies outside the text.
    """
    parts: list[str] = []
    at = 0
    for edit in sorted(edits, key=lambda edit: (edit.start, edit.end)):
        if not at <= edit.start <= edit.end <= len(text):
            raise ValueError(f"edit {edit.start}-{edit.end} overlaps another or lies outside the text")
        parts += [text[at : edit.start], edit.new]
        at = edit.end
    parts.append(text[at:])
    return "".join(parts)
