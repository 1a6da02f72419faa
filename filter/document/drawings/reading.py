"""The body of a block of class `draw` → a `Drawing`."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import TYPE_CHECKING, Protocol, TypeVar, get_args

from physcalc.language import Conventions, GivenText
from physcalc.problems import Problem, Text, nearest

from ...blocks import Block, Value
from ...problems import FigureKeyUnreadable, FigureKindMissing
from ...settings import Settings
from .drawing import KINDS, SHARED_KEYS, Drawing, PaperChoice

if TYPE_CHECKING:
    from physcalc.figures.drawn import FigureText

_Shape = TypeVar("_Shape")
_MARKS = re.compile(r"\s*\(([1-9][0-9]?)\)\s*$")
_WIDTH = re.compile(r"([0-9]{1,3}(?:[.,][0-9]{1,2})?)\s*(mm|cm)")


class BodyReader(Protocol):
    """What reads the keys of a block; problems of a key are found by it and the key is then left out."""

    def text(self, block: Block, name: str) -> Text | None:
        """The text of a key."""

    def texts(self, block: Block, name: str) -> tuple[Text, ...]:
        """The texts of a key: on its line, or as a list below it."""

    def pairs(self, block: Block, name: str) -> tuple[tuple[Text, Text], ...]:
        """The lines `key: text` below a key."""

    def items(self, block: Block, name: str) -> tuple[Block, ...]:
        """The items of the list below a key, each with keys of its own."""

    def of(self, block: Block, name: str, shape: Callable[[Text, Value], _Shape]) -> _Shape | None:
        """What a key holds, in a shape of `filter.blocks`."""

    def own_given(self, block: Block) -> tuple[GivenText, ...]:
        """The block's own data."""

    def problem(self, problem: Problem) -> None:
        """Takes what is wrong."""

    def checked(self, block: Block, settings: Settings, keys: tuple[str, ...]) -> Conventions:
        """The settings in force with the block's own over them; finds unknown keys."""


def read_drawing(reader: BodyReader, block: Block, settings: Settings) -> Drawing:
    """A figure as the author wrote it.

    Args:
        reader: what reads the keys.
        block: the body.
        settings: the settings at the block.

    Raises:
        FigureKindMissing: no key says what is drawn, or two do.
    """
    named = [key for key, _ in block if key.value in KINDS]
    if len(named) != 1:
        typed = [key for key, _ in block]
        near = next(((key, n) for key in typed if (n := nearest(key.value, tuple(KINDS))) is not None), None)
        span = named[1].span if named else near[0].span if near is not None else block.place
        words = tuple(key.value for key in named)
        raise FigureKindMissing(
            span, words, tuple(KINDS), near[1] if near is not None and not named else None
        )
    kind = named[0].value
    keys, read = _kind(kind)
    conventions = reader.checked(block, settings, (*keys, *SHARED_KEYS))
    body = read(reader, block, conventions)
    return Drawing(
        span=block.span,
        conventions=conventions,
        kind=kind,
        body=body,
        paper=_paper(reader, block, kind),
        given=reader.own_given(block),
        caption=reader.text(block, "caption"),
        alternative=reader.text(block, "alt"),
        width=_width(reader, block),
        marks=reader.text(block, "marks"),
        marking=tuple(map(_earning, reader.texts(block, "marking"))),
        why=reader.text(block, "why"),
    )


def _kind(kind: str) -> tuple[tuple[str, ...], Callable[[BodyReader, Block, Conventions], FigureText]]:
    """The keys of a kind and what reads them; imported where a document has one of it."""
    match kind:
        case "forces":
            from . import forces as module
        case "graph":
            from . import graph as module  # type: ignore[no-redef]
        case "situation":
            from . import situation as module  # type: ignore[no-redef]
        case "field":
            from . import field as module  # type: ignore[no-redef]
        case "circuit":
            from . import circuit as module  # type: ignore[no-redef]
        case _:
            raise AssertionError(kind)
    return module.KEYS, module.read


def _paper(reader: BodyReader, block: Block, kind: str) -> PaperChoice:
    typed = reader.text(block, "paper")
    if typed is None:
        # A graph that earns marks is one that learners plot.
        earns = reader.text(block, "marks") is not None or block.get("marking") is not None
        return "grid" if kind == "graph" and earns else KINDS[kind]
    for choice in get_args(PaperChoice):
        if typed.value.strip() == choice and (choice not in ("grid", "axes", "points") or kind == "graph"):
            return choice  # type: ignore[no-any-return]
    known = "drawn, points, axes, grid, space or nothing" if kind == "graph" else "drawn, space or nothing"
    reader.problem(FigureKeyUnreadable(typed.span, "paper", typed.value, known))
    return KINDS[kind]


def _earning(line: Text) -> tuple[Text, int]:
    """A line of marking: what earns marks, and how many: one, or so many as stand in brackets behind it."""
    found = _MARKS.search(line.value)
    return (line, 1) if found is None else (line.part(0, found.start()), int(found[1]))


def _width(reader: BodyReader, block: Block) -> float | None:
    typed = reader.text(block, "width")
    if typed is None:
        return None
    found = _WIDTH.fullmatch(typed.value.strip())
    width = float(found[1].replace(",", ".")) * (10 if found[2] == "cm" else 1) if found else 0
    if not 20 <= width <= 160:
        reader.problem(FigureKeyUnreadable(typed.span, "width", typed.value, "20 mm to 160 mm, such as 8 cm"))
        return None
    return width
