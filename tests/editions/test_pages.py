"""What each edition shows (the language reference, "Where things are written" and "Options")."""

from __future__ import annotations

import subprocess

import pypandoc
import pytest
from physcalc_filter import pipeline
from physcalc_filter.document import EDITIONS, Edition, write_json
from physcalc_filter.sources import Source

CALC = "```{.calc}\ngiven:\n  m: 2 kg\n  a: 3 m/s^2\nformula: F = m a\nfind: F in N to 0 dp\n%s```\n\n"


def built(text: str, edition: Edition) -> str:
    document, report = pipeline.build(Source("test.md", text), edition, "markdown")
    assert document is not None, [str(problem) for problem in report.problems]
    command = [pypandoc.get_pandoc_path(), "-f", "json", "-t", "plain", "--wrap=none", "--columns=500"]
    done = subprocess.run(command, input=write_json(document), capture_output=True, text=True, check=True)
    return done.stdout


@pytest.mark.parametrize("edition", EDITIONS)
def test_divs_of_some_editions(edition: Edition) -> None:
    text = "# A {.question}\n\n" + "".join(
        f'::: {{.only in="{words}"}}\nfor {words}\n:::\n\n'
        for words in ("paper", "memo", "guide", "memo guide")
    )
    page = built(text, edition)
    for words in ("paper", "memo", "guide", "memo guide"):
        assert (f"for {words}\n" in page) == (edition in words.split())


def test_an_answer_div_is_ticked_in_the_memo_alone() -> None:
    text = "# A {.question marks=2}\n\nWhy?\n\n::: {.answer marks=2}\n[At rest]{.mark}, [here]{.mark}.\n:::\n"
    assert built(text, "paper").strip().endswith("Total: 2")
    assert "rest" not in built(text, "paper")
    assert "At rest\u00a0✓, here\u00a0✓. [2]" in built(text, "memo")
    guide = built(text, "guide")
    assert "At rest, here." in guide
    assert "✓" not in guide


def test_an_answer_without_ticked_phrases_has_them_at_its_end() -> None:
    text = "# A {.question marks=2}\n\nWhy?\n\n::: {.answer marks=2}\nBecause.\n:::\n"
    assert "Because. ✓✓ [2]" in built(text, "memo")


def test_a_heading_may_carry_an_answer() -> None:
    text = "# A {.question marks=1}\n\nWhy?\n\n## Reason {.answer marks=1}\n\nBecause.\n"
    assert "Because" not in built(text, "paper")
    assert "Reason" not in built(text, "paper")
    assert "Because." in built(text, "memo")


def test_a_definition_leaves_no_empty_paragraph_in_the_paper() -> None:
    text = "# A {.question marks=2}\n\nState it.\n\n[Newton's second law]{.define}.\n"
    assert built(text, "paper").splitlines()[-3:] == ["State it. [2]", "", "Total: 2"]
    assert built(text, "memo").count("✓") == 2


def test_a_definition_inside_a_sentence() -> None:
    text = "Note well: [Newton's second law]{.define} So it is.\n"
    assert built(text, "paper").strip() == "Note well: So it is."
    assert "proportional" in built(text, "guide")


def test_nothing_secret_stands_in_lists_tables_and_notes() -> None:
    text = (
        "# A {.question}\n\n- item\n\n  ```{.calc #s}\n  given:\n    m: 2 kg\n    a: 3 m/s^2\n"
        "  formula: F = m a\n  find: F in N\n  ```\n\n- ::: answer\n  secret\n  :::\n\n"
        "| a | b |\n|---|---|\n| `m`{.value} | [Newton's second law]{.define} |\n\n"
        "Text <!-- secret --> here[^1].\n\n<!-- secret -->\n\n"
        "[^1]: A note.\n\n    ::: answer\n    secret\n    :::\n\n"
        "    ```{.calc}\n    given:\n      m: 2 kg\n      a: 3 m/s^2\n"
        "    formula: F = m a\n    find: F in N\n    ```\n"
    )
    paper = built(text, "paper")
    for secret in ("secret", "proportional", "formula", "6.00"):
        assert secret not in paper
    assert "2\u00a0kg" in paper
    assert "A note." in paper


