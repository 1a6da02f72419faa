"""The example documents in all editions, each built once for all tests that look at it."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from tempfile import mkdtemp

from physcalc_filter.cli import main

EXAMPLES = Path(__file__).parent.parent.parent / "example_docs"
DOCUMENTS = (
    "mechanics_test",
    "electrostatics_guide",
    "circuits_worksheet",
    "practical_report",
    "diagrams_gallery",
)
EDITIONS = ("paper", "memo", "guide")


@cache
def editions(name: str, format: str) -> dict[str, Path]:
    """Paper, memo and guide of a document, by the name of the edition."""
    # The system clears its temporary folder; pytest's own is another for each test.
    folder = Path(mkdtemp(prefix="physcalc-test-"))
    assert main(["build", str(EXAMPLES / f"{name}.md"), "--all", "-o", str(folder), "--formats", format]) == 0
    return {edition: folder / f"{name}-{edition}.{format}" for edition in EDITIONS}
