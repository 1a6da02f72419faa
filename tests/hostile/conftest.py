"""Documents for the attacks, and the program run on them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest
from physcalc_filter.cli import main

#: Typst that goes round for an hour or so.
ENDLESS = (
    "#for a in range(9999) { for b in range(9999) { for c in range(9999) { let x = calc.sqrt(a * b * c) } } }"
)
#: A picture of one black pixel (Netpbm's own would not do: no output takes it).
SVG = '<svg xmlns="http://www.w3.org/2000/svg" width="1" height="1"><rect width="1" height="1"/></svg>'


def question(given: list[str], calc: list[str], front: str = "sheet: school", more: str = "") -> str:
    """A document with one calculation."""
    return "\n".join(
        [
            "---", "physcalc:", f"  {front}", "---", "", "# Question 1 {.question #one marks=3}", "", "Calculate.", "",
            "```{.given}", *given, "```", "", "```{.calc}", *calc, "```", "", more, "",
        ]
    )  # fmt: skip


@dataclass(frozen=True)
class Run:
    """What came of a command.

    Attributes:
        code: the exit code.
        said: both streams.
    """

    code: int
    said: str


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An empty folder that is the working folder, with another one beside it that holds what is none of ours."""
    here = tmp_path / "sent to me"
    here.mkdir()
    (tmp_path / "mine").mkdir()
    monkeypatch.chdir(here)
    monkeypatch.delenv("PHYSCALC_DEBUG", raising=False)
    return here


@pytest.fixture
def physcalc(folder: Path, capsys: pytest.CaptureFixture[str]) -> Callable[..., Run]:
    """The program, which never has a fault and never shows a traceback."""

    def run(*argv: str) -> Run:
        code = main(list(argv))
        said = "".join(capsys.readouterr())
        assert code in (0, 1, 2)
        assert "physcalc itself has a fault here" not in said, said
        assert "Traceback" not in said, said
        return Run(code, said)

    return run
