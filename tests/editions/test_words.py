"""The words of the page, by language."""

from __future__ import annotations

import pytest
from physcalc_filter.editions.words import KEYS, LANGUAGES, words_for


@pytest.mark.parametrize("lang", LANGUAGES)
def test_every_language_has_every_word(lang: str) -> None:
    words = words_for(lang)
    assert set(words) == set(KEYS)
    assert all(word.strip() == word and word for key, word in words.items() if key != "colon")


def test_a_region_a_case_and_an_unknown_language() -> None:
    assert words_for("de-AT") == words_for("DE") == words_for("de_DE")
    assert words_for("xx") == words_for("en") == words_for("")


def test_own_words_stand_in_the_place_of_the_tables() -> None:
    words = words_for("en", {"memo": "Marking guideline", "nonsense": "x"})
    assert words["memo"] == "Marking guideline"
    assert words["paper"] == words_for("en")["paper"]
    assert "nonsense" not in words


def test_the_languages_that_are_promised() -> None:
    assert set(LANGUAGES) == {"en", "af", "de", "fr", "nl", "es", "pt"}
