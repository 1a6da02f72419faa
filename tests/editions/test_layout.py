"""The parts of a page, as pandoc writes them in each format."""

from __future__ import annotations

import json
import re
import subprocess
from collections.abc import Sequence
from dataclasses import replace

import panflute as pf
import pytest
from physcalc_filter.editions.layout import (
    Note,
    Option,
    Row,
    definition,
    framed,
    heading_word,
    layout_for,
    marks_margin,
    option_list,
    question_head,
    ticks,
    total_line,
    working,
    writing_lines,
)
from physcalc_filter.editions.words import words_for
from physcalc_filter.outputs.pandoc import pandoc_path

FORMATS = ["typst", "html5", "epub3", "latex", "docx", "markdown", "rst"]

ROWS = [
    Row(r"F_{\text{net}}", r"m\,a", ticks=1),
    Row("T - W", r"(\text{640})(\text{0,75}) + x", ticks=2),
    Row("", r"\text{6 752,00}\ \text{N}", "≈", ticks=1),
    Row(remark=(pf.Str("Up"), pf.Space(), pf.Str("wins.")), total="(4)"),
]


def written(blocks: Sequence[pf.Block], format: str) -> str:
    """Pandoc's text for blocks."""
    tree = {
        "pandoc-api-version": [1, 23],
        "meta": {},
        "blocks": [block.to_json() for block in blocks],
    }
    # The formats that are archives, as the text inside of them.
    to = {"docx": "opendocument", "epub3": "html5"}.get(format, format)
    done = subprocess.run(
        [pandoc_path(), "--from=json", f"--to={to}", "--wrap=none", *(["--mathml"] if "html" in to else [])],
        input=json.dumps(tree).encode(),
        capture_output=True,
        check=True,
    )
    assert done.stderr == b""
    return done.stdout.decode()


@pytest.mark.parametrize("format", ["typst", "html5", "latex", "markdown"])
def test_a_working_holds_its_rows_in_order_with_ticks_and_total(format: str) -> None:
    made = written(working(ROWS, format), format)
    places = [made.index(piece) for piece in ("net", "640", "752", "Up wins")]
    assert places == sorted(places)
    if format == "typst":
        assert re.findall(r"[\])],(\d),\[", made) == ["1", "2", "1", "0"]
    else:
        tick = r"\\pctick\{\}" if format == "latex" else "✓"
        assert len(re.findall(tick, made)) == 4
    assert made.replace("\\", "").count("(4)") == 1


@pytest.mark.parametrize("format", ["typst", "html5", "latex"])
def test_long_right_sides_can_break_after_their_signs(format: str) -> None:
    made = written(working([Row("a", "b + c - d")], format), format)
    if format == "typst":
        assert made.count("sign[") == 2
        assert made.count("piece[") == 3
    elif format == "html5":
        assert made.count("<wbr />") == 2
    else:
        assert "b + c - d" in made  # TeX breaks a line in its maths by itself


def test_a_table_for_the_eye_is_none_for_a_screen_reader_and_ticks_are_read_as_marks() -> None:
    made = written(working(ROWS, "html5", words_for("de")), "html5")
    assert 'role="presentation"' in made
    assert 'aria-label="1 Punkt"' in made
    assert 'aria-label="2 Punkte"' in made


def test_a_left_side_that_is_too_long_gets_a_line_to_itself() -> None:
    long = r"E_{\text{k,i}} + E_{\text{p,i}} + W_{\text{net}} + Q_{\text{given off}} + a + b"
    made = written(working([Row(long, "x", ticks=1)], "html5"), "html5")
    assert made.count("<tr>") == 2
    assert made.index("colspan") < made.index('class="relation"')
    assert made.count("✓") == 1


@pytest.mark.parametrize(
    ("format", "sign"), [("typst", "opens: true"), ("html5", 'class="opens"'), ("latex", "\\pcopens")]
)
def test_a_step_stands_clear_of_the_one_above(format: str, sign: str) -> None:
    rows = [Row("a", "b"), Row("a", "2", ticks=1), Row("c", "a", opens=True), Row("c", "2")]
    made = written(working(rows, format), format)
    assert made.count(sign) == 1
    assert made.count(sign) > written(
        working([replace(row, opens=False) for row in rows], format), format
    ).count(sign)


