"""What can go wrong between TeX and the program."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from physcalc.problems import Level, Problem


@dataclass(eq=False, repr=False)
class EntriesMissing(Problem):
    """A TeX document was named, and what its run of TeX writes for the program is not there.

    A document that loads the package `physcalc` writes a file whose name ends in `.physin` when TeX runs over it.
    `physcalc latex` reads that file, so TeX runs first.

    Attributes:
        path: the file that is not there.
        document: the TeX document; empty where it is not there either.
    """

    slug: ClassVar[str] = "tex-run-missing"
    level: ClassVar[Level] = "unreadable"

    path: str
    document: str = ""

    def sentence(self) -> str:
        return f'there is no file "{self.path}", which a run of TeX writes'

    def mend(self) -> str:
        if not self.document:
            return "name the document that TeX ran over; its folder is where the command runs, or say it with --root"
        return f"load the package physcalc in {self.document}, and run pdflatex, xelatex or lualatex over it first"


@dataclass(eq=False, repr=False)
class EntriesUnfinished(Problem):
    """A run of TeX ended before the end of the document, so a part of it is not known.

    TeX stopped at an error of its own, or is still running.
    """

    slug: ClassVar[str] = "tex-run-unfinished"
    level: ClassVar[Level] = "unreadable"

    def sentence(self) -> str:
        return "the last run of TeX did not come to the end of the document"

    def mend(self) -> str:
        return "mend what TeX complains about (see its log), and run it again"


@dataclass(eq=False, repr=False)
class EntriesDamaged(Problem):
    """The file that TeX wrote for the program cannot be read: it was changed, or cut off.

    Attributes:
        reason: what is wrong with it.
    """

    slug: ClassVar[str] = "tex-run-damaged"
    level: ClassVar[Level] = "unreadable"

    reason: str

    def sentence(self) -> str:
        return f"what TeX wrote for physcalc cannot be read here: {self.reason}"

    def mend(self) -> str:
        return "run TeX again, which writes the file anew; physcalc latex --install brings the package up to date"


@dataclass(eq=False, repr=False)
class EntriesOld(Problem):
    """A document was changed after TeX ran over it, so what TeX wrote speaks of another text.

    Attributes:
        written: the line as TeX saw it.
    """

    slug: ClassVar[str] = "tex-run-old"
    level: ClassVar[Level] = "unreadable"

    written: str

    def sentence(self) -> str:
        return f'this line was "{self.written.strip()}" when TeX ran'

    def mend(self) -> str:
        return "run TeX again, then this command; a chapter is read with \\input{…} or \\include{…}, braces included"


@dataclass(eq=False, repr=False)
class ChaptersLeftOut(Problem):
    """TeX ran over some chapters of a document only, as `\\includeonly` asks.

    What stands in the others is not known, so the sum of the marks is not compared with `total`.
    """

    slug: ClassVar[str] = "chapters-left-out"
    level: ClassVar[Level] = "note"

    def sentence(self) -> str:
        return "TeX ran over some chapters only, so the total of the marks is not checked"

    def mend(self) -> str:
        return "take \\includeonly away to have the whole document checked"
