"""Signs that the text fonts of TeX lack, made from those of its mathematics."""

from __future__ import annotations

import re

from physcalc_filter.editions.layouts.base import part_file

from physcalc.language.names import GREEK


def test_every_greek_letter_of_a_name_can_stand_in_running_text() -> None:
    """Latin Modern has no Greek letters in its text fonts: without these a letter leaves a gap in the page."""
    known = {chr(int(code, 16)) for code in re.findall(r'\\pcsign\{"([0-9A-F]+)\}', part_file("signs.tex"))}
    assert set(GREEK.values()) <= known
