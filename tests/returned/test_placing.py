"""Where in the source is told what was changed, and what is told at all (the language reference, "A Word file that
comes back")."""

from __future__ import annotations

import re
import zipfile
from io import BytesIO
from pathlib import Path

import pytest
from physcalc_filter.cli import main
from physcalc_filter.outputs.archive import unzipped, zipped
from physcalc_filter.returned import Change, Passage, WordText, changes, read_word

from .conftest import THIN, Changed
from .test_changes import told

Capture = pytest.CaptureFixture[str]

PUSHED = """---
title: Carts and boats
lang: en-ZA
physcalc:
  sheet: school
---

# Question 1 {.question #cart marks=5}

A cart of mass [5 kg]{.value of=m} moves east.

```{.given}
m: 5 kg
```

::: {.question #cart-choice marks=2 axis="east is positive"}
The cart moves east at [3,5 m·s⁻¹]{.value of=u} and later west at [2,0 m·s⁻¹]{.value of=v}. The change in
its velocity is:

```{.given}
u: 3.5 m/s, east
v: 2.0 m/s, west
```

```{.options}
of: v - u
A: 1.5 m/s, east
B: 1.5 m/s, west
C: 5.5 m/s, east
D: 5.5 m/s, west
answer: D
```
:::

::: {.question #cart-law marks=1}
State a law of motion in words of your own.
:::

::: {.question #cart-why marks=2}
Give a reason why the cart slows down on the gravel.[^1]
:::

[^1]: The gravel is dry.

# Question 2 {.question #boat marks=2}

Explain why a boat floats on the water of the harbour.

# Data and rules

Take the acceleration of a falling body to be that of the sheet.
"""


@pytest.fixture
def pushed(paper: Path) -> Path:
    (paper / "test.md").write_text(PUSHED, encoding="utf-8")
    return paper


def at(text: str, words: str, more: int = 0) -> tuple[int, int]:
    """The line and the column of some words of the source."""
    start = text.index(words) + more
    return text.count("\n", 0, start) + 1, start - text.rfind("\n", 0, start)


def place(one: dict[str, object]) -> tuple[object, object]:
    return one["line"], one["column"]


@pytest.mark.parametrize(
    ("old", "new", "where"),
    [
        # Not the one of the axis, nor that of the question around it.
        ("east at", "west at", at(PUSHED, "cart moves east at", 11)),
        (f"5,5{THIN}m·s⁻¹\u00a0west", f"5,6{THIN}m·s⁻¹\u00a0west", at(PUSHED, "D: 5.5", 3)),
        (f"5,5{THIN}m·s⁻¹\u00a0west", f"5,5{THIN}m·s⁻¹\u00a0east", at(PUSHED, "D: 5.5 m/s, west", 12)),
        ("Carts and boats", "Carts and ships", at(PUSHED, "boats")),
        ("boat floats", "ship floats", at(PUSHED, "boat floats")),
    ],
)
def test_of_several_places_the_one_is_told_where_the_page_has_it(
    pushed: Path, back: Changed, capsys: Capture, old: str, new: str, where: tuple[int, int]
) -> None:
    back((old, new))
    (one,) = told(capsys)
    assert place(one) == where


PARAGRAPH = re.compile(r"<w:p>.*?</w:p>", re.DOTALL)


def paragraphs(made: Path) -> list[str]:
    return PARAGRAPH.findall(unzipped(made.read_bytes())["word/document.xml"].decode())


def one_with(made: Path, text: str) -> str:
    return next(one for one in paragraphs(made) if text in one)


def test_a_paragraph_with_a_value_that_went_is_found(pushed: Path, back: Changed, capsys: Capture) -> None:
    back((one_with(back(), "A cart of mass"), ""))
    (one,) = told(capsys)
    assert 'question 1 has lost "A cart of mass' in str(one["sentence"])
    assert place(one) == at(PUSHED, "A cart of mass")
    assert one["mend"] == "if it is meant, take it out here too"


def test_a_paragraph_that_came_in_is_told_behind_the_one_before(
    pushed: Path, back: Changed, capsys: Capture
) -> None:
    text = one_with(back(), "State a law")
    back((text, text + "<w:p><w:r><w:t>Name its units.</w:t></w:r></w:p>"))
    (one,) = told(capsys)
    assert '"Name its units." more' in str(one["sentence"])
    assert place(one) == at(PUSHED, "words of your own.", 17)
    assert "add it here" in str(one["mend"])


