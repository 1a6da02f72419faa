"""Speed as ratios against a peer measured in the same run: `python tests/benchmarks/run.py`.

Nothing here passes or fails; the table is read by a person. Each figure is the least of several runs, which is
what the machine can do when nothing else is going on.
"""

from __future__ import annotations

import argparse
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from fractions import Fraction
from pathlib import Path
from typing import Any

import pypandoc

BLOCKS = 300
PANDOC = str(pypandoc.get_pandoc_path())

#: Formulas with one unknown each: (data, formula, find). Names are varied from block to block.
SINGLE = (
    ({"m": "640 kg", "a": "0.75 m/s^2"}, "T - m g = m a", "T in N to 2 dp"),
    ({"m": "2.5 kg", "v": "3.2 m/s"}, "E_k = 1/2 m v^2", "E_k in J to 2 dp"),
    ({"q_A": "4 uC", "q_B": "2.5 uC", "F": "3.6 N"}, "F = k q_A q_B / r^2", "r in m to 2 dp"),
    ({"u": "3 m/s", "a": "2 m/s^2", "x": "12 m"}, "v^2 = u^2 + 2 a x", "v in m/s to 2 dp"),
    ({"V": "12 V", "I": "0.4 A"}, "V = I R", "R in ohm to 2 dp"),
    ({"f": "10 cm", "u": "15 cm"}, "1/f = 1/u + 1/v", "v in cm to 1 dp"),
    ({"N": "5.2 N", "F_f": "1.3 N"}, "F_f = μ N", "μ to 2 dp"),
    ({"L": "0.75 m"}, "T = 2 π sqrt(L / g)", "T in s to 2 dp"),
)


def document() -> str:
    """A paper of 300 calculations."""
    parts = ["---\ntitle: Benchmark\nlang: en-ZA\n---\n"]
    for number in range(BLOCKS):
        data, formula, find = SINGLE[number % len(SINGLE)]
        given = "\n".join(f"{name}: {value}" for name, value in data.items())
        first = next(iter(data))
        parts.append(
            f"# Question {number + 1} {{.question #q{number} marks=4}}\n\nThe value `{first}`{{.value}} is known.\n\n"
            f"```{{.given}}\n{given}\n```\n\n```{{.calc}}\nformula: {formula}\nfind: {find}\n```\n"
        )
    return "\n".join(parts)


def best(run: Callable[[], object], times: int) -> float:
    """The least time of several runs, in seconds."""
    taken = []
    for _ in range(times):
        start = time.perf_counter()
        run()
        taken.append(time.perf_counter() - start)
    return min(taken)


