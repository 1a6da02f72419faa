"""What figures cost: a paper of 50 questions with 20 figures against the same paper without, in one run.

    python tests/benchmarks/figures.py [--times 3]

For each format the first build (nothing kept) and the next one (the cache filled), as seconds more than without
figures. Goals: at most 6 s more at first, at most 0.3 s more after that.
"""

from __future__ import annotations

import argparse
import os
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
field:
  q_1: +{m} nC at 0 cm, 0 cm
  q_2: -{m} nC at 6 cm, 0 cm
```
"""
_KINDS = (_FORCES, _GRAPH)
_CODE = "import sys; from physcalc_filter.cli import main; sys.exit(main(sys.argv[1:]))"


def paper(figures: int) -> str:
    """The paper, so many of its questions with a figure."""
    questions = []
    for n in range(1, 51):
        text = _QUESTION.format(n=n, m=n + 4)
        if n <= figures:
            text += _KINDS[n % len(_KINDS)].format(n=n, m=n + 4)
        questions.append(text)
    return _HEAD + "\n".join(questions)


def seconds(source: Path, target: Path, cache: Path) -> float:
    """How long one build takes, as a program of its own."""
    environment = {**os.environ, "PHYSCALC_CACHE": str(cache)}
    command = [sys.executable, "-c", _CODE, "build", str(source), "-o", str(target), "--edition", "memo"]
    start = time.perf_counter()
    subprocess.run(command, check=True, env=environment, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    return time.perf_counter() - start


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
        print(f"{'format':8}{'plain':>8}{'first':>8}{'more':>8}{'plain':>8}{'next':>8}{'more':>8}")
        for ending in ("pdf", "html", "docx", "tex"):
            firsts: dict[str, float] = {}
            nexts: dict[str, float] = {}
            for name in ("plain", "drawn"):
                runs, again = [], []
                for n in range(times):
                    cache = work / f"{ending}-{name}-{n}"
                    runs.append(seconds(work / f"{name}.md", work / f"out.{ending}", cache))
                    # One letter of the text differs, so that the page is made anew and only what is kept is taken.
                    changed = work / f"{name}-changed.md"
                    changed.write_text(
                        paper(0 if name == "plain" else 20).replace("at rest", f"at rest ({n})", 1)
                    )
                    again.append(seconds(changed, work / f"out.{ending}", cache))
                firsts[name], nexts[name] = statistics.median(runs), statistics.median(again)
            line = f"{ending:8}"
            for found in (firsts, nexts):
                line += f"{found['plain']:8.2f}{found['drawn']:8.2f}{found['drawn'] - found['plain']:8.2f}"
            print(line)


if __name__ == "__main__":
    main()
