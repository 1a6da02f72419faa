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
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

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


def engine_ratio(times: int) -> tuple[float, float]:
    """Milliseconds a block, from text to steps: sympy.solve with lambdify and pint, and ours."""
    import pint
    import sympy

    from physcalc.checking import Scope, read_given
    from physcalc.engine import calculate, constants_layer
    from physcalc.language import Calculation, GivenText
    from physcalc.problems import Span, Text
    from physcalc.sheets import load_sheet

    sheet = load_sheet("school")
    constants = constants_layer(sheet)

    def ours() -> None:
        for data, formula, find in SINGLE:
            scope = Scope((constants,))
            items = [GivenText(Text(name), Text(value)) for name, value in data.items()]
            calculation = Calculation(Span())
            layer, _ = read_given(items, scope, calculation.conventions)
            statement = Calculation(Span(), formulas=(Text(formula),), find=(Text(find),))
            outcome = calculate(statement, scope.inside(layer), sheet)
            assert outcome.working is not None

    registry = pint.UnitRegistry(non_int_type=Fraction)
    m, g, a, T, v, E, k, qa, qb, F, r = sympy.symbols("m g a T v E k qa qb F r", positive=True)
    u, x, V, current, R, f, w, mu, N, Ff, L, P = sympy.symbols("u x V I R f w mu N Ff L P", positive=True)
    peers = (
        (sympy.Eq(T - m * g, m * a), T, {m: "640 kg", g: "9.8 m/s**2", a: "0.75 m/s**2"}),
        (sympy.Eq(E, m * v**2 / 2), E, {m: "2.5 kg", v: "3.2 m/s"}),
        (sympy.Eq(F, k * qa * qb / r**2), r, {F: "3.6 N", k: "9e9 N*m**2/C**2", qa: "4 uC", qb: "2.5 uC"}),
        (sympy.Eq(v**2, u**2 + 2 * a * x), v, {u: "3 m/s", a: "2 m/s**2", x: "12 m"}),
        (sympy.Eq(V, current * R), R, {V: "12 V", current: "0.4 A"}),
        (sympy.Eq(1 / f, 1 / u + 1 / w), w, {f: "10 cm", u: "15 cm"}),
        (sympy.Eq(Ff, mu * N), mu, {Ff: "1.3 N", N: "5.2 N"}),
        (sympy.Eq(P, 2 * sympy.pi * sympy.sqrt(L / g)), P, {L: "0.75 m", g: "9.8 m/s**2"}),
    )

    def theirs() -> None:
        for equation, unknown, data in peers:
            values = {symbol: registry.Quantity(text).to_base_units() for symbol, text in data.items()}
            solution = sympy.solve(equation, unknown)[0]
            names = list(values)
            function = sympy.lambdify(names, solution)
            function(*(float(values[name].magnitude) for name in names))

    sympy.core.cache.clear_cache()
    theirs()
    ours()

    def cold() -> None:
        sympy.core.cache.clear_cache()
        theirs()

    def uncached() -> None:
        from physcalc.language import parser

        parser._parsed.cache_clear()
        ours()

    per_block = 1000 / len(SINGLE)
    return best(cold, times) * per_block, best(uncached, times) * per_block


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
    theirs, mine = engine_ratio(times)
    rows.append(("one block, text to steps, against sympy.solve + lambdify + pint", mine, theirs, "ms"))
    width = max(len(row[0]) for row in rows)
    print(f"{'':{width}}  {'ours':>9}  {'peer':>9}  ratio")
    for name, own, peer, unit in rows:
        print(f"{name:{width}}  {own:7.2f} {unit:2} {peer:7.2f} {unit:2}  {own / peer:5.2f}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
