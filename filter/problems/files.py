"""Problems of files: missing, empty, not text, too large."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from physcalc.limits import allow
from physcalc.problems import Level, Problem

#: Endings of files that are made from documents, and that somebody may name instead.
_MADE = (".pdf", ".docx", ".doc", ".odt", ".epub", ".png")


@dataclass(eq=False, repr=False)
class FileMissing(Problem):
    """A file that was asked for is not there, or may not be read.

    Paths are taken from the folder in which the command runs. A folder may be named too: then every Markdown
    file below it is read.

    Attributes:
        path: the path as it was given.
        reason: what the operating system says, as the rest of a sentence that begins with the path.
        nearest: a file of that folder that may have been meant; empty for none.
    """

    slug: ClassVar[str] = "file-missing"
    level: ClassVar[Level] = "unreadable"

    path: str
    reason: str = "is not there"
    nearest: str = ""

    def sentence(self) -> str:
        return f'the file "{self.path}" {self.reason}'

    def mend(self) -> str:
        if self.reason == "is a folder":
            return "name one document; physcalc check and physcalc fix take folders as well"
        if self.nearest:
            return f'if it is what was meant, write "{self.nearest}"'
        return "check the path and the folder in which the command runs"


@dataclass(eq=False, repr=False)
class FileEmpty(Problem):
    """A file holds nothing but blank lines, so there is nothing to build or check.

    Attributes:
        path: the path as it was given.
    """

    slug: ClassVar[str] = "file-empty"
    level: ClassVar[Level] = "unreadable"

    path: str

    def sentence(self) -> str:
        return f'the file "{self.path}" is empty'

    def mend(self) -> str:
        return "check that the right file was named and that the editor saved it"


@dataclass(eq=False, repr=False)
class FileNotUtf8(Problem):
    """A file is not text in UTF-8.

    Documents are read as UTF-8, with or without a byte order mark, and with either kind of line ending. A
    word processor's own file, or text saved in an old encoding, stops at the first byte that is none. Save
    the file as plain text in UTF-8.

    Attributes:
        byte: the value of the first byte that cannot be read.
    """

    slug: ClassVar[str] = "file-not-utf8"
    level: ClassVar[Level] = "unreadable"

    byte: int

    def sentence(self) -> str:
        if self.byte == 0:
            return "the file holds a zero byte, so it is not plain text"
        return f"the file is not UTF-8: the byte {self.byte:02X} cannot be read here"

    def mend(self) -> str:
        if self.span.file.lower().endswith(_MADE):
            return "name the Markdown document that it was made from, which ends in .md"
        return (
            "save the file as plain text in UTF-8: editors ask for the encoding where they ask for the name"
        )


@dataclass(eq=False, repr=False)
class FileTooLarge(Problem):
    """A file is larger than any paper or guide; it is not read.

    Attributes:
        size: its size in bytes.
        limit: the largest size that is read, in bytes.
        name: which limit that is.
    """

    slug: ClassVar[str] = "file-too-large"
    level: ClassVar[Level] = "unreadable"

    size: int
    limit: int
    name: str = "file-size"

    def sentence(self) -> str:
        return f"the file has {self.size} bytes, more than the {self.limit} that are read"

    def mend(self) -> str:
        advice = (
            "split the document into several files" if self.name == "file-size" else "take pictures out of it"
        )
        return advice + allow(self.name)
