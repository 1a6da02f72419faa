"""Problems of what holds a document together: divs that are open, and elements that say no class."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from physcalc.problems import Problem


@dataclass(eq=False, repr=False)
class DivUnbalanced(Problem):
    """A div is not closed, or a line of colons closes none.

    A div goes from its opening line, `::: {.question}`, to a line of colons of its own. Where that is missing, all
    that follows belongs to it, with its marks and its numbers.

    Attributes:
        opens: whether it is the opening line that has no closing one.
    """

    slug: ClassVar[str] = "div-unbalanced"
    wrong: ClassVar[str] = "::: {.answer marks=1}\nIt moves on."
    right: ClassVar[str] = "::: {.answer marks=1}\nIt moves on.\n:::"

    opens: bool = True

    def sentence(self) -> str:
        if self.opens:
            return "the div that begins here is not closed, so everything below belongs to it"
        return "this line closes no div, so it is printed as it stands"

    def mend(self) -> str:
        if self.opens:
            return "put a line of three colons (:::) below the last line that belongs to it"
        return "take the line out, or look above it for a div whose opening line is missing"


@dataclass(eq=False, repr=False)
class ClassMissing(Problem):
    """A heading or a div looks like a question, but has not the class that makes it one.

    Without it a heading makes a section at most, and the marks of a div count for nothing.

    Attributes:
        element: "heading" or "div".
        shows: what looks like a question: "Question 2", "marks".
    """

    slug: ClassVar[str] = "class-missing"
    wrong: ClassVar[str] = "::: {#law marks=2}"
    right: ClassVar[str] = "::: {.question #law marks=2}"

    element: str
    shows: str

    def sentence(self) -> str:
        if self.element == "heading":
            return f'the heading "{self.shows}" has no class question, so it begins no question'
        return f'a div with "{self.shows}" has no class, so it is no question'

    def mend(self) -> str:
        if self.element == "heading":
            return "write {.question} behind the heading, with a blank before it, or name it otherwise"
        return "write .question first between its braces"


@dataclass(eq=False, repr=False)
class LinkUnknown(Problem):
    """A link leads to a place of the document that is not there, or says nothing.

    A link without words, `[](#lift)`, says the number of a question or the words of a heading. To anything else it
    needs words of its own.

    Attributes:
        target: the id that it names.
        nearest: the id that was most likely meant; None where nothing is close.
        wordless: whether the place is there, but has nothing that the link could say.
    """

    slug: ClassVar[str] = "link-unknown"
    wrong: ClassVar[str] = "See [the first question](#first)."
    right: ClassVar[str] = "See [the first question](#raft)."

    target: str
    nearest: str | None = None
    wordless: bool = False

    def sentence(self) -> str:
        if self.wordless:
            return f'the link to "{self.target}" says nothing: that is neither a question nor a heading'
        return f'the link leads nowhere: nothing has the id "{self.target}"'

    def mend(self) -> str:
        if self.wordless:
            return f"write words between its brackets: [see there](#{self.target})"
        if self.nearest is not None:
            return f'if it is what was meant, write "#{self.nearest}"'
        return f"write {{#{self.target}}} behind the heading that it leads to, or take the link out"
