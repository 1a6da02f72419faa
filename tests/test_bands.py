"""Bands of values with marks: overlaps, gaps, and the computed value in the best of them.

Overlapping bands are a defect that published schemes have shown (a graph's plotting marks, CAPE 2018); the rule
itself is common practice, no source.
"""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from physcalc_filter.cli import main

PAGE = """# Question 1 {{.question marks=2}}

```{{.calc}}
given:
  Δx: 18 m
  Δt: 2.0 s
formula: v = Δx / Δt
find: v in m/s to 1 dp
bands:
{bands}
```
"""


def _found(bands: str, folder: Path, capsys: pytest.CaptureFixture[str]) -> list[dict[str, object]]:
    path = folder / "page.md"
    lines = "\n".join("  " + line for line in bands.split("\n"))
    path.write_text(PAGE.format(bands=lines), encoding="utf-8")
    main(["check", str(path), "--format", "json"])
    found: list[dict[str, object]] = json.loads(capsys.readouterr().out)
    return found


@pytest.mark.parametrize(
    "bands",
    [
        "8.0 to 8.4 m/s: 1\n8.5 to 9.5 m/s: 2\n9.6 to 10.0 m/s: 1",
        "8.50 to 9.50 m/s: 2",
        # In another unit, 9.0 m/s = 32.4 km/h.
        "30.0 to 35.0 km/h: 2",
        # In any order.
        "9.6 to 10.0 m/s: 1\n8.5 to 9.5 m/s: 2",
    ],
)
def test_bands_that_fit(bands: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert _found(bands, tmp_path, capsys) == []


@pytest.mark.parametrize(
    ("bands", "slug", "said", "line"),
    [
        ("8.5 to 9.5 m/s: 2\n9.5 to 10.0 m/s: 1", "bands-unfit", "overlap", 11),
        ("8.5 to 9.5 m/s: 2\n9.7 to 10.0 m/s: 1", "bands-unfit", "gap", 11),
        ("9.5 to 10.0 m/s: 2\n8.5 to 9.4 m/s: 1", "bands-unfit", "no band with 2 marks", 11),
        ("8.5 to 9.5 m: 2", "unit-dimension-wrong", "", 10),
        ("9.5 to 8.5 m/s: 2", "phrase-unreadable", "", 10),
        ("2 %: 2", "phrase-unreadable", "", 10),
        ("8.5 to 9.5 m/s: two", "phrase-unreadable", "", 10),
    ],
)
def test_bands_that_do_not(
    bands: str, slug: str, said: str, line: int, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (problem,) = _found(bands, tmp_path, capsys)
    assert (problem["slug"], problem["line"]) == (slug, line)
    assert said in str(problem["sentence"])
