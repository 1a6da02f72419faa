"""The same document is the same bytes: whatever the seed of hashes, the time zone, the locale, the folder, the day."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

from ..programs import program

FORMATS = "pdf,html,docx,epub,tex,typ,md"
DOCUMENT = """---
title: Same bytes
author: A. Nobody
lang: en-ZA
physcalc:
  sheet: school
  appendix: used
---

# Question 1 {.question #lift marks=5}

A lift has a mass of `m`{.value}, and [6 272,00 N]{.value of=W} is its weight.

```{.given}
m: 640 kg
a: 0.75 m/s^2
W: m g
```

::: {.question marks=4}
Calculate the tension.

```{.calc}
use: newton-2
formula: T - m g = m a
find: T in N
or:
  -
    formula: T = m (g + a)
slips:
  forgot the weight: T = m a
accept: 2 %
```
:::

::: {.question marks=1}
Draw the forces.

```{.draw}
forces:
  T: up
  F_g: m g, down
key:
  T: tension
  F_g: weight
marks: 1
```
:::
"""


def built(folder: Path, **environment: str) -> dict[str, bytes]:
    folder.mkdir()
    (folder / "test.md").write_text(DOCUMENT, encoding="utf-8")
    code = "import sys; from physcalc_filter.cli import main; sys.exit(main(sys.argv[1:]))"
    command = [sys.executable, "-c", code, "build", "test.md", "--all", "-o", "out", "--formats", FORMATS]
    kept = {name: value for name, value in os.environ.items() if name != "SOURCE_DATE_EPOCH"}
    done = subprocess.run(
        command, cwd=folder, env={**kept, **environment}, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    return {path.name: path.read_bytes() for path in sorted((folder / "out").iterdir())}


def test_every_format_and_edition(tmp_path: Path) -> None:
    temporary = tmp_path / "temporary files"
    temporary.mkdir()
    one = built(tmp_path / "one", PYTHONHASHSEED="1", TZ="Pacific/Kiritimati", LC_ALL="C.UTF-8")
    two = built(
        tmp_path / "another folder", PYTHONHASHSEED="77", TZ="America/Adak", LC_ALL="C", TMPDIR=str(temporary)
    )
    assert len(one) == 21
    assert one.keys() == two.keys()
    assert [name for name in one if one[name] != two[name]] == []


def test_the_clock_is_in_no_output(tmp_path: Path) -> None:
    """A day two years off, by a library that shifts the clock of a program, changes no byte."""
    faketime = program("faketime")
    folder = tmp_path / "one"
    now = built(folder)
    code = "import sys; from physcalc_filter.cli import main; sys.exit(main(sys.argv[1:]))"
    command = [
        faketime,
        "2031-05-04 03:02:01",
        sys.executable,
        "-c",
        code,
        "build",
        "test.md",
        "--all",
        "-o",
        "later",
    ]
    done = subprocess.run(
        [*command, "--formats", FORMATS], cwd=folder, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    later = {path.name: path.read_bytes() for path in sorted((folder / "later").iterdir())}
    assert [name for name in now if now[name] != later[name]] == []
