"""Problems of documents in LaTeX: environments and commands of ours, files that are read in, what gets lost."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from physcalc.limits import allow
from physcalc.problems import Level, Problem


@dataclass(eq=False, repr=False)
class TexEnvironmentOpen(Problem):
    r"""An environment of ours is never closed.

    What stands behind it is read all the same: of a block that is read as it stands, such as `physcalculation`, the
    first paragraph is taken for it.

    Attributes:
        name: the environment.
    """

    slug: ClassVar[str] = "tex-environment-open"
    wrong: ClassVar[str] = "\\begin{physgiven}\nm: 2 kg\n\nText."
    right: ClassVar[str] = "\\begin{physgiven}\nm: 2 kg\n\\end{physgiven}\n\nText."

    name: str

    def sentence(self) -> str:
        return f'the environment "{self.name}" that begins here is never closed'

    def mend(self) -> str:
        return f"write \\end{{{self.name}}} below it"


@dataclass(eq=False, repr=False)
class TexEnvironmentUnopened(Problem):
    r"""The end of an environment of ours stands where none of that name is open.

    Attributes:
        name: the environment.
    """

    slug: ClassVar[str] = "tex-environment-unopened"
    wrong: ClassVar[str] = "Text.\n\\end{physanswer}"
    right: ClassVar[str] = "\\begin{physanswer}[marks=1]\n\\physmark{Text}.\n\\end{physanswer}"

    name: str

    def sentence(self) -> str:
        return f'no environment "{self.name}" is open that could end here'

    def mend(self) -> str:
        return f"take this line away, or write \\begin{{{self.name}}} above it"


@dataclass(eq=False, repr=False)
class TexNameUnknown(Problem):
    r"""A name is nearly that of an environment or command of ours, so that nothing would be worked out.

    A name that the document itself defines is left alone.

    Attributes:
        typed: the name as typed.
        meant: the one that is nearest.
        environment: whether it is an environment.
    """

    slug: ClassVar[str] = "tex-name-unknown"
    wrong: ClassVar[str] = "\\begin{physgivens}\nm: 2 kg\n\\end{physgivens}"
    right: ClassVar[str] = "\\begin{physgiven}\nm: 2 kg\n\\end{physgiven}"

    typed: str
    meant: str
    environment: bool = True

    def sentence(self) -> str:
        if self.environment:
            return f'there is no environment "{self.typed}"'
        return f'there is no command "\\{self.typed}"'

    def mend(self) -> str:
        return f'if it is what was meant, write "{self.meant if self.environment else chr(92) + self.meant}"'


@dataclass(eq=False, repr=False)
class TexArgumentOpen(Problem):
    r"""A brace or bracket of ours is never closed, or is not there at all.

    An argument ends with its paragraph at the latest, so that one open brace does not swallow what follows.

    Attributes:
        name: the command or environment, as typed.
        sign: the sign that is missing.
        example: how it is written.
    """

    slug: ClassVar[str] = "tex-argument-open"
    wrong: ClassVar[str] = "A lift of mass \\physvalue{m is pulled up.\n"
    right: ClassVar[str] = "A lift of mass \\physvalue{m} is pulled up.\n"

    name: str
    sign: str
    example: str

    def sentence(self) -> str:
        return f'the sign "{self.sign}" is missing behind "{self.name}"'

    def mend(self) -> str:
        return f"write {self.example}"


@dataclass(eq=False, repr=False)
class TexInputUnreadable(Problem):
    r"""A file that the document reads with `\input`, `\include`, `\subfile`, `\import` or `\subimport` cannot be read.

    Files are looked for beside the document, and below its folder, as LaTeX and the packages subfiles and import do;
    nothing outside of it is read, links followed.

    Attributes:
        name: the file, as the document names it.
        reason: what is wrong, as the rest of a sentence that begins with the file.
        nearest: a file that may have been meant; empty for none.
        limit: the limit that it goes beyond; empty for none.
        tried: the paths at which it was looked for.
        beside: what leads from the document's folder to the one in which `nearest` lies; empty for that folder.
    """

    slug: ClassVar[str] = "tex-input-unreadable"
    level: ClassVar[Level] = "unreadable"
    wrong: ClassVar[str] = "\\input{../notes}"
    right: ClassVar[str] = "\\input{notes}"

    name: str
    reason: str
    nearest: str = ""
    limit: str = ""
    tried: tuple[str, ...] = ()
    beside: str = ""

    def sentence(self) -> str:
        return f'the file "{self.name}" {self.reason}'

    def mend(self) -> str:
        if self.limit:
            return "put some of these files into one" + allow(self.limit)
        if self.nearest:
            return f'if it is what was meant, write "{self.nearest}"'
        return "name a file in the document's folder or below it"


@dataclass(eq=False, repr=False)
class TexPreambleElsewhere(Problem):
    r"""A file of the class `subfiles`, read for itself, has its preamble in another document, which is not read.

    Where that document is read, it reads this file with its own settings. A setting that stands in this file itself
    holds where it is read for itself.

    Attributes:
        name: that document, as this one names it.
    """

    slug: ClassVar[str] = "tex-preamble-elsewhere"
    level: ClassVar[Level] = "note"
    wrong: ClassVar[str] = "\\documentclass[../main.tex]{subfiles}"
    right: ClassVar[str] = "\\documentclass{article}"

    name: str

    def sentence(self) -> str:
        return f'the settings of "{self.name}" are not read with this file'

    def mend(self) -> str:
        return "check that document, which reads this one, or write \\physsetup here, too"


@dataclass(eq=False, repr=False)
class TexCommentInBody(Problem):
    r"""A percent sign is meant to begin a comment where it begins none.

    What stands in `physgiven`, `physcalculation`, `physoptions` and `physdraw` is no TeX. There a line that begins with
    `#` is a comment.

    Attributes:
        name: the environment.
    """

    slug: ClassVar[str] = "tex-comment-in-body"
    wrong: ClassVar[str] = "\\begin{physgiven}\n% the lift\nm: 640 kg\n\\end{physgiven}"
    right: ClassVar[str] = "\\begin{physgiven}\n# the lift\nm: 640 kg\n\\end{physgiven}"

    name: str

    def sentence(self) -> str:
        return f'a percent sign begins no comment in "{self.name}"'

    def mend(self) -> str:
        return "give the comment a line of its own that begins with #"


@dataclass(eq=False, repr=False)
class TexPictureMissing(Problem):
    r"""A picture that a LaTeX document shows is not there.

    It is looked for beside the document and in the folders of `\graphicspath`, with the ending that is typed, or with
    `.pdf`, `.png`, `.jpg`, `.jpeg` or `.svg`.

    Attributes:
        name: the picture, as the document names it.
    """

    slug: ClassVar[str] = "tex-picture-missing"
    wrong: ClassVar[str] = "\\includegraphics{lfit}"
    right: ClassVar[str] = "\\includegraphics{lift}"

    name: str

    def sentence(self) -> str:
        return f'the picture "{self.name}" is not there'

    def mend(self) -> str:
        return "put it beside the document, or name its folder with \\graphicspath{{pictures/}}"


@dataclass(eq=False, repr=False)
class TexItemsNoQuestions(Problem):
    r"""Blocks stand in several items of an `enumerate`, and the items are no questions.

    So a name means the same in all of them, and none has marks of its own, nor a number in reports. An item may hold a
    `physquestion`; where all items of a list do, the questions are counted and the list adds no numbers of its own.
    """

    slug: ClassVar[str] = "tex-items-no-questions"
    level: ClassVar[Level] = "note"
    wrong: ClassVar[str] = (
        "\\item One.\n\\begin{physgiven}\nm: 2 kg\n\\end{physgiven}\n\\item Two.\n"
        "\\begin{physgiven}\nh: 3 m\n\\end{physgiven}"
    )
    right: ClassVar[str] = (
        "\\item \\begin{physquestion} One.\n\\begin{physgiven}\nm: 2 kg\n\\end{physgiven}\n\\end{physquestion}\n"
        "\\item \\begin{physquestion} Two.\n\\begin{physgiven}\nm: 3 kg\n\\end{physgiven}\n\\end{physquestion}"
    )

    def sentence(self) -> str:
        return "this stands in a list whose items are no questions, so they share all names and have no numbers here"

    def mend(self) -> str:
        return "put what each item asks into \\begin{physquestion} and \\end{physquestion}"


@dataclass(eq=False, repr=False)
class TexMacroArgument(Problem):
    r"""A command of ours stands in a macro of the author's and takes what the macro is given.

    Macros are followed for the text, but the place and the text of what a macro is given cannot be checked. A macro
    without arguments may hold a value.

    Attributes:
        name: the command.
    """

    slug: ClassVar[str] = "tex-macro-argument"
    wrong: ClassVar[str] = "\\newcommand{\\of}[1]{of mass \\physvalue{#1}}"
    right: ClassVar[str] = "of mass \\physvalue{m}"

    name: str

    def sentence(self) -> str:
        return f'"\\{self.name}" takes the argument of a macro, which is not followed'

    def mend(self) -> str:
        return f"write \\{self.name} where the macro stands"


@dataclass(eq=False, repr=False)
class TexPlaceLost(Problem):
    r"""Something of ours stands where pandoc's reader of LaTeX reads nothing, so it would be missing from every page.

    That is inside a command or environment that the reader does not know, such as a drawing, or behind the end of
    the document.

    Attributes:
        what: what is lost.
    """

    slug: ClassVar[str] = "tex-place-lost"
    wrong: ClassVar[str] = "\\unheardof{A lift of mass \\physvalue[2 kg]{m}}"
    right: ClassVar[str] = "A lift of mass \\physvalue[2 kg]{m}"

    what: str

    def sentence(self) -> str:
        return f"{self.what} stands in what is not read, so it would be lost"

    def mend(self) -> str:
        return "write it in the text, outside commands and drawings that only TeX understands"


@dataclass(eq=False, repr=False)
class TexToday(Problem):
    r"""The date of the day on which the document is made is left out: one source makes the same page on every day.

    A `\today` that the document itself defines is followed.
    """

    slug: ClassVar[str] = "tex-today"
    level: ClassVar[Level] = "note"
    wrong: ClassVar[str] = "Made on \\today."
    right: ClassVar[str] = "Made on 3 March 2031."

    def sentence(self) -> str:
        return '"\\today" is left out, as the page is the same on every day'

    def mend(self) -> str:
        return "write the date, or let it be"


@dataclass(eq=False, repr=False)
class TexTextLeftOut(Problem):
    r"""A command or environment that pandoc's reader of LaTeX does not know is left out, with the text in it.

    Commands of layout alone, such as `\vspace`, are left out without a word. A definition in the document itself
    (`\newcommand`) is followed.

    Attributes:
        typed: how it begins.
    """

    slug: ClassVar[str] = "tex-text-left-out"
    level: ClassVar[Level] = "note"
    wrong: ClassVar[str] = "\\unheardof{Look at the lift.}"
    right: ClassVar[str] = "Look at the lift."

    typed: str

    def sentence(self) -> str:
        return f'"{self.typed}" is not known here, and is left out'

    def mend(self) -> str:
        return "define it with \\newcommand in what the program shall show, or let it be"