def test_what_is_drawn_needs_no_lines() -> None:
    head = "---\nphyscalc:\n  writing-space: 2\n---\n\n"
    figure = "```{.draw}\nforces:\n  F: 12 N, right\nmarks: 3\n```\n"
    assert built(head + "# A {.question marks=3}\n\nDraw it.\n\n" + figure, "paper").count("___") == 0
    more = "\n::: {.answer marks=1}\nIt moves.\n:::\n"
    with_lines = built(head + "# A {.question marks=4}\n\nDraw it, and say why.\n\n" + figure + more, "paper")
    alone = built(head + "# A {.question marks=1}\n\nSay why.\n" + more, "paper")
    assert with_lines.count("_") == alone.count("_") > 0


def test_writing_space_follows_the_marks() -> None:
    text = "---\nphyscalc:\n  writing-space: 2\n---\n\n# A {.question marks=3}\n\nWhy?\n"
    assert built(text, "paper").count("_" * 20 + "\n") == 6
    assert "____" not in built(text, "memo")


MCQ = "# A {.question marks=2}\n\nHow many?\n\n```{.options}\n%s```\n"


def test_options_that_are_computed() -> None:
    text = "```{.given}\nF: 3 N\n```\n\n" + MCQ % "of: 2*F\nA: 3 N\nB: 6 N\nC: 9 N\nwhy: Twice as much.\n"
    paper = built(text, "paper")
    assert "B 6\u00a0N" in paper
    assert "Twice" not in paper
    memo = built(text, "memo")
    assert "C 9" not in memo
    assert memo.count("✓") == 2
    for edition in ("memo", "guide"):
        assert "Twice as much." in built(text, edition)  # type: ignore[arg-type]


def test_options_that_are_texts() -> None:
    text = MCQ % "A: speed\nB: velocity\nanswer: B\n"
    assert "B velocity ✓✓ [2]" in built(text, "memo")
    assert "Answer: B velocity" in built(text, "guide")


def test_other_methods_and_accepted_values_stand_in_the_memo() -> None:
    text = "# A {.question marks=3}\n\n" + CALC % "accept: 5.5 to 6.5 N\nor:\n  -\n    formula: F / m = a\n"
    memo = built(text, "memo")
    assert memo.count("✓") == 6
    assert memo.count("[3]") == 1
    # Values are set as maths, with a thin space before the unit.
    assert "Accept: 5.5\u2006N to 6.5\u2006N" in memo
    assert "or" in memo.split()


def test_headings_of_the_memo() -> None:
    text = "# Section A\n\nRead this.\n\n# Section B\n\n## Waves {.question marks=3}\n\n" + CALC % ""
    memo = built(text, "memo")
    assert "Section A" not in memo
    assert "Section B" in memo
    assert "Question\u00a01: Waves" in memo


def test_words_of_the_page_are_the_documents_own() -> None:
    text = "---\nlang: af\nphyscalc:\n  labels:\n    total: Alles\n---\n\n"
    text += "::: {.question marks=1}\nHoekom?\n:::\n"
    paper = built(text, "paper")
    assert "Vraag\u00a01" in paper
    assert "Alles: 1" in paper


@pytest.mark.parametrize(
    ("heading", "printed"),
    [
        ("Question", "Question\u00a01"),
        ("Question 1", "Question 1"),
        ("Waves", "Question\u00a01: Waves"),
        ("1 Waves", "1 Waves"),
    ],
)
def test_headings_carry_the_number(heading: str, printed: str) -> None:
    assert built(f"# {heading} {{.question}}\n\nWhy?\n", "paper").splitlines()[0] == printed


def test_the_appendix_prints_what_is_used() -> None:
    from physcalc_filter.document.own_engine import OwnEngine
    from physcalc_filter.editions.appendix import appendix
    from physcalc_filter.editions.words import ENGLISH

    from physcalc.language import Conventions
    from physcalc.sheets import load_sheet

    sheet = load_sheet("school")
    some = appendix(sheet, {"g"}, {"newton-2"}, OwnEngine(), Conventions(), ENGLISH)
    everything = appendix(sheet, None, None, OwnEngine(), Conventions(), ENGLISH)
    # Three headings, the table of constants, the topic, its one formula.
    assert [type(block).__name__ for block in some] == ["Header", "Header", "Table", "Header", "Para", "Para"]
    assert len(everything) > 100
    assert appendix(sheet, set(), set(), OwnEngine(), Conventions(), ENGLISH) == []


