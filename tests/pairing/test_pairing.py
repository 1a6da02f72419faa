"""Papers and memos written by hand: what is read in them, and what is found different. Wordings are our own."""

from __future__ import annotations

from pathlib import Path

import pytest
from physcalc_filter import pipeline
from physcalc_filter.document import QUESTION_WORDS
from physcalc_filter.pairing import Side, read_by_hand
from physcalc_filter.sources import Source, weave


def read(text: str, *, paper: bool = True) -> Side:
    return read_by_hand(Source("a.md", text), ",", QUESTION_WORDS, paper)


def differences(paper: str, memo: str) -> list[tuple[str, str, int, str]]:
    """Slug, file, line and sentence of each difference."""
    head = "---\nlang: en-ZA\n---\n"
    reports = pipeline.pair(Source("paper.md", head + paper), Source("memo.md", head + memo))
    return [
        (problem.slug, problem.span.file, problem.span.line - 3, problem.sentence())
        for report in reports
        for problem in report.problems
        if problem.slug.startswith("pair-")
    ]


@pytest.mark.parametrize(
    ("text", "numbers"),
    [
        ("# Question 1\n\n1.1 One\n\n1.2 Two\n", ["1", "1.1", "1.2"]),
        ("QUESTION 1\n\n**1.1** One\n\n### 1.1.1 Deep\n", ["1", "1.1", "1.1.1"]),
        ("Vraag 2\n=======\n\n- 2.1 Een\n", ["2", "2.1"]),
        ("# 3 Waves\n\n# 4. Light\n\n## 4.1 Lenses\n", ["3", "4", "4.1"]),
        ("| 1.1 | B |\n| 1.2 | A ✓ |\n", ["1.1", "1.2"]),
        ("# Question 1\n\n1.1 A trolley moves\n\n1.2 C ✓✓ (2)\n", ["1", "1.1", "1.2"]),
        # Symbols of quantities that are units, too.
        ("# Question 3\n\n3.2 N = mg\n\n3.3 F = (2)(3)\n\n3.4 d=12 m\n", ["3", "3.2", "3.3", "3.4"]),
    ],
)
def test_questions_are_found(text: str, numbers: list[str]) -> None:
    assert list(read(text).questions) == numbers


@pytest.mark.parametrize(
    "line",
    [
        "1.5 m of wire",
        "1.1 one number only",
        "9.8 is far away",
        "1.5 N and 2 = 3 N",
        "3.14 is no part",
        "`1.7` code",
        "x 1.7 inside",
    ],
)
def test_a_line_that_begins_with_a_number_is_no_part(line: str) -> None:
    assert list(read(f"# Question 1\n\n1.4 A rod is\n{line}\n").questions) == ["1", "1.4"]


@pytest.mark.parametrize(
    "typed", ["(4)", "[4]", "**(4)**", "(4 marks)", "[4 marks]", "\\[4\\]", "(4)  ", "(4) |", "(4) {.x}"]
)
def test_marks_stand_at_the_end_of_a_line(typed: str) -> None:
    mark = read(f"1.1 Say why.\n{typed}\n").questions["1.1"].marks
    assert mark is not None
    assert mark.count == 4


@pytest.mark.parametrize("line", ["see (4) there", "(4) = 5", "F(4)x", "[4] and"])
def test_brackets_inside_a_line_are_no_marks(line: str) -> None:
    assert read(f"1.1 Say why {line} in words.\n").questions["1.1"].marks is None


def test_square_brackets_hold_the_sum_where_round_ones_are_used() -> None:
    side = read("# Question 1\n\n1.1 One (2)\n\n1.2 Two (3)\n\n[5]\n")
    counts = {number: asked.marks.count if asked.marks else None for number, asked in side.questions.items()}
    assert counts == {"1": 5, "1.1": 2, "1.2": 3}


PAPER = "# Question 1\n\nA sled of 20 cm and 640 kg at 72 km/h.\n\n1.1 Why? (2)\n\n1.2 How? (3)\n"


@pytest.mark.parametrize(
    "memo",
    [
        "# Question 1\n\n1.1 (640)(0,20) (2)\n\n1.2 v = 20 m·s⁻¹ (3)\n",
        "# Question 1\n\n1.1 0,64 t 0,2 m 20 m/s (2)\n\n1.2 Because. (3)\n\n[5]\n",
        "1.1 640 kg, 20 cm (2)\n\n1.2 72 km/h (3)\n",
    ],
)
def test_what_agrees_is_not_told(memo: str) -> None:
    assert differences(PAPER, memo) == []


