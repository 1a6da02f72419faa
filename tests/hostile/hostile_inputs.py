"""Small hostile inputs made from seeds, and a program that works through a range of them.

Run as `python hostile_inputs.py FIRST LAST`: it prints one line for each input that met a fault of the program,
and last the number of inputs, the largest memory in megabytes, and "done".
"""

from __future__ import annotations

import json
import random
import sys
import traceback
from collections.abc import Callable
from io import StringIO

from physcalc.checking.scope import Scope
from physcalc.engine import calculate, constants_layer
from physcalc.exact import NumberStyle
from physcalc.language.statements import AnswerText, Calculation, Conventions, GivenText
from physcalc.problems import Problem, Span, Text
from physcalc.render import plain, tex
from physcalc.sheets import load_sheet

if __package__:
    from . import hostile_figures, hostile_tex, hostile_text
else:
    import hostile_figures
    import hostile_tex
    import hostile_text

SHEET = load_sheet("school")
AROUND = Scope((constants_layer(SHEET),))
DECIMALS = [Conventions(decimal=sign, style=NumberStyle(decimal=sign)) for sign in (".", ",")]

NUMBERS = [
    "0", "1", "-1", "2.5", "1/3", "0.1", "1e400", "1e-400", "9^9^9", "10^400", "1e-399", "1,000", "1.000", "1/0",
    "٣", "½", "²", "−5", "1e", "1e+", "--1", "+-1", "0x10", "1_000", "NaN", "inf", "1" * 101, "0." + "0" * 90 + "1",
    "6 × 10⁻⁶", "6*10^-6", "99999999999999999999", "1 ± 0.1", "1 ± 1e300", "0 ± 0", "3 ± -1", "(2 ± 1)e3",
]  # fmt: skip
UNITS = [
    "", "m", "s", "kg", "N", "°", "°C", "rad", "%", "m/s^2", "N·m^2·C^-2", "ms-1", "J/kg K", "m^99", "m^(1/3)",
    "km/h", "dB", "µC", "°F", "m⁻", "·", "/", "m//s", "kkg", "1/m", "m\u202e", "Ω", "rev/min", "eV", "m^-12", "K/°C",
]  # fmt: skip
NAMES = [
    "x", "y", "a", "b", "g", "c", "e", "θ", "Δx", "E_{k,i}", "F_net", "π", "q'", "__import__", "x_1_2", "sin", "at",
    "find", "𝐚", "é", "a\u200b", "\u202ex", "x.y", "|x|", "Delta_", "_", "{}", "\\alpha", "<b>", "#x", "$",
]  # fmt: skip
FUNCTIONS = [
    "sin",
    "cos",
    "tan",
    "asin",
    "acos",
    "atan",
    "sqrt",
    "exp",
    "ln",
    "log",
    "abs",
    "atan2",
    "√",
    "|",
    "eval",
]
JOINS = [" + ", " - ", " * ", " / ", "^", " ", " = ", "·", "×", "±", ", ", "//", "**", "%"]
TAILS = [
    "", " in m", " in N to 2 dp", " to 3 sf", " to 999999 dp", " to -1 dp", " in standard form", " with direction",
    " at 30°", " with percentage", " in in", " to 0 sf", " in °C", " in %", ", left", " at A to B", " to 2 dp to 3 sf",
]  # fmt: skip


def pick(chance: random.Random, pool: list[str]) -> str:
    return chance.choice(pool)


def expression(chance: random.Random, depth: int) -> str:
    """A formula's text, most often nearly right."""
    if depth <= 0 or chance.random() < 0.25:
        return pick(chance, NAMES[:12]) if chance.random() < 0.7 else pick(chance, NUMBERS)
    match chance.randrange(6):
        case 0:
            return f"{pick(chance, FUNCTIONS)}({expression(chance, depth - 1)})"
        case 1:
            return f"({expression(chance, depth - 1)})"
        case 2:
            return (
                f"{expression(chance, depth - 1)}^{chance.choice(['2', '-1', '(1/2)', '99', 'x', '12', '0'])}"
            )
        case _:
            joined = pick(chance, JOINS[:6]) if chance.random() < 0.9 else pick(chance, JOINS)
            return f"{expression(chance, depth - 1)}{joined}{expression(chance, depth - 1)}"


def damaged(chance: random.Random, text: str) -> str:
    """The text with a few signs changed, now and then."""
    while text and chance.random() < 0.2:
        at = chance.randrange(len(text) + 1)
        text = (
            text[:at]
            + chance.choice(["", "(", ")", "^", "\u0301", "\u202e", "_", "{", "|", "±", "\x1b", "€"])
            + text[at + chance.randrange(2) :]
        )
    return text


def text(value: str, line: int) -> Text:
    return Text(value, Span("a.md", line, 1, max(1, len(value))))


