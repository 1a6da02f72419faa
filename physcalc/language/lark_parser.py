"""lark: what is wrong with a text that does not follow the grammar, and the tables that read all others.

`python -m physcalc.language.lark_parser` writes `tables.json`; do so after every change of `grammar.lark`. This is the
one module that imports lark, and it is imported by nothing but the answer to a wrong text, and tests.
"""

from __future__ import annotations

import json
from functools import lru_cache
from hashlib import sha256
from pathlib import Path
from typing import Any

from lark import Lark
from lark.exceptions import UnexpectedCharacters, UnexpectedEOF, UnexpectedInput, UnexpectedToken
from lark.parsers.lalr_analysis import Shift

from .automaton import TABLES

GRAMMAR = Path(__file__).with_name("grammar.lark")
STARTS = ("equation", "expression")


@lru_cache(maxsize=2)
def lark_parser(start: str) -> Lark:
    """lark's own parser for a start rule."""
    grammar = GRAMMAR.read_text(encoding="utf-8")
    return Lark(grammar, parser="lalr", start=start, propagate_positions=True, maybe_placeholders=False)


def refusal(text: str, start: str) -> tuple[int | None, int, set[str]]:
    """Where and why a text does not follow the grammar.

    Args:
        text: the text, its bars told apart.
        start: the rule that it should follow.

    Returns:
        The offset of the word that does not fit (None: the text ends too soon), how long that is, and the names of the
        terminals that could stand there.

    Raises:
        AssertionError: it does follow it: the tables are not those of the grammar.
    """
    try:
        lark_parser(start).parse(text)
    except UnexpectedEOF:
        return None, 1, set()
    except UnexpectedToken as error:
        expected = set(error.accepts or error.expected or ())
        if error.token.type == "$END":
            return None, 1, expected
        return error.pos_in_stream or 0, max(1, len(str(error.token))), expected
    except UnexpectedCharacters as error:
        return error.pos_in_stream or 0, 1, set(error.allowed or ())
    except UnexpectedInput as error:
        return error.pos_in_stream or 0, 1, set()
    raise AssertionError("tables.json is older than grammar.lark")


def grammar_digest() -> str:
    """What tells this grammar from another one."""
    return sha256(GRAMMAR.read_bytes().replace(b"\r\n", b"\n")).hexdigest()


def tables() -> dict[str, Any]:
    """What `tables.json` has to hold, by what lark makes of the grammar.

    Raises:
        AssertionError: the grammar has something that the automaton does not know.
    """
    made: dict[str, Any] = {"grammar": grammar_digest(), "starts": {}}
    for start in STARTS:
        lark: Any = lark_parser(start)
        ignored: set[str] = set()
        terminals: dict[str, str] = {}
        ordered: list[str] = []
        for lexer in (lark.parser.lexer.root_lexer, *lark.parser.lexer.lexers.values()):
            # Some words of the grammar could be other terminals too, and lark would look again; ours are not.
            assert lexer.scanner
            assert not lexer.callback
            assert not lexer.g_regex_flags
            names = [terminal.name for terminal in lexer.terminals]
            ordered = ordered or names
            assert names == [name for name in ordered if name in names]
            assert not any(terminal.pattern.flags for terminal in lexer.terminals)
            terminals.update({one.name: one.pattern.to_regexp() for one in lexer.terminals})
            ignored |= lexer.ignore_types
        made["starts"][start] = {
            "terminals": [[name, terminals[name]] for name in ordered],
            "ignored": sorted(ignored),
            **_automaton(lark, start),
        }
    return made


def _automaton(lark: Any, start: str) -> dict[str, Any]:
    table = lark.parser.parser._parse_table
    numbers = {state: number for number, state in enumerate(sorted(table.states))}
    rules: list[Any] = list(lark.rules)
    states: list[dict[str, int]] = []
    gotos: list[dict[str, int]] = []
    origins = {rule.origin.name for rule in rules}
    for state in sorted(table.states):
        actions: dict[str, int] = {}
        onward: dict[str, int] = {}
        for symbol, (action, argument) in sorted(table.states[state].items()):
            if action is Shift:
                (onward if symbol in origins else actions)[symbol] = numbers[argument]
            else:
                actions[symbol] = -1 - rules.index(argument)
        states.append(actions)
        gotos.append(onward)
    return {
        "start": numbers[table.start_states[start]],
        "end": numbers[table.end_states[start]],
        "states": states,
        "gotos": gotos,
        "rules": [_rule(rule) for rule in rules],
    }


def _rule(rule: Any) -> list[Any]:
    assert rule.expansion, "a rule that takes nothing has no place"
    assert not rule.options.keep_all_tokens
    assert rule.alias or not rule.options.expand1
    kept = [
        [index, not symbol.is_term and symbol.name.startswith("_")]
        for index, symbol in enumerate(rule.expansion)
        if not (symbol.is_term and symbol.filter_out)
    ]
    return [rule.origin.name, rule.alias or rule.origin.name, len(rule.expansion), kept]


if __name__ == "__main__":
    TABLES.write_text(json.dumps(tables(), ensure_ascii=True, separators=(",", ":")) + "\n", encoding="utf-8")