def test_the_second_of_two_steps_opens_with_its_formula() -> None:
    steps = "```{.calc}\ngiven:\n  m: 2 kg\n  a: 3 m/s^2\n  s: 4 m\nsteps:\n"
    steps += "  -\n    formula: F = m a\n    find: F in N to 0 dp\n"
    steps += "  -\n    formula: W = F s\n    find: W in J to 0 dp\n```\n"
    document, report = pipeline.build(
        Source("test.md", "# A {.question marks=6}\n\n" + steps), "memo", "html"
    )
    assert document is not None, report.problems
    made = write_json(document)
    assert made.count("opens") == 1
    assert made.index("opens") < made.index('"W"')


def test_the_appendix_holds_constants_that_data_are_made_from() -> None:
    """The digits of g stand in the working, though its name there is a."""
    text = (
        "---\nlang: en\nphyscalc:\n  appendix: used\n---\n\n"
        "# A {.question #drop axis='up is positive'}\n\nHow fast?\n\n"
        "```{.given}\nv_i: 0 m/s\na: g, down\nΔt: 2 s\n```\n\n"
        "```{.calc}\nuse: velocity-time\nfind: v_f in m/s with direction\n```\n"
    )
    paper = built(text, "paper")
    assert "acceleration due to gravity" in paper
    assert "Planck" not in paper


def test_the_memo_says_which_option_a_slip_leads_to_and_what_is_positive() -> None:
    text = (
        "# A {.question #ball axis='up is positive'}\n\nHow fast?\n\n"
        "```{.given}\nv_i: 3 m/s, up\na: g, down\nΔt: 2 s\n```\n\n"
        "```{.calc}\nuse: velocity-time\nfind: v_f in m/s to 1 dp with direction\nmarks: 0\n"
        "slips:\n  lost the sign of g: v_f = v_i - a Δt\n```\n\n"
        "```{.options}\nof: v_f\nA: slip lost the sign of g\nB: -16.6 m/s\nanswer: B\nmarks: 1\n```\n"
    )
    memo = built(text, "memo")
    assert "Upwards is positive" in memo
    assert "(A)" in memo
    assert "positive" not in built(text, "paper")


def test_which_direction_is_positive_is_told_once_in_a_question() -> None:
    """Where signs go in first, though the answer there has none."""
    text = (
        "# A {.question axis='up is positive'}\n\n```{.given}\nv_i: 3 m/s, up\na: g, down\nΔy: 1 m, down\n```\n\n"
        "## A {.question}\n\n```{.calc}\nuse: displacement-time\nfind: Δt in s\ntake: positive\n```\n\n"
        "## B {.question}\n\n```{.calc}\nuse: velocity-displacement\nfind: v_f in m/s with direction\n"
        "take: negative\n```\n\n"
        "# B {.question axis='down is positive'}\n\n```{.calc}\ngiven:\n  v_i: 3 m/s, up\n  a: g, down\n"
        "  Δt: 1 s\nuse: velocity-time\nfind: v_f in m/s with direction\n```\n"
    )
    memo = built(text, "memo")
    assert memo.count("Upwards is positive") == 1
    assert memo.index("1.1") < memo.index("Upwards is positive") < memo.index("1.2")
    assert memo.count("Downwards is positive") == 1
    guide = built(text, "guide")
    assert guide.count("Upwards is positive.") == 1
    assert guide.index("1.1") < guide.index("Upwards is positive.") < guide.index("Δy")
    said = text.replace("take: positive", "take: positive\nwhy: Up is taken as positive.")
    assert built(said, "guide").count("positive") == 2


def test_a_figure_that_nobody_asks_for_is_not_folded_away() -> None:
    figure = "```{.draw}\nforces:\n  F: 12 N, right\n```\n\n"
    text = "Look at this.\n\n" + figure + "# A {.question}\n\nDraw it.\n\n" + figure
    document, report = pipeline.build(Source("test.md", text), "guide", "html")
    assert document is not None, [str(problem) for problem in report.problems]
    command = [pypandoc.get_pandoc_path(), "-f", "json", "-t", "html"]
    made = subprocess.run(command, input=write_json(document), capture_output=True, text=True, check=True)
    assert made.stdout.count("<svg") == 2
    assert made.stdout.count("<details") == 1
    assert made.stdout.index("<svg") < made.stdout.index("Draw it") < made.stdout.index("<details")
