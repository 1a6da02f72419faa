"""Speed as ratios against a peer measured in the same run: `python tests/benchmarks/run.py`.

Nothing here passes or fails; the table is read by a person. Each figure is the least of several runs, which is
what the machine can do when nothing else is going on. `--keep` writes the table into `results.md`, for a release.
"""

from __future__ import annotations

import argparse
import os
import platform
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date
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


def document(blocks: int = BLOCKS) -> str:
    """A paper of so many calculations."""
    parts = ["---\ntitle: Benchmark\nlang: en-ZA\n---\n"]
    for number in range(blocks):
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


#: What the table's rows mean.
NOTES = """\
The peer of the filter is `pandoc paper.md --filter nothing.py -o out.html`, whose filter is panflute's with an
action that does nothing, on the same paper; ours writes the memo. "Nothing kept" is with `PHYSCALC_CACHE=off`, "answer
kept" is the same document once more. Where our filter has run, no block of code is left in the paper, and pandoc does
not load its syntax definitions, which takes it longer than the paper; so there are rows without them, too. What a run
with a kept answer then takes beyond the peer is pandoc's own, for the working that it has to write.

The peer of a check is the same run of pandoc; that of a build writes the paper, without a memo, as Typst and has Typst
set it. "One number changed" is the next build after an edit: calculations are not kept one by one, since to read one
back takes as long as to do it (all 300 of them take some 0.2 s of the run). The peer of a block is `sympy.solve` with
`lambdify` and pint.

"""


@dataclass(frozen=True, slots=True)
class Row:
    """A row of the table.

    Attributes:
        what: what is measured.
        ours, peer: the two figures, in one unit.
        unit: that unit: "s", "ms" or "MB".
        goal: the ratio, or for memory the difference, that is wanted; empty for none.
        difference: whether the last column holds the difference of the two.
    """

    what: str
    ours: float
    peer: float
    unit: str
    goal: str = ""
    difference: bool = False

    @property
    def outcome(self) -> str:
        return f"+{self.ours - self.peer:.0f} MB" if self.difference else f"{self.ours / self.peer:.2f}"


class Filters:
    """Papers, and pandoc with a filter that does nothing, with ours without a store, and with ours and a filled one."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        (folder / "nothing.py").write_text(
            "import panflute\npanflute.run_filter(lambda element, document: None)\n", encoding="utf-8"
        )
        (folder / "ours.py").write_text(
            "import sys\nfrom physcalc_filter.pandoc_entry import main\nsys.exit(main())\n", encoding="utf-8"
        )
        (folder / "check.py").write_text(
            "import sys\nfrom physcalc_filter.cli import main\nsys.exit(main(sys.argv[1:]))\n",
            encoding="utf-8",
        )
        # As where pip has installed the program: what Python compiled is there.
        self.env = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
        self.env["PYTHONPYCACHEPREFIX"] = str(folder / "compiled")
        self.env["PYTHONPATH"] = os.pathsep.join(path for path in sys.path[1:] if path)

    def paper(self, blocks: int) -> str:
        """The name of a paper of so many blocks."""
        name = f"paper{blocks}.md"
        (self.folder / name).write_text(document(blocks), encoding="utf-8")
        return name

    def run(self, command: Sequence[str], kept: bool, data: bytes | None = None) -> bytes:
        env = {**self.env, "PHYSCALC_CACHE": str(self.folder / "cache") if kept else "off"}
        return subprocess.run(
            command, cwd=self.folder, env=env, input=data, check=True, capture_output=True, timeout=600
        ).stdout

    def pandoc(self, paper: str, script: str, kept: bool = False, options: Sequence[str] = ()) -> None:
        command = [PANDOC, paper, "--filter", script, "-M", "edition=memo", "-o", "out.html", *options]
        self.run(command, kept)

    def three(self, paper: str, times: int, options: Sequence[str] = ()) -> tuple[float, float, float]:
        """Seconds with the filter that does nothing, with ours cold, and warm; the three take turns."""
        taken: tuple[list[float], list[float], list[float]] = ([], [], [])
        self.pandoc(paper, "ours.py", kept=True, options=options)
        for _ in range(times):
            taken[0].append(timed(lambda: self.pandoc(paper, "nothing.py", options=options)))
            taken[1].append(timed(lambda: self.pandoc(paper, "ours.py", options=options)))
            taken[2].append(timed(lambda: self.pandoc(paper, "ours.py", kept=True, options=options)))
        return min(taken[0]), min(taken[1]), min(taken[2])

    def builds(self, paper: str, times: int) -> list[Row]:
        """A memo as PDF: nothing kept, kept, and with one number changed since; against pandoc and Typst alone."""
        (self.folder / "typeset.py").write_text(
            "import sys, typst\ntypst.compile(sys.argv[1], output='peer.pdf', ignore_system_fonts=True)\n",
            encoding="utf-8",
        )
        text = (self.folder / paper).read_text(encoding="utf-8")
        command = [sys.executable, "check.py", "build", paper, "-o", "memo.pdf", "--edition", "memo"]

        def peer() -> None:
            self.run([PANDOC, paper, "--filter", "nothing.py", "-s", "-o", "peer.typ"], False)
            self.run([sys.executable, "typeset.py", "peer.typ"], False)

        def edited(number: int) -> None:
            changed = text.replace("m: 640 kg", f"m: {700 + number} kg", 1)
            (self.folder / paper).write_text(changed, encoding="utf-8")
            self.run(command, True)

        taken: tuple[list[float], ...] = ([], [], [], [])
        for number in range(times):
            (self.folder / paper).write_text(text, encoding="utf-8")
            taken[0].append(timed(peer))
            taken[1].append(timed(lambda: self.run(command, False)))
            self.run(command, True)
            taken[2].append(timed(lambda: self.run(command, True)))
            taken[3].append(timed(lambda number=number: edited(number)))
        alone, *ours = map(min, taken)
        whats = ("nothing kept", "output kept", "one number changed")
        return [
            Row(f"physcalc build, {BLOCKS} blocks, {what}", one, alone, "s")
            for what, one in zip(whats, ours, strict=True)
        ]

    def memory(self, paper: str, script: str) -> float:
        """The most memory of the filter's own process, in MB."""
        tree = self.run([PANDOC, paper, "-t", "json", "-M", "edition=memo"], False)
        measured = (
            "import resource, runpy, sys\nsys.argv = [sys.argv[1], 'html']\n"
            "try:\n    runpy.run_path(sys.argv[0], run_name='__main__')\nexcept SystemExit:\n    pass\n"
            "most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss\n"
            "open('most', 'w').write(str(most * (1 if sys.platform == 'darwin' else 1024)))\n"
        )
        self.run([sys.executable, "-c", measured, script], False, tree)
        return int((self.folder / "most").read_text(encoding="utf-8")) / 1e6


