"""From the words that describe a circuit to its parts, in series and in parallel."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from itertools import count

from ..language.names import Name
from ..problems import Text
from ..problems.figures_circuits import (
    CircuitLarge,
    CircuitUnreadable,
    ComponentRepeated,
    VoltmeterUnplaced,
)
from .circuit_naming import read_part
from .circuit_parts import (
    CONDUCTING,
    MOST_DEPTH,
    MOST_PARTS,
    Across,
    Branch,
    InParallel,
    InSeries,
    Part,
    Piece,
    in_series,
    parts_of,
)

_WITH = re.compile(r"\s+with\s+(?:(?:an?|the)\s+)?")
_ENDS = re.compile(r"(?P<start>[^\s:,|()\[\]–-]{1,8})\s*(?:\bto\b|-|–)\s*(?P<end>[^\s:,|()\[\]–-]{1,8})\s*:")


def read_loop(lines: Sequence[Text]) -> Piece:
    """What texts describe that follow one another in a loop: parts in series, branches in parallel.

    Raises:
        Problem: one cannot be read.
    """
    numbers = count()
    piece = in_series(*(_Reader(line, numbers).whole() for line in lines))
    _alone([piece])
    for part in piece.pieces if isinstance(piece, InSeries) else (piece,):
        if isinstance(part, Part) and part.kind == "voltmeter":
            # In the loop itself it would stop all current, which nobody means.
            raise VoltmeterUnplaced(part.text.span, _called(part))
    return piece


def read_branches(lines: Sequence[Text]) -> list[Branch]:
    """Branches between nodes: `A to B: battery (ε, r), R_1`.

    Raises:
        Problem: a line cannot be read.
    """
    numbers = count()
    branches: list[Branch] = []
    for line in lines:
        found = _ENDS.match(line.value.strip())
        if found is None:
            what, how = "the line does not say between which nodes the branch lies", 'write "A to B: R_1"'
            raise CircuitUnreadable(line.part(0).span, what, how)
        lead = len(line.value) - len(line.value.lstrip())
        start, end = (
            line.part(lead + found.start(name), lead + found.end(name)) for name in ("start", "end")
        )
        if start.value == end.value:
            what, how = f"the branch begins and ends at {start.value}", "lead it to another node"
            raise CircuitUnreadable(end.span, what, how)
        branches.append(Branch(start, end, _Reader(line.part(lead + found.end()), numbers).whole()))
    _alone([branch.piece for branch in branches])
    return branches


def between_nodes(text: Text) -> bool:
    """Whether a line begins with two nodes."""
    return _ENDS.match(text.value.strip()) is not None


def _alone(pieces: Sequence[Piece]) -> None:
    """Raises ComponentRepeated where two parts have one name."""
    names: set[Name] = set()
    for piece in pieces:
        for part in parts_of(piece):
            if part.name is not None and part.name in names:
                raise ComponentRepeated(part.text.span, part.name.key)
            if part.name is not None:
                names.add(part.name)


class _Reader:
    """Reads one text from left to right."""

    def __init__(self, text: Text, numbers: count[int]) -> None:
        self.text = text
        self.place = 0
        self.numbers = numbers
        self.depth = 0

    @property
    def next(self) -> str:
        """The sign that comes next, blanks aside; empty at the end."""
        value = self.text.value
        while self.place < len(value) and value[self.place].isspace():
            self.place += 1
        return value[self.place : self.place + 1]

    def whole(self) -> Piece:
        piece = self.series(self.place)
        if self.next:
            self._stray()
        return piece

    def series(self, start: int) -> Piece:
        items = [self.item(start)]
        while self.next == ",":
            self.place += 1
            items.append(self.item(self.place))
        return in_series(*items)

    def item(self, start: int) -> Piece:
        piece: Piece
        if self.next in ("(", "["):
            piece = self.group()
        else:
            piece = self.part(start)
        while (found := _WITH.match(self.text.value, self.place)) is not None:
            self.place = found.end()
            meter = self.part(self.place)
            if meter.kind != "voltmeter":
                what = f'"{meter.text.value}" is no voltmeter'
                raise CircuitUnreadable(meter.text.span, what, "behind with stands a voltmeter")
            if all(part.kind in CONDUCTING for part in parts_of(piece)):
                raise VoltmeterUnplaced(meter.text.span, _called(meter))
            piece = Across(piece, meter)
        return piece

    def group(self) -> Piece:
        opening, start = self.next, self.place
        self.depth += 1
        if self.depth > MOST_DEPTH:
            raise CircuitLarge(self.text.at(start, start + 1), f"{MOST_DEPTH} brackets inside one another")
        self.place += 1
        branches = [self.series(self.place)]
        while opening == "(" and self.next in ("|", "∥"):
            sign = self.next
            self.place += 1
            if sign == "|" and self.next == "|":
                self.place += 1
            branches.append(self.series(self.place))
        closing = ")" if opening == "(" else "]"
        if self.next != closing:
            if self.next:
                self._stray()
            what = f'the bracket "{opening}" is never closed'
            raise CircuitUnreadable(self.text.at(start, start + 1), what, f'write "{closing}" where it ends')
        self.place += 1
        self.depth -= 1
        return branches[0] if len(branches) == 1 else InParallel(tuple(branches))

    def _stray(self) -> None:
        sign, place = self.next, self.place
        hows = {
            "|": "put branches in round brackets: (R_1 | R_2)",
            ")": "take it out, or open a bracket before it",
            "]": "take it out, or open a bracket before it",
        }
        what = f'"{sign}" is not expected here'
        if sign.isalnum() or sign in "([":
            what = "a comma is missing before this"
        raise CircuitUnreadable(
            self.text.at(place, place + 1), what, hows.get(sign, "put a comma between two parts")
        )

    def part(self, start: int) -> Part:
        """One part: its words, with its values in brackets behind them."""
        value = self.text.value
        first = self.place
        values: list[tuple[int, int]] = []
        while self.place < len(value):
            sign = value[self.place]
            if sign in "|)]∥[" or (sign == "," and not self._decimal(self.place)):
                break
            if sign == "(":
                values = self.values()
                after = re.compile(r"\s+(?:open|closed|reversed)(?!\w)").match(value, self.place)
                self.place = after.end() if after is not None else self.place
                break
            if _WITH.match(value, self.place) is not None:
                break
            self.place += 1
        typed = self.text.part(first, self.place)
        if not typed.value:
            where = self.text.at(
                max(0, min(start, len(value) - 1)), None if start >= len(value) else start + 1
            )
            if self.next:
                where = self.text.at(self.place, self.place + 1)
            raise CircuitUnreadable(
                where, "a part of the circuit is missing here", "write it, or wire for none"
            )
        number = next(self.numbers)
        if number >= MOST_PARTS:
            raise CircuitLarge(typed.span, f"{MOST_PARTS} parts")
        head = self.text.part(first, value.index("(", first) if values else self.place)
        tail = value[values[-1][1] + 1 : self.place].strip().lower() if values else ""
        inner = tuple(self.text.part(*ends) for ends in values)
        return replace(read_part(head, inner, tail, typed), number=number)

    def values(self) -> list[tuple[int, int]]:
        """Where the values in a bracket stand; reads up to behind it."""
        value, start = self.text.value, self.place
        depth, begin, found = 0, start + 1, []
        while self.place < len(value):
            sign = value[self.place]
            if sign == "(":
                depth += 1
            elif sign == ")":
                depth -= 1
                if not depth:
                    found.append((begin, self.place))
                    self.place += 1
                    return found
            elif sign == "|" and depth == 1:
                what, how = "values stand here, and no branches", "put a comma before a bracket of branches"
                raise CircuitUnreadable(self.text.at(start, start + 1), what, how)
            elif depth == 1 and (sign == ";" or (sign == "," and not self._decimal(self.place))):
                found.append((begin, self.place))
                begin = self.place + 1
            self.place += 1
        what = 'the bracket "(" is never closed'
        raise CircuitUnreadable(self.text.at(start, start + 1), what, 'write ")" where it ends')

    def _decimal(self, place: int) -> bool:
        """Whether a comma is a decimal sign: it stands between two figures."""
        value = self.text.value
        return value[place - 1 : place].isdigit() and value[place + 1 : place + 2].isdigit()


def _called(part: Part) -> str:
    return part.name.key if part.name is not None else part.text.value
