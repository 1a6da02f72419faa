"""Settings: what each may be, which place wins, and what is refused."""

from __future__ import annotations

from fractions import Fraction

import pytest
from physcalc_filter.blocks import BlockPlace, read_block
from physcalc_filter.editions.words import KEYS
from physcalc_filter.settings import LABELS, LOCAL_NAMES, SETTING_NAMES, Settings, decimal_sign
from physcalc_filter.settings.languages import money_place

from physcalc.exact import Form, NumberStyle
from physcalc.problems import Problem, Span, Text


def pair(key: str, value: str, line: int = 1) -> tuple[Text, object]:
    return Text(key, Span("t.md", line, 1, len(key))), Text(
        value, Span("t.md", line, len(key) + 3, len(value))
    )


def over(*pairs: tuple[Text, object], scope: str = "document") -> tuple[Settings, list[Problem]]:
    settings, problems = Settings().with_overrides(pairs, scope=scope)  # type: ignore[arg-type]
    return settings, list(problems)


@pytest.mark.parametrize(
    ("lang", "sign"),
    # Common practice of each language; en-ZA by the project's own choice of the South African comma.
    [
        ("en", "."), ("en-GB", "."), ("en-US", "."), ("en-ZA", ","), ("en_za", ","), ("af", ","),
        ("zu-ZA", ","),
        ("de", ","), ("de-DE", ","),
        ("de-CH", "."), ("fr", ","), ("fr-CA", ","), ("nl", ","), ("es", ","),
        ("es-MX", "."), ("es-419", "."), ("es-AR", ","),
        ("pt-BR", ","), ("it", ","), ("it-CH", "."), ("pl", ","),
        ("ru", ","), ("sv", ","), ("zh", "."), ("ja", "."), ("he", "."), ("", "."),
    ],
)  # fmt: skip
def test_a_language_has_its_decimal_sign(lang: str, sign: str) -> None:
    assert decimal_sign(lang) == sign


def test_nothing_said_gives_the_documented_defaults() -> None:
    settings, problems = Settings.from_metadata({}, lang="en-ZA")
    assert not problems
    assert settings.numbers == NumberStyle(",", True, True, Fraction(1, 10), Fraction(100_000), lang="en-ZA")
    assert settings.form == Form("places", 2, None)
    assert (settings.rule, settings.carry, settings.signs) == ("half-up", "unrounded", "carried")
    assert (settings.sheet, settings.total, settings.edition, settings.draft) == (
        "school",
        None,
        "paper",
        False,
    )


def test_metadata_is_read_with_its_groups() -> None:
    values: dict[str, object] = {
        "sheet": "codata",
        "total": "150",
        "draft": True,
        "numbers": {"decimal": "point", "grouping": "from-five", "rounding": "3 sf", "standard-from": "1e6"},
        "rounding": "half-even",
        "points": {"A": "0 m, 0 m", "B": "3 m, 0 m"},
        "writing-space": "3 lines per mark",
        "labels": {"question": "Problem"},
    }
    settings, problems = Settings.from_metadata(values, lang="de")
    assert not problems
    assert (settings.sheet, settings.total, settings.draft) == ("codata", 150, True)
    assert settings.numbers == NumberStyle(".", True, False, Fraction(1, 10), Fraction(10**6), "behind", "de")
    assert settings.form == Form("figures", 3, None)
    assert settings.rule == "half-even"
    assert [(name.value, at.value) for name, at in settings.points] == [("A", "0 m, 0 m"), ("B", "3 m, 0 m")]
    assert settings.writing_space == 3
    assert settings.labels == (("question", "Problem"),)


