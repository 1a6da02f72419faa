"""What the tests of LaTeX documents share: a folder with files, checked."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from physcalc_filter import pipeline
from physcalc_filter.sources import read_source

#: A body is put between these two.
HEAD = "\\documentclass{article}\n\\usepackage{physcalc}\n\\physsetup{lang=en-ZA}\n\\begin{document}\n"
TAIL = "\n\\end{document}\n"
#: How many lines stand above a body.
ABOVE = HEAD.count("\n")

Told = list[tuple[str, str, int, int]]


@pytest.fixture
def told(tmp_path: Path) -> Callable[..., Told]:
    """Checks a body, among other files: what is wrong as file, slug, line of the body (in its file) and column."""

    def run(body: str, /, *, strict: bool = False, **files: str) -> Told:
        for name, text in files.items():
            path = tmp_path / name.replace("__", "/").replace("_tex", ".tex")
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding="utf-8")
        main = tmp_path / "main.tex"
        main.write_text(HEAD + body + TAIL, encoding="utf-8")
        report = pipeline.check(read_source(main), strict=strict)
        found = []
        for problem in report.problems:
            span = problem.span
            name = str(Path(span.file).relative_to(tmp_path))
            line = span.line - (ABOVE if name == "main.tex" else 0)
            assert problem.sentence()
            found.append((name, problem.slug, line, span.column))
        return found

    return run
