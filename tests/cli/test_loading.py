"""What a run on a plain document does without: libraries and rooms that only other documents need."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

PAPER = """\
---
title: A crate
lang: en-ZA
---

# Question 1 {.question marks=3}

A crate of mass `m`{.value} is pulled along the floor.

```{.given}
m: 12 kg
F: 30 N
```

```{.calc}
formula: F = m a
find: a in m/s^2 to 2 dp
```
"""

LIBRARIES = {
    "arrow", "contourpy", "inform", "lark", "mpmath", "nestedtext", "numpy", "pint", "pypandoc", "schemdraw",
    "sympy", "typst", "uncertainties",
}  # fmt: skip
#: Of Python's own, what takes as long to load as several rooms of ours.
SLOW = {"concurrent", "email", "http", "logging", "ssl", "urllib.request", "xml"}

ROOMS = {
    "physcalc.change", "physcalc.compare_parts", "physcalc.figures", "physcalc.language.lark_parser",
    "physcalc.options", "physcalc.sheets.storing", "physcalc.taken", "physcalc.units.registry",
    "physcalc_filter.document.grid", "physcalc_filter.document.tex", "physcalc_filter.figures",
    "physcalc_filter.latex", "physcalc_filter.outputs.archive", "physcalc_filter.outputs.reference_docx",
    "physcalc_filter.pairing", "physcalc_filter.problems.tex", "physcalc_filter.report.formats",
    "physcalc_filter.report.weights", "physcalc_filter.shelf.pool", "physcalc_filter.sources.tex",
}  # fmt: skip
#: What lays out and writes pages, which a check does not.
PAGES = {"physcalc_filter.editions", "physcalc_filter.outputs"}

CLI = "import sys\nfrom physcalc_filter.cli import main\ncode = main(sys.argv[1:])\n"
FILTER = "import sys\nfrom physcalc_filter.pandoc_entry import main\ncode = main(['html'])\n"
TOLD = "print(*sys.modules, file=sys.stderr)\nsys.exit(code)\n"


def loaded(program: str, *argv: str, folder: Path, given: bytes | None = None) -> set[str]:
    """The modules that a fresh process has loaded at its end, where no pandoc but pip's is to be found."""
    env = {name: value for name, value in os.environ.items() if name not in ("PATH", "PYPANDOC_PANDOC")}
    env["PYTHONPATH"] = os.pathsep.join(path for path in sys.path if path)
    done = subprocess.run(
        [sys.executable, "-c", program + TOLD, *argv], cwd=folder, env=env, input=given, capture_output=True
    )
    assert done.returncode == 0, done.stderr.decode()
    return set(done.stderr.decode().splitlines()[-1].split())


def needless(modules: set[str], unneeded: set[str]) -> set[str]:
    """Those of the modules that are, or lie in, one that is not needed."""
    return {one for one in modules for other in unneeded if one == other or one.startswith(f"{other}.")}


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "paper.md").write_text(PAPER, encoding="utf-8")
    return tmp_path


def test_a_check_of_a_plain_document(folder: Path) -> None:
    modules = loaded(CLI, "check", "paper.md", folder=folder)
    assert "physcalc.engine" in modules
    assert not needless(modules, LIBRARIES | SLOW | ROOMS | PAGES)


@pytest.mark.parametrize("name", ["memo.html", "memo.pdf"])
def test_a_build_of_a_plain_document(name: str, folder: Path) -> None:
    modules = loaded(CLI, "build", "paper.md", "--edition", "memo", "-o", name, folder=folder)
    assert (folder / name).is_file()
    assert not needless(modules, LIBRARIES | SLOW | ROOMS)


def test_the_filter_on_a_plain_document(folder: Path) -> None:
    import pypandoc

    command = [pypandoc.get_pandoc_path(), "paper.md", "--to", "json"]
    tree = subprocess.run(command, cwd=folder, check=True, capture_output=True).stdout
    modules = loaded(FILTER, folder=folder, given=tree)
    assert "physcalc.engine" in modules
    assert not needless(modules, LIBRARIES | SLOW | ROOMS | {"physcalc_filter.outputs"})
