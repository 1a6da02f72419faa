"""The report for other programs, read by other programs or held against the model of a published schema."""

from __future__ import annotations

import json
import re
from typing import Any

import attr
import pytest
import sarif_om
from junitparser import Error, Failure, JUnitXml
from physcalc_filter.problems import FileMissing, KeyUnknown
from physcalc_filter.report import FORMATS, Found
from physcalc_filter.sources import Source

from physcalc.problems import Problem, Span
from physcalc.problems.solving import AnswerCoarse, AnswerDisagrees

# A letter outside the basic plane is one character and two code units of UTF-16.
TEXT = "# Lift\n\n𝑎 answer: 6725 N\nanwser: 2 N\n"


def answer(said: str = "6 725 N") -> Problem:
    return AnswerDisagrees(Span("test.md", 3, 11, 6), "T", "6 752,00 N", said, ("from T − m g = m a",))


def key() -> Problem:
    return KeyUnknown(Span("test.md", 4, 1, 6), "anwser", "answer")


def note() -> Problem:
    return AnswerCoarse(Span("test.md", 3, 11, 6), "T", "6 752,60 N", "6 753 N")


def missing(name: str = "gone.md") -> Found:
    return Found(name, (FileMissing(Span(name), name),))


def run(*problems: Problem, name: str = "test.md") -> Found:
    return Found(name, problems, Source(name, TEXT))


RUNS = [run(answer(), key(), note()), run(name="clean.md"), missing(), run(note(), name="noted.md")]


# SARIF ---------------------------------------------------------------------------------------------------

#: The classes of Microsoft's package sarif_om, which is generated from the published schema, by the name of
#: the property that holds them.
_MODELS = {
    "runs": "Run", "tool": "Tool", "driver": "ToolComponent", "rules": "ReportingDescriptor",
    "shortDescription": "MultiformatMessageString", "fullDescription": "MultiformatMessageString",
    "help": "MultiformatMessageString", "defaultConfiguration": "ReportingConfiguration",
    "artifacts": "Artifact", "location": "ArtifactLocation", "results": "Result", "message": "Message",
    "locations": "Location", "physicalLocation": "PhysicalLocation", "artifactLocation": "ArtifactLocation",
    "region": "Region",
}  # fmt: skip


def misfits(value: Any, model: str, path: str = "log") -> list[str]:
    """What the schema's object model does not know, or needs and does not find, in a value."""
    fields = {
        field.metadata["schema_property_name"]: field for field in attr.fields(getattr(sarif_om, model))
    }
    found = [f"{path}.{name} is unknown" for name in value if name not in fields]
    found += [
        f"{path}.{name} is missing"
        for name, field in fields.items()
        if field.default is attr.NOTHING and name not in value
    ]
    for name, inner in value.items():
        for item in inner if isinstance(inner, list) else [inner]:
            if isinstance(item, dict):
                found += misfits(item, _MODELS[name], f"{path}.{name}")
    return found


def sarif(runs: list[Found]) -> dict[str, Any]:
    log = json.loads(FORMATS["sarif"](runs))
    assert isinstance(log, dict)
    return log


@pytest.mark.parametrize("runs", [RUNS, [], [run()], [missing("C:\\papers\\a b.md")]])
def test_sarif_fits_the_published_object_model(runs: list[Found]) -> None:
    assert misfits(sarif(runs), "SarifLog") == []


def test_sarif_has_what_the_standard_requires() -> None:
    """SARIF 2.1.0: sections 3.13.2, 3.14.17 and 3.14.23, 3.27.10 (level), 3.52.3 (ruleIndex), 3.14.15."""
    log = sarif(RUNS)
    (only,) = log["runs"]
    assert log["version"] == "2.1.0"
    assert only["columnKind"] in {"utf16CodeUnits", "unicodeCodePoints"}
    rules = only["tool"]["driver"]["rules"]
    for result in only["results"]:
        assert result["level"] in {"none", "note", "warning", "error"}
        assert rules[result["ruleIndex"]]["id"] == result["ruleId"]
        assert result["message"]["text"]
    listed = [json.dumps(artifact) for artifact in only["artifacts"]]
    assert len(listed) == len(set(listed))  # uniqueItems of the schema.
    assert len({json.dumps(rule) for rule in rules}) == len(rules)


