"""Problems of values, words and definitions in the text."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import ClassVar, Literal

from physcalc.problems import Level, Problem

from .bodies import BlockUnreadable
from .questions import ClassMisspelt
from .source_kinds import in_latex
from .structure import ClassMissing, DivUnbalanced

UnreadReason = Literal[
    "open",
    "fence",
    "indented",
    "blank before",
    "no empty line",
    "curly quotes",
    "quotes missing",
    "blank at =",
    "blank behind sign",
    "colon",
    "no dot",
    "word",
    "other",
]


@dataclass(eq=False, repr=False)
class NumberLoose(Problem):
    """A number with a unit in the text of a question is tied to no quantity, so that nothing notices when it drifts.

    This is looked for by `physcalc check --strict` alone. Tie the number with a span that names its quantity, or
    have the value written in. `physcalc fix --tie` writes the span around each number that equals exactly one
    quantity. A number that belongs to no quantity stands in a span with the class `untied`.

    Attributes:
        typed: the number with its unit.
        names: the quantities that it equals.
        near: where it equals none, the data of its kind, each as a sentence.
        raw: the characters of the source that the span would hold; empty where no span can stand there.
        end: offset of the end of these characters in the source.
        latex: whether the source is LaTeX.
    """

    slug: ClassVar[str] = "number-loose"
    wrong: ClassVar[str] = "The lift speeds up at 0,75 m·s⁻²."
    right: ClassVar[str] = "The lift speeds up at [0,75 m·s⁻²]{.value of=a}."

    typed: str
    names: tuple[str, ...] = ()
    near: tuple[str, ...] = ()
    raw: str = ""
    end: int = 0
    latex: bool = False

    def sentence(self) -> str:
        return f'the number "{self.typed}" is tied to no quantity'

    def because(self) -> tuple[str, ...]:
        return self.near

    @property
    def tie(self) -> str:
        """The span to be written; empty where the number is not that of one quantity, or cannot be tied."""
        return self._span(self.raw, self.names[0]) if self.raw and len(self.names) == 1 else ""

    def mend(self) -> str:
        shown = " ".join((self.raw or self.typed).split())
        if not self.names and self.latex:
            return f"give it a name in a physgiven block, and write \\physvalue[{shown}]{{…}}"
        if not self.names:
            return f"give it a name in a given block, or write [{shown}]{{.untied}}"
        if not self.raw:
            return (
                f"it is {' or '.join(self.names)}: write it with its symbol, outside mathematics, to tie it"
            )
        return "write " + " or ".join(self._span(shown, name) for name in self.names)

    def _span(self, typed: str, name: str) -> str:
        return f"\\physvalue[{typed}]{{{name}}}" if self.latex else value_span(typed, name)


def value_span(typed: str, name: str) -> str:
    """The Markdown of a typed value that is tied to a quantity."""
    of = name if name.isascii() and name.replace("_", "a").isalnum() else f'"{name}"'
    return f"[{typed}]{{.value of={of}}}"


@dataclass(eq=False, repr=False)
class ValueMisplaced(Problem):
    """A typed value stands where Markdown reads no spans, so that nothing would ever check it.

    Between dollar signs, in raw TeX or HTML and in the front matter the brackets are ordinary characters. A span
    may hold mathematics, but not the other way round: let the mathematics end before the value, or put all of
    the value's own mathematics into the span.

    Attributes:
        where: in what it stands, with its preposition.
        typed: the value as typed.
    """

    slug: ClassVar[str] = "value-misplaced"
    wrong: ClassVar[str] = "$v = [4,0 m·s⁻¹]{.value of=v}$"
    right: ClassVar[str] = "$v =$ [4,0 m·s⁻¹]{.value of=v}"

    where: str
    typed: str

    def sentence(self) -> str:
        return f'the value "{self.typed}" stands {self.where}, where it is not checked'

    def mend(self) -> str:
        if self.where == "in mathematics":
            return "end the mathematics before the value: $v =$ [4 m/s]{.value of=v}"
        return "write it in the text of the document"


@dataclass(eq=False, repr=False)
class AttributesUnread(Problem):
    """Attributes in braces are not read as such, so that a page would show them, and what they belong to is lost.

    In the braces stand a class with a dot before it, an id with a `#` before it, and settings such as `marks=4`,
    with blanks between them and none inside them. The braces follow at once what they belong to, except behind a
    heading. A heading and a div have an empty line above them. A block begins with three backticks at the margin,
    and ends with three on a line of their own.

    Attributes:
        typed: the braces with what is in them.
        reason: why they are not read.
    """

    slug: ClassVar[str] = "attributes-unread"
    wrong: ClassVar[str] = "# Question 1 {.question #lift marks = 4}"
    right: ClassVar[str] = "# Question 1 {.question #lift marks=4}"

    typed: str
    reason: UnreadReason = "other"

    def sentence(self) -> str:
        if self.reason == "open":
            return (
                f"the block that begins here with {self.typed} is not closed, so it is printed as it stands"
            )
        return f"{self.typed} is not read here, but printed as it stands"

    def mend(self) -> str:
        return {
            "open": "put a line of three backticks (```) below the block",
            "fence": "begin the block with three backticks (```), and end it with three on a line of their own",
            "indented": "begin the line at the margin: indented text is shown as it is typed",
            "blank before": "take out the blank before the brace",
            "curly quotes": 'type straight quotes, as in axis="up is positive"',
            "quotes missing": 'put a text of several words in quotes, as in axis="up is positive"',
            "no empty line": "leave an empty line above it",
            "blank at =": "take out the blanks around the equals sign, as in marks=4",
            "blank behind sign": "take out the blank behind the dot or the #",
            "colon": "write an equals sign in the place of the colon, as in marks=4",
            "no dot": f"put a dot before the class: .{self._first()}",
            "word": "name the quantity behind of=, as in {.value of=m}"
            if self._first() == "value"
            else "put a dot before a class and a # before an id, with no blank in either: .question #lift marks=4",
            "other": "write the braces as in {.question #lift marks=4}, {.value} or {.value of=m}, right behind what "
            "they belong to",
        }[self.reason]

    def _first(self) -> str:
        found = re.search(r"\w+", self.typed)
        return found[0] if found else ""


def question_lost(problem: Problem) -> bool:
    """Whether a problem says that a question was not seen as one."""
    if isinstance(problem, ClassMissing | DivUnbalanced):
        return True
    if isinstance(problem, BlockUnreadable):
        return problem.reason == "not closed"
    if isinstance(problem, ClassMisspelt):
        return problem.meant == "question"
    return isinstance(problem, AttributesUnread) and re.search(r"\bquestion\b", problem.typed) is not None


def block_lost(problem: Problem) -> bool:
    """Whether a problem says that a block of ours was not seen as one, so that what it gives or finds is missing."""
    if isinstance(problem, ClassMisspelt):
        return problem.meant in ("given", "calc", "draw")
    return (
        isinstance(problem, AttributesUnread)
        and re.search(r"\b(?:given|calc|draw)\b", problem.typed) is not None
    )


@dataclass(eq=False, repr=False)
class AnswerPrinted(Problem):
    """A value in the text of a question is a result, so that the paper would give the answer away.

    In the text of the paper only data may stand, and results that a "show that" states (key `show`).

    Attributes:
        name: the quantity.
        where: where it is worked out.
    """

    slug: ClassVar[str] = "answer-printed"
    wrong: ClassVar[str] = "The weight is `F_g`{.value}."
    right: ClassVar[str] = '::: {.only in="memo guide"}\nThe weight is `F_g`{.value}.\n:::'

    name: str
    where: str

    def sentence(self) -> str:
        return f"{self.name} is a result ({self.where}): here the paper would print an answer"

    def mend(self) -> str:
        place = "\\begin{physonly}[in=memo guide]" if in_latex(self.span) else 'a div {.only in="memo guide"}'
        return f'take it out, put it into {place}, or state it with the key "show"'


@dataclass(eq=False, repr=False)
class NameAmbiguous(Problem):
    """A name in the text of a question has two values in that question's blocks.

    Attributes:
        name: the name.
        values: each value as printed, and where it stands.
    """

    slug: ClassVar[str] = "name-ambiguous"
    wrong: ClassVar[str] = "`v`{.value}"
    right: ClassVar[str] = "`v_1`{.value}"

    name: str
    values: tuple[tuple[str, str], ...]

    def sentence(self) -> str:
        listed = " and ".join(f"{value} ({where})" for value, where in self.values)
        return f"{self.name} means two things in this question: {listed}"

    def mend(self) -> str:
        return "give the two quantities names of their own"


@dataclass(eq=False, repr=False)
class DefinitionIncomplete(Problem):
    """A typed definition lacks a key phrase of the sheet's wording, for which a marker would look.

    Attributes:
        name: what is defined.
        missing: the key phrases that do not occur in it.
        wording: the sheet's own wording.
    """

    slug: ClassVar[str] = "definition-incomplete"
    wrong: ClassVar[str] = '[It comes to rest.]{.define of="Newton\'s first law"}'
    right: ClassVar[str] = "[Newton's first law]{.define}"

    name: str
    missing: tuple[str, ...]
    wording: str

    def sentence(self) -> str:
        listed = ", ".join(f'"{phrase}"' for phrase in self.missing)
        return f'the definition of "{self.name}" lacks {listed}'

    def mend(self) -> str:
        return "use the words of the sheet, or change its key phrases"

    def because(self) -> tuple[str, ...]:
        return (f"the sheet says: {self.wording}",)


@dataclass(eq=False, repr=False)
class DecimalSignOther(Problem):
    """Values are typed into the text with another decimal sign than the document prints.

    What is typed into the text stays as it is typed, so that the page would have both signs. Inside blocks either
    may be typed: what is printed from there follows the document.

    Attributes:
        typed: the first of them.
        decimal: the sign that the document prints.
        more: how many others there are.
    """

    slug: ClassVar[str] = "decimal-sign-other"
    level: ClassVar[Level] = "note"
    wrong: ClassVar[str] = "A mass of [2.5 kg]{.value of=m}."
    right: ClassVar[str] = "A mass of [2,5 kg]{.value of=m}."

    typed: str
    decimal: str
    more: int = 0

    def sentence(self) -> str:
        names = {",": "comma", ".": "point"}
        others = f", as have {self.more} other values" if self.more > 1 else ", as has one other value"
        other = next(name for sign, name in names.items() if sign != self.decimal)
        return (
            f'"{self.typed}" has the decimal {other}{others if self.more else ""}; '
            f"the document prints the decimal {names[self.decimal]}"
        )

    def mend(self) -> str:
        other = "," if self.decimal == "." else "."
        typed = re.sub(rf"(?<=\d){re.escape(other)}(?=\d)", self.decimal, self.typed)
        name = "comma" if other == "," else "point"
        return f'write "{typed}", or set the language, or decimal: {name}, in the front matter'
