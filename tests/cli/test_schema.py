"""The schemas for editors: valid files pass, misspelt ones do not, and nothing that is read is missing."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest
import yaml
from jsonschema import Draft202012Validator
from physcalc_filter import pipeline
from physcalc_filter.cli import main
from physcalc_filter.settings import SETTING_NAMES, Settings
from physcalc_filter.settings.table import NUMBERS, TABLE
from physcalc_filter.sources import Source

from physcalc.sheets import read_sheet
from physcalc.sheets.contents import SHEET_KEYS
from physcalc.sheets.entries import CONSTANT_KEYS, DEFINITION_KEYS, LAW_KEYS

ROOT = Path(__file__).parents[2]
BUILTIN = sorted((ROOT / "physcalc" / "sheets" / "builtin").glob("*.yaml"))
DOCUMENTS = sorted((ROOT / "example_docs").glob("*.md"))


def schema(which: str, capsys: pytest.CaptureFixture[str]) -> dict[str, Any]:
    assert main(["schema", which]) == 0
    printed = json.loads(capsys.readouterr().out)
    Draft202012Validator.check_schema(printed)
    assert isinstance(printed, dict)
    return printed


@pytest.fixture
def front(capsys: pytest.CaptureFixture[str]) -> Draft202012Validator:
    return Draft202012Validator(schema("front-matter", capsys))


@pytest.fixture
def sheet(capsys: pytest.CaptureFixture[str]) -> Draft202012Validator:
    return Draft202012Validator(schema("sheet", capsys))


class Editor(yaml.SafeLoader):
    """Reads YAML 1.2 as editors do: only `true` and `false` are truth values, and keys are texts."""


Editor.yaml_implicit_resolvers = {
    sign: [
        (tag, pattern)
        for tag, pattern in resolvers
        if tag not in ("tag:yaml.org,2002:bool", "tag:yaml.org,2002:timestamp")
    ]
    for sign, resolvers in yaml.SafeLoader.yaml_implicit_resolvers.items()
}
Editor.add_implicit_resolver("tag:yaml.org,2002:bool", re.compile("true|false"), list("tf"))


def as_json(value: Any) -> Any:
    """A value as an editor's schema sees it: keys of mappings are texts."""
    match value:
        case dict():
            return {str(key): as_json(inner) for key, inner in value.items()}
        case list():
            return [as_json(item) for item in value]
        case _:
            return value


def read(text: str, loader: type[yaml.SafeLoader] = Editor) -> Any:
    return as_json(yaml.load(text, Loader=loader))


# Front matter --------------------------------------------------------------------------------------------

#: Front matter that is right, each with what a schema must not refuse.
RIGHT = [
    "title: 5\nlang: en-ZA\ndate: 2026-11-05\nauthor: [Ann, Ben]\nphyscalc:\n  total: 9\n",
    "physcalc:\n  sheet: own.yaml\n  draft: yes\n  edition: memo\n  appendix: used\n",
    "physcalc:\n  numbers: {decimal: comma, grouping: no, units: solidus, standard-from: never}\n",
    "physcalc:\n  numbers:\n    standard-below: 0.01\n    rounding: 3 sf\n  rounding: half-even\n",
    "physcalc:\n  standard-from: 1e6\n  writing-space: 3\n  units-in-substitution: true\n  carry: rounded\n",
    "physcalc:\n  writing-space: 2 lines per mark\n  signs: both\n  axis: up is positive\n",
    "physcalc:\n  points:\n    A: 0 m, 0 m\n    B: 3 m, 0 m\n  labels: {question: Problem}\n",
    "physcalc:\n  grid: {topics: {forces: 60 %, energy: 40}, levels: {1: 15 %, 2: 85 %}, tolerance: 5 %}\n",
]

#: Front matter with one thing wrong that a schema can know.
WRONG = [
    "physcalc:\n  decimals: comma\n",
    "physcalc:\n  rounding: up\n",
    "physcalc:\n  total: nine\n",
    "physcalc:\n  total: -3\n",
    "physcalc:\n  edition: answers\n",
    "physcalc:\n  draft: perhaps\n",
    "physcalc:\n  numbers: {decimal: dot}\n",
    "physcalc:\n  numbers: {carry: rounded}\n",
    "physcalc:\n  labels: {questions: Problem}\n",
    "physcalc:\n  writing-space: -2\n",
    "physcalc:\n  standard-from: 0\n",
    "physcalc:\n  grid: {topic: {forces: 60 %}}\n",
    "physcalc:\n  grid: {topics: {forces: most}}\n",
    "physcalc:\n  grid: 5\n",
    "physcalc: school\n",
    "physcalc:\n  lang: 7\n",
]


def problems_of(front: str) -> list[str]:
    report = pipeline.check(Source("test.md", f"---\n{front}---\n\nText.\n"))
    # Totals and grids need questions, and a sheet of one's own a file: no schema knows those.
    beyond = {"grid-target-unused", "grid-targets-sum", "sheet-unknown", "total-unequal"}
    return [problem.slug for problem in report.problems if problem.slug not in beyond]


