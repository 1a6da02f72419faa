"""Sheets, front matter, raw Markdown and polynomials made from seeds: most often nearly right."""

from __future__ import annotations

import random
from fractions import Fraction

ROWS = [
    "title: Ours", "constants:", "  g:", "    value: 9.8 m/s^2", "    title: gravity", "    also: [9.81 m/s^2]", "formulas:", "  weight:",
    "    form: F_g = m g", "    symbols:", "      m: mass, kg, positive", "definitions:", "  emf:", "    text: |", "      The energy", "extends: school",
    "notes: &a x", "more: *a", "- - -", "? x", "  \t- x", "x: !!python/object:os.system [id]", "{", "}", "[[[[[[[[[[", "---", "...", '"', "'", "a: b: c",
    "    limits: 0 to 1", "    value: 1e999", "    value: 1/0", "\u202e", "\x00", "    form: x = " + "(" * 60, "    form: x = __import__('os')",
]  # fmt: skip
LINES = [
    "---", "physcalc:", "  sheet: school", "  a: [*x, *x, *x]", "x: &x [1]", "# Q {.question #q marks=3}", "::: {.question}", ":::", "```{.calc}", "```",
    "```{.given}", "~~~ {.options}", "m: 2 kg", "`m`{.value}", "[2 kg]{.value of=m}", "> - ```{.calc}", "    ```{.calc}", "<div class=question>",
    "</div>", "<!--", "-->", "$x$", "\\", "[", "](", "{.value", "}", "`" * 7, "\u2028", "\x0b", "\r", "\ufeff", "\ud800", "a\u0301" * 9, "=====",
    "\u202e# Q {.question}", "+++", "|a|b|", "|-|-|", "[^1]: `m`{.value}", "^[`m`{.value}]", "# " * 9, "{#q .question}", "", "",
]  # fmt: skip


def a_sheet(seed: int) -> None:
    """Reads a sheet and says what is wrong with it."""
    from physcalc.problems import Problem
    from physcalc.sheets.contents import contents_of
    from physcalc.sheets.entries import sheet_of
    from physcalc.sheets.nodes import read_nodes

    chance = random.Random(seed)
    faults: list[Problem] = []
    rows = [chance.choice(ROWS[:16]) if chance.random() < 0.8 else chance.choice(ROWS) for _ in range(12)]
    try:
        sheet_of(contents_of(read_nodes("\n".join(rows), "own.yaml"), faults.append), "own", ".")
    except Problem as problem:
        faults.append(problem)
    for problem in faults:
        assert problem.sentence()


def markdown(seed: int) -> None:
    """Looks through raw Markdown for what is ours."""
    from physcalc_filter.sources import Source, front_matter, refuse_aliases, scan_markdown

    from physcalc.problems import Problem

    chance = random.Random(seed)
    text = "\n".join(chance.choice(LINES) for _ in range(chance.randint(1, 30)))
    source = Source("a.md", text)
    faults: list[Problem] = []
    for read in (refuse_aliases, front_matter, scan_markdown):
        try:
            read(source)
        except Problem as problem:
            faults.append(problem)
    for fault in faults:
        assert fault.sentence()
        assert 1 <= fault.span.line <= text.count("\n") + 2


def a_polynomial(seed: int) -> None:
    """Finds every root of a polynomial that is made of them, some of them twice, some very near to another."""
    from physcalc.exact import Real
    from physcalc.solve.polynomial import real_roots

    chance = random.Random(seed)
    roots = {Fraction(chance.randint(-99, 99), chance.randint(1, 99)) for _ in range(chance.randint(1, 4))}
    if chance.random() < 0.3:
        roots.add(max(roots) + Fraction(1, 10 ** chance.randint(1, 60)))
    made = [Fraction(chance.choice((1, -3, 7)), 5)]
    for root in (*roots, *([min(roots)] if chance.random() < 0.3 else [])):
        rest = [*made, Fraction(0)]
        made = [(made[at - 1] if at else Fraction(0)) - root * rest[at] for at in range(len(rest))]
    found = real_roots(tuple(Real.of(c) for c in made))
    assert len(found) == len(roots)
    for real, root in zip(found, sorted(roots), strict=True):
        assert abs(float(real) - float(root)) <= 1e-12 * max(1.0, abs(float(root)))
