"""The practical report among the example documents, its results worked out again with `uncertainties` alone."""

from __future__ import annotations

from math import pi
from pathlib import Path
from typing import Any

import pytest
from physcalc_filter import pipeline
from physcalc_filter.sources import read_source
from uncertainties import std_dev, ufloat

REPORT = Path(__file__).parents[2] / "example_docs" / "practical_report.md"


def stringified(edition: str) -> str:
    built, report = pipeline.build(read_source(REPORT, "report.md"), edition, "plain")  # type: ignore[arg-type]
    assert [str(problem) for problem in report.problems] == []
    text: str = __import__("panflute").stringify(built)
    return text.replace("\u00a0", " ").replace("\u202f", " ")


def half_widths(quantity: Any) -> float:
    """What the parts add up to: the rule of thumb."""
    return sum(abs(part) for part in quantity.error_components().values())


def test_pendulum() -> None:
    times = [ufloat(t, 0.1) for t in (20.1, 19.9, 20.2, 19.9, 20.0)]
    mean = sum(times) / 5
    g = 4 * pi**2 * ufloat(0.994, 0.002) / (mean / 10) ** 2
    assert (f"{mean.n:.2f}", f"{std_dev(mean):.2f}") == ("20.02", "0.04")
    assert (f"{g.n:.2f}", f"{std_dev(g):.2f}", f"{100 * std_dev(g) / g.n:.2f}") == ("9.79", "0.05", "0.49")
    memo = stringified("memo")
    for said in (
        r"(\text{20,02} \pm \text{0,04})\,\text{s}",
        r"(\text{9,79} \pm \text{0,05})\,",
        r"\text{0,49}\,\text{\%}",
    ):
        assert said in memo


def test_wire() -> None:
    r = ufloat(1.25, 0.02) / ufloat(0.46, 0.01)
    length = ufloat(0.750, 0.002)
    rho = r * pi * ufloat(0.40e-3, 0.012e-3) ** 2 / (4 * length)
    reel = r * ufloat(3.20, 0.01) / length
    assert (f"{r.n:.2f}", f"{half_widths(r):.2f}") == ("2.72", "0.10")
    assert (f"{rho.n:.1e}", f"{half_widths(rho):.0e}") == ("4.6e-07", "5e-08")
    assert (f"{reel.n:.1f}", f"{half_widths(reel):.1f}") == ("11.6", "0.5")
    memo = stringified("memo")
    for said in (
        r"(\text{2,72} \pm \text{0,10})\,",
        r"(\text{4,6} \pm \text{0,5}) \times 10^{-7}",
        r"(\text{11,6} \pm \text{0,5})\,",
    ):
        assert said in memo


def test_the_paper_gives_nothing_away() -> None:
    paper = stringified("paper")
    for said in ("(0,994 ± 0,002) m", "0,750 m ± 2 mm", "0,40 mm ± 3 %"):
        assert said in paper
    for answer in ("20,02", "9,79", "2,72", "11,6", "136,74"):
        assert answer not in paper


@pytest.mark.parametrize("format", ["typst", "html", "docx", "latex", "markdown"])
@pytest.mark.parametrize("edition", ["paper", "memo", "guide"])
def test_every_edition_is_made(edition: str, format: str) -> None:
    built, report = pipeline.build(read_source(REPORT, "report.md"), edition, format)  # type: ignore[arg-type]
    assert not report.problems
    assert built is not None
