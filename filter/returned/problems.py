"""What a Word file that comes back can differ in."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar, Literal

from physcalc.problems import Level, Problem

Sort = Literal["words", "moved", "renumbered"]


@dataclass(eq=False, repr=False)
class WordChanged(Problem):
    """Somebody has changed something in a Word file that was built from the document.

    What counts is the text, not how it looks: fonts, blanks and pictures are not compared, and changes that Word has
    tracked count as accepted. The place is that of the words in the source, or of their question.

    Attributes:
        question: the number of the question; empty for what stands before the first.
        ours: what was handed out; empty where something came in.
        theirs: what is there now; empty where it was taken out.
        file: the Word file.
        around: what is there now, with the words around it.
        typed: whether the place is that of the very words, so that they were typed and not worked out.
        elsewhere: further places in the question where the same value stands.
        sort: whether words were changed, a passage was moved, or a question has another number.
        more: how many other questions have another number.
    """

    slug: ClassVar[str] = "word-changed"
    wrong: ClassVar[str] = "test.md: [180 kg]{.value of=m}, back.docx: 185 kg"
    right: ClassVar[str] = "test.md: [185 kg]{.value of=m}, and m: 185 kg"

    question: str
    ours: str
    theirs: str
    file: str
    around: str = ""
    typed: bool = True
    elsewhere: tuple[str, ...] = ()
    sort: Sort = "words"
    more: int = 0

    def sentence(self) -> str:
        where = _where(self.question)
        if self.sort == "renumbered":
            return f"{where} has the number {self.theirs} in {self.file}"
        if self.sort == "moved":
            return f'{where} has "{_short(self.ours)}" in another place in {self.file}'
        if not self.ours:
            return f'{where} has "{_short(self.theirs)}" more in {self.file}'
        if not self.theirs:
            return f'{where} has lost "{_short(self.ours)}" in {self.file}'
        return (
            f'{where} has "{_short(self.theirs)}" in {self.file}, where "{_short(self.ours)}" was handed out'
        )

    def because(self) -> tuple[str, ...]:
        there = (f"there: {_short(self.around, _LINE)}",) if self.around else ()
        also = (f"the same value stands at {', '.join(self.elsewhere)}",) if self.elsewhere else ()
        more = (f"further questions with another number: {self.more}",) if self.more else ()
        return (*there, *also, *more)

    def mend(self) -> str:
        if self.sort == "renumbered":
            return "numbers are worked out: they follow when questions come in, go or are moved here"
        if self.sort == "moved":
            return "if it is meant, move it here too"
        if not self.typed and self.ours:
            return "it was worked out, or is typed otherwise: if it is meant, change what it comes from"
        if not self.ours:
            return "if it is meant, add it here too"
        if not self.theirs:
            return "if it is meant, take it out here too"
        return "if it is meant, change it here too; what follows from it is worked out anew"


@dataclass(eq=False, repr=False)
class WordComment(Problem):
    """Somebody has commented a Word file that was built from the document.

    Attributes:
        question: the number of the question; empty for what stands before the first.
        text: what the comment says.
        about: the words that it is about.
        file: the Word file.
        placed: whether the file says where it belongs.
    """

    slug: ClassVar[str] = "word-comment"
    level: ClassVar[Level] = "note"
    wrong: ClassVar[str] = 'back.docx: "ignore friction" with the comment "of the air as well?"'
    right: ClassVar[str] = "the same file without the comment"

    question: str
    text: str
    about: str
    file: str
    placed: bool = True

    def sentence(self) -> str:
        about = f' on "{_short(self.about)}"' if self.about else ""
        where = f" in question {self.question}" if self.question else "" if self.placed else " on no words"
        return f"{self.file} has a comment{about}{where}: {' '.join(self.text.split())}"


@dataclass(eq=False, repr=False)
class WordUnlike(Problem):
    """A Word file has too little in common with an edition of the document to have been built from it.

    Attributes:
        file: the Word file.
        source: the document.
        edition: the edition it was compared with; empty where all were tried.
    """

    slug: ClassVar[str] = "word-unlike"
    level: ClassVar[Level] = "unreadable"
    wrong: ClassVar[str] = "physcalc changes test.md of-another-paper.docx"
    right: ClassVar[str] = "physcalc build test.md -o paper.docx; physcalc changes test.md paper-back.docx"

    file: str
    source: str
    edition: str = ""

    def sentence(self) -> str:
        edition = f"the {self.edition}" if self.edition else "any edition"
        return f"{self.file} has next to nothing in common with {edition} of {self.source}"

    def mend(self) -> str:
        return "name the document that it was built from, and perhaps --edition and the --set of that time"


@dataclass(eq=False, repr=False)
class WordUnreadable(Problem):
    """A file that was to be compared is no Word file, or a damaged one.

    Attributes:
        file: the file.
        reason: what the reader says.
    """

    slug: ClassVar[str] = "word-unreadable"
    level: ClassVar[Level] = "unreadable"
    wrong: ClassVar[str] = "physcalc changes test.md paper-back.doc"
    right: ClassVar[str] = "physcalc changes test.md paper-back.docx"

    file: str
    reason: str

    def sentence(self) -> str:
        return f"{self.file} cannot be read as a Word file ({self.reason})"

    def mend(self) -> str:
        return 'open it in a word processor and save it as a "Word document", which ends in .docx'


#: More than this is said by its beginning and its end.
_LONGEST = 90


#: More than this around a change.
_LINE = 160


def _where(question: str) -> str:
    return f"question {question}" if question else "the document"


def _short(text: str, longest: int = _LONGEST) -> str:
    if len(text) <= longest:
        return text
    return text[: longest - 25].rstrip() + " … " + text[-22:].lstrip()
