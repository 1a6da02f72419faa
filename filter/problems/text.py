"""Problems of values, words and definitions in the text."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from physcalc.problems import Problem

from .source_kinds import in_latex


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
