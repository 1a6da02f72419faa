"""Word files against the schemas of Office Open XML (ECMA-376), by the validator of Microsoft's Open XML SDK."""

from __future__ import annotations

import json
import subprocess
from pathlib import Path

import pytest
from physcalc_filter.cli import main

from ..programs import ooxml_validator

EXAMPLES = Path(__file__).parents[2] / "example_docs"

#: Everything that a page may hold: words in formulas, figures, tables, a grid, options, frames of problems.
MADE = (
    ("mechanics_test.md", "paper", ()),
    ("mechanics_test.md", "memo", ()),
    ("mechanics_test.md", "guide", ()),
    ("mechanics_test.tex", "memo", ()),
    ("electrostatics_guide.md", "guide", ()),
    ("circuits_worksheet.md", "memo", ()),
    ("practical_report.md", "memo", ()),
    ("diagrams_gallery.md", "memo", ()),
    ("deliberately_wrong.md", "memo", ("--draft",)),
)


def faults(made: Path) -> list[dict[str, str]]:
    """What the validator has to say of a file."""
    command = [str(ooxml_validator()), str(made), "--officeVersion", "Microsoft365"]
    told = json.loads(subprocess.run(command, capture_output=True, timeout=60).stdout)
    found: list[dict[str, str]] = told["errors"]
    assert told["ok"] == (not found)
    return found


@pytest.mark.parametrize(("source", "edition", "options"), MADE)
def test_a_word_file_keeps_to_the_schema(
    source: str, edition: str, options: tuple[str, ...], tmp_path: Path
) -> None:
    ooxml_validator()  # Where there is none, nothing is made in vain.
    made = tmp_path / "made.docx"
    assert main(["build", str(EXAMPLES / source), "--edition", edition, *options, "-o", str(made)]) in (0, 1)
    assert faults(made) == []


def test_a_file_that_does_not_keep_to_the_schema_is_told(tmp_path: Path) -> None:
    from physcalc_filter.outputs.archive import unzipped, zipped

    made = tmp_path / "made.docx"
    main(["build", str(EXAMPLES / "circuits_worksheet.md"), "--edition", "paper", "-o", str(made)])
    parts = unzipped(made.read_bytes())
    body = parts["word/document.xml"]
    parts["word/document.xml"] = body.replace(b"<w:body>", b"<w:body><w:tc/>", 1)
    made.write_bytes(zipped(parts))
    assert faults(made)
