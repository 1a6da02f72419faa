"""What figures cost: a paper of 50 questions with 20 figures against the same paper without, in one run.

    python tests/benchmarks/figures.py [--times 3]

For each format the first build (nothing kept) and the next one (the cache filled), as seconds more than without
figures, of the clock and, in brackets, of the processors. The figures are of all kinds in turn. Goals: at most 0.3 s
more at first, and less after that.
"""

from __future__ import annotations

import argparse
import os
import resource
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

_HEAD = "---\nlang: en\nphyscalc:\n  sheet: school\n---\n\n"
_QUESTION = """# Question {n} {{.question #q{n} marks=3}}

A crate of mass [{m} kg]{{.value of=m}} is at rest on a slope of 30°.

```{{.given}}
m: {m} kg
```

```{{.calc}}
formula: f = m g sin(30°)
find: f in N
```
"""
_FORCES = """
```{{.draw}}
forces:
  F_g: m g, down
  N: m g cos(30°), perpendicular to the slope
  f: up the slope
slope: 30°
components: F_g
key:
  F_g: weight
  f: friction
```
"""
_GRAPH = """
```{{.draw}}
graph: s against t
points:
  - t in s, s in m
  - 0.0, 0.{n}
  - 1.0, 2.{n}
  - 2.0, 4.3
  - 3.0, 6.1
fit: line
gradient: v_{n}
paper: grid
```
"""
_FIELD = """
```{{.draw}}
given:
  q_1: {m} nC
  q_2: -{n} nC
field:
  - charge q_1 = 8 nC
  - charge q_2 = -{k} nC, {m} cm right of q_1
```
"""
_CIRCUIT = """
```{{.draw}}
circuit: battery (ε, r) with V, switch S, A, (R_1 | R_2), R_3
given:
  ε: 9.0 V
  r: 0.50 Ω
  R_1: {m} Ω
  R_2: 1{n} Ω
  R_3: 3.0 Ω
```
"""
_SITUATION = """
```{{.draw}}
situation:
  - incline {m}°
  - crate m on the rough incline
  - force F = {n} N on m, up the slope
```
"""
_KINDS = (_FORCES, _GRAPH, _FIELD, _CIRCUIT, _SITUATION)
_CODE = "import sys; from physcalc_filter.cli import main; sys.exit(main(sys.argv[1:]))"


def paper(figures: int) -> str:
    """The paper, so many of its questions with a figure."""
    questions = []
    for n in range(1, 51):
        text = _QUESTION.format(n=n, m=n + 4)
        if n <= figures:
            text += _KINDS[n % len(_KINDS)].format(n=n, m=n + 4, k=1 + n % 8)
        questions.append(text)
    return _HEAD + "\n".join(questions)


def seconds(source: Path, target: Path, cache: Path) -> tuple[float, float]:
    """How long one build takes, as a program of its own: by the clock, and of the processors."""
    environment = {**os.environ, "PHYSCALC_CACHE": str(cache)}
    command = [sys.executable, "-c", _CODE, "build", str(source), "-o", str(target), "--edition", "memo"]
    start, before = time.perf_counter(), resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run(command, check=True, env=environment, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    worked = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    return time.perf_counter() - start, worked


def main() -> None:
    """Print a line for each format."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--times", type=int, default=3)
    times = parser.parse_args().times
    with tempfile.TemporaryDirectory() as folder:
        work = Path(folder)
        for name, figures in (("plain", 0), ("drawn", 20)):
            (work / f"{name}.md").write_text(paper(figures), encoding="utf-8")
        print(f"{'format':8}{'first':>16}{'more':>16}{'next':>16}{'more':>16}")
        for ending in ("pdf", "html", "docx", "tex"):
            found: dict[str, list[list[tuple[float, float]]]] = {}
            for name in ("plain", "drawn"):
                runs, again = [], []
                for n in range(times):
                    cache = work / f"{ending}-{name}-{n}"
                    runs.append(seconds(work / f"{name}.md", work / f"out.{ending}", cache))
                    # One letter of the text differs, so that the page is made anew and only what is kept is taken.
                    changed = work / f"{name}-changed.md"
                    text = paper(0 if name == "plain" else 20).replace("at rest", f"at rest ({n})", 1)
                    changed.write_text(text, encoding="utf-8")
                    again.append(seconds(changed, work / f"out.{ending}", cache))
                found[name] = [runs, again]
            line = f"{ending:8}"
            for at in (0, 1):
                drawn, plain = (
                    tuple(statistics.median(one[of] for one in found[name][at]) for of in (0, 1))
                    for name in ("drawn", "plain")
                )
                for pair in (drawn, tuple(a - b for a, b in zip(drawn, plain, strict=True))):
                    line += f"{pair[0]:9.2f} ({pair[1]:4.2f})"
            print(line)


if __name__ == "__main__":
    main()