def test_a_step_stands_clear_in_word() -> None:
    (table,) = working([Row("a", "b"), Row("c", "a", opens=True), Row("c", "2")], "docx")
    styles = [row.content[0].content[0].attributes["custom-style"] for row in table.content[0].content]
    assert styles == ["Working Line", "Working Opening", "Working End"]


def test_a_total_below_a_working_is_its_last_row_in_word() -> None:
    layout = layout_for("docx")
    made = layout.closed([*layout.total_line("x"), *working(ROWS, "docx")], "[4]")
    assert len(made) == 2
    rows = made[-1].content[0].content
    assert len(rows) == len(ROWS) + 1
    assert pf.stringify(rows[-1].content[0]).strip() == "[4]"
    assert rows[-1].content[0].colspan == made[-1].cols
    kept = {cell.content[0].attributes["custom-style"] for row in rows[:-1] for cell in row.content}
    assert kept == {"Working Line"}


def test_a_long_right_side_gets_the_room_of_a_left_side_in_word() -> None:
    root = r"\frac{-(-14,6) \pm \sqrt{(-14,6)^2 - 4(4,9)(-23,5)}}{2(4,9)}"
    left = "4,9 x^2 - 14,6 x - 23,5"
    (beside,) = working([Row(left, "0", ticks=1), Row("x", "5", ticks=1)], "docx")
    (above,) = working([Row(left, "0", ticks=1), Row("x", root, ticks=1)], "docx")
    assert len(beside.content[0].content) == 2
    assert len(above.content[0].content) == 3


@pytest.mark.parametrize(("format", "sign"), [("typst", "#whole("), ("html5", 'class="whole kept"')])
def test_a_picture_stays_with_what_is_told_below_it(format: str, sign: str) -> None:
    layout = layout_for(format)
    table = layout.small_table([[pf.Str("What")]], [[[pf.Str("axes")]]])
    made = written(layout.whole([pf.Para(pf.Str("picture")), *table], kept=True), format)
    assert made.index(sign) < made.index("picture") < made.index("axes")


def test_word_gets_real_equations_and_a_table_of_our_style() -> None:
    table = working(ROWS, "docx")[0]
    assert isinstance(table, pf.Table)
    assert table.attributes["custom-style"] == "Working"
    assert sum(share for _, share in table.colspec) == pytest.approx(1)
    found: list[str] = []
    table.walk(lambda element, _: found.append(element.text) if isinstance(element, pf.Math) else None)
    # A power in Word needs the whole bracket as its base.
    assert r"\left(\text{640}\right)\left(\text{0,75}\right) + x" in found


def test_beside_a_number_words_table_leaves_the_numbers_column_empty() -> None:
    _, body = question_head("1.1", [pf.Para(pf.Str("Find.")), *working(ROWS, "docx")], "docx")
    table = body.content[0]
    assert table.cols == len(table.colspec) == 6
    assert sum(share for _, share in table.colspec) == pytest.approx(1)
    assert "752" in written([body], "docx")


@pytest.mark.parametrize("format", FORMATS)
def test_every_part_can_be_written_in_every_format(format: str) -> None:
    layout = layout_for(format)
    blocks = [
        *question_head(
            "1.1",
            [
                pf.Para(pf.Str("Say"), *ticks(2, format), *marks_margin("(2)", format)),
                *working(ROWS, format),
                *writing_lines(2, format),
            ],
            format,
        ),
        *question_head("1.2", [], format),
        *question_head("1.3", [pf.BulletList(pf.ListItem(pf.Plain(pf.Str("item"))))], format),
        *heading_word("Slips", format),
        *definition([pf.Para(pf.Str("Wording"))], format),
        *framed([pf.Para(pf.Str("Problem"))], format),
        *option_list([Option(letter, [pf.Str(f"text-{letter}")]) for letter in "ABCD"], format),
        *total_line("[9]", format),
    ]
    made = written(blocks, format)
    for piece in (
        "1.1",
        "Say",
        "2",
        "1.2",
        "1.3",
        "item",
        "Slips",
        "Wording",
        "Problem",
        "text-A",
        "text-D",
        "9",
    ):
        assert piece in made.replace("\\", "")
    assert isinstance(layout.preamble(), list)


@pytest.mark.parametrize("format", FORMATS)
def test_nothing_is_nothing(format: str) -> None:
    assert ticks(0, format) == []
    assert writing_lines(0, format) == []