def calculation(chance: random.Random) -> Calculation:
    """A calculation with some data, one to five formulas, and typed answers."""
    names = chance.sample(NAMES[:12], 5)
    given = tuple(
        GivenText(text(damaged(chance, name), 5 + at), text(damaged(chance, datum(chance)), 5 + at))
        for at, name in enumerate(names[: chance.randrange(5)])
    )
    unknowns = names[4:] if chance.random() < 0.7 else chance.sample(NAMES[:12], chance.randint(1, 5))
    formulas = [
        f"{expression(chance, chance.randint(1, 4))} = {expression(chance, chance.randint(0, 3))}"
        for _ in unknowns
    ]
    if chance.random() < 0.6:
        formulas[0] = f"{unknowns[0]} = {expression(chance, 4)}"
    answer = f"{pick(chance, NUMBERS)} {pick(chance, UNITS)}"
    return Calculation(
        Span("a.md", 10),
        chance.choice(DECIMALS),
        given=given,
        formulas=tuple(text(damaged(chance, formula), 20 + at) for at, formula in enumerate(formulas)),
        find=tuple(
            text(damaged(chance, name + pick(chance, TAILS)), 30 + at) for at, name in enumerate(unknowns)
        ),
        take=text(chance.choice(["positive", "largest", "x > 1", "negative", "???"]), 40)
        if chance.random() < 0.3
        else None,
        answers=(AnswerText(text(damaged(chance, answer), 41)),) if chance.random() < 0.5 else (),
        accept=text(chance.choice(["2 %", "± 1 m", "1 to 2 m", "1e399 %", "choices"]), 42)
        if chance.random() < 0.2
        else None,
        slips=((text("slip", 43), text(expression(chance, 2), 43)),) if chance.random() < 0.2 else (),
        total_marks=chance.choice([None, 0, 1, 3, 9, 999]),
    )


def datum(chance: random.Random) -> str:
    if chance.random() < 0.2:
        return expression(chance, 2)
    tail = chance.choice(["", "", "", ", left", " at 30°", " at bearing 1e400°", ", 4 N", " from x"])
    return f"{pick(chance, NUMBERS)} {pick(chance, UNITS)}{tail}"


def a_calculation(seed: int) -> None:
    """Works a calculation out and prints all of it."""
    chance = random.Random(seed)
    statement = calculation(chance)
    outcome = calculate(statement, AROUND, SHEET)
    for problem in outcome.problems:
        said(problem)
    if outcome.working is not None:
        for line in outcome.working.lines:
            for side in line.sides:
                plain(side, statement.conventions.style)
                tex(side, statement.conventions)


def said(problem: Problem) -> None:
    words = (problem.sentence(), problem.mend(), *problem.because())
    assert all(isinstance(word, str) for word in words)
    assert problem.sentence()


PIECES = [
    "a", "\ud800", "\udfff", "\x00", "\u202e", "</script>", "#panic()", "\\input{x}", "$", "`", "2 m", "x", "given", "calc",
    "options", "value", "define", "question", "of", "marks", "-1", "3", "99999999999999999999", "", "\n\n", "a: b: c", "- - -",
]  # fmt: skip


def tree(chance: random.Random, depth: int) -> list[object]:
    """Blocks of pandoc's tree, most often of ours."""

    def attributes() -> list[object]:
        classes = [pick(chance, PIECES) for _ in range(chance.randrange(3))]
        pairs = [[pick(chance, PIECES), pick(chance, PIECES)] for _ in range(chance.randrange(3))]
        return [pick(chance, PIECES), classes, pairs]

    def inlines() -> list[object]:
        return [
            {"t": "Str", "c": pick(chance, PIECES)},
            {"t": "Code", "c": [attributes(), pick(chance, PIECES)]},
            {"t": "Span", "c": [attributes(), [{"t": "Str", "c": pick(chance, PIECES)}, {"t": "Space"}]]},
            {"t": "Math", "c": [{"t": "InlineMath"}, pick(chance, PIECES)]},
        ]

    blocks: list[object] = []
    for _ in range(chance.randint(1, 4)):
        body = "\n".join(
            f"{pick(chance, PIECES)}: {pick(chance, PIECES)}" for _ in range(chance.randrange(4))
        )
        kinds: list[Callable[[], object]] = [
            lambda: {"t": "Para", "c": inlines()},
            lambda body=body: {"t": "CodeBlock", "c": [attributes(), body]},  # type: ignore[misc]
            lambda: {"t": "Header", "c": [chance.randint(1, 6), attributes(), inlines()]},
            lambda: {"t": "Div", "c": [attributes(), tree(chance, depth - 1) if depth else []]},
            lambda: {"t": "RawBlock", "c": [chance.choice(["html", "typst", "latex"]), pick(chance, PIECES)]},
        ]
        blocks.append(chance.choice(kinds)())
    return blocks


def a_tree(seed: int) -> None:
    """Hands a tree to the Pandoc filter, as JSON."""
    from physcalc_filter.pandoc_entry import run

    chance = random.Random(seed)
    meta = {"edition": {"t": "MetaString", "c": chance.choice(["paper", "memo", "guide", "x"])}}
    meta["draft"] = {"t": "MetaBool", "c": True}  # type: ignore[dict-item]
    document = {"pandoc-api-version": [1, 23], "meta": meta, "blocks": tree(chance, 3)}
    made = run(
        json.dumps(document), chance.choice(["html", "latex", "typst", "docx", "markdown"]), StringIO()
    )
    if made is not None:
        made.encode("utf-8")


#: By turns; what takes the least time most often.
KINDS = (
    a_tree, a_calculation, hostile_figures.a_figure, a_calculation, a_calculation, hostile_tex.a_source,
    hostile_tex.entries, a_calculation, hostile_text.a_sheet, hostile_text.markdown, hostile_text.a_polynomial,
)  # fmt: skip


def main(first: int, last: int) -> None:
    count = 0
    for seed in range(first, last):
        kind = KINDS[seed % len(KINDS)]
        count += 1
        try:
            kind(seed)
        except Exception:
            print(json.dumps({"seed": seed, "kind": kind.__name__, "said": traceback.format_exc()[-1500:]}))
    print(json.dumps({"count": count, "memory": memory(), "done": True}))


def memory() -> int:
    """The most memory that this process has held, in megabytes; 0 where the system does not tell."""
    try:
        import resource
    except ImportError:
        return 0
    size = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return size // (1024 * 1024 if sys.platform == "darwin" else 1024)


if __name__ == "__main__":
    main(int(sys.argv[1]), int(sys.argv[2]))
