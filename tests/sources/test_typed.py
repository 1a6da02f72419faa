"""Another number in the raw text of a typed value: written as the old one was, or not at all."""

from __future__ import annotations

import pytest
from physcalc_filter.sources import direction_words, typed_stretch, with_number


@pytest.mark.parametrize(
    ("raw", "typed", "new", "wanted"),
    [
        (r"$6750$ N", "6 750 N", "6752 N", r"$6752$ N"),
        (r"$6750\,\mathrm{N}$", "6 750 N", "6752,5 N", r"$6752{,}5\,\mathrm{N}$"),
        (r"$6\,750{,}0$~N", "6 750,0 N", "16 752,3 N", r"$16\,752{,}3$~N"),
        (r"6~750~N", "6 750 N", "6 752 N", r"6~752~N"),
        (r"\(6{,}75\)~kN", "6,75 kN", "6,752 kN", r"\(6{,}752\)~kN"),
        (r"$6{,}75 \times 10^{3}~\text{N}$", "6,75 × 10³ N", "6,752 × 10^12 N", r"$6{,}752 \times 10^{12}~\text{N}$"),
        (r"$6.75\cdot10^3$ N", "6.75 × 10³ N", "6.8 × 10^-3 N", r"$6.8\cdot10^{-3}$ N"),
        (r"6,75 × 10\textsuperscript{3} N", "6,75 × 10³ N", "6,8 × 10³ N", r"6,8 × 10\textsuperscript{3} N"),
        (r"6,75 $\times$ 10$^3$ N", "6,75 × 10³ N", "6,8 × 10³ N", ""),
        (r"\num{6.75e3} N", "6,75 × 10³ N", "6,8 × 10³ N", r"\num{6.8e3} N"),
        (r"\SI{6750.0}{N}", "6 750,0 N", "6752,0 N", r"\SI{6752.0}{N}"),
        (r"**6750** N", "6 750 N", "6752 N", r"**6752** N"),
        (r"6.7 × 10^3^ N·C^-1^", "6.7 × 10³ N·C⁻¹", "6.8 × 10^3 N·C-1", r"6.8 × 10^3^ N·C^-1^"),
        (r"$-2{,}5$ m·s$^{-1}$", "−2,5 m·s⁻¹", "2,75 m·s⁻¹", r"$2{,}75$ m·s$^{-1}$"),
        (r"$-1$ m·s$^{-1}$", "−1 m·s⁻¹", "-2 m·s⁻¹", r"$-2$ m·s$^{-1}$"),
        (r"$2.5 \times 10^{-3}$ N", "2.5 × 10⁻³ N", "0 N", r"$0$ N"),
        # What is read otherwise than it stands there, or stands there twice, is left alone.
        (r"$\frac{1}{2}$ m", "1/2 m", "3/4 m", ""),
        (r"$5$ N or $5$ N", "5 N", "7 N", ""),
        (r"\half~m", "1/2 m", "3/4 m", ""),
        (r"$6750 \pm 5$ N", "6 750 N", "6752 N", r"$6752 \pm 5$ N"),
        (r"$6750$ ± 5 N", "6 750 N", "6752 N", ""),
        (r"$6750$ N", "6 751 N", "6752 N", ""),
        (r"$\mathrm{N}$", "N", "kN", ""),
    ],
)  # fmt: skip
def test_numbers_in_markup(raw: str, typed: str, new: str, wanted: str) -> None:
    assert with_number(raw, typed, new) == wanted


def test_the_raw_text_of_a_value() -> None:
    for text, wanted in (
        ("of \\physvalue[ $5$ N, part=number]{F}", "$5$ N"),
        ("of \\physvalue % here\n  [$5$ N]{F}", "$5$ N"),
        ("of [$5$ N]{.value of=F}", "$5$ N"),
        ("of [$5$ N](link)", None),
        ("\\begin{physanswer}[$5$ N]", None),
        ("answer: $5$ N", None),
    ):
        stretch = typed_stretch(text, text.index("$5$"))
        assert (text[slice(*stretch)] if stretch else None) == wanted


def test_the_words_of_a_direction() -> None:
    assert direction_words("$5{,}2$ m, up") == "up"
    assert direction_words("$5{,}2$ m") == ""
    assert direction_words("5 m, \\emph{up}") == ""


def test_long_texts_come_to_an_end() -> None:
    for raw in ("1" * 20_000, "1 " * 10_000, "1~" * 10_000 + "x", "1" + "~$" * 10_000, "[" * 20_000):
        assert with_number(raw, "5 N", "6 N") == ""
        assert typed_stretch(raw, len(raw) - 1) is None
