"""Pages against the HTML standard (WHATWG), by the Nu Html Checker."""

from __future__ import annotations

import json
import subprocess
from pathlib import Path

from physcalc_filter.cli import main

from ..programs import html_checker, program

EXAMPLES = Path(__file__).parents[2] / "example_docs"

#: The checker does not know this property of MathML Core (W3C), 4.2, which browsers do.
_UNKNOWN_TO_IT = ".*math-style.*"


def faults(*pages: Path) -> list[str]:
    """What the checker calls an error in some pages."""
    command = [program("java"), "-jar", str(html_checker()), "--format", "json", "--errors-only"]
    command += ["--exit-zero-always", "--filterpattern", _UNKNOWN_TO_IT, *map(str, pages)]
    told = json.loads(subprocess.run(command, capture_output=True, timeout=120).stderr)
    return [f"{found['url']}:{found.get('lastLine')}: {found['message']}" for found in told["messages"]]


def test_pages_keep_to_the_standard(tmp_path: Path) -> None:
    html_checker()  # Where there is none, nothing is made in vain.
    pages = []
    for source in sorted(EXAMPLES.glob("*.md")):
        if source.name == "reference.md":
            continue
        for edition in ("paper", "memo", "guide"):
            page = tmp_path / f"{source.stem}-{edition}.html"
            assert main(["build", str(source), "--draft", "--edition", edition, "-o", str(page)]) in (0, 1)
            pages.append(page)
    assert len(pages) > 10
    assert faults(*pages) == []


def test_a_page_that_does_not_is_told(tmp_path: Path) -> None:
    page = tmp_path / "page.html"
    page.write_text(
        "<!DOCTYPE html><html lang=en><title>x</title><table><tr><td colspan=3>x</table>", encoding="utf-8"
    )
    assert len(faults(page)) == 1
