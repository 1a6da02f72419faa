"""The rules for writing units, each with the source that states it.

SP 330 = NIST SP 330 (2019), the US edition of the SI Brochure's 9th edition, section 5.2;
BIPM8 = SI Brochure, 8th edition, 5.3.3; SP 811 = NIST SP 811 (2008).
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from physcalc.problems import Text
from physcalc.problems.units import UnitAmbiguous, UnitUnknown, UnitUnreadable
from physcalc.units import Unit, read_unit
from physcalc.units.spelling import WRITTEN


def unit(typed: str) -> Unit:
    return read_unit(Text(typed))


@pytest.mark.parametrize("typed", ["g", "kΩ", "°C", "%", "m/s", "V", "rad", "°/s"])
def test_a_space_stands_between_number_and_unit(typed: str) -> None:
    # BIPM8 5.3.3 and SP 811 7.2: 12.3 g, 10 kΩ, 30.2 °C with a space; SP 811 7.10.2 the same for % (the last
    # from memory).
    assert unit(typed).spaced


def test_but_none_before_the_degree_of_angle() -> None:
    # BIPM8 5.3.3, SP 811 7.2: 30°, not 30 °.
    assert not unit("°").spaced


def test_symbols_are_case_sensitive() -> None:
    # SP 330 5.2: Pa, not pa; lower case unless named after a person.
    with pytest.raises(UnitUnknown):
        unit("pa")
    assert unit("mW").scale.fraction == Fraction(1, 1000)
    assert unit("MW").scale.fraction == 10**6


def test_litre_both_ways() -> None:
    # SP 330 5.2: L or l.
    assert unit("L") == unit("l")


@pytest.mark.parametrize("typed", ["cm.", "kgs", "kilogram/m³"])
def test_no_full_stop_no_plural_no_mixing_with_names(typed: str) -> None:
    # SP 330 5.2.
    with pytest.raises((UnitUnknown, UnitUnreadable)):
        unit(typed)


def test_products_by_space_or_half_high_dot() -> None:
    # SP 330 5.2: N m or N·m, never Nm.
    assert unit("N m") == unit("N·m")
    assert unit("N m").text() == "N·m"
    with pytest.raises(UnitUnknown):
        unit("Nm")
    # SP 330 5.2, same place: mN is the millinewton, never m·N.
    assert unit("mN").scale.fraction == Fraction(1, 1000)


def test_quotients() -> None:
    # SP 330 5.2: m/s, m s⁻¹, m·s⁻¹; kg/(m·s²), not kg/m/s².
    assert unit("m/s") == unit("m s⁻¹") == unit("m·s⁻¹")
    assert unit("kg/(m·s²)").text("solidus") == "kg/(m·s²)"
    with pytest.raises(UnitAmbiguous):
        unit("kg/m/s²")


@pytest.mark.parametrize("typed", ["k", "µ", "mµm", "k m", "k·m", "kkg", "nnm"])
def test_a_prefix_has_no_gap_is_never_alone_and_never_doubled(typed: str) -> None:
    # SP 330 5.2; SP 811 6.2.3, 6.2.4, 6.2.6.
    with pytest.raises(UnitUnknown):
        unit(typed)


def test_a_power_holds_for_prefix_and_unit() -> None:
    # SI Brochure, 9th edition, chapter 3 (from memory): 1 cm³ = 10⁻⁶ m³, 1 µs⁻¹ = 10⁶ s⁻¹.
    assert unit("cm³").scale.fraction == Fraction(1, 10**6)
    assert unit("µs⁻¹").scale.fraction == 10**6


def test_prefixes_go_to_the_gram() -> None:
    # SP 811 6.2.7 (from memory): 10⁻⁶ kg is 1 mg, not 1 µkg.
    assert unit("mg").scale.fraction == Fraction(1, 10**6)
    with pytest.raises(UnitUnknown) as found:
        unit("µkg")
    assert found.value.nearest == "mg"
    assert not any(
        "kg" in written and written != "kg" for written in WRITTEN if not written.startswith("kgf")
    )


def test_percent() -> None:
    # SP 811 11, item 5: % means 0.01.
    assert unit("%").scale.fraction == Fraction(1, 100)


@pytest.mark.parametrize(("typed", "nearest"), [("sec", "s"), ("cc", "cm³"), ("mps", "m/s"), ("ppm", None)])
def test_abbreviations_that_are_none(typed: str, nearest: str | None) -> None:
    # SP 811 11, items 2 and 3.
    with pytest.raises(UnitUnknown) as found:
        unit(typed)
    if nearest is not None:
        assert found.value.nearest == nearest
