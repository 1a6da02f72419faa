"""Options of multiple-choice questions."""

from __future__ import annotations

import panflute as pf

from physcalc.language import parse_expression
from physcalc.language.tree import Printed
from physcalc.problems import Problem

from ..document import Chosen, Engine, Options
from .layouts import Layout, Option
from .layouts.base import Inline, math
from .text import inlines_of

_NO_BREAK = "\u00a0"


def option_entries(statement: Options, chosen: Chosen | None, engine: Engine) -> list[Option]:
    """The options as the paper prints them; as typed where they could not be worked out."""
    printed = dict(chosen.printed) if chosen is not None else {}
    entries = []
    for letter, text in statement.options:
        made = printed.get(letter.value, text.value)
        entries.append(Option(letter.value, content_of(made, statement, engine)))
    return entries


def key_inlines(
    statement: Options, chosen: Chosen, engine: Engine, layout: Layout, ticks: int
) -> list[Inline]:
    """The right option for memo and guide: its letter, what it says, and where it was computed, from what."""
    if chosen.key is None:
        return []
    inlines: list[Inline] = [pf.Strong(pf.Str(chosen.key)), pf.Space()]
    right = dict(chosen.printed).get(chosen.key, "")
    content = content_of(right, statement, engine)
    if statement.of is not None:
        try:
            tree = parse_expression(statement.of, statement.conventions.decimal)
        except Problem:
            tree = None  # The engine has found that already.
        if tree is not None:
            content = [
                math(engine.tex(tree, statement.conventions)),
                pf.Space(),
                pf.Str("="),
                pf.Space(),
                *content,
            ]
    inlines += content
    if ticks:
        inlines += [pf.Space(), *layout.ticks(ticks)]
    return inlines


def content_of(printed: object, statement: Options, engine: Engine) -> list[Inline]:
    """An option's words, value or expression."""
    match printed:
        case str():
            return inlines_of(printed)
        case Printed():
            return [pf.Str(engine.plain(printed, statement.conventions).replace(" ", _NO_BREAK))]
        case _:
            return [math(engine.tex(printed, statement.conventions))]  # type: ignore[arg-type]
