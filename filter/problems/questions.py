"""Problems of a document: its tree, its questions and their marks."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from physcalc.limits import allow
from physcalc.problems import Level, Problem, Span

from .source_kinds import in_latex


@dataclass(eq=False, repr=False)
class DocumentUnreadable(Problem):
    """Pandoc cannot read the document.

    Attributes:
        reason: what pandoc says about it.
        how: how to mend it; empty where that is not known.
    """

    slug: ClassVar[str] = "document-unreadable"
    level: ClassVar[Level] = "unreadable"

    reason: str
    how: str = ""

    def sentence(self) -> str:
        return f"the document cannot be read: {self.reason}"

    def mend(self) -> str:
        return self.how or "see whether pandoc alone reads it"


@dataclass(eq=False, repr=False)
class DocumentNested(Problem):
    """Lists, quotations or divs stand inside one another, deeper than any page can show.

    Most often a run of `>` or of brackets was pasted in by mistake.
    """

    slug: ClassVar[str] = "document-nested"
    level: ClassVar[Level] = "unreadable"

    def sentence(self) -> str:
        return "parts of the document are nested too deep to be read"

    def mend(self) -> str:
        return "look for a long run of quotation signs or brackets" + allow("nesting")


@dataclass(eq=False, repr=False)
class DocumentPartsMany(Problem):
    """A document holds more blocks, or more values in its text, than a thick book of papers.

    Attributes:
        what: "blocks" or "values": the limit that says so.
        most: how many are worked out.
    """

    slug: ClassVar[str] = "document-parts-many"
    level: ClassVar[Level] = "unreadable"

    what: str
    most: int

    def sentence(self) -> str:
        things = "values and definitions in its text" if self.what == "values" else "blocks"
        return f"the document has more than {self.most} {things}"

    def mend(self) -> str:
        return "split it into several files" + allow(self.what)


@dataclass(eq=False, repr=False)
class DocumentTooHeavy(Problem):
    """Reading the document takes pandoc more time or memory than any document that a person has written.

    A document of a few hundred pages takes a few seconds. What takes this long is most often a long run of
    brackets, backticks or quotation signs that was pasted in by mistake, or an anchor in the front matter that
    is repeated inside others.

    Attributes:
        limit: what was used up, such as "10 seconds".
        name: the limit that says so.
    """

    slug: ClassVar[str] = "document-too-heavy"
    level: ClassVar[Level] = "unreadable"

    limit: str
    name: str

    def sentence(self) -> str:
        return f"the document cannot be read within {self.limit}"

    def mend(self) -> str:
        look = "look for a long run of one sign, such as brackets or backticks, or split the document"
        return look + allow(self.name)


@dataclass(eq=False, repr=False)
class PandocVersion(Problem):
    """The pandoc that runs the filter is too old or too new for it.

    Attributes:
        version: the version of pandoc's tree that was handed over.
    """

    slug: ClassVar[str] = "pandoc-version"
    level: ClassVar[Level] = "unreadable"

    version: str

    def sentence(self) -> str:
        return f"this pandoc hands over a tree of version {self.version}, which the filter does not know"

    def mend(self) -> str:
        return "use pandoc 2.17 or later, or the command physcalc build, which brings its own"


@dataclass(eq=False, repr=False)
class AttributeUnknown(Problem):
    """An element of ours has an attribute that it does not know.

    A question takes `marks`, `topic`, `level`, an id and every setting. Attributes that begin with `data-` are
    left alone.

    Attributes:
        element: what has it: "question", "answer".
        key: the attribute as typed.
        nearest: the attribute that was most likely meant; None where nothing is close.
        line: what the line inside the block would be, where it is a key of the block: "marks: 3"; else empty.
    """

    slug: ClassVar[str] = "attribute-unknown"
    wrong: ClassVar[str] = "# Question 1 {.question mark=9}"
    right: ClassVar[str] = "# Question 1 {.question marks=9}"

    element: str
    key: str
    nearest: str | None = None
    line: str = ""

    def sentence(self) -> str:
        return f'{self.element} has no attribute "{self.key}"'

    def mend(self) -> str:
        if " " in self.key and in_latex(self.span):
            return "a value that holds commas stands in braces: axis={up is positive, down is negative}"
        if self.line:
            return f"it is a line of the block: below the fence write {self.line}"
        if self.nearest is None:
            return "take it out, or begin its name with data- if another program needs it"
        return f'if it is what was meant, write "{self.nearest}"'


@dataclass(eq=False, repr=False)
class AttributeMissing(Problem):
    """An element of ours needs an attribute that is not there.

    A typed value says of which quantity it is, `[640 kg]{.value of=m}`; a div with class `only` says in which
    editions it stands.

    Attributes:
        element: what needs it.
        key: the attribute.
        example: how it is written.
    """

    slug: ClassVar[str] = "attribute-missing"
    wrong: ClassVar[str] = "[640 kg]{.value}"
    right: ClassVar[str] = "[640 kg]{.value of=m}"

    element: str
    key: str
    example: str

    def sentence(self) -> str:
        return f'{self.element} needs the attribute "{self.key}"'

    def mend(self) -> str:
        if self.key == "in" and in_latex(self.span):
            return "write it as in \\begin{physonly}[in=memo guide]"
        return f"write it as in {self.example}"


@dataclass(eq=False, repr=False)
class AttributeUnreadable(Problem):
    """An attribute has a value that it cannot take.

    Attributes:
        key: the attribute.
        value: its value as typed.
        allowed: what it may be, as words.
        nearest: the allowed word that was most likely meant; None where nothing is close.
    """

    slug: ClassVar[str] = "attribute-unreadable"
    wrong: ClassVar[str] = "# Question 1 {.question marks=four}"
    right: ClassVar[str] = "# Question 1 {.question marks=4}"

    key: str
    value: str
    allowed: str
    nearest: str | None = None

    def sentence(self) -> str:
        return f'the attribute "{self.key}" cannot be "{self.value}"'

    def mend(self) -> str:
        if self.nearest is not None:
            return f'if it is what was meant, write "{self.nearest}"'
        return f"write {self.allowed}"


@dataclass(eq=False, repr=False)
class ClassMisspelt(Problem):
    """A class is nearly one of ours, or another word for it, so that what carries it would be printed as it stands.

    A calculation in a block with class `clac` is no calculation, and the paper would print it.

    Attributes:
        typed: the class as typed.
        meant: the class that was most likely meant.
    """

    slug: ClassVar[str] = "class-misspelt"
    wrong: ClassVar[str] = "```{.clac}"
    right: ClassVar[str] = "```{.calc}"

    typed: str
    meant: str

    def sentence(self) -> str:
        return f'there is no class "{self.typed}", so this is printed as it stands'

    def mend(self) -> str:
        return f'write "{self.meant}", or choose a class that is less like it'


@dataclass(eq=False, repr=False)
class IdTwice(Problem):
    """Two questions or blocks have one id, so that `from` could mean either.

    Attributes:
        identifier: the id.
        first: where it stands first.
    """

    slug: ClassVar[str] = "id-twice"
    wrong: ClassVar[str] = "# Question 1 {.question #lift}\n\n# Question 2 {.question #lift}"
    right: ClassVar[str] = "# Question 1 {.question #lift}\n\n# Question 2 {.question #crane}"

    identifier: str
    first: Span

    def sentence(self) -> str:
        line = f", first on {self.first.line_in_words}" if self.first.file else ""
        return f'the id "{self.identifier}" is used a second time{line}'

    def mend(self) -> str:
        return "give one of them another id"


@dataclass(eq=False, repr=False)
class NumberOutOfOrder(Problem):
    """The number typed in a question's heading is not the one that comes next.

    Questions are counted 1, 1.1, 1.1.1. A heading that carries no number is given the next one.

    Attributes:
        number: the number as typed.
        expected: the number that comes next.
    """

    slug: ClassVar[str] = "number-out-of-order"
    wrong: ClassVar[str] = "# Question 1 {.question}\n\n# Question 3 {.question}"
    right: ClassVar[str] = "# Question 1 {.question}\n\n# Question 2 {.question}"

    number: str
    expected: str

    def sentence(self) -> str:
        return f"the question is numbered {self.number}, but {self.expected} comes next"

    def mend(self) -> str:
        return f"write {self.expected}, or leave the number out: it is counted"


@dataclass(eq=False, repr=False)
class ReferenceLater(Problem):
    """A value is taken from a question or block that has not been worked out where it is needed.

    Questions are worked out from top to bottom, so `from` reaches upwards only. A reference to the block itself,
    or to a question that is still open around it, goes in a circle.

    Attributes:
        identifier: the id that is referred to.
        circle: whether the reference is to the block itself or to what holds it.
    """

    slug: ClassVar[str] = "reference-later"
    wrong: ClassVar[str] = (
        "::: {.question}\n"
        "```{.calc}\n"
        "given:\n"
        "  v: 2 m/s\n"
        "  T: from lift-tension\n"
        "formula: P = T v\n"
        "find: P in W\n"
        "```\n"
        ":::\n"
        "\n"
        "::: {.question #lift-tension}\n"
        "```{.calc}\n"
        "formula: T = 3 F\n"
        "given:\n"
        "  F: 3 N\n"
        "find: T in N\n"
        "```\n"
        ":::"
    )
    right: ClassVar[str] = (
        "::: {.question #lift-tension}\n"
        "```{.calc}\n"
        "formula: T = 3 F\n"
        "given:\n"
        "  F: 3 N\n"
        "find: T in N\n"
        "```\n"
        ":::\n"
        "\n"
        "::: {.question}\n"
        "```{.calc}\n"
        "given:\n"
        "  v: 2 m/s\n"
        "  T: from lift-tension\n"
        "formula: P = T v\n"
        "find: P in W\n"
        "```\n"
        ":::"
    )

    identifier: str
    circle: bool = False

    def sentence(self) -> str:
        if self.circle:
            return f'"from {self.identifier}" goes in a circle: the value is asked for where it is worked out'
        return f'"{self.identifier}" stands further down, so it has no result yet'

    def mend(self) -> str:
        return (
            "move this question below the one that it needs" if not self.circle else "type the value instead"
        )


@dataclass(eq=False, repr=False)
class MarksUnequal(Problem):
    """The marks of a question's parts do not add up to the marks that the question says.

    Attributes:
        number: the question's number.
        said: the marks that it says.
        parts: what each of its parts is and how many marks it has.
    """

    slug: ClassVar[str] = "marks-unequal"
    wrong: ClassVar[str] = "# Question 1 {.question marks=9}"
    right: ClassVar[str] = "# Question 1 {.question marks=6}"

    number: str
    said: int
    parts: tuple[tuple[str, int], ...]

    def sentence(self) -> str:
        total = sum(marks for _, marks in self.parts)
        return f"question {self.number} says {self.said} marks, its parts have {total}"

    def mend(self) -> str:
        return "write the sum, or correct the marks of a part"

    def because(self) -> tuple[str, ...]:
        return (", ".join(f"{what}: {marks}" for what, marks in self.parts),)


@dataclass(eq=False, repr=False)
class MarksMissing(Problem):
    """It is not said how a question's marks are shared among its parts.

    Where a question holds several calculations, definitions and answers, each says its `marks`; one alone may
    leave them out and gets what is left.

    Attributes:
        number: the question's number.
        said: the marks of the question; None where it says none.
        parts: what its parts without marks are.
    """

    slug: ClassVar[str] = "marks-missing"
    wrong: ClassVar[str] = "[weight]{.define}"
    right: ClassVar[str] = "[momentum]{.define marks=2}"

    number: str
    said: int | None
    parts: tuple[str, ...]

    def sentence(self) -> str:
        what = ", ".join(self.parts)
        if self.said is None:
            return f"question {self.number} does not say how many marks it has, and these say none: {what}"
        return f"the {self.said} marks of question {self.number} cannot be shared: {what} say none"

    def mend(self) -> str:
        return "write marks at each part; one alone may go without where the question says its own"


@dataclass(eq=False, repr=False)
class TicksUnequal(Problem):
    """The ticked phrases of a written answer are more or fewer than its marks.

    Each `[phrase]{.mark}` earns one mark.

    Attributes:
        said: the marks of the answer.
        ticks: how many phrases are ticked.
    """

    slug: ClassVar[str] = "ticks-unequal"
    wrong: ClassVar[str] = "::: {.answer marks=2}\n[It stays at rest]{.mark}.\n:::"
    right: ClassVar[str] = (
        "::: {.answer marks=2}\n[It stays at rest]{.mark} [relative to the lift]{.mark}.\n:::"
    )

    said: int
    ticks: int

    def sentence(self) -> str:
        phrases = "phrase is" if self.ticks == 1 else "phrases are"
        return f"the answer says {self.said} marks, but {self.ticks} {phrases} ticked"

    def mend(self) -> str:
        return "tick as many phrases as it has marks, or correct the marks"


@dataclass(eq=False, repr=False)
class TotalUnequal(Problem):
    """The marks of the questions do not add up to the total that the front matter says.

    Attributes:
        said: the total of the front matter.
        found: the sum of the questions' marks.
        questions: each question's number and marks.
    """

    slug: ClassVar[str] = "total-unequal"
    wrong: ClassVar[str] = "physcalc:\n  total: 10"
    right: ClassVar[str] = "physcalc:\n  total: 9"

    said: int
    found: int
    questions: tuple[tuple[str, int], ...]

    def sentence(self) -> str:
        return f"the total is said to be {self.said} marks, the questions have {self.found}"

    def mend(self) -> str:
        return "correct the total, or the marks of a question"

    def because(self) -> tuple[str, ...]:
        return (", ".join(f"question {number}: {marks}" for number, marks in self.questions),)
