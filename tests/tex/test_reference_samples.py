"""The samples of the section on LaTeX in the reference: each agrees, in every edition, or shows what its text says."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from physcalc_filter import pipeline
from physcalc_filter.document import EDITIONS
from physcalc_filter.sources import Source

from .conftest import HEAD, TAIL

REFERENCE = Path(__file__).parents[2] / "example_docs" / "reference.md"
_SECTION = re.compile(r"^## LaTeX\n(.*?)^## ", re.MULTILINE | re.DOTALL)
_SAMPLE = re.compile(r"^```latex\n(.*?)^```$", re.MULTILINE | re.DOTALL)


def samples() -> list[str]:
    found = _SECTION.search(REFERENCE.read_text(encoding="utf-8"))
    assert found is not None
    return _SAMPLE.findall(found[1])


@pytest.mark.parametrize("sample", samples())
def test_a_sample_agrees(sample: str, tmp_path: Path) -> None:
    text = sample if "\\documentclass" in sample else HEAD + sample + TAIL
    source = Source(str(tmp_path / "sample.tex"), text)
    told = [f"{problem.span.line}: {problem}" for problem in pipeline.check(source).problems]
    assert told == []
    for edition in EDITIONS:
        document, _ = pipeline.build(source, edition, "typst")
        assert document is not None