def filter_ratio(times: int) -> tuple[float, float]:
    """Seconds of pandoc with a filter that does nothing, and with ours, on the same paper."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        (folder / "paper.md").write_text(document(), encoding="utf-8")
        (folder / "nothing.py").write_text(
            "import panflute\npanflute.run_filter(lambda element, document: None)\n", encoding="utf-8"
        )
        (folder / "ours.py").write_text(
            "import sys\nfrom physcalc_filter.pandoc_entry import main\nsys.exit(main())\n", encoding="utf-8"
        )

        def pandoc(script: str) -> None:
            command = [PANDOC, "paper.md", "--filter", script, "-M", "edition=memo", "-o", "out.html"]
            subprocess.run(command, cwd=folder, check=True, capture_output=True, timeout=120)

        return best(lambda: pandoc("nothing.py"), times), best(lambda: pandoc("ours.py"), times)


#: Sets and quadratics: (data, formulas, finds).
HARDER = (
    ({"m_1": "14 kg", "m_2": "6 kg", "f": "23 N"}, ("T - f = m_1 a", "m_2 g - T = m_2 a"), ("a", "T")),
    (
        {"R_1": "2 ohm", "R_2": "3 ohm", "R_3": "6 ohm", "V_1": "12 V", "V_2": "9 V"},
        ("I_1 + I_2 = I_3", "V_1 = I_1 R_1 + I_3 R_3", "V_2 = I_2 R_2 + I_3 R_3"),
        ("I_1", "I_2", "I_3"),
    ),
    ({"x": "200 m", "u": "10 m/s", "a": "2 m/s^2"}, ("x = u t + 1/2 a t^2",), ("t",)),
    ({"h": "23.5 m", "v": "14.6 m/s"}, ("-h = v t - 1/2 g t^2",), ("t",)),
)


def _blocks(blocks: Sequence[tuple[dict[str, str], tuple[str, ...], tuple[str, ...]]]) -> Callable[[], None]:
    """Our engine on blocks, from text to steps, nothing remembered from the run before."""
    from physcalc.checking import Scope, read_given
    from physcalc.engine import calculate, constants_layer
    from physcalc.language import Calculation, GivenText, parser
    from physcalc.problems import Span, Text
    from physcalc.sheets import load_sheet

    sheet = load_sheet("school")
    constants = constants_layer(sheet)

    def run() -> None:
        parser._parsed.cache_clear()
        for data, formulas, finds in blocks:
            scope = Scope((constants,))
            items = [GivenText(Text(name), Text(value)) for name, value in data.items()]
            texts = tuple(Text(formula) for formula in formulas)
            statement = Calculation(Span(), formulas=texts, find=tuple(Text(find) for find in finds))
            layer, _ = read_given(items, scope, statement.conventions)
            outcome = calculate(statement, scope.inside(layer), sheet)
            assert outcome.working is not None, outcome.problems

    return run


def _peer(equations: Sequence[tuple[list[Any], list[Any], dict[Any, str]]]) -> Callable[[], None]:
    """sympy.solve with lambdify and pint on the same formulas, its cache emptied."""
    import pint
    import sympy

    registry = pint.UnitRegistry(non_int_type=Fraction)

    def run() -> None:
        sympy.core.cache.clear_cache()
        for formulas, unknowns, data in equations:
            values = {symbol: registry.Quantity(text).to_base_units() for symbol, text in data.items()}
            names = list(values)
            for solution in sympy.solve(formulas, unknowns, dict=True)[:1]:
                for expression in solution.values():
                    sympy.lambdify(names, expression)(*(float(values[name].magnitude) for name in names))

    return run


def engine_ratios(times: int) -> list[tuple[str, float, float]]:
    """Milliseconds a block, ours and the peer's, for formulas with one unknown, and for sets and quadratics."""
    import sympy

    m, g, a, T, v, E, k, qa, qb, F, r = sympy.symbols("m g a T v E k qa qb F r", positive=True)
    u, x, V, current, R, f, w, mu, N, Ff, L, P = sympy.symbols("u x V I R f w mu N Ff L P", positive=True)
    m1, m2, R1, R2, R3, V1, V2, t, h = sympy.symbols("m1 m2 R1 R2 R3 V1 V2 t h", positive=True)
    I1, I2, I3 = sympy.symbols("I1 I2 I3")
    single = [
        ([T - m * g - m * a], [T], {m: "640 kg", g: "9.8 m/s**2", a: "0.75 m/s**2"}),
        ([E - m * v**2 / 2], [E], {m: "2.5 kg", v: "3.2 m/s"}),
        ([F - k * qa * qb / r**2], [r], {F: "3.6 N", k: "9e9 N*m**2/C**2", qa: "4 uC", qb: "2.5 uC"}),
        ([v**2 - u**2 - 2 * a * x], [v], {u: "3 m/s", a: "2 m/s**2", x: "12 m"}),
        ([V - current * R], [R], {V: "12 V", current: "0.4 A"}),
        ([1 / f - 1 / u - 1 / w], [w], {f: "10 cm", u: "15 cm"}),
        ([Ff - mu * N], [mu], {Ff: "1.3 N", N: "5.2 N"}),
        ([P - 2 * sympy.pi * sympy.sqrt(L / g)], [P], {L: "0.75 m", g: "9.8 m/s**2"}),
    ]
    harder = [
        (
            [T - f - m1 * a, m2 * g - T - m2 * a],
            [a, T],
            {m1: "14 kg", m2: "6 kg", f: "23 N", g: "9.8 m/s**2"},
        ),
        (
            [I1 + I2 - I3, V1 - I1 * R1 - I3 * R3, V2 - I2 * R2 - I3 * R3],
            [I1, I2, I3],
            {R1: "2 ohm", R2: "3 ohm", R3: "6 ohm", V1: "12 V", V2: "9 V"},
        ),
        ([x - u * t - a * t**2 / 2], [t], {x: "200 m", u: "10 m/s", a: "2 m/s**2"}),
        ([-h - v * t + g * t**2 / 2], [t], {h: "23.5 m", v: "14.6 m/s", g: "9.8 m/s**2"}),
    ]
    rows = []
    ours = [(data, (formula,), (find,)) for data, formula, find in SINGLE]
    for name, blocks, peers in (("one unknown", ours, single), ("sets, quadratics", HARDER, harder)):
        mine, theirs = _blocks(blocks), _peer(peers)
        mine()
        theirs()
        scale = 1000 / len(blocks)
        rows.append((name, best(mine, times) * scale, best(theirs, times) * scale))
    return rows


def main() -> int:
    """Run what is asked and print the table."""
    reader = argparse.ArgumentParser(description="Speed as ratios against a peer in the same run.")
    reader.add_argument("--times", type=int, default=5, help="runs of each, of which the least counts")
    times = reader.parse_args().times
    rows = []
    nothing, ours = filter_ratio(times)
    rows.append(
        (f"pandoc with the filter, {BLOCKS} blocks, against a filter that does nothing", ours, nothing, "s")
    )
    for name, mine, theirs in engine_ratios(times):
        rows.append(
            (f"one block ({name}), text to steps, against sympy.solve + lambdify + pint", mine, theirs, "ms")
        )
    width = max(len(row[0]) for row in rows)
    print(f"{'':{width}}  {'ours':>9}  {'peer':>9}  ratio")
    for name, own, peer, unit in rows:
        print(f"{name:{width}}  {own:7.2f} {unit:2} {peer:7.2f} {unit:2}  {own / peer:5.2f}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
