"""The grammar's tables at work: from a text to the tree of the grammar's rules.

`tables.json` holds what lark makes of `grammar.lark`: the actions of an LALR(1) parser, and the terminals in the order
in which its lexer tries them (Aho, Lam, Sethi, Ullman, Compilers, 2nd edition, 4.5 and 4.7). To walk along them takes
no library; lark itself is imported to say what is wrong with a text (`lark_parser`), which also writes the tables.
"""

from __future__ import annotations

import json
import re
from functools import cache
from pathlib import Path
from typing import Any

TABLES = Path(__file__).with_name("tables.json")
_END = "$END"


class Token:
    """A word of the text.

    Attributes:
        type: the terminal's name in the grammar.
        text: its characters.
        start, end: its offsets.
    """

    __slots__ = ("end", "start", "text", "type")

    def __init__(self, type: str, text: str, start: int, end: int) -> None:
        self.type, self.text, self.start, self.end = type, text, start, end


class Node:
    """A rule with what it was made of.

    Attributes:
        rule: its name in the grammar, or its alias.
        children: tokens and nodes; words such as brackets, which the rule says already, are left out.
        start, end: the offsets of all of it, brackets included.
    """

    __slots__ = ("children", "end", "rule", "start")

    def __init__(self, rule: str, children: list[Node | Token], start: int, end: int) -> None:
        self.rule, self.children, self.start, self.end = rule, children, start, end


class TextRefused(Exception):
    """The text does not follow the grammar; who wants to know why asks lark."""


class _Tables:
    """The tables of one start rule, ready for use."""

    def __init__(self, held: dict[str, Any], start: str) -> None:
        own = held["starts"][start]
        self.start: int = own["start"]
        self.end: int = own["end"]
        self.states: list[dict[str, int]] = own["states"]
        self.gotos: list[dict[str, int]] = own["gotos"]
        #: For each rule: its origin, its name in the tree, how many things it takes, and which of them are kept, each
        #: with whether its own children stand in its place.
        self.rules: list[tuple[str, str, int, list[tuple[int, bool]]]] = own["rules"]
        terminals: list[tuple[str, str]] = own["terminals"]
        ignored = set(own["ignored"])
        self.tried = [
            [
                (None if name in ignored else name, pattern)
                for name, pattern in terminals
                if name in state or name in ignored
            ]
            for state in self.states
        ]


@cache
def _tables(start: str) -> _Tables:
    return _Tables(json.loads(TABLES.read_text(encoding="utf-8")), start)


@cache
def _pattern(pattern: str) -> re.Pattern[str]:
    # Each when it is first tried: to compile all of them takes longer than to read a formula.
    return re.compile(pattern)


def parse(text: str, start: str) -> Node:
    """The tree of a text.

    Args:
        text: the text, its bars told apart (see the grammar).
        start: "equation" or "expression".

    Raises:
        TextRefused: it does not follow the grammar.
    """
    tables = _tables(start)
    states = [tables.start]
    held: list[Node | Token] = []
    at = 0
    while True:
        token = _next(text, at, tables.tried[states[-1]])
        at = token.end if token is not None else at
        type = token.type if token is not None else _END
        while True:
            action = tables.states[states[-1]].get(type)
            if action is None:
                raise TextRefused
            if action >= 0:
                break
            _reduce(tables, -1 - action, states, held)
            if token is None and states[-1] == tables.end:
                result = held[-1]
                assert isinstance(result, Node)
                return result
        assert token is not None, "the end is never shifted"
        states.append(action)
        held.append(token)


def _next(text: str, at: int, tried: list[tuple[str | None, str]]) -> Token | None:
    """The first word at an offset or behind blanks there; None at the end of the text.

    Raises:
        TextRefused: none of those that may stand there does.
    """
    while at < len(text):
        for name, pattern in tried:
            found = _pattern(pattern).match(text, at)
            if found is None:
                continue
            if name is not None:
                return Token(name, found[0], at, found.end())
            at = found.end()
            break
        else:
            raise TextRefused
    return None


def _reduce(tables: _Tables, rule: int, states: list[int], held: list[Node | Token]) -> None:
    """Puts a node in the place of what its rule takes."""
    origin, name, size, kept = tables.rules[rule]
    parts = held[-size:]
    del held[-size:]
    del states[-size:]
    children: list[Node | Token] = []
    for index, inlined in kept:
        part = parts[index]
        if inlined and isinstance(part, Node):
            children += part.children
        else:
            children.append(part)
    held.append(Node(name, children, parts[0].start, parts[-1].end))
    states.append(tables.gotos[states[-1]][origin])
