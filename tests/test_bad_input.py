"""What a teacher gets wrong, one mistake a document, through `physcalc check`: told once, in its place, with a mend.

In the documents below the place that must be shown stands between « and », which are taken out before they are
checked.
"""

from __future__ import annotations

import json
import re
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from physcalc_filter.cli import main

FRONT = "---\nlang: en-ZA\nphyscalc:\n  sheet: school\n---\n\n"


@dataclass(frozen=True)
class Case:
    """One mistake.

    Attributes:
        name: what it is.
        text: the document, with its place marked.
        slug: the problem's slug.
        mend: words of the mend; empty where the sentence says it already.
        code: the exit code.
    """

    name: str
    text: str
    slug: str
    mend: str
    code: int = 1


def calc(*lines: str, given: tuple[str, ...] = (), attributes: str = "marks=3") -> str:
    """A question with one calculation."""
    data = ["```{.given}", *given, "```", ""] if given else []
    return "\n".join(
        [
            f"# Question 1 {{.question {attributes}}}",
            "",
            "Calculate.",
            "",
            *data,
            "```{.calc}",
            *lines,
            "```",
            "",
        ]
    )


def placed(text: str) -> tuple[str, int, int, int]:
    """A document without its marks, and the line, column and length that they stand round."""
    start, end = text.index("«"), text.index("»")
    before = text[:start]
    line, column = before.count("\n") + 1, start - (before.rfind("\n") + 1) + 1
    return text.replace("«", "").replace("»", ""), line, column, max(1, end - start - 1)


FORCE = ("m: 3 kg", "a: 2 m/s^2")
PLANE = ("F_1: 3 N at 0°", "F_2: 4 N at 90°")

