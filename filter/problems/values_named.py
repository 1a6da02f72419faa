"""Problems of a result that is named on the command line: to be followed, to be traced."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from physcalc.problems import Level, Problem, Span, nearest

#: So many names are listed where none is near to what was typed.
_MOST_LISTED = 12


@dataclass(eq=False, repr=False)
class TakenUnreadable(Problem):
    """A learner's value, from which later parts are to follow, cannot be read.

    It is the name of a result, an equals sign, and a number with its unit and perhaps a direction. Where several
    questions find that name, the id or the number of the question, or the id of the block, stands before it with a
    colon.

    Attributes:
        typed: what was typed.
    """

    slug: ClassVar[str] = "taken-unreadable"
    level: ClassVar[Level] = "unreadable"
    wrong: ClassVar[str] = '--took "T 6725 N"'
    right: ClassVar[str] = '--took "T=6725 N", --took "lift-tension:T=6725 N"'

    typed: str

    def sentence(self) -> str:
        return f'"{self.typed}" is no name of a result with a value'

    def mend(self) -> str:
        return (
            "write NAME=VALUE, as in T=6725 N; the id of its question may stand before the name: ID:T=6725 N"
        )


@dataclass(eq=False, repr=False)
class TakenUnknown(Problem):
    """No calculation finds the name for which a learner's value is to be taken.

    Attributes:
        name: the name as typed.
        target: the question or block in which it was looked for; empty for the whole document.
        known: what could have been meant.
        target_found: whether that question or block exists.
    """

    slug: ClassVar[str] = "taken-unknown"
    level: ClassVar[Level] = "unreadable"
    wrong: ClassVar[str] = '--took "T_1=6725 N"   (no calculation finds T_1)'
    right: ClassVar[str] = '--took "T=6725 N"'

    name: str
    target: str = ""
    known: tuple[str, ...] = ()
    target_found: bool = True

    def sentence(self) -> str:
        if not self.target_found:
            return f'no question or block has the id or number "{self.target}"'
        where = f'nothing in "{self.target}"' if self.target else "no calculation"
        return f"{where} finds {self.name}"

    def mend(self) -> str:
        near = nearest(self.name if self.target_found else self.target, self.known)
        if near is not None:
            return f"is {near} meant?"
        if not self.known:
            return ""
        return f"it may be {', '.join(self.known)}" if len(self.known) <= _MOST_LISTED else ""


@dataclass(eq=False, repr=False)
class TakenSeveral(Problem):
    """A name is found in more than one place, and only one of these results is the learner's.

    Attributes:
        name: the name.
        choices: how each of them can be named.
    """

    slug: ClassVar[str] = "taken-several"
    level: ClassVar[Level] = "unreadable"
    wrong: ClassVar[str] = '--took "v=3 m/s"   (two questions find v)'
    right: ClassVar[str] = '--took "trolley-speed:v=3 m/s"'

    name: str
    choices: tuple[str, ...]

    def sentence(self) -> str:
        return f"{self.name} is found in {len(self.choices)} places"

    def mend(self) -> str:
        return f"write {' or '.join(self.choices)}"


@dataclass(eq=False, repr=False)
class TakenGiven(Problem):
    """A learner's value is to be taken for a datum. Data are read from the question; only results can be wrong.

    Attributes:
        name: the name.
        value: its value as printed.
        where: where it is given.
    """

    slug: ClassVar[str] = "taken-given"
    level: ClassVar[Level] = "unreadable"
    wrong: ClassVar[str] = '--took "m=650 kg"   (m is given)'
    right: ClassVar[str] = '--took "T=6725 N"   (T is found)'

    name: str
    value: str
    where: str

    def sentence(self) -> str:
        return f"{self.name} is no result: it is {self.value} ({self.where})"

    def mend(self) -> str:
        return "name the result in which the learner's value first stands"


@dataclass(eq=False, repr=False)
class TakenTwice(Problem):
    """Two values of a learner are to be taken for one result.

    Attributes:
        name: the result.
    """

    slug: ClassVar[str] = "taken-twice"
    level: ClassVar[Level] = "unreadable"
    wrong: ClassVar[str] = '--took "T=6725 N" --took "T=6700 N"'
    right: ClassVar[str] = '--took "T=6725 N"'

    name: str

    def sentence(self) -> str:
        return f"{self.name} is taken twice"

    def mend(self) -> str:
        return "keep the value that the learner went on with"


@dataclass(eq=False, repr=False)
class TraceUnknown(Problem):
    """`physcalc trace` was asked for a value that the document does not hold.

    A value is asked for by its name, as in `q_B`. Where several have that name, the id or the number of the question,
    or the id of the block, stands before it with a colon, as in `sphere:q_B`.

    Attributes:
        name: the name as typed; empty where the question is what is unknown.
        target: the question or block in which it was looked for; empty for the whole document.
        known: what could have been meant.
    """

    slug: ClassVar[str] = "trace-unknown"
    level: ClassVar[Level] = "unreadable"
    wrong: ClassVar[str] = "physcalc trace test.md q_b   (the document has q_B)"
    right: ClassVar[str] = "physcalc trace test.md q_B"

    name: str
    target: str = ""
    known: tuple[str, ...] = ()

    def sentence(self) -> str:
        if not self.name:
            return f'no question or block has the id or number "{self.target}"'
        where = f'nothing in "{self.target}"' if self.target else "nothing"
        return f'{where} has the name "{self.name}"'

    def mend(self) -> str:
        near = nearest(self.name or self.target, self.known)
        if near is not None:
            return f"is {near} meant?"
        return f"it may be {', '.join(self.known)}" if 0 < len(self.known) <= _MOST_LISTED else ""


@dataclass(eq=False, repr=False)
class TraceSeveral(Problem):
    """`physcalc trace` was asked for a name that several values of the document have.

    Attributes:
        name: the name.
        choices: for each of them how it can be asked for, its value, and where it stands.
    """

    slug: ClassVar[str] = "trace-several"
    level: ClassVar[Level] = "unreadable"
    wrong: ClassVar[str] = "physcalc trace test.md v   (two questions have a v)"
    right: ClassVar[str] = "physcalc trace test.md trolley-speed:v"

    name: str
    choices: tuple[tuple[str, str, Span | None], ...]

    def sentence(self) -> str:
        return f"{self.name} means {len(self.choices)} things in this document"

    def because(self) -> tuple[str, ...]:
        return tuple(
            f"{asked} is {value}" + (f" ({span.line_in_words})" if span is not None else "")
            for asked, value, span in self.choices
        )

    def mend(self) -> str:
        asked = [choice[0] for choice in self.choices]
        if len(set(asked)) < len(asked):
            return "give the questions or blocks ids, and write ID:" + self.name
        return f"write {' or '.join(asked)}"
