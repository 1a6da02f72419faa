"""What can go wrong when a document is written."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from physcalc.limits import allow
from physcalc.problems import Level, Problem, nearest

__all__ = [
    "OutputEndingUnknown", "OutputFailed", "OutputFolderMissing", "OutputOverSource", "PandocMissing", "PandocTooOld",
    "PictureUnreadable",
]  # fmt: skip


#: The tool that is named where a file cannot be put in its place.
FILE_SYSTEM = "the file system"


@dataclass(eq=False, repr=False)
class OutputFailed(Problem):
    """The program that writes the document could not.

    Pandoc, Typst or a TeX engine refused what it was given, or the file could not be written. What the
    program itself said stands below the sentence.

    Attributes:
        tool: the program that failed ("pandoc", "typst", "xelatex"), or "the file system".
        said: its own words, as few lines as tell the reason.
        limit: the limit that it went beyond; empty for none.
    """

    slug: ClassVar[str] = "output-failed"
    level: ClassVar[Level] = "unreadable"

    tool: str
    said: str
    limit: str = ""

    def sentence(self) -> str:
        first = next((line.strip() for line in self.said.splitlines() if line.strip()), "it gave no reason")
        return f"the document could not be written, {self.tool} says: {first}"

    def mend(self) -> str:
        if self.limit:
            return "split the document, or look for a picture or a table that is very large" + allow(
                self.limit
            )
        if self.tool == FILE_SYSTEM:
            return (
                "see whether the folder is there and may be written to, and close the file in other programs"
            )
        return ""

    def because(self) -> tuple[str, ...]:
        lines = [line.rstrip() for line in self.said.splitlines() if line.strip()]
        return tuple(lines[1:6])


@dataclass(eq=False, repr=False)
class OutputEndingUnknown(Problem):
    """The ending of the output's name says what is written, and this one says nothing.

    Attributes:
        name: the name of the output.
        endings: the endings that are known.
    """

    slug: ClassVar[str] = "output-ending-unknown"
    level: ClassVar[Level] = "unreadable"
    wrong: ClassVar[str] = "physcalc build test.md -o test.word"
    right: ClassVar[str] = "physcalc build test.md -o test.docx"

    name: str
    endings: tuple[str, ...]

    def sentence(self) -> str:
        return f'"{self.name}" has no ending that says what to write'

    def mend(self) -> str:
        dot = self.name.rfind(".")
        close = nearest(self.name[dot:], self.endings) if dot >= 0 else None
        known = "end it in one of " + ", ".join(self.endings)
        return f"did you mean {close}? {known}" if close else known


@dataclass(eq=False, repr=False)
class OutputFolderMissing(Problem):
    """The folder that the output shall lie in is not there. It is not made: its name may be misspelt.

    Attributes:
        folder: the folder.
    """

    slug: ClassVar[str] = "output-folder-missing"
    level: ClassVar[Level] = "unreadable"

    folder: str

    def sentence(self) -> str:
        return f'the folder "{self.folder}" for the output is not there'

    def mend(self) -> str:
        return "make the folder first, or name another"


@dataclass(eq=False, repr=False)
class OutputOverSource(Problem):
    """The output would be written over the document it is made from.

    Attributes:
        name: the name of the output.
    """

    slug: ClassVar[str] = "output-over-source"
    level: ClassVar[Level] = "unreadable"
    wrong: ClassVar[str] = "physcalc build test.md -o test.md"
    right: ClassVar[str] = "physcalc build test.md -o test-memo.md"

    name: str

    def sentence(self) -> str:
        return f'"{self.name}" is the source itself and would be lost'

    def mend(self) -> str:
        return "give the output another name"


@dataclass(eq=False, repr=False)
class PandocMissing(Problem):
    """Pandoc reads and writes the documents, and it is not there.

    It comes with this package (as `pypandoc_binary`), but for some machines it has to be installed by hand.
    """

    slug: ClassVar[str] = "pandoc-missing"
    level: ClassVar[Level] = "unreadable"

    def sentence(self) -> str:
        return "pandoc is not there"

    def mend(self) -> str:
        return "run: pip install pypandoc_binary"


@dataclass(eq=False, repr=False)
class PandocTooOld(Problem):
    """The pandoc that was found is older than the pages need.

    Attributes:
        found: its version.
        needed: the oldest version that will do.
    """

    slug: ClassVar[str] = "pandoc-too-old"
    level: ClassVar[Level] = "unreadable"

    found: str
    needed: str

    def sentence(self) -> str:
        return f"pandoc {self.found} is too old, {self.needed} is needed"

    def mend(self) -> str:
        return "run: pip install --upgrade pypandoc_binary"


@dataclass(eq=False, repr=False)
class PictureUnreadable(Problem):
    """A picture of the document cannot go into the output.

    It is not where the document says, it is no picture, or it lies on the network: nothing is fetched. A
    picture lies in the document's folder or below it, links followed, or in a folder that
    `--resource-path` names.

    Attributes:
        name: the picture, as the document names it.
        reason: why, in a few words.
        limit: the limit that it goes beyond; empty for none.
    """

    slug: ClassVar[str] = "picture-unreadable"
    level: ClassVar[Level] = "unreadable"
    wrong: ClassVar[str] = "![A lift](https://example.org/lift.png)"
    right: ClassVar[str] = "![A lift](lift.png)"

    name: str
    reason: str
    limit: str = ""

    def sentence(self) -> str:
        return f'the picture "{self.name}" {self.reason}'

    def mend(self) -> str:
        if self.limit:
            return "make it smaller, as a page needs no more dots than its printer has" + allow(self.limit)
        return (
            "names are looked for beside the source; keep it there, or name its folder with --resource-path"
        )
