"""The language reference runs: every example in it is a document that checks clean, or shows the problem it says."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from physcalc_filter.document.drawings import circuit, drawing, field, forces, graph, situation
from physcalc_filter.document.keys import CALCULATION_KEYS, OPTIONS_KEYS
from physcalc_filter.pipeline import build, check
from physcalc_filter.settings import SETTING_NAMES
from physcalc_filter.sources import read_source

REFERENCE = Path(__file__).parent.parent / "example_docs" / "reference.md"
_EXAMPLE = re.compile(
    r"^````\{\.example(?P<attributes>[^}]*)\}\n(?P<body>.*?)^````$", re.MULTILINE | re.DOTALL
)
_FRONT = "---\nlang: en-ZA\nphyscalc:\n  sheet: school\n---\n\n"


def _examples() -> list[tuple[int, str | None, bool, str]]:
    text = REFERENCE.read_text(encoding="utf-8")
    found = []
    for example in _EXAMPLE.finditer(text):
        line = text.count("\n", 0, example.start()) + 1
        problem = re.search(r'problem="([\w-]+)"', example["attributes"])
        strict = 'strict="yes"' in example["attributes"]
        found.append((line, problem[1] if problem else None, strict, example["body"]))
    return found


EXAMPLES = _examples()


def test_the_reference_has_examples() -> None:
    assert len(EXAMPLES) >= 25


@pytest.mark.parametrize(
    ("line", "problem", "strict", "body"), EXAMPLES, ids=[f"line-{line}" for line, *_ in EXAMPLES]
)
def test_example(line: int, problem: str | None, strict: bool, body: str, tmp_path: Path) -> None:
    path = tmp_path / "example.md"
    path.write_text(body if body.startswith("---") else _FRONT + body, encoding="utf-8")
    source = read_source(path, "example.md")
    report = check(source, folder=tmp_path, strict=strict)
    slugs = [found.slug for found in report.problems if found.level != "note"]
    said = [f"{p.span.line}: {p}" for p in report.problems if p.level != "note"]
    assert slugs == ([problem] if problem else []), f"reference line {line}: {said}"
    if problem is None:
        for edition in ("paper", "memo", "guide"):
            document, _ = build(source, edition, "html", folder=tmp_path)  # type: ignore[arg-type]
            assert document is not None


def _anchors(text: str) -> set[str]:
    """The anchors of headings outside of examples, as pandoc and code hosts make them."""
    outside = re.sub(r"^(````?).*?^\1$", "", text, flags=re.MULTILINE | re.DOTALL)
    headings = re.findall(r"^#+ (.+)$", outside, re.MULTILINE)
    return {re.sub(r"[^\w\- ]", "", heading).strip().lower().replace(" ", "-") for heading in headings}


def test_links_within_the_reference_lead_somewhere() -> None:
    text = REFERENCE.read_text(encoding="utf-8")
    links = set(re.findall(r"\]\(#([^)]+)\)", text))
    assert len(links) > 30
    assert links <= _anchors(text)


def test_the_index_has_every_key() -> None:
    index = REFERENCE.read_text(encoding="utf-8").partition("\n# Index of keys\n")[2]
    listed = set(re.findall(r"^\| `([^`]+)`", index, re.MULTILINE))
    figures = (circuit, field, forces, graph, situation)
    keys = {*CALCULATION_KEYS, *OPTIONS_KEYS, *drawing.SHARED_KEYS, *SETTING_NAMES}
    assert keys.union(*(figure.KEYS for figure in figures)) <= listed