@pytest.mark.parametrize(
    ("memo", "told"),
    [
        (
            "1.1 (640)(0,20)(20) (2)\n\n1.2 So. (4)\n",
            ("pair-marks-differ", "paper.md", 7, "question 1.2 has 3 marks here, and 4 in memo.md"),
        ),
        (
            "1.1 (640)(0,20)(20) (2)\n\n1.2 So.\n",
            ("pair-marks-differ", "paper.md", 7, "question 1.2 has 3 marks here, and none in memo.md"),
        ),
        (
            "# Question 1\n\n1.1 (640)(0,20)(20) (2)\n\n1.2 So. (3)\n\n[6]\n",
            ("pair-marks-differ", "paper.md", 1, "question 1 has 5 marks here, and 6 in memo.md"),
        ),
        (
            "1.1 (640)(0,20)(20) (2)\n",
            ("pair-question-missing", "paper.md", 7, "question 1.2 is not in memo.md"),
        ),
        (
            "1.1 (640)(0,20)(20) (2)\n\n1.2 So. (3)\n\n# Question 2\n\n2.1 x (1)\n\n2.2 y (1)\n",
            ("pair-question-missing", "memo.md", 5, "question 2 with its 2 parts is not in paper.md"),
        ),
        (
            "1.1 (640)(0,20)(20) (2)\n\n1.2 So. (3)\n\n**1.2** Again. (3)\n",
            ("pair-question-twice", "memo.md", 5, "the number 1.2 stands twice in this file"),
        ),
        (
            "1.1 (650)(0,20)(20) (2)\n\n1.2 So. (3)\n",
            ("pair-value-differs", "paper.md", 3, '"640 kg" of question 1 is "650" in memo.md'),
        ),
        (
            "1.1 640 g, 0,20, 20 (2)\n\n1.2 So. (3)\n",
            ("pair-value-differs", "paper.md", 3, '"640 kg" of question 1 is "640 g" in memo.md'),
        ),
        (
            "1.1 (0,20)(20) (2)\n\n1.2 So. (3)\n",
            ("pair-value-missing", "paper.md", 3, '"640 kg" of question 1 is not in memo.md'),
        ),
    ],
)
def test_one_difference_is_told_once(memo: str, told: tuple[str, str, int, str]) -> None:
    assert differences(PAPER, memo) == [told]


def test_a_file_without_questions_is_refused() -> None:
    assert [slug for slug, *_ in differences(PAPER, "Dear colleagues\n")] == ["pair-unreadable"]


BLOCKS = """
# Question 1 {.question marks=5}

A lift of `m`{.value}.

```{.given}
m: 640 kg
a: 0.75 m/s^2
```

::: {.question marks=3}
Calculate the tension.

```{.calc}
use: newton-2
formula: T - m g = m a
find: T in N to 2 dp
```
:::

::: {.question marks=2}
Which?

```{.options}
A: up
B: down
answer: B
```
:::
"""


@pytest.mark.parametrize(
    ("memo", "told"),
    [
        ("1.1 (640)(9,8) + (640)(0,75) = 6 752 N (3)\n\n1.2 B ✓✓ (2)\n", []),
        ("1.1 (640)(9,8) + (640)(0,75) = 6,75 kN (3)\n\n1.2 B ✓✓ (2)\n", []),
        ("1.1 (640)(9,8) + (640)(0,75) = 6 725 N (3)\n\n1.2 B ✓✓ (2)\n", ["pair-answer-differs"]),
        ("1.1 (640)(9,8) + (640)(0,75) (3)\n\n1.2 B ✓✓ (2)\n", ["pair-answer-missing"]),
        ("1.1 (640)(9,8) + (640)(0,75) = 6 752 N (3)\n\n1.2 A ✓✓ (2)\n", ["pair-key-differs"]),
        ("1.1 (640)(9,8) + (640)(0,57) = 6 752 N (3)\n\n1.2 B ✓✓ (2)\n", ["pair-value-differs"]),
    ],
)
def test_a_document_with_blocks_tells_its_answers(memo: str, told: list[str]) -> None:
    assert [slug for slug, *_ in differences(BLOCKS, memo)] == told


