"""An author's own sheet: what it may say, and every mistake with its place."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import pytest
import yaml

from physcalc.problems import Problem, Span, Text
from physcalc.problems.sheets import (
    DefinitionUnknown,
    LawUnknown,
    SheetExtendsItself,
    SheetUnknown,
    SheetUnreadable,
)
from physcalc.sheets import load_sheet, nodes, read_sheet

OWN = """\
title: Our own sheet
extends: school

constants:
  g:
    value: 9,81 m·s⁻²
    title: acceleration due to gravity
  v_{sound}:
    value: 340 m/s
    title: speed of sound in air

formulas:
  forces:
    lift:
      title: force on a lift
      form: T - m g = m a
      symbols:
        T: tension in the cable in N, not negative, below 1e6
  optics of our own:
    symbols:
      n: refractive index, above 1, at most 4
    speed:
      title: speed in glass
      form: v = c / n
      symbols:
        v: speed in km·s⁻¹, below c

definitions:
  lift:
    title: a lift
    also: an elevator
    wording: >-
      A [cage] that moves up and
      down [in a shaft].
"""


Write = Callable[..., Path]


@pytest.fixture
def write(tmp_path: Path) -> Write:
    def _write(text: str, name: str = "own.yaml") -> Path:
        (tmp_path / name).write_text(text, encoding="utf-8")
        return tmp_path

    return _write


def faults(folder: Path, name: str = "own.yaml") -> list[tuple[str, int, int]]:
    return [(fault.slug, fault.span.line, fault.span.column) for fault in read_sheet(name, folder)[1]]


def test_an_own_sheet_extends_the_school_sheet(write: Write) -> None:
    sheet = load_sheet("own.yaml", write(OWN))
    assert sheet.name == "own"
    assert sheet.title == "Our own sheet"
    assert sheet.constants["g"].number.value == Fraction("9.81")
    assert sheet.constants["v_sound"].unit.text() == "m·s⁻¹"
    assert sheet.constants["h"].number.digits == "6.63"
    # A formula added to a topic of the base uses what that topic explains, and stands with it.
    lift = sheet.laws["lift"]
    assert lift.symbols["m"].title == "mass"
    assert lift.symbols["T"].maximum == 1_000_000
    assert lift.symbols["T"].exclusive_maximum
    assert not lift.symbols["T"].exclusive
    assert lift.symbols["g"].title == "acceleration due to gravity"
    assert set(lift.symbols) == {"T", "m", "g", "a"}
    topics = [law.topic for law in sheet.laws.values()]
    assert topics == sorted(topics, key=topics.index)
    # A constant as a limit is converted to the symbol's unit: 3.0 × 10⁸ m·s⁻¹.
    assert sheet.laws["speed"].symbols["v"].maximum == 300_000
    assert sheet.laws["speed"].symbols["n"].exclusive
    definition = sheet.find_definition(Text("An  Elevator"))
    assert definition.wording == "A cage that moves up and down in a shaft."
    assert definition.phrases == ("cage", "in a shaft")


def test_formulas_of_the_base_keep_their_meanings(write: Write) -> None:
    text = "extends: school\nformulas:\n  forces:\n    symbols:\n      m: number of lifts\n"
    sheet = load_sheet("own.yaml", write(text))
    assert sheet.laws["newton-2"].symbols["m"].unit.text() == "kg"


def test_the_decimal_sign_decides_ambiguous_numbers(write: Write) -> None:
    folder = write("constants:\n  N:\n    value: 1,250 m\n    title: a length\n")
    assert load_sheet("own.yaml", folder, ",").constants["N"].number.value == Fraction("1.25")
    assert faults(folder) == [("number-ambiguous", 3, 12)]


ENTRY = "constants:\n  g:\n    value: 9.8 m/s^2\n    title: gravity\n"
LAW = "formulas:\n  forces:\n    force:\n      title: force\n      form: F = m a\n      symbols:\n"
FULL = LAW + "        F: force in N\n        m: mass in kg\n        a: acceleration in m/s^2\n"


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (ENTRY, []),
        (FULL, []),
        ("titel: x\n", [("sheet-key-unknown", 1, 1)]),
        ("constants:\n  g:\n    value: 9.8 m/s^2\n", [("sheet-key-missing", 2, 3)]),
        (ENTRY + "    unit: m\n", [("sheet-key-unknown", 5, 5)]),
        (ENTRY + "    title: twice\n", [("sheet-entry-twice", 5, 5)]),
        (
            "constants:\n  mu_0:\n    {value: 1 m, title: a}\n  μ₀:\n    {value: 1 m, title: b}\n",
            [("sheet-entry-twice", 4, 3)],
        ),
        ("constants:\n  g: 9.8 m/s^2\n", [("sheet-entry-misshapen", 2, 3)]),
        ("constants:\n  2g:\n    {value: 1 m, title: a}\n", [("sheet-name-unreadable", 2, 3)]),
        ("constants:\n  g:\n    {value: [1], title: a}\n", [("sheet-entry-misshapen", 3, 6)]),
        ("constants:\n  g:\n    {value: about 1 m, title: a}\n", [("constant-unreadable", 3, 13)]),
        ("constants:\n  g:\n    value: 9.8 mx\n    title: a\n", [("unit-unknown", 3, 16)]),
        ("constants:\n  g:\n    value: '9.8 mx'\n    title: a\n", [("unit-unknown", 3, 17)]),
        (FULL.replace("m a", "m b a"), [("symbol-unexplained", 5, 19)]),
        (FULL.replace("m a", "(m a"), [("formula-unreadable", 5, 17)]),
        (FULL + "        v: speed in m/s\n", [("symbol-unused", 10, 12)]),
        (FULL.replace("kg", "kg, non negative"), [("limit-unreadable", 8, 24)]),
        (FULL.replace("kg", "kg, below q"), [("limit-unreadable", 8, 30)]),
        (FULL.replace("kg", "kg, 2 to 1"), [("limit-unreadable", 8, 12)]),
        (FULL.replace("force:\n", "Force 1:\n"), [("sheet-name-unreadable", 3, 5)]),
        (
            "formulas:\n  forces:\n    symbols: {m: mass}\n    symbols: {n: number}\n  forces: {}\n",
            [("sheet-entry-twice", 4, 5), ("sheet-entry-twice", 5, 3)],
        ),
        (FULL + "      magnitudes: maybe\n", [("sheet-entry-misshapen", 10, 19)]),
        ("definitions:\n  work:\n    title: w\n    wording: A [thing.\n", [("phrase-unclosed", 4, 14)]),
        ("definitions:\n  work:\n    title: w\n    wording: A thing].\n", [("phrase-unclosed", 4, 14)]),
        ("definitions:\n  work:\n    title: w\n    wording: A [[th]ing].\n", [("phrase-unclosed", 4, 14)]),
        ("definitions:\n  work:\n    title: w\n    wording: A [] thing.\n", [("phrase-unclosed", 4, 14)]),
    ],
)
def test_a_mistake_is_found_at_its_place(
    write: Write, text: str, expected: list[tuple[str, int, int]]
) -> None:
    found = faults(write(text))
    # Where a formula cannot be parsed, the parser decides the column.
    if expected and expected[0][0] == "formula-unreadable":
        assert [(slug, line) for slug, line, _ in found] == [(slug, line) for slug, line, _ in expected]
    else:
        assert found == expected


def test_all_mistakes_of_a_file_come_at_once_in_order(write: Write) -> None:
    text = (
        "titel: x\n" + ENTRY.replace("9.8", "nine") + FULL.replace("in kg", "in kgg").replace("in N", "in Nn")
    )
    folder = write(text)
    assert [(slug, line) for slug, line, _ in faults(folder)] == [
        ("sheet-key-unknown", 1),
        ("constant-unreadable", 4),
        ("unit-unknown", 12),
        ("unit-unknown", 13),
    ]
    with pytest.raises(ExceptionGroup) as caught:
        load_sheet("own.yaml", folder)
    assert len(caught.value.exceptions) == 4
    assert all(isinstance(problem, Problem) for problem in caught.value.exceptions)
    # What is right stays usable, for a draft.
    assert "g" not in read_sheet("own.yaml", folder)[0].constants


def test_a_topics_mistake_is_reported_once(write: Write) -> None:
    shared = "formulas:\n  forces:\n    symbols:\n      m: mass in kgg\n"
    two = "".join(f"    f{n}:\n      title: t\n      form: m = {n}\n" for n in (1, 2))
    assert faults(write(shared + two)) == [("unit-unknown", 4, 18)]


def test_misspelt_words_name_the_nearest(write: Write) -> None:
    (fault,) = read_sheet("own.yaml", write("titel: x\n"))[1]
    assert 'write "title"' in fault.mend()
    (fault,) = read_sheet("own.yaml", write(FULL.replace("kg", "kg, non negative")))[1]
    assert 'write "not negative"' in fault.mend()


@pytest.mark.parametrize(
    "text",
    [
        "",
        "# only a comment\n",
        "- a\n- b\n",
        "just a text\n",
        "title: a\n---\ntitle: b\n",
        "title: &x a\n",
        "title: &x a\nextends: *x\n",
        "title: *x\n",
        "title: !!python/object/apply:os.system ['true']\n",
        "title: !!str a\n",
        "<<: {title: a}\nx: [",
        "? [a, b]\n: c\n",
        "title: a\n\tx: b\n",
        "title: |Q| = n e\n",
        "title: a: b\n",
        'title: "a\n',
        "title: a\x07b\n",
        "x: " + "[" * 40 + "]" * 40 + "\n",
        "x: " + "[" * 100_000 + "\n",
        "x: y\n" * 250_000,
    ],
)
def test_what_is_no_sheet_is_refused_in_a_sentence(write: Write, text: str) -> None:
    with pytest.raises(SheetUnreadable) as caught:
        read_sheet("own.yaml", write(text))
    assert caught.value.sentence()
    assert "<" not in caught.value.sentence()


def test_a_yaml_mistake_has_its_place(write: Write) -> None:
    # libyaml points behind the bar.
    with pytest.raises(SheetUnreadable) as caught:
        read_sheet("own.yaml", write("title: é\nform: |Q| = n e\n"))
    assert (caught.value.span.line, caught.value.span.column) == (2, 8)


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("form: |Q| = n e\n", "a text that begins with | or > must stand in quotes"),
        ("title: a\n\tx: b\n", "a tab stands here; YAML indents with spaces"),
        ("title: a: b\n", 'a second colon stands here; a text that holds ": " must stand in quotes'),
        ("unit: @b\n", "a text cannot begin with this character unless it stands in quotes"),
        ('title: "a\n', "a quote is not closed"),
    ],
)
def test_usual_yaml_mistakes_are_said_plainly(write: Write, text: str, sentence: str) -> None:
    with pytest.raises(SheetUnreadable) as caught:
        read_sheet("own.yaml", write(text))
    assert caught.value.sentence() == sentence


def test_a_pyyaml_without_libyaml_reads_the_same(monkeypatch: pytest.MonkeyPatch) -> None:
    source = Path(nodes.__file__).with_name("builtin").joinpath("school.yaml").read_text(encoding="utf-8")
    with_libyaml = nodes.read_nodes(source, "school.yaml")
    monkeypatch.setattr(nodes, "_LOADER", yaml.SafeLoader)
    assert nodes.read_nodes(source, "school.yaml") == with_libyaml


def test_columns_count_characters_not_bytes(write: Write) -> None:
    text = "constants:\n  Ω:\n    {title: µµµµ, value: 9.8 mx}\n"
    assert faults(write(text)) == [("unit-unknown", 3, 30)]


def test_bytes_that_are_no_utf8_are_refused(tmp_path: Path) -> None:
    (tmp_path / "own.yaml").write_bytes(b"title: caf\xe9\n")
    with pytest.raises(SheetUnreadable, match="UTF-8"):
        read_sheet("own.yaml", tmp_path)


def test_yaml_words_stay_words(write: Write) -> None:
    assert load_sheet("own.yaml", write("title: no\n")).title == "no"


def test_an_unknown_sheet_names_the_nearest() -> None:
    with pytest.raises(SheetUnknown) as caught:
        load_sheet(Text("scool", Span("test.md", 5, 10, 5)))
    assert caught.value.mend() == 'if it is what was meant, write "school"'
    assert caught.value.span == Span("test.md", 5, 10, 5)


def test_a_missing_file_is_named(tmp_path: Path) -> None:
    with pytest.raises(SheetUnknown, match=r"no sheet file .*none\.yaml"):
        load_sheet("none.yaml", tmp_path)


def test_only_yaml_files_are_opened(tmp_path: Path) -> None:
    (tmp_path / "secret.txt").write_text("title: secret\n")
    with pytest.raises(SheetUnknown):
        load_sheet("secret.txt", tmp_path)


def test_a_sheet_that_extends_itself_is_refused(write: Write) -> None:
    write("extends: b.yaml\n", "a.yaml")
    folder = write("extends: ./a.yaml\n", "b.yaml")
    with pytest.raises(SheetExtendsItself) as caught:
        load_sheet("a.yaml", folder)
    assert caught.value.chain == ("a.yaml", "b.yaml", "a.yaml")


def test_unknown_formulas_and_definitions_name_the_nearest() -> None:
    sheet = load_sheet("school")
    with pytest.raises(LawUnknown) as law:
        sheet.find_law(Text("newton2"))
    assert law.value.nearest == "newton-2"
    with pytest.raises(DefinitionUnknown) as definition:
        sheet.find_definition(Text("Newtons second law"))
    assert definition.value.nearest == "Newton's second law"
    assert sheet.find_definition(Text("Newton’s Second Law")).slug == "newton-2"
    assert sheet.find_law(Text("Ohm's law")).slug == "ohm"