def test_sarif_twice_the_same_file_is_listed_once() -> None:
    artifacts = sarif([run(answer()), run(key())])["runs"][0]["artifacts"]
    assert artifacts == [{"location": {"uri": "test.md"}}]


def test_sarif_counts_columns_as_it_says() -> None:
    (only,) = sarif([run(answer())])["runs"]
    region = only["results"][0]["locations"][0]["physicalLocation"]["region"]
    assert only["columnKind"] == "unicodeCodePoints"
    line = TEXT.splitlines()[region["startLine"] - 1]
    assert line[region["startColumn"] - 1 : region["endColumn"] - 1] == "6725 N"


def test_sarif_of_a_whole_file_has_no_region() -> None:
    place = sarif([missing()])["runs"][0]["results"][0]["locations"][0]["physicalLocation"]
    assert place == {"artifactLocation": {"uri": "gone.md"}}


@pytest.mark.parametrize(
    ("name", "uri"),
    [
        # RFC 3986: what is no unreserved character is escaped, as octets of UTF-8; section 3.4.3 of SARIF.
        ("a b.md", "a%20b.md"),
        ("é%.md", "%C3%A9%25.md"),
        ("x:y.md", "x%3Ay.md"),
        ("/papers/a.md", "file:///papers/a.md"),
        ("C:\\papers\\a.md", "file:///C%3A/papers/a.md"),
        ("papers\\a.md", "papers/a.md"),
        ("bad\udce9.md", "bad%E9.md"),
        # A name of Windows with half of a pair of UTF-16, which is no octet at all.
        ("bad\ud800.md", "bad%EF%BF%BD.md"),
    ],
)
def test_sarif_names_files_by_uri(name: str, uri: str) -> None:
    assert sarif([run(name=name)])["runs"][0]["artifacts"] == [{"location": {"uri": uri}}]


def test_sarif_levels() -> None:
    results = sarif(RUNS)["runs"][0]["results"]
    assert [result["level"] for result in results] == ["error", "error", "note", "error", "note"]


@pytest.mark.parametrize("name", ["bad\udce9.md", "half\ud800.md"])
@pytest.mark.parametrize("kind", ["json", "sarif", "junit"])
def test_reports_are_unicode_whatever_a_file_is_called(kind: str, name: str) -> None:
    """RFC 8259, section 8.2: what readers make of half a pair is unpredictable. XML 1.0 has no such characters."""
    text = FORMATS[kind]([run(answer(f"6 {name} N"), name=name), missing(name)])
    text.encode("utf-8")
    if kind != "junit":
        json.dumps(json.loads(text), ensure_ascii=False).encode("utf-8")
    assert "\ufffd" in text or "\\ufffd" in text
    assert "\\ud" not in text


# JUnit ---------------------------------------------------------------------------------------------------


def junit(runs: list[Found]) -> JUnitXml:
    """Read by the package junitparser."""
    return JUnitXml.fromstring(FORMATS["junit"](runs).encode())


def test_junit_is_read_by_another_program() -> None:
    report = junit(RUNS)
    suites = list(report)
    assert [suite.name for suite in suites] == ["test.md", "clean.md", "gone.md", "noted.md"]
    assert [(suite.tests, suite.failures, suite.errors) for suite in suites] == [
        (2, 2, 0), (1, 0, 0), (1, 0, 1), (1, 0, 0),
    ]  # fmt: skip
    assert (report.tests, report.failures, report.errors) == (5, 2, 1)
    cases = list(suites[0])
    (failure,) = cases[0].result
    assert isinstance(failure, Failure)
    assert (failure.type, failure.message) == (
        "answer-disagrees",
        "T is 6 752,00 N, the document says 6 725 N",
    )
    assert failure.text.startswith("test.md:3:11: T is")
    (error,) = next(iter(suites[2])).result
    assert isinstance(error, Error)


