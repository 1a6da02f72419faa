"""Numbers with units in running text, and the same in raw Markdown. Wordings are our own."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from physcalc_filter.sources import Source, find_quantities, flatten


def found(text: str) -> list[str]:
    return [quantity.text for quantity in find_quantities(text, ",")]


@pytest.mark.parametrize(
    "text",
    [
        "5 kg", "0,75 m·s⁻²", "0.75 m/s^2", "1 200 m", "4,17 × 10⁻⁷ C", "4,17 × 10^-7 C", "6*10^-6 C", "36 km/h",
        "25 °C", "−5 °C", "30°", "5 %", "5%", "3,0 N C^-1", "3,0 N.C-1", "9,8 m s^-2", "5 N m", "5 kW h", "640kg",
        "4 200 J·kg⁻¹·K⁻¹", "4200 J/(kg·°C)", "3/4 m", "0,200 ± 0,005 m", "6\u202f752,00\u00a0N", "10^3 Pa",
        "220 V", "2,5 mA", "12 Ω", "5 µC", "0,5 rev/min", "5 metres", "30 degrees", "5-kg",
    ],
)  # fmt: skip
def test_a_quantity_is_found_whole(text: str) -> None:
    assert found(f"It is {text}, they say.") == [text]
    assert found(f"({text})") == [text]


@pytest.mark.parametrize(
    "text",
    [
        "5 in the row", "Question 3 A is hard", "see Table 2 C", "(4)", "[5 marks]", "at 5 pm", "2026-11-25",
        "12:30 h", "H_2 O", "^235 U", "5 boxes", "3D", "1st 2nd 3rd", "A4", "R1,50", "v_1 m", "in 1998 as a",
    ],
)  # fmt: skip
def test_what_only_looks_like_one_is_left(text: str) -> None:
    assert found(text) == []


def test_a_word_behind_a_unit_is_no_unit() -> None:
    assert found("After 5 s A overtakes B, 20 m further on a 5 V line") == ["5 s", "20 m", "5 V"]


def test_two_readings_leave_the_value_open() -> None:
    (number,) = find_quantities("1.000 kg", ",")
    assert number.number is None
    (unit,) = find_quantities("2 m/s/s", ",")
    assert unit.unit is None


@given(st.text(alphabet="0123456789.,-−± ×^{}()/·kgmsNC°%⁻²\u00a0eExaA'\"$*_~[]\\`|&;#\n", max_size=60))
def test_no_text_breaks_the_reading(text: str) -> None:
    for quantity in find_quantities(text, ","):
        assert text[quantity.start : quantity.end] == quantity.text
    flat = flatten(Source("a.md", text or " "))
    assert len(flat.text) == len(flat.starts) == len(flat.ends)
    assert list(flat.starts) == sorted(flat.starts)
    assert all(start < end for start, end in zip(flat.starts, flat.ends, strict=True))


@pytest.mark.parametrize(
    ("raw", "stretch"),
    [
        ("of 0,75 m·s^-2^ now", "0,75 m·s^-2^"),
        ("of **5 kg** now", "5 kg"),
        ("of $4{,}17 \\times 10^{-7}$ C now", "$4{,}17 \\times 10^{-7}$ C"),
        ("of $5\\ \\text{kg}$ now", "$5\\ \\text{kg}$"),
        ("of 5\\ kg now", "5\\ kg"),
        ("of 5&nbsp;kg now", "5&nbsp;kg"),
        ("of 5 m<sup>2</sup> now", "5 m<sup>2</sup>"),
        ("of 5\r\nkg now", "5\r\nkg"),
        ("> of 5 kg now", "5 kg"),
    ],
)
def test_a_stretch_of_the_source_is_found(raw: str, stretch: str) -> None:
    flat = flatten(Source("a.md", raw))
    (quantity,) = find_quantities(flat.text, ",")
    start, end, alone = flat.stretch(quantity.start, quantity.end)
    assert (raw[start:end], alone) == (stretch, True)


def test_half_of_a_formula_is_not_alone() -> None:
    raw = "$m = 5\\ \\text{kg}$"
    flat = flatten(Source("a.md", raw))
    (quantity,) = find_quantities(flat.text, ",")
    assert flat.stretch(quantity.start, quantity.end) == (0, len(raw), False)


@pytest.mark.parametrize(
    "raw",
    ["`5 kg`", "[5 kg]{.value of=m}", "<!-- 5 kg -->", "```\n5 kg\n```\n", "![5 kg](x.png)", "$F = 2 m a$",
     "[x](http://a.b/5m)", "# Title {title='5 kg'}", "    5 kg\n", "---\ntitle: 5 kg\n---\n"],
)  # fmt: skip
def test_what_is_no_text_is_left(raw: str) -> None:
    assert found(flatten(Source("a.md", raw)).text) == []
