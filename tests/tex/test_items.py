"""Questions in the items of an `enumerate`."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from physcalc_filter import pipeline
from physcalc_filter.cli import main
from physcalc_filter.sources import Source, read_source

from .conftest import Told

Check = Callable[..., Told]

GIVEN = "\\begin{physgiven}\nm: %s kg\n\\end{physgiven}\n"
CALCULATION = (
    "\\begin{physcalculation}\nformula: w = m g\nfind: w in N to 1 dp\nanswer: %s N\n\\end{physcalculation}\n"
)


def item(body: str, question: bool = True) -> str:
    inside = f"\\begin{{physquestion}}\n{body}\\end{{physquestion}}\n" if question else body
    return f"\\item {inside}"


def listed(*items: str, sort: str = "enumerate") -> str:
    return f"\\begin{{{sort}}}\n{''.join(items)}\\end{{{sort}}}\n"


PAPER = listed(
    item("A crate.\n" + GIVEN % 2 + listed(item("Why?\n"), item("Its weight?\n" + CALCULATION % "19.6"))),
    item("A bale.\n" + GIVEN % 3 + CALCULATION % "29.4" + listed("\\item Look.\n", "\\item Think.\n")),
)


def test_items_have_the_numbers_of_questions_and_names_of_their_own(told: Check, tmp_path: Path) -> None:
    assert told(PAPER) == []
    assert told(PAPER.replace("29.4", "19.6").replace("Its", "The")) != []
    report = pipeline.check(read_source(tmp_path / "main.tex"))
    assert [one.slug for one in report.problems] == ["answer-disagrees"]
    assert report.questions == ("2",)


@pytest.mark.parametrize("ending", ["md", "html"])
def test_a_list_of_questions_adds_no_numbers(told: Check, tmp_path: Path, ending: str) -> None:
    told(PAPER)
    made = tmp_path / f"made.{ending}"
    assert main(["build", str(tmp_path / "main.tex"), "-o", str(made)]) == 0
    text = made.read_text(encoding="utf-8")
    if ending == "md":
        assert "\n**1.1** Why?" in text
        assert "\n# Question\u00a02" in text
        assert "\n1.  Look." in text
    else:
        assert text.count("<ol") == 1


def test_a_list_of_which_some_items_are_no_questions_stays(told: Check, tmp_path: Path) -> None:
    assert told(listed(item("Why?\n"), "\\item Look.\n")) == []
    assert main(["build", str(tmp_path / "main.tex"), "-o", str(tmp_path / "made.md")]) == 0
    assert "\n2.  Look." in (tmp_path / "made.md").read_text(encoding="utf-8")


@pytest.mark.parametrize("nested", [False, True])
def test_blocks_in_items_that_are_no_questions_are_told_once(told: Check, nested: bool) -> None:
    inner = [item("One.\n" + GIVEN % 2, False), item("Two.\n" + CALCULATION % "19.6", False)]
    body = (
        listed("\\item First.\n" + listed(*inner), "\\item Last.\n" + GIVEN.replace("m", "h") % 2)
        if nested
        else listed(*inner)
    )
    line = 1 + body.splitlines().index("\\begin{physgiven}")
    found = [one for one in told(body) if one[1] == "tex-items-no-questions"]
    assert found == [("main.tex", "tex-items-no-questions", line, 1)]


@pytest.mark.parametrize(
    "body",
    [
        listed(item("One.\n" + GIVEN % 2, False), "\\item Two.\n"),
        listed(
            item("One.\n" + GIVEN % 2, False), item("Two.\n" + CALCULATION % "19.6", False), sort="itemize"
        ),
        listed("\\item \\physvalue[2 kg]{m}.\n", "\\item More.\n") + GIVEN % 2,
    ],
)
def test_other_lists_are_left_alone(told: Check, body: str) -> None:
    assert told(body) == []


def test_a_file_with_no_items_is_read() -> None:
    text = "\\begin{enumerate}\n\\end{enumerate}\nText.\n"
    assert pipeline.check(Source("nowhere.tex", text)).problems == ()