@pytest.mark.parametrize(
    ("texts", "across"),
    [
        (["2 F", "4 F", "F", "8 F"], "four"),
        (["2 F", "4 F"], "two"),
        (["the speed stays the same", "it grows", "it falls", "none of these"], "two"),
        (["x" * 60, "b", "c", "d"], "one"),
    ],
)
def test_options_stand_in_as_many_columns_as_fit(texts: list[str], across: str) -> None:
    options = [Option("ABCD"[at], [pf.Str(text)]) for at, text in enumerate(texts)]
    (div,) = option_list(options, "html5")
    assert div.classes == ["options", across]


def test_a_format_is_known_by_its_name_without_extensions() -> None:
    assert type(layout_for("html+smart")) is type(layout_for("epub3"))
    assert type(layout_for("latex-auto_identifiers")) is type(layout_for("beamer"))
    assert type(layout_for("unheard-of")) is type(layout_for("markdown"))


def test_the_number_of_a_part_stands_in_the_first_line_of_its_working() -> None:
    made = written(question_head("5.2", working(ROWS, "typst"), "typst"), "typst")
    assert re.search(r"#working\(number:\[5\\?\.2\]", made)
    assert "part-number" not in made
    (body,) = question_head("5.2", working(ROWS, "docx"), "docx")
    row = body.content[0].content[0].content[0]
    assert pf.stringify(row.content[0]).strip() == "5.2"
    (body,) = question_head("5.2", heading_word("or", "docx"), "docx")
    assert pf.stringify(body).startswith("5.2")


@pytest.mark.parametrize("format", ["typst", "html5", "latex", "docx", "markdown"])
def test_notes_stand_below_a_working(format: str) -> None:
    notes = [
        Note("Accept", [pf.Str("wide")]),
        Note("Slips", [pf.Str("lost")], [pf.Str("7")]),
        Note("", [pf.Str("forgot")], [pf.Str("9")]),
    ]
    made = written(working(ROWS, format, notes=notes), format)
    places = [made.index(piece) for piece in ("Up wins", "Accept", "wide", "Slips", "lost", "forgot")]
    assert places == sorted(places)


def test_a_total_is_kept_with_the_last_piece_before_it() -> None:
    layout = layout_for("typst")
    part = layout.question_head("1.1", [pf.Para(pf.Str("First.")), pf.Para(pf.Str("Last."))])
    made = written(layout.closed([pf.Div(*part)], "[2]"), "typst")
    # Inside the part, after its last paragraph, which sticks to what follows.
    assert re.search(r"#part-lead\[\s+Last\.\s+\]\s+#total-line\[\\\[2\\\]\]\s+\]", made)
    word = layout_for("docx")
    blocks = word.closed(word.question_head("1.1", [pf.Para(pf.Str("Ask."))]), "[2]")
    assert [block.attributes["custom-style"] for block in blocks] == ["Part Lead", "Total Line"]


def test_a_solution_folds_away_in_a_browser_and_is_headed_elsewhere() -> None:
    def folded(format: str, headed: bool = True) -> str:
        layout = layout_for(format, words_for("de"))
        return written(layout.folded("Rechnung & <so>", [pf.Para(pf.Str("inside"))], headed), format)

    html = folded("html5")
    assert '<details class="solution"><summary>Rechnung &amp; &lt;so&gt;</summary>' in html
    assert html.index("inside") < html.index("</details>")
    assert "<details" in folded("html5", headed=False)
    for format in ("typst", "epub3", "latex", "docx", "markdown"):
        made = folded(format)
        assert "<details" not in made
        assert made.index("Rechnung") < made.index("inside")
        assert "Rechnung" not in folded(format, headed=False)
    assert layout_for("html5").folded("x", []) == layout_for("typst").folded("x", []) == []


def test_a_working_that_a_narrow_screen_cuts_is_reached_with_the_keyboard() -> None:
    short = written(working([Row("F", r"m\,a", ticks=1, total="(2)")], "html5"), "html5")
    long = written(
        working(
            [
                Row(
                    "F",
                    r"\dfrac{(\text{9,0} \times 10^{9})(\text{6,0} \times 10^{-6})(\text{4,5} \times 10^{-6})}{r}",
                )
            ],
            "html5",
        ),
        "html5",
    )
    assert "tabindex" not in short
    assert 'role="group" aria-label="Working" tabindex="0"' in long
    # Where nothing is marked there are no columns for marks.
    assert "earned" in short
    assert "earned" not in long