def test_words_before_a_question_are_told_in_it(pushed: Path, back: Changed, capsys: Capture) -> None:
    back(("Explain why", "Now explain why"), ("State a law", "Please state a law"))
    first, second = told(capsys)
    assert "question 1.2" in str(first["sentence"])
    assert "question 2" in str(second["sentence"])


def test_a_question_that_went_changes_the_numbers_behind_it_once(
    pushed: Path, back: Changed, capsys: Capture
) -> None:
    text = one_with(back(), "State a law")
    back((text, ""), (">1.3<", ">1.2<"))
    went, number = told(capsys)
    assert 'question 1.2 has lost "1.2 State a law of motion' in str(went["sentence"])
    assert number["sentence"] == "question 1.3 has the number 1.2 in back.docx"
    made = back()
    back((one_with(made, ">1.1<"), ""), (">1.2<", ">1.1<"), (">1.3<", ">1.2<"))
    numbers = [one for one in told(capsys) if "has the number" in str(one["sentence"])]
    assert [one["because"][-1] for one in numbers] == ["further questions with another number: 1"]


def test_a_passage_that_was_moved_is_one_change(pushed: Path, back: Changed, capsys: Capture) -> None:
    made = back()
    one, other = one_with(made, "State a law"), one_with(made, "Give a reason")
    back((one, "@"), (other, one), ("@", other))
    (moved,) = told(capsys)
    assert "in another place in back.docx" in str(moved["sentence"])
    assert main(["changes", "test.md", "back.docx"]) == 1
    assert "1 change in" in capsys.readouterr().err


def test_totals_and_data_behind_the_last_part_are_not_told_as_the_parts_own(
    pushed: Path, back: Changed, capsys: Capture
) -> None:
    back(("[5]", "[6]"), ("falling body", "falling stone"))
    total, data = told(capsys)
    assert str(total["sentence"]).startswith('question 1 has "[6]"')
    assert place(total) == at(PUSHED, "marks=5", 6)
    assert str(data["sentence"]).startswith('the document has "stone"')
    assert place(data) == at(PUSHED, "body to be")


def test_footnotes_are_compared(pushed: Path, back: Changed, capsys: Capture) -> None:
    made = back()
    parts = unzipped(made.read_bytes())
    notes = parts["word/footnotes.xml"].decode()
    assert "gravel is dry" in notes
    parts["word/footnotes.xml"] = notes.replace("gravel is dry", "gravel is wet").encode()
    made.write_bytes(zipped(parts))
    (one,) = told(capsys)
    assert place(one) == at(PUSHED, "dry")


def test_captions_are_compared_and_cells_stay_apart(paper: Path, back: Changed, capsys: Capture) -> None:
    source = """---
lang: en
---

What was measured in the shed is kept in a table.

| row | first | next |
|-----|-------|------|
| one | 2     | C    |

: Readings in the shed
"""
    (paper / "test.md").write_text(source, encoding="utf-8")
    back((">Readings in the shed<", ">Readings in the barn<"), (">2<", ">3<"))
    caption, cell = told(capsys)
    assert 'has "barn"' in str(caption["sentence"])
    assert 'has "3" in back.docx, where "2" was' in str(cell["sentence"])


def test_what_is_struck_out_by_hand_counts_as_taken_out(pushed: Path, back: Changed, capsys: Capture) -> None:
    struck = "</w:t></w:r><w:r><w:rPr><w:strike/></w:rPr><w:t>of your own</w:t></w:r><w:r><w:t>"
    back(("of your own", struck))
    (one,) = told(capsys)
    assert 'has lost "of your own"' in str(one["sentence"])


def test_a_document_without_questions(paper: Path, back: Changed, capsys: Capture) -> None:
    source = (
        "---\nlang: en\n---\n\nA stone of mass 4 kg falls from a wall.\n\nIt lands in the $a^2/b$ water.\n"
    )
    (paper / "test.md").write_text(source, encoding="utf-8")
    back()
    assert told(capsys, code=0) == []
    back(("4 kg", "6 kg"))
    (one,) = told(capsys)
    assert one["sentence"] == 'the document has "6 kg" in back.docx, where "4 kg" was handed out'
    assert place(one) == (5, 17)


def test_a_number_of_a_question_is_no_quantity() -> None:
    (one,) = changes(text_of("1.3 A winch lifts."), text_of("1.3 The winch lifts."), ",")
    assert (one.ours, one.theirs) == ("A", "The")


