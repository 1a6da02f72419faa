"""Words between formulas: every language has every word, and a working speaks the document's language."""

from __future__ import annotations

import pytest

import physcalc
from physcalc.language.remarks import _TABLE, remark


@pytest.mark.parametrize("key", list(_TABLE))
def test_every_language_has_every_word(key: str) -> None:
    assert set(_TABLE[key]) == {"en", "af", "de", "fr", "nl", "es", "pt"}
    braces = [word.count("{") for word in _TABLE[key].values()]
    assert len(set(braces)) == 1


def test_another_language_is_answered_in_english() -> None:
    assert remark("or", "fi-FI") == "or"
    assert remark("or", "de_AT") == "oder"


BALL = """
axis: up is positive
given:
  v_i: 8 m/s, up
  Δy: 3 m, up
formula: Δy = v_i t + 1/2 g t^2
find: t in s
take: largest
"""


@pytest.mark.parametrize(("lang", "words"), [("en", "or"), ("af", "of"), ("de", "oder"), ("fr", "ou")])
def test_a_working_says_why_in_the_language_of_the_document(lang: str, words: str) -> None:
    text = BALL.replace("g t^2", "a t^2").replace("given:", "given:\n  a: -9.8 m/s^2")
    solution = physcalc.calculate(text, lang=lang)
    (line,) = [step.text for step in solution.steps if step.kind == "remark"]
    assert f" {words} " in line


@pytest.mark.parametrize(
    ("lang", "direction"), [("en", "downwards"), ("af", "afwaarts"), ("nl", "omlaag"), ("pt", "para baixo")]
)
def test_a_direction_is_printed_in_the_language_of_the_document(lang: str, direction: str) -> None:
    given = "axis: up is positive\ngiven:\n  v_i: 8 m/s, up\n  t: 2 s\n  a: 10 m/s^2, down\n"
    text = given + "formula: v_f = v_i + a t\nfind: v_f in m/s with direction"
    assert physcalc.calculate(text, lang=lang)["v_f"].text.endswith(direction)