def test_junit_counts_are_what_is_there() -> None:
    """junitparser counts the elements themselves anew."""
    report = junit(RUNS)
    before = (report.tests, report.failures, report.errors)
    for suite in report:
        suite.update_statistics()
    report.update_statistics()
    assert (report.tests, report.failures, report.errors) == before


def test_junit_has_the_attributes_that_the_schemas_require() -> None:
    """junit-10.xsd of the Jenkins xUnit plugin, `use="required"`: testsuite name, tests, failures, errors;
    testcase name, classname."""
    from xml.etree import ElementTree

    root = ElementTree.fromstring(FORMATS["junit"](RUNS))
    assert root.tag == "testsuites"
    for suite in root:
        assert {"name", "tests", "failures", "errors"} <= set(suite.attrib)
        assert {child.tag for child in suite} <= {"testcase", "system-out"}
        for case in suite.iter("testcase"):
            assert {"name", "classname"} <= set(case.attrib)
            assert {child.tag for child in case} <= {"failure", "error"}


def test_junit_notes_fail_nothing_and_are_told() -> None:
    text = FORMATS["junit"]([run(note())])
    assert "<failure" not in text
    assert "note: answer-coarse" in text


def test_junit_holds_no_sign_that_xml_forbids() -> None:
    text = FORMATS["junit"]([run(answer("\x00\x1b[31m\ufffe]]> & <b>"))])
    # XML 1.0, production 2: Char.
    assert not re.search("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]", text)
    (failure,) = next(iter(next(iter(JUnitXml.fromstring(text.encode()))))).result
    assert "]]> & <b>" in failure.message


# GitHub Actions ------------------------------------------------------------------------------------------

#: A command as the runner reads it (actions/runner, `ActionCommand.TryParseV2`): two colons, the name, a
#: blank, properties with commas between them, two colons, the text.
_COMMAND = re.compile(r"::(?P<name>[a-z]+) (?P<properties>[^:]*)::(?P<text>.*)")
#: Escapes of the actions toolkit (`packages/core/src/command.ts`, escapeData and escapeProperty).
_ESCAPES = {"%25": "%", "%0D": "\r", "%0A": "\n", "%3A": ":", "%2C": ","}


def _unescaped(text: str) -> str:
    return re.sub("%(25|0D|0A|3A|2C)", lambda found: _ESCAPES[found[0]], text)


def github(runs: list[Found]) -> list[tuple[str, dict[str, str], str]]:
    commands = []
    for line in FORMATS["github"](runs).splitlines():
        found = _COMMAND.fullmatch(line)
        assert found, line
        pairs = [pair.partition("=") for pair in found["properties"].split(",")]
        commands.append(
            (found["name"], {key: _unescaped(value) for key, _, value in pairs}, _unescaped(found["text"]))
        )
    return commands


def test_github_commands_say_place_and_kind() -> None:
    commands = github(RUNS)
    assert [name for name, _, _ in commands] == ["error", "error", "notice", "error", "notice"]
    _, properties, text = commands[0]
    assert properties == {
        "file": "test.md", "line": "3", "endLine": "3", "col": "11", "endColumn": "17",
        "title": "answer-disagrees",
    }  # fmt: skip
    assert text.splitlines()[0] == "T is 6 752,00 N, the document says 6 725 N"


def test_a_document_can_give_no_command_of_its_own() -> None:
    evil = "1 N\n::error::gone\r::set-output name=x::y %0A::warning::z"
    (command,) = github([run(answer(evil))])
    assert "%0A::warning::z" in command[2]
    strange = "a,line=1::b:\n%.md"
    (command,) = github([missing(strange)])
    assert command[1]["file"] == strange
    assert len(FORMATS["github"]([run(answer(evil))]).splitlines()) == 1


def test_every_format_is_offered_by_check() -> None:
    from physcalc_filter.cli.shelf import FORMATS as OFFERED

    assert set(OFFERED) == {"text", *FORMATS}
