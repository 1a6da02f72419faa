"""Runs of letters that were meant as a product or as a function, for the mends of problems."""

from __future__ import annotations

from collections.abc import Iterable

_FUNCTIONS = ("sin", "cos", "tan", "sqrt", "log", "ln")


def begins_with_function(name: str) -> str:
    """The function that a run of letters begins with, as in "sinθ"; empty for none."""
    return next((f for f in _FUNCTIONS if name.startswith(f) and name != f), "")


def product_or_function(words: str) -> str:
    """What "m g" and "sin θ" are."""
    return "the function" if words.split(" ")[0] in _FUNCTIONS else "a product"


def run_with(name: str, names: Iterable[str]) -> str:
    """A run of letters among names that holds a letter, as "as" does s; empty for none."""
    return next((n for n in names if len(name) == 1 < len(n) <= 4 and n.isalpha() and name in n), "")