@pytest.mark.parametrize(
    ("key", "value", "field", "expected"),
    [
        ("decimal", "comma", "decimal", ","),
        ("units", "solidus", "unit_style", "solidus"),
        ("standard-below", "0.001", "low", Fraction(1, 1000)),
        ("standard-from", "100 000", "high", Fraction(100_000)),
        ("standard-below", "never", "low", Fraction(0)),
        ("rounding", "to 4 dp", "form", Form("places", 4, None)),
        ("rounding", "0 dp", "form", Form("places", 0, None)),
        ("carry", "rounded", "carry", "rounded"),
        ("signs", "both", "signs", "both"),
        ("units-in-substitution", "yes", "units_in_substitution", True),
        ("writing-space", "no", "writing_space", 0),
        ("writing-space", "4", "writing_space", 4),
        ("edition", "guide", "edition", "guide"),
        ("draft", "true", "draft", True),
    ],
)
def test_each_setting_takes_its_values(key: str, value: str, field: str, expected: object) -> None:
    settings, problems = over(pair(key, value))
    assert not problems
    assert getattr(settings, field) == expected


def test_the_nearer_place_wins_and_the_rest_stays() -> None:
    document, _ = Settings.from_metadata({"decimal": "comma", "signs": "both", "labels": {"total": "Sum"}})
    question, _ = document.with_overrides([pair("signs", "magnitudes")], scope="question")
    block, problems = question.with_overrides(
        [pair("rounding", "3 sf"), pair("labels", "mark: point")], scope="block"
    )
    assert not problems
    assert (block.decimal, block.signs, block.form) == (",", "magnitudes", Form("figures", 3, None))
    assert dict(block.labels) == {"total": "Sum", "mark": "point"}
    assert document.signs == "both"


def test_the_decimal_sign_beside_a_number_decides_how_it_is_read() -> None:
    settings, problems = over(pair("standard-below", "0,01"), pair("decimal", "comma", 2))
    assert not problems
    assert settings.low == Fraction(1, 100)


def test_axis_and_points_keep_their_places() -> None:
    settings, problems = over(
        pair("axis", "right is positive"), pair("points", "A: 0 m, 0 m; B: 3 m, 4 m", 2)
    )
    assert not problems
    assert settings.axis == Text("right is positive", Span("t.md", 1, 7, 17))
    (a, at_a), (b, at_b) = settings.points
    assert (a.value, a.span.column, at_a.value, at_a.span.column) == ("A", 9, "0 m, 0 m", 12)
    assert (b.value, b.span.column, at_b.value, at_b.span.column) == ("B", 22, "3 m, 4 m", 25)


def test_the_keys_of_a_block_can_be_laid_over() -> None:
    lines = ("points:", "  A: 0 m, 1 m", "numbers:", "  decimal: comma")
    place = BlockPlace(Span("t.md"), tuple(Span("t.md", 5 + n, 1) for n in range(len(lines))))
    settings, problems = Settings().with_overrides(read_block("\n".join(lines), place), scope="block")
    assert not problems
    assert settings.decimal == ","
    assert settings.points[0][1] == Text("0 m, 1 m", Span("t.md", 6, 6, 8))


@pytest.mark.parametrize(
    ("key", "value", "slug", "mend"),
    [
        ("decimals", "comma", "setting-unknown", '"decimal"'),
        ("writing_space", "yes", "setting-unknown", '"writing-space"'),
        ("xyz", "1", "setting-unknown", "take it out"),
        ("decimal", "coma", "setting-unreadable", '"comma"'),
        ("decimal", ",", "setting-unreadable", "comma or point"),
        ("rounding", "up", "setting-unreadable", "half-up"),
        ("rounding", "0 sf", "setting-unreadable", "3 sf"),
        ("rounding", "99 dp", "setting-unreadable", "3 sf"),
        ("signs", "carry", "setting-unreadable", "carried"),
        ("total", "nine", "setting-unreadable", "whole number"),
        ("total", "-9", "setting-unreadable", "whole number"),
        ("draft", "maybe", "setting-unreadable", "yes or no"),
        ("writing-space", "lots", "setting-unreadable", "lines"),
        ("standard-from", "0", "setting-unreadable", "above zero"),
        ("standard-from", "1e5 m", "setting-unreadable", "above zero"),
        ("standard-from", "1,000", "number-ambiguous", ""),
        ("edition", "exam", "setting-unreadable", "memo, paper or guide"),
        ("axis", "", "setting-unreadable", "positive"),
        ("numbers", "comma", "setting-unreadable", "standard-from"),
        ("points", "A 0 m", "setting-unreadable", "A: 0 m, 0 m"),
        ("labels", "questoin: Problem", "setting-unknown", '"question"'),
    ],
)
def test_what_is_refused_says_what_is_allowed(key: str, value: str, slug: str, mend: str) -> None:
    settings, problems = over(pair(key, value))
    assert [problem.slug for problem in problems] == [slug]
    assert mend in problems[0].mend()
    assert settings == Settings()