@pytest.mark.parametrize("text", RIGHT)
@pytest.mark.parametrize("loader", [Editor, yaml.SafeLoader], ids=["yaml-1.2", "yaml-1.1"])
def test_right_front_matter_passes(
    text: str, loader: type[yaml.SafeLoader], front: Draft202012Validator
) -> None:
    # A date becomes an object of Python's in YAML 1.1; any value may stand there.
    assert [error.message for error in front.iter_errors(read(text, loader))] == []
    assert problems_of(text) == []


@pytest.mark.parametrize("text", WRONG)
def test_wrong_front_matter_does_not(text: str, front: Draft202012Validator) -> None:
    assert list(front.iter_errors(read(text)))
    assert problems_of(text)


@pytest.mark.parametrize("path", DOCUMENTS, ids=lambda path: path.stem)
def test_the_example_documents_pass(path: Path, front: Draft202012Validator) -> None:
    matter = path.read_text(encoding="utf-8").split("---\n")[1]
    assert [error.message for error in front.iter_errors(read(matter))] == []


def test_every_setting_is_in_the_schema(front: Draft202012Validator) -> None:
    ours = front.schema["properties"]["physcalc"]
    assert set(ours["properties"]) == set(SETTING_NAMES)
    assert set(ours["properties"]["numbers"]["properties"]) == set(NUMBERS)
    assert ours["additionalProperties"] is False
    for row in TABLE.values():
        assert row.what
        Draft202012Validator.check_schema(row.schema)


@pytest.mark.parametrize("name", sorted(set(TABLE)))
def test_every_word_that_a_setting_takes_passes(name: str) -> None:
    row = TABLE[name]
    for word in row.words:
        assert not Settings.from_metadata({name: word})[1]
        assert Draft202012Validator(row.schema).is_valid(word), word
    if row.words:
        assert not Draft202012Validator(row.schema).is_valid("zzz")


# Sheets --------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("path", BUILTIN, ids=lambda path: path.stem)
@pytest.mark.parametrize("loader", [Editor, yaml.SafeLoader], ids=["yaml-1.2", "yaml-1.1"])
def test_the_builtin_sheets_pass(
    path: Path, loader: type[yaml.SafeLoader], sheet: Draft202012Validator
) -> None:
    errors = sheet.iter_errors(read(path.read_text(encoding="utf-8"), loader))
    assert [error.message for error in errors] == []


def test_the_sheet_of_the_reference_passes(sheet: Draft202012Validator) -> None:
    reference = (ROOT / "example_docs" / "reference.md").read_text(encoding="utf-8")
    sheets = [text for text in re.findall(r"```yaml\n(.*?)```", reference, re.DOTALL) if "constants:" in text]
    assert sheets
    for text in sheets:
        assert [error.message for error in sheet.iter_errors(read(text))] == []


#: Sheets with one thing wrong that a schema can know, and the problem that the reader finds.
WRONG_SHEETS = [
    ("constant: {}\n", "sheet-key-unknown"),
    ("constants:\n  g: {value: 9.8 m·s⁻²}\n", "sheet-key-missing"),
    ("constants:\n  g: 9.8 m·s⁻²\n", "sheet-entry-misshapen"),
    ("constants:\n  g: {value: 9.8 m·s⁻², titel: gravity}\n", "sheet-key-unknown"),
    ("formulas:\n  forces:\n    weight: {title: weight}\n", "sheet-key-missing"),
    ("formulas:\n  forces:\n    The Weight: {title: weight, form: F = m g}\n", "sheet-name-unreadable"),
    (
        "formulas:\n  forces:\n    weight: {title: weight, form: F = m g, magnitudes: maybe}\n",
        "sheet-entry-misshapen",
    ),
    ("definitions:\n  emf: {title: emf}\n", "sheet-key-missing"),
    ("definitions:\n  emf: {title: emf, wording: [a, b]}\n", "sheet-entry-misshapen"),
]


@pytest.mark.parametrize(("text", "slug"), WRONG_SHEETS)
def test_wrong_sheets_do_not_pass(text: str, slug: str, sheet: Draft202012Validator, tmp_path: Path) -> None:
    assert list(sheet.iter_errors(read(text)))
    path = tmp_path / "own.yaml"
    path.write_text(text, encoding="utf-8")
    assert slug in [problem.slug for problem in read_sheet(str(path))[1]]


def test_every_key_of_a_sheet_is_in_the_schema(sheet: Draft202012Validator) -> None:
    properties = sheet.schema["properties"]
    assert set(properties) == set(SHEET_KEYS)
    topic = properties["formulas"]["additionalProperties"]
    for keys, entry in (
        (CONSTANT_KEYS, properties["constants"]["additionalProperties"]),
        (LAW_KEYS, topic["additionalProperties"]),
        (DEFINITION_KEYS, properties["definitions"]["additionalProperties"]),
    ):
        assert set(entry["properties"]) == set(keys)
        assert entry["required"] == [name for name, key in keys.items() if key.needed]
        assert all(told["description"] for told in entry["properties"].values())
