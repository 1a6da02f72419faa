"""The example documents that are looked at in other programs, and their editions."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

EXAMPLES = Path(__file__).parent.parent.parent / "example_docs"
DOCUMENTS = (
    "mechanics_test",
    "electrostatics_guide",
    "circuits_worksheet",
    "practical_report",
    "diagrams_gallery",
)
EDITIONS = ("paper", "memo", "guide")

#: Paper, memo and guide of a document in a format, by the name of the edition.
Editions = Callable[[str, str], dict[str, Path]]
