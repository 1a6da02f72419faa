"""The published worked examples as documents, one a topic, through `physcalc check`.

Source of each: in worked_examples.yaml. What a book's answer does not follow from is found to disagree.
"""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest
import yaml
from physcalc_filter.cli import main

CASES: list[dict[str, Any]] = yaml.safe_load(
    Path(__file__).with_name("worked_examples.yaml").read_text(encoding="utf-8")
)
TOPICS = sorted({case["topic"] for case in CASES})

#: What a teacher adds where a formula has more than one root.
TAKE = {"dark-room-collision": "u_2 > 0 m/s", "pursuit-cheetah": "positive"}
#: Names that the sheet holds as constants and that the example means as unknowns on the way.
ON_THE_WAY = {"redshift-distance": ("b",)}

_LONE_DIVISION = re.compile(r"(?<![\w)])([A-Za-z]\w*/[A-Za-z]\w*)\*")


def _formula(relation: str) -> str:
    """A relation as an author writes it: `m/M*N_A` would be refused, `(m/M)*N_A` is clear."""
    return _LONE_DIVISION.sub(r"(\1)*", relation)


def _figures(case: dict[str, Any], name: str) -> int:
    figures = case["printed_sig_figs"]
    return int(figures[name] if isinstance(figures, dict) else figures)


def _question(case: dict[str, Any]) -> list[str]:
    lines = [f"# Question {{.question marks={2 * len(case['relations']) + len(case['find'])}}}", ""]
    lines += [case["task"].replace("*", r"\*"), "", "```{.given}"]
    lines += [f"{name}: {value}" for name, value in case["given"].items()]
    lines += ["```", "", "```{.calc}", "formula:"]
    lines += [f"  - {_formula(relation)}" for relation in case["relations"]]
    lines.append("find:")
    lines += [f"  - {name}" for name in ON_THE_WAY.get(case["id"], ())]
    for name, value in case["find"].items():
        unit = str(value).partition(" ")[2]
        lines.append(f"  - {name}{f' in {unit}' if unit else ''} to {_figures(case, name)} sf")
    lines.append("answer:")
    lines += [f"  {name}: {value}" for name, value in case["find"].items()]
    if case["id"] in TAKE:
        lines.append(f"take: {TAKE[case['id']]}")
    return [*lines, "```", ""]


@pytest.mark.parametrize("topic", TOPICS)
def test_topic(topic: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    lines = ["---", "title: Worked examples", "lang: en", "physcalc:", "  sheet: codata", "---", ""]
    starts: list[tuple[int, dict[str, Any]]] = []
    for case in CASES:
        if case["topic"] == topic:
            starts.append((len(lines) + 1, case))
            lines += _question(case)
    path = tmp_path / f"{topic}.md"
    path.write_text("\n".join(lines), encoding="utf-8")
    code = main(["check", str(path), "--format", "json"])
    found = [p for p in json.loads(capsys.readouterr().out) if p["level"] != "note"]
    wrong: dict[str, set[str]] = {}
    for problem in found:
        case = next(case for start, case in reversed(starts) if problem["line"] >= start)
        typed = re.match(r"\s*([\w.]+):", lines[problem["line"] - 1])
        assert problem["slug"] == "answer-disagrees", (case["id"], problem)
        assert typed is not None
        wrong.setdefault(case["id"], set()).add(typed[1])
    expected = {
        case["id"]: set(case.get("disagrees_on") or case["find"]) for _, case in starts if not case["agrees"]
    }
    assert set(wrong) == set(expected)
    for name, answers in wrong.items():
        # Where the source does not say which answers are concerned, at least one of them is.
        assert answers <= expected[name]
    for _, case in starts:
        if case.get("disagrees_on"):
            assert wrong[case["id"]] == set(case["disagrees_on"])
    assert code == (1 if found else 0)