CASES = [
    Case(
        "a unit of the wrong dimension",
        calc("formula: F = m a", "find: F in «kg»", given=FORCE),
        "unit-dimension-wrong",
        "N",
    ),
    Case(
        "an answer in a unit of the wrong dimension",
        calc("formula: F = m a", "find: F in N", "answer: «6.00 J»", given=FORCE),
        "unit-dimension-wrong",
        "N",
    ),
    Case(
        "a datum in a unit of the wrong dimension",
        calc("formula: F = m a", "find: F in «N»", given=("m: 3 m", "a: 2 m/s^2")),
        "unit-dimension-wrong",
        "the data",
    ),
    Case(
        "terms of two dimensions",
        calc("formula: F = m («a + m»)", "find: F in N", given=FORCE),
        "dimensions-differ",
        "missing factor",
    ),
    Case(
        "an unknown unit",
        calc("formula: F = m a", "find: F in N", given=("m: 3 «kgs»", "a: 2 m/s^2")),
        "unit-unknown",
        '"kg"',
    ),
    Case(
        "a name with no value",
        calc("formula: F = «M» a", "find: F in N", given=FORCE),
        "name-without-value",
        "is m meant?",
    ),
    Case(
        "the same name twice",
        calc("formula: F = m a", "find: F in N", given=("m: 3 kg", "a: 2 m/s^2", "«m»: 4 kg")),
        "key-twice",
        "take one of them out",
    ),
    Case(
        "the same name in two blocks of data",
        calc("formula: F = m a", "find: F in N", given=FORCE).replace(
            "```{.calc}", "```{.given}\n«m»: 4 kg\n```\n\n```{.calc}"
        ),
        "name-given-twice",
        "subscript",
    ),
    Case(
        "a bracket that is not closed",
        calc("formula: F = m (a«»", "find: F in N", given=FORCE),
        "formula-unreadable",
        "write )",
    ),
    Case(
        "a formula that breaks off",
        calc("formula: F = m a +«»", "find: F in N", given=FORCE),
        "formula-unreadable",
        "write a name",
    ),
    Case(
        "two equals signs",
        calc("formula: F = m a «=» m g", "find: F in N", given=FORCE),
        "formula-unreadable",
        "list of two formulas",
    ),
    Case(
        "a law that is not on the sheet",
        calc("use: «newtn-2»", "find: F_net in N", given=FORCE),
        "law-unknown",
        "newton-2",
    ),
    Case(
        "more unknowns than formulas",
        calc("formula: F - T = m a", "find:", "  - «F in N»", "  - T in N", given=FORCE),
        "formulas-too-few",
        "add a formula",
    ),
    Case(
        "no real root",
        calc("formula: «v^2 = u^2 + 2 a x»", "find: v in m/s", given=("u: 3 m/s", "a: -2 m/s^2", "x: 9 m")),
        "no-real-root",
        "signs",
    ),
    Case(
        "division by zero",
        calc("formula: «a = v / t»", "find: a in m/s^2", given=("v: 3 m/s", "t: 0 s")),
        "divides-by-zero",
        "zero",
    ),
    Case(
        "marks of parts that do not add up",
        "# Question 1 {.question marks=«9»}\n\n::: {.question marks=3}\nCalculate.\n\n```{.calc}\ngiven:\n  m: 3 kg\n"
        "  a: 2 m/s^2\nformula: F = m a\nfind: F in N\n```\n:::\n",
        "marks-unequal",
        "write the sum",
    ),
    Case(
        "marks by line that do not add up",
        calc(
            "formula: F = m a",
            "find: F in N",
            "marks:",
            "  formula: 1",
            "  substitution: 1",
            "  answer: 2",
            given=FORCE,
            attributes="marks=«5»",
        ),
        "marks-unequal",
        "write the sum",
    ),
    Case(
        "a total that does not add up",
        FRONT.replace("school\n", "school\n  total: «20»\n")
        + calc("formula: F = m a", "find: F in N", given=FORCE),
        "total-unequal",
        "correct the total",
    ),
    Case(
        "a block body that cannot be read",
        calc("formula: F = m a", "«find F in N»", given=FORCE),
        "block-unreadable",
        "a colon",
    ),
    Case(
        "front matter that cannot be read",
        "---\nlang: en-ZA\nphyscalc:\n  «sheet: [school»\n---\n\n" + calc("formula: F = 2", "find: F"),
        "front-matter-unreadable",
        "quote",
        2,
    ),
    Case(
        "a tab in a block",
        calc("formula: F = m a", "find:", "«\t»- F in N", given=FORCE),
        "block-tab",
        "spaces",
    ),
    Case(
        "a tab in the front matter",
        "---\nlang: en-ZA\nphyscalc:\n«\t»sheet: school\n---\n\n" + calc("formula: F = 2", "find: F"),
        "front-matter-unreadable",
        "spaces",
        2,
    ),
    Case(
        "a key twice",
        calc("formula: F = m a", "find: F in N", "«find»: a in m/s^2", given=FORCE),
        "key-twice",
        "take one of them out",
    ),
    Case(
        "a key that is unknown",
        calc("formula: F = m a", "find: F in N", "«anser»: 6.00 N", given=FORCE),
        "key-unknown",
        '"answer"',
    ),
    Case(
        "a comma that may be a thousands mark",
        FRONT.replace("en-ZA", "en")
        + calc("formula: F = m a", "find: F in N", given=("m: «1,000» kg", FORCE[1])),
        "number-ambiguous",
        'write "1000" or "1.000"',
    ),
    Case(
        "an id used twice",
        calc("formula: F = m a", "find: F in N", given=FORCE, attributes="#lift marks=3")
        + "\n"
        + calc("formula: F = m a", "find: F in N", given=FORCE, attributes="#«lift» marks=3").replace(
            "n 1", "n 2"
        ),
        "id-twice",
        "another id",
    ),
    Case(
        "a reference to nothing",
        calc("given:", "  T: «from lfit»", "formula: F = 2 T", "find: F in N"),
        "reference-unknown",
        "id",
    ),
    Case("an empty file", "«»", "file-empty", "saved", 2),
    Case(
        "a vector added to a scalar",
        calc("formula: F = F_1 + «T»", "find: F in N", given=(PLANE[0], "T: 5 N")),
        "vector-meets-scalar",
        "direction",
    ),
    Case(
        "a direction asked and no axis",
        calc("formula: F = m a", "find: F in N «with direction»", given=FORCE),
        "axis-missing",
        "axis",
    ),
    Case(
        "a direction typed and no axis",
        calc("formula: F = m a", "find: F in N", given=("m: 3 kg", "a: 2 m/s^2, «right»")),
        "direction-unknown",
        "axis: right is positive",
    ),
    Case(
        "a direction that the axis has not",
        calc("axis: right is positive", "given:", "  v: 3 m/s, «up»", "formula: p = 2 v", "find: p in m/s"),
        "direction-unknown",
        "right (positive)",
    ),
    Case(
        "an angle without unit in a formula",
        calc("formula: F_x = F cos «30»", "find: F_x in N", given=("F: 10 N",)),
        "angle-unit-missing",
        "30°",
    ),
    Case(
        "an angle without unit in a datum",
        calc("formula: F_x = F.x", "find: F_x in N", given=("F: 10 N at «30»",)),
        "heading-unreadable",
        "at 30°",
    ),
    Case(
        "formulas that contradict each other",
        calc("formula:", "  - «F = m a»", "  - F = 2 m a", "find: F in N", given=FORCE),
        "formulas-contradict",
        "check the data",
    ),
    Case(
        "a set that leaves unknowns free",
        calc("formula:", "  - a = F / m", "  - b = a c", "find:", "  - «a»", "  - b", given=("m: 2 kg",)),
        "formulas-too-few",
        "give a value",
    ),
    Case(
        "roots all excluded by take",
        calc("formula: v^2 = 2 a x", "find: v in m/s", "take: «v > 9 m/s»", given=("a: 2 m/s^2", "x: 9 m")),
        "roots-excluded",
        "take",
    ),
    Case(
        "more than one root",
        calc("formula: h = u t - 1/2 g t^2", "find: «t in s»", given=("u: 9 m/s", "h: 3 m")),
        "roots-several",
        "take",
    ),
    Case(
        "accept that misses",
        calc("formula: F = m a", "find: F in N", "accept: «6.5 to 7 N»", given=FORCE),
        "accept-misses",
        "widen",
    ),
    Case(
        "methods that disagree",
        calc("formula: F = m a", "find: F in N", "or:", "  -", "    «formula»: F = 2 m a", given=FORCE),
        "methods-disagree",
        "correct",
    ),
    Case(
        "a slip that is right",
        calc("formula: F = m a", "find: F in N", "slips:", "  «order»: F = a m", given=FORCE),
        "slip-right",
        "take the slip out",
    ),
    Case(
        "no option right",
        "# Question 1 {.question marks=2}\n\nChoose.\n\n```{.given}\nm: 3 kg\na: 2 m/s^2\n```\n\n```{.options}\n"
        "of: «m a»\nA: 4 N\nB: 5 N\n```\n",
        "options-do-not-fit",
        "change an option",
    ),
    Case(
        "two options alike",
        "# Question 1 {.question marks=2}\n\nChoose.\n\n```{.given}\nm: 3 kg\na: 2 m/s^2\n```\n\n```{.options}\n"
        "of: m a\nA: 4 N\nB: 6 N\nC: «4000 mN»\n```\n",
        "options-do-not-fit",
        "change an option",
    ),
    Case(
        "the wrong option named",
        "# Question 1 {.question marks=2}\n\nChoose.\n\n```{.given}\nm: 3 kg\na: 2 m/s^2\n```\n\n```{.options}\n"
        "of: m a\nA: 4 N\nB: 6 N\nanswer: «A»\n```\n",
        "options-do-not-fit",
        "change an option",
    ),
    Case(
        "a class misspelt",
        calc("formula: F = m a", "find: F in N", given=FORCE).replace("{.calc}", "{.«clac»}"),
        "class-misspelt",
        '"calc"',
    ),
    Case(
        "a typed answer that is wrong",
        calc("formula: F = m a", "find: F in N", "answer: «7.00 N»", given=FORCE),
        "answer-disagrees",
        "",
    ),
]


