"""How the marks of a paper are spread over topics and levels, and whether that is what the author aims at."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from physcalc.exact import NumberStyle, Numeral, Real, numeral_text, round_places
from physcalc.problems import nearest

from ..problems import GridOffTarget, GridTargetsSum, GridTargetUnused
from ..settings import Settings, Target, Targets
from .findings import Findings
from .marks import Marks
from .settling import metadata_text
from .tree import Question, Tree

#: The name of a topic or level that is not said.
UNSAID = ""


@dataclass(frozen=True, slots=True)
class Weight:
    """The marks of one topic or one level.

    Attributes:
        name: the topic or level as first typed; `UNSAID` for marks of which it is not said.
        marks: its marks.
        share: its share of all marks, 1 for all.
        target: what the share is to be; None where the author says nothing of its kind.
        off: -1 where the share is too small, 1 where it is too large, 0 where it is within the tolerance.
    """

    name: str
    marks: int
    share: Fraction
    target: Fraction | None = None
    off: Literal[-1, 0, 1] = 0


@dataclass(frozen=True, slots=True)
class Grid:
    """The marks of a paper by topic and level.

    Attributes:
        topics: the topics in their order, those that are not said last; never empty.
        levels: the levels in their order, those that are not said last; never empty.
        cells: the marks of a topic at a level, by their names; without those that have none.
        total: all marks.
        tolerance: how far a share may be off its target, 1 for all marks; None where nothing is aimed at.
    """

    topics: tuple[Weight, ...]
    levels: tuple[Weight, ...]
    cells: Mapping[tuple[str, str], int]
    total: int
    tolerance: Fraction | None = None

    @property
    def off_target(self) -> bool:
        """Whether any topic or level is off its target."""
        return any(weight.off for weight in (*self.topics, *self.levels))


@dataclass(frozen=True, slots=True)
class PaperGrid:
    """A paper's grid with what tells it apart from others.

    Attributes:
        title: its title as plain text; empty for none.
        date: its date as typed; empty for none.
        grid: its marks by topic and level.
        style: how it writes numbers.
    """

    title: str
    date: str
    grid: Grid
    style: NumberStyle


def paper_grid(tree: Tree, marks: Marks, settings: Settings) -> PaperGrid | None:
    """The grid of a document with its title and date; None where no question has marks."""
    grid = weigh(tree, marks, settings.grid)
    if grid is None:
        return None
    title, date = (metadata_text(tree.document, key) for key in ("title", "date"))
    return PaperGrid(title, date, grid, settings.numbers)


def weigh(tree: Tree, marks: Marks, targets: Targets | None = None) -> Grid | None:
    """The grid of a paper; None where no question has marks.

    A question that says no topic or level has that of the question around it.

    Args:
        tree: the document.
        marks: the marks of each part.
        targets: what is aimed at; None for nothing.
    """
    cells: dict[tuple[str, str], int] = {}
    aims = targets or Targets()
    # The first spelling of a name stands for all: the author's target, or else the first question's.
    topics = {_folded(target.name.value): target.name.value for target in aims.topics}
    levels = {_folded(target.name.value): target.name.value for target in aims.levels}
    for question in _in_paper(tree.root):
        for topic, level, own in _marks_of(question, UNSAID, UNSAID, marks):
            if own:
                place = (topics.setdefault(_folded(topic), topic), levels.setdefault(_folded(level), level))
                cells[place] = cells.get(place, 0) + own
    total = sum(cells.values())
    if not total:
        return None
    return Grid(
        _weights([topic for topic, _ in cells], list(topics.values()), cells, 0, total, aims.topics, aims),
        _weights([level for _, level in cells], list(levels.values()), cells, 1, total, aims.levels, aims),
        cells,
        total,
        targets.tolerance if targets is not None else None,
    )


def check_grid(
    tree: Tree, marks: Marks, targets: Targets | None, style: NumberStyle, findings: Findings
) -> None:
    """What is wrong with a grid, and notes of what is off its targets.

    Args:
        tree, marks: as for `weigh`.
        targets: what the author aims at; None for nothing, which is never wrong.
        style: how numbers are written in messages.
        findings: takes what is wrong.
    """
    if targets is None:
        return
    grid = weigh(tree, marks, targets)
    sides: tuple[tuple[str, Sequence[Target], Sequence[Weight]], ...] = (
        ("topic", targets.topics, grid.topics if grid else ()),
        ("level", targets.levels, grid.levels if grid else ()),
    )
    for kind, aims, weights in sides:
        told = False  # Whether the targets are wrong, so that nothing can be off them.
        whole = sum((aim.share for aim in aims), Fraction(0))
        if aims and whole != 1:
            found = share_text(whole, style)
            told = True
            findings.add(None, [GridTargetsSum(aims[0].name.span, kind + "s", found)])
        there = {_folded(weight.name): weight.name for weight in weights if weight.marks and weight.name}
        for aim in aims:
            if aim.share and _folded(aim.name.value) not in there:
                close = nearest(aim.name.value, tuple(there.values()))
                told = True
                findings.add(None, [GridTargetUnused(aim.name.span, kind, aim.name.value, close)])
        places = {_folded(aim.name.value): aim.name.span for aim in aims}
        for weight in weights if not told else ():
            if weight.off and weight.marks and weight.target is not None:
                target = f"{share_text(weight.target, style)} ± {share_text(targets.tolerance, style)}"
                share = share_text(weight.share, style)
                span = places.get(_folded(weight.name), aims[0].name.span)
                findings.add(None, [GridOffTarget(span, kind, weight.name, share, target)])


def share_text(share: Fraction, style: NumberStyle) -> str:
    """A share as per cent, with one decimal where it is not whole: "30 %", "33,3 %"."""
    percent = round_places(Real.of(share * 100), 0 if (share * 100).denominator == 1 else 1)
    return f"{numeral_text(Numeral.of_rounded(percent), style)}\u00a0%"


def _folded(name: str) -> str:
    """A name as names are compared: without capitals and runs of blanks."""
    return " ".join(name.split()).casefold()


def _in_paper(question: Question) -> list[Question]:
    """The questions directly inside one that stand in the paper or the memo."""
    return [inner for inner in question.questions() if inner.editions & {"paper", "memo"}]


def _marks_of(question: Question, topic: str, level: str, marks: Marks) -> Iterator[tuple[str, str, int]]:
    """Topic, level and marks of a question's own parts, then those of the questions inside it."""
    stack = [(question, topic, level)]
    while stack:
        one, topic, level = stack.pop()
        said_topic, said_level = one.attribute("topic"), one.attribute("level")
        topic = said_topic.value.strip() if said_topic and said_topic.value.strip() else topic
        level = said_level.value.strip() if said_level and said_level.value.strip() else level
        inner = _in_paper(one)
        whole = marks.of.get(one.key)
        if whole is None:
            own = sum(marks.of.get(part.key, 0) for part in one.parts if not isinstance(part, Question))
        else:
            # Less than nothing only where the marks do not add up, which is a problem of its own.
            own = max(0, whole - sum(marks.of.get(question.key, 0) for question in inner))
        yield topic, level, own
        stack += [(question, topic, level) for question in reversed(inner)]


def _weights(
    found: Sequence[str],
    order: Sequence[str],
    cells: Mapping[tuple[str, str], int],
    side: int,
    total: int,
    aims: Sequence[Target],
    targets: Targets,
) -> tuple[Weight, ...]:
    """The topics (side 0) or levels (side 1) of the cells, in their order."""
    shares = {target.name.value: target.share for target in aims}
    names = [name for name in dict.fromkeys([*order, *found]) if name != UNSAID]
    if all(name.isdecimal() for name in names):
        names.sort(key=int)  # Levels are numbers mostly.
    weights = []
    for name in [*names, *([UNSAID] if UNSAID in found else [])]:
        marks = sum(count for place, count in cells.items() if place[side] == name)
        share = Fraction(marks, total)
        # Of what is not said nobody knows where it belongs.
        target = None if not aims or name == UNSAID else shares.get(name, Fraction(0))
        off: Literal[-1, 0, 1] = 0
        if target is not None and abs(share - target) > targets.tolerance:
            off = 1 if share > target else -1
        weights.append(Weight(name, marks, share, target, off))
    return tuple(weights)