def timed(run: Callable[[], object]) -> float:
    """How many seconds a run takes."""
    start = time.perf_counter()
    run()
    return time.perf_counter() - start


def filter_rows(times: int) -> list[Row]:
    """The filter and the check against pandoc with a filter that does nothing, on the same papers."""
    with tempfile.TemporaryDirectory() as name:
        runs = Filters(Path(name))
        small, middle, large = runs.paper(1), runs.paper(BLOCKS), runs.paper(10 * BLOCKS)
        nothing, cold, warm = runs.three(middle, times)
        rows = [
            Row(f"pandoc with the filter, {BLOCKS} blocks, nothing kept", cold, nothing, "s", "≤ 1.5"),
            Row(f"pandoc with the filter, {BLOCKS} blocks, answer kept", warm, nothing, "s", "≤ 1.15"),
        ]
        one_nothing, one_cold, one_warm = runs.three(small, times)
        rows += [
            Row("pandoc with the filter, 1 block, nothing kept", one_cold, one_nothing, "s", "≤ 2.0"),
            Row("pandoc with the filter, 1 block, answer kept", one_warm, one_nothing, "s"),
        ]
        # Where no block of code is left, pandoc need not load its syntax definitions. Without them on either side:
        plain = ["--syntax-highlighting=none"]
        for paper, count in ((middle, BLOCKS), (small, 1)):
            bare, bare_cold, bare_warm = runs.three(paper, times, plain)
            what = f"the same, {count} block{'s' if count > 1 else ''}, pandoc without syntax highlighting"
            rows += [Row(f"{what}, nothing kept", bare_cold, bare, "s")]
            rows += [Row(f"{what}, answer kept", bare_warm, bare, "s")]
        for script in ("nothing.py", "ours.py"):
            runs.memory(small, script)
        least = runs.memory(middle, "nothing.py")
        rows.append(
            Row(
                "most memory of the filter's process",
                runs.memory(middle, "ours.py"),
                least,
                "MB",
                "≤ +120 MB",
                True,
            )
        )
        few = max(1, times // 3)
        rows.append(
            Row(
                f"the filter, {10 * BLOCKS} blocks against {BLOCKS}",
                best(lambda: runs.pandoc(large, "ours.py"), few),
                cold,
                "s",
                "≤ 11",
            )
        )
        check = [sys.executable, "check.py", "check", middle]
        for kept in (False, True):
            runs.run(check, kept)
            what = f"physcalc check, {BLOCKS} blocks, {'answer' if kept else 'nothing'} kept"
            rows.append(Row(what, best(lambda kept=kept: runs.run(check, kept), times), nothing, "s"))
        return rows + runs.builds(middle, times)


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


def machine() -> str:
    """What the figures were measured on."""
    cpu = platform.processor() or platform.machine()
    info = Path("/proc/cpuinfo")
    if info.is_file():
        models = [
            line for line in info.read_text(encoding="utf-8").splitlines() if line.startswith("model name")
        ]
        cpu = models[0].partition(":")[2].strip() if models else cpu
    return (
        f"{cpu}, {os.cpu_count()} cores; {platform.system()}; Python {platform.python_version()}; "
        f"pandoc {pypandoc.get_pandoc_version()}"
    )


def table(rows: Sequence[Row]) -> str:
    """The rows as a Markdown table."""
    cells = [("", "ours", "peer", "ratio", "goal"), ("---", "--:", "--:", "--:", "--:")]
    for row in rows:
        figures = [f"{value:.{0 if row.unit == 'MB' else 2}f} {row.unit}" for value in (row.ours, row.peer)]
        cells.append((row.what, *figures, row.outcome, row.goal))
    widths = [max(len(row[column]) for row in cells) for column in range(5)]
    return "".join(
        "| "
        + " | ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip()
        + " |\n"
        for row in cells
    )


def main() -> int:
    """Run what is asked and print the table."""
    reader = argparse.ArgumentParser(description="Speed as ratios against a peer in the same run.")
    reader.add_argument("--times", type=int, default=7, help="runs of each, of which the least counts")
    reader.add_argument("--keep", action="store_true", help="write the table into results.md")
    asked = reader.parse_args()
    rows = filter_rows(asked.times)
    for name, mine, theirs in engine_ratios(asked.times):
        rows.append(Row(f"one block ({name}), text to steps, against sympy.solve", mine, theirs, "ms"))
    print(machine())
    print(table(rows), end="")
    if asked.keep:
        told = f"# Measured {date.today().isoformat()}\n\n{machine()}. The least of {asked.times} runs.\n\n"
        (Path(__file__).with_name("results.md")).write_text(told + NOTES + table(rows), encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