def checked(
    text: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> tuple[int, list[dict[str, Any]]]:
    path = tmp_path / "page.md"
    path.write_text(text, encoding="utf-8")
    code = main(["check", str(path), "--format", "json"])
    return code, json.loads(capsys.readouterr().out)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name.replace(" ", "-"))
def test_one_mistake(case: Case, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    whole = case.text if case.text.startswith("---") or not case.text.strip("«»") else FRONT + case.text
    text, line, column, length = placed(whole)
    code, found = checked(text, tmp_path, capsys)
    assert [problem["slug"] for problem in found] == [case.slug], found
    (problem,) = found
    assert (problem["line"], problem["column"], problem["length"]) == (line, column, length), problem
    assert problem["sentence"]
    assert case.mend in problem["mend"]
    assert code == case.code


def test_a_file_that_is_not_utf8(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "page.md"
    path.write_bytes(FRONT.encode() + "Calculate.\n\nThe café is 3 km away.\n".encode("latin-1"))
    code = main(["check", str(path), "--format", "json"])
    (problem,) = json.loads(capsys.readouterr().out)
    assert (problem["slug"], problem["line"], problem["column"]) == ("file-not-utf8", 9, 8)
    assert "E9" in problem["sentence"]
    assert "UTF-8" in problem["mend"]
    assert code == 2


def test_front_matter_whose_colon_needs_quotes(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    code, (problem,) = checked("---\nlang: en\ntitle: Test: waves\n---\n\nText.\n", tmp_path, capsys)
    assert (problem["slug"], problem["line"], problem["column"]) == ("front-matter-unreadable", 3, 12)
    assert "quote" in problem["mend"]
    assert code == 2


def test_many_mistakes_in_one_document(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """All of them in one run, in the order of the document, and none of them twice."""
    text, expected = FRONT, []
    questions = [case for case in CASES if case.code == 1 and not case.text.startswith("---")]
    assert len(questions) > 35
    number = 0
    for case in questions:
        pieces = re.split("# Question [12] ", case.text)
        marked = pieces[0]
        for piece in pieces[1:]:
            number += 1
            marked += f"# Question {number} {piece}"
        text, line, column, length = placed(text + marked + "\n")
        expected.append((line, column, length, case.slug))
    code, found = checked(text, tmp_path, capsys)
    assert [(p["line"], p["column"], p["length"], p["slug"]) for p in found] == expected
    assert code == 1


def test_mistakes_in_two_files(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """What cannot be read beats what is wrong, and hides none of it."""
    (tmp_path / "a.md").write_text(FRONT + placed(CASES[0].text)[0], encoding="utf-8")
    (tmp_path / "b.md").write_text("", encoding="utf-8")
    code = main(["check", str(tmp_path), "--format", "json"])
    found = json.loads(capsys.readouterr().out)
    assert [problem["slug"] for problem in found] == [CASES[0].slug, "file-empty"]
    assert code == 2
