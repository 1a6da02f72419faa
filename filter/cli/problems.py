"""What can go wrong with a command itself."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import ClassVar

from physcalc.problems import Level, Problem


@dataclass(eq=False, repr=False)
class FolderEmpty(Problem):
    """A folder was named, and no document lies in it or below it.

    Documents are files whose name ends in `.md`, and files in LaTeX (`.tex`, `.ltx`, `.latex`) that have an environment
    or a command of ours, or read files that do. Names that begin with a full stop are left out.

    Attributes:
        path: the folder as it was given.
    """

    slug: ClassVar[str] = "folder-empty"
    level: ClassVar[Level] = "unreadable"

    path: str

    def sentence(self) -> str:
        return f'no file in the folder "{self.path}" ends in .md, and none in LaTeX has a calculation'

    def mend(self) -> str:
        return "name the files themselves, or another folder"


@dataclass(eq=False, repr=False)
class FileChanged(Problem):
    """A file was changed by somebody else while `physcalc fix` worked out what to write.

    It was left as it is now: the other change would have been lost.

    Attributes:
        path: the file.
    """

    slug: ClassVar[str] = "file-changed"
    level: ClassVar[Level] = "unreadable"

    path: str

    def sentence(self) -> str:
        return f'the file "{self.path}" was changed by another program meanwhile, so nothing was written'

    def mend(self) -> str:
        return "save it there, and run the command again"


@dataclass(eq=False, repr=False)
class FileNotWritten(Problem):
    """A file could not be written. It is left as it was.

    Attributes:
        path: the file.
        reason: what the operating system says.
    """

    slug: ClassVar[str] = "file-not-written"
    level: ClassVar[Level] = "unreadable"

    path: str
    reason: str

    def sentence(self) -> str:
        return f'the file "{self.path}" cannot be written: {self.reason}'

    def mend(self) -> str:
        if not Path(self.path).absolute().parent.is_dir():
            return "make its folder first, or name another"
        return "see whether the file and its folder may be written to"


@dataclass(eq=False, repr=False)
class FileExists(Problem):
    """A new document was asked for under a name that a file has already. The file is left as it is.

    Attributes:
        path: the file.
    """

    slug: ClassVar[str] = "file-exists"
    level: ClassVar[Level] = "unreadable"

    path: str

    def sentence(self) -> str:
        return f'there is a file "{self.path}" already, so nothing was written'

    def mend(self) -> str:
        return "choose another name, or move the file away"
