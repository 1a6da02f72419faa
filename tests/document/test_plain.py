"""Typed values are read through what Markdown makes of them (the language reference, "Settings")."""

from __future__ import annotations

import panflute as pf
import pytest
from physcalc_filter.document import read_markup
from physcalc_filter.document.plain import plain_text
from physcalc_filter.sources import tex_text


@pytest.mark.parametrize(
    ("typed", "text"),
    [
        ("0,75 m·s⁻²", "0,75 m·s⁻²"),
        ("6 × 10^-6^ C", "6 × 10^-6 C"),
        ("6 × 10^−6^ C", "6 × 10^−6 C"),
        (r"640\ kg", "640\u00a0kg"),
        ("640&nbsp;kg", "640\u00a0kg"),
        ("*6* **N**", "6 N"),
        ("$6{,}0 \\times 10^{-6}$ C", "6,0 × 10^-6 C"),
        ("10<sup>-6</sup> m", "10^-6 m"),
        ("v~max~", "v_max"),
        ('"body\'s own"', "“body’s own”"),
        ("two\nlines", "two lines"),
        ("5 m^[a note] long", "5 m long"),
    ],
)
def test_markdown_becomes_plain_text(typed: str, text: str) -> None:
    span = next(
        inline
        for inline in read_markup(f"[{typed}]{{.value of=a}}").content[0].content
        if isinstance(inline, pf.Span)
    )
    assert plain_text(span.content) == text


@pytest.mark.parametrize(
    ("tex", "text"),
    [
        (r"6{,}0 \times 10^{-6}", "6,0 × 10^-6"),
        (r"4{,}17 \cdot 10^{-7}\,\text{C}", "4,17 ·10^-7 C"),
        (r"30^\circ", "30°"),
        (r"\mathrm{m\cdot s^{-2}}", "m·s^-2"),
        (r"3\ \mu\mathrm{C}", "3 µC"),
        (r"\frac{1}{3}", "1/3"),
        (r"\frac{a+b}{3}", "(a+b)/3"),
        ("2^{1/2}", "2^(1/2)"),
        ("v_{max}", "v_max"),
    ],
)
def test_tex_is_flattened(tex: str, text: str) -> None:
    assert tex_text(tex) == text


def test_tex_of_any_shape_comes_to_an_end() -> None:
    for tex in ("{" * 500, "}" * 50, "^" * 300, r"\frac" * 100, "\\", "_{^{_{"):
        assert isinstance(tex_text(tex), str)
