"""The table of words that answers may say: nothing in it is idle or has two meanings. Common usage, no source."""

from __future__ import annotations

import pytest

from physcalc.language import words
from physcalc.language.changes import ANSWER_FACTORS, ANSWER_TRENDS, read_factor
from physcalc.language.directions import opposite_of, printed_direction
from physcalc.problems import Text

LANGUAGES = ("en", "af", "de", "fr", "nl", "es", "pt")


@pytest.mark.parametrize("lang", LANGUAGES)
@pytest.mark.parametrize(
    ("pairs", "read", "write"),
    [
        (words._SIGNS, words.sign_of, words.sign_words),
        (words._FORCES, words.force_of, words.force_words),
    ],
    ids=["signs", "forces"],
)
def test_every_word_is_read_and_has_its_counterpart(pairs, read, write, lang: str) -> None:  # type: ignore[no-untyped-def]
    minus, plus = pairs[lang]
    assert len(minus) == len(plus)
    for sign, own, other in ((-1, minus, plus), (1, plus, minus)):
        for word in own:
            # Of two spellings of a sign ("-", "−") the typographic one is written.
            counterparts = [plus.casefold() for minus, plus in zip(own, other, strict=True) if minus == word]
            assert read(word, lang) == sign
            assert read(word.upper(), lang) == sign
            assert read(write(-sign, lang, word), lang) == -sign
            assert write(-sign, lang, word).casefold() in counterparts
        assert read(write(sign, lang), lang) == sign
    assert read("perhaps", lang) is None


@pytest.mark.parametrize("lang", LANGUAGES[1:])
def test_directions_are_those_that_are_printed(lang: str) -> None:
    for english, others in words._DIRECTIONS[lang]:
        assert printed_direction(english) == english
        assert opposite_of(english) is not None
        assert {words.english_direction(other, f"{lang}-XX") for other in others} == {english}
        assert words.english_direction(words.direction_words(english, lang), lang) == english


@pytest.mark.parametrize("lang", LANGUAGES[1:])
def test_changes_are_those_that_an_answer_may_say(lang: str) -> None:
    for english, others in words._CHANGES[lang]:
        assert english in {**ANSWER_FACTORS, **ANSWER_TRENDS}
        for other in others:
            assert read_factor(Text(other), ".", lang) == read_factor(Text(english), ".")


@pytest.mark.parametrize("lang", LANGUAGES)
def test_no_word_has_two_meanings(lang: str) -> None:
    directions = [word for _, others in words._DIRECTIONS.get(lang, ()) for word in others]
    changes = [word for _, others in words._CHANGES.get(lang, ()) for word in others]
    signs = [*words._SIGNS[lang][0], *words._SIGNS[lang][1], *words._NO_SIGN[lang]]
    for table in (directions, changes, signs, [*words._FORCES[lang][0], *words._FORCES[lang][1]]):
        said = [words._plain(word) for word in table]
        # ASCII and typographic signs are one word in two spellings, and stand beside each other.
        assert len(set(said)) == len([word for word in said if word != "+"]) + ("+" in said)


def test_an_unknown_language_is_answered_in_english() -> None:
    assert words.sign_of("negative", "xh-ZA") == -1
    assert words.sign_words(-1, "xh-ZA") == "negative"
    assert words.at_rest("xh-ZA") == "at rest"
    assert words.says_at_rest("at rest", "xh-ZA")