def text_of(*lines: str) -> WordText:
    return WordText(tuple(map(Passage, lines)))


COMMENTS = (
    '<?xml version="1.0"?><w:comments xmlns:w="http://schemas.openxmlformats.org/wordprocessingml/2006/main">'
    '<w:comment w:id="5" w:author="x" w:date="2026-01-01T00:00:00Z"><w:p><w:r><w:t>too easy</w:t></w:r></w:p>'
    "<w:p><w:r><w:t>or not</w:t></w:r></w:p></w:comment></w:comments>"
)
START, END = '<w:commentRangeStart w:id="5"/>', '<w:commentRangeEnd w:id="5"/>'
MARK = '<w:r><w:commentReference w:id="5"/></w:r>'


@pytest.mark.parametrize(
    ("first", "last", "said"),
    [
        # Over two paragraphs: told where it begins.
        (START, END + MARK, ' on "'),
        # Nothing says where it ends, or what it is about.
        (START, "", " in question 1.2: "),
        (MARK, "", " on no words: "),
    ],
)
def test_no_comment_is_lost(
    pushed: Path, back: Changed, capsys: Capture, first: str, last: str, said: str
) -> None:
    made = back()
    one, other = one_with(made, "State a law"), one_with(made, "Give a reason")
    made = back(
        (one, one.replace("<w:r>", first + "<w:r>", 1)), (other, other.replace("</w:p>", last + "</w:p>"))
    )
    parts = unzipped(made.read_bytes())
    parts["word/comments.xml"] = COMMENTS.encode()
    made.write_bytes(zipped(parts))
    (note,) = told(capsys, code=0)
    assert note["level"] == "note"
    assert said in str(note["sentence"])
    assert str(note["sentence"]).endswith("too easy or not")
    if last:
        assert "own. (1) 1.3 Give" in str(note["sentence"])
        assert "in question 1.2: " in str(note["sentence"])


def test_text_boxes_are_compared(pushed: Path, back: Changed, capsys: Capture) -> None:
    text = one_with(back(), "State a law")
    box = "<w:txbxContent><w:p><w:r><w:t>Rather ask for a unit.</w:t></w:r></w:p></w:txbxContent>"
    shape = f"<w:r><w:pict><v:shape><v:textbox>{box}</v:textbox></v:shape></w:pict></w:r>"
    back((text, text.replace("<w:r>", shape + shape + "<w:r>", 1)))
    (one,) = told(capsys)
    assert '"Rather ask for a unit." more' in str(one["sentence"])


@pytest.mark.parametrize(
    "text", [b"", b"<a", b"\xff\xfe\x00", COMMENTS[:-5].encode(), b"<a/>" + b" " * 21_000_000]
)
def test_comments_that_are_damaged_or_large_stop_nothing(back: Changed, text: bytes) -> None:
    from physcalc_filter.returned.remarks import comments_in

    made = BytesIO()
    with zipfile.ZipFile(made, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("word/comments.xml", text)
    assert comments_in(made.getvalue()) == {}
    assert comments_in(b"PK") == {}


def test_the_reason_of_what_cannot_be_read_is_for_a_reader(
    paper: Path, back: Changed, capsys: Capture
) -> None:
    made = back()
    parts = unzipped(made.read_bytes())
    for text in (b"", b"\xff\xfe\x00", parts["word/document.xml"][:3000]):
        made.write_bytes(zipped({**parts, "word/document.xml": text}))
        assert main(["changes", "test.md", "back.docx"]) == 2
        said = capsys.readouterr().err
        assert "(its text is missing or damaged)" in said


def test_powers_of_a_fraction_keep_their_brackets(paper: Path, back: Changed) -> None:
    (paper / "test.md").write_text(
        "---\nlang: en\n---\n\nHere $v = \\frac{u^2}{3}$ holds.\n", encoding="utf-8"
    )
    (passage,) = [one for one in read_word(back().read_bytes(), "a").passages if "Here" in one.text]
    assert passage.text.count("(") == passage.text.count(")")
    assert "u²" in passage.text


def test_the_same_words_again_and_again_are_compared_in_time() -> None:
    often = text_of(*["x"] * 50_000)
    (one,) = changes(
        text_of("a b c", "d e f"), WordText((Passage("a b c"), *often.passages, Passage("d e f"))), "."
    )
    assert isinstance(one, Change)
    assert one.theirs.count("x") == 50_000