def test_all_problems_are_collected_in_order() -> None:
    places = {
        "total": (Text("total", Span("t.md", 4, 3, 5)), Text("x", Span("t.md", 4, 10, 1))),
        "numbers.decmal": (Text("decmal", Span("t.md", 6, 5, 6)), Text("comma", Span("t.md", 6, 13, 5))),
        "sgins": (Text("sgins", Span("t.md", 7, 3, 5)), Text("both", Span("t.md", 7, 10, 4))),
    }
    values: dict[str, object] = {
        "sgins": "both", "numbers": {"decmal": "comma"}, "total": "x", "carry": "rounded",
    }  # fmt: skip
    settings, problems = Settings.from_metadata(values, places)
    assert [(problem.slug, problem.span.line, problem.span.column) for problem in problems] == [
        ("setting-unreadable", 4, 10),
        ("setting-unknown", 6, 5),
        ("setting-unknown", 7, 3),
    ]
    assert settings.carry == "rounded"


def test_one_setting_with_two_values_in_one_place_is_a_problem() -> None:
    values: dict[str, object] = {"numbers": {"decimal": "comma"}, "decimal": "point"}
    settings, problems = Settings.from_metadata(values)
    assert [problem.slug for problem in problems] == ["setting-twice"]
    assert settings.decimal == ","
    assert not Settings.from_metadata({"numbers": {"decimal": "comma"}, "decimal": "comma"})[1]
    assert not Settings.from_metadata({"numbers": {"rounding": "2 dp"}, "rounding": "half-even"})[1]


@pytest.mark.parametrize("scope", ["question", "block"])
def test_settings_of_the_document_are_refused_elsewhere(scope: str) -> None:
    settings, problems = over(pair("total", "20"), pair("lang", "de", 2), scope=scope)
    assert [problem.slug for problem in problems] == ["setting-misplaced"] * 2
    assert settings == Settings()
    assert {"total", "lang", "sheet", "draft", "edition", "appendix", "grid"} == set(SETTING_NAMES) - set(
        LOCAL_NAMES
    )


def test_other_names_of_the_place_are_proposed() -> None:
    _, problems = Settings().with_overrides([pair("mraks", "4")], scope="question", also=("marks", "topic"))
    assert '"marks"' in problems[0].mend()


def test_a_list_is_no_value() -> None:
    settings, problems = Settings.from_metadata({"axis": ["up", "down"]})
    assert [problem.slug for problem in problems] == ["setting-unreadable"]
    assert settings.axis is None


def test_the_words_that_labels_may_change_are_those_of_the_pages() -> None:
    assert tuple(KEYS) == LABELS


@pytest.mark.parametrize(
    ("lang", "place"),
    [
        ("", "before"), ("en", "before"), ("en-ZA", "before"), ("en-GB", "before"), ("af", "before"), ("de", "behind"),
        ("de-LU", "behind"), ("de-AT", "apart"), ("de-CH", "apart"), ("fr-BE", "behind"), ("fr-CA", "behind"),
        ("nl", "apart"), ("nl-BE", "apart"), ("es", "behind"), ("es-ES", "behind"), ("es-MX", "before"),
        ("es-AR", "before"), ("pt-PT", "behind"), ("pt-AO", "behind"), ("pt-BR", "apart"), ("zz", "before"),
    ],
)  # fmt: skip
def test_where_the_sign_of_a_currency_stands(lang: str, place: str) -> None:
    """Unicode CLDR, as Babel 2.19 sets 85.5 euros; "zz" is no language."""
    assert money_place(lang) == place