def test_a_paper_written_by_hand_needs_no_answers() -> None:
    text = "A lift of 640 kg speeds up at 0,75 m·s⁻²."
    paper = f"# Question 1\n\n{text}\n\n1.1 Calculate the tension. (3)\n\n1.2 Which? (2)\n"
    assert differences(paper, BLOCKS) == []


def test_two_languages_with_blocks_are_compared() -> None:
    other = BLOCKS.replace("a: 0.75", "a: 0.57")
    assert {slug for slug, *_ in differences(BLOCKS, other)} == {"pair-value-differs", "pair-answer-differs"}
    assert differences(BLOCKS, BLOCKS) == []


def read_tex(text: str, paper: bool = True) -> Side:
    return read_by_hand(weave(Source("a.tex", text), Path())[0], ",", QUESTION_WORDS, paper)


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("\\section*{Question 1}\nText.\n\n1.1 Name it. \\hfill (2)\n", {"1": None, "1.1": 2}),
        ("\\section{Question 1 \\hfill [6]}\n\\textbf{1.1} Name it.\\hfill(2) \\\\\n", {"1": 6, "1.1": 2}),
        (
            "\\textbf{Question 2}\n\\begin{enumerate}\n\\item[2.1] Name it. \\dotfill{} (3)\n"
            "\\item[\\textbf{2.2}] Why? % (9)\n\\end{enumerate}\n",
            {"2": None, "2.1": 3, "2.2": None},
        ),
        ("{\\bfseries Question 3} (4)\n\\hspace{1cm} 3.1~~Name it. (4)\\par\n", {"3": 4, "3.1": 4}),
        (
            "% Question 9\n\\begin{document}\n\\begin{verbatim}\nQuestion 8\n\\end{verbatim}\n"
            "Question 1\n\\end{document}\nQuestion 2\n",
            {"1": None},
        ),
    ],
)
def test_questions_of_latex_by_hand(text: str, found: dict[str, int | None]) -> None:
    asked = read_tex(text).questions
    assert {number: one.marks.count if one.marks else None for number, one in asked.items()} == found
    for number, one in asked.items():
        line = text.splitlines()[one.span.line - 1]
        assert number.split(".")[0] in line


def test_values_of_latex_by_hand_have_their_places() -> None:
    text = "\\section*{Question 1}\nA crate of 12~kg and $0{,}75\\,\\mathrm{m\\cdot s^{-2}}$, \\emph{not} 5,0\\,N.\n"
    (one,) = read_tex(text).questions.values()
    line = text.splitlines()[1]
    assert [line[value.span.column - 1 :][:2] for value in one.data] == ["12", "$0", "5,"]


WORKED = """# Question 1 {.question marks=5}

```{.given}
m_1: 1,2 kg
v_1: 1,5 m/s, left
R: 3 Ω
```

::: {.question marks=3 axis="right is positive"}
```{.calc}
formula: p = m_1 v_1
find: p in kg m/s to 2 dp with direction
```
:::

::: {.question marks=2}
```{.options}
A: one
B: two
answer: B
```
:::
"""


def test_what_is_worked_out_took_no_datums_place_and_a_direction_may_be_a_sign() -> None:
    """p = 1,2 × 1,5 = 1,80 to the left; it goes on as a bare number, and 3 Ω has no other in its place."""
    data = WORKED.replace("marks=5}", 'marks=5 axis="right is positive"}')
    memo = "# Question 1\n\n1.1 p = (1,2)(−1,5) = −1,80 kg·m·s⁻¹, E = (1,80)² (3)\n\n1.2 B (2)\n"
    assert [found[0] for found in differences(data, memo)] == ["pair-value-missing"]
    # Another datum in its place is found all the same.
    slugs = [found[0] for found in differences(data, memo.replace("1,80)²", "4 Ω)²"))]
    assert slugs == ["pair-value-differs"]


def test_the_right_option_is_shown_where_it_is_typed() -> None:
    data = WORKED.replace("marks=5}", 'marks=5 axis="right is positive"}')
    memo = "# Question 1\n\n1.1 p = (1,2)(−1,5), 3 Ω, p = 1,80 kg·m/s left (3)\n\n1.2 A (2)\n"
    ((slug, file, line, _),) = differences(data, memo)
    assert (slug, file, line) == ("pair-key-differs", "paper.md", 20)
