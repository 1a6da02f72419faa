"""Sizes of units against published factors."""

from __future__ import annotations

from fractions import Fraction

import pytest

from physcalc.exact import PI, Real
from physcalc.problems import Text
from physcalc.units import convert, from_si, read_unit, to_si

#: NIST SP 811 (2008), appendix B.8: unit, coherent unit, factor as printed, whether it is printed as exact.
#: Digits from memory of the table, each recomputed from the exact definitions; those of cal, lbf, slug,
#: ft·lbf, yard, mile and pound read again in AMS 55, tables 2.4 and 2.5.
B8 = [
    ("Å", "m", "1.0E-10", True),
    ("atm", "Pa", "1.013 25E+05", True),
    ("bar", "Pa", "1.0E+05", True),
    ("cal", "J", "4.184E+00", True),
    ("Ci", "Bq", "3.7E+10", True),
    ("d", "s", "8.64E+04", True),
    ("°", "rad", "1.745 329E-02", False),
    ("dyn", "N", "1.0E-05", True),
    ("erg", "J", "1.0E-07", True),
    ("ft", "m", "3.048E-01", True),
    ("ft·lbf", "J", "1.355 818E+00", False),
    ("G", "T", "1.0E-04", True),
    ("hp", "W", "7.456 999E+02", False),
    ("h", "s", "3.6E+03", True),
    ("in", "m", "2.54E-02", True),
    ("kgf", "N", "9.806 65E+00", True),
    ("km/h", "m/s", "2.777 778E-01", False),
    ("kW h", "J", "3.6E+06", True),
    ("knot", "m/s", "5.144 444E-01", False),
    ("ly", "m", "9.460 73E+15", False),
    ("L", "m³", "1.0E-03", True),
    ("mi", "m", "1.609 344E+03", True),
    ("mi/h", "m/s", "4.4704E-01", True),
    ("mph", "m/s", "4.4704E-01", True),
    ("nmi", "m", "1.852E+03", True),
    ("mmHg", "Pa", "1.333 224E+02", False),
    ("cmHg", "Pa", "1.333 224E+03", False),
    ("oz", "kg", "2.834 952E-02", False),
    ("pc", "m", "3.085 678E+16", False),
    ("lb", "kg", "4.535 924E-01", False),
    ("lbf", "N", "4.448 222E+00", False),
    ("psi", "Pa", "6.894 757E+03", False),
    ("lbf/in²", "Pa", "6.894 757E+03", False),
    ("rev/min", "rad/s", "1.047 198E-01", False),
    ("rpm", "rad/s", "1.047 198E-01", False),
    ("slug", "kg", "1.459 390E+01", False),
    ("t", "kg", "1.0E+03", True),
    ("Torr", "Pa", "1.333 224E+02", False),
    ("yd", "m", "9.144E-01", True),
    ("yd³", "m³", "7.645 549E-01", False),
]


@pytest.mark.parametrize(("typed", "coherent", "printed", "exact"), B8)
def test_sp811_b8(typed: str, coherent: str, printed: str, exact: bool) -> None:
    unit, base = read_unit(Text(typed)), read_unit(Text(coherent))
    assert base.scale.fraction == 1
    assert unit.dimension == base.dimension
    digits = printed.replace(" ", "")
    factor = Fraction(digits)
    if exact:
        assert unit.scale.fraction == factor
        return
    # Rounded: it agrees to half a unit of the last printed digit.
    mantissa, exponent = digits.split("E")
    step = Fraction(10) ** (int(exponent) - len(mantissa.split(".")[1]))
    assert abs(unit.scale - Real.of(factor)) <= Real.of(step / 2)


#: Exact by definition, value from memory of the document named.
DEFINED = [
    ("eV", "1.602176634e-19", "SI Brochure, 9th edition: the elementary charge"),
    ("AU", "149597870700", "IAU 2012 resolution B2"),
    ("ly", "9460730472580800", "IAU: Julian year times c"),
    ("yr", "31557600", "IAU: Julian year of 365.25 d"),
    ("min", "60", "SI Brochure, table 8"),
    ("ha", "10000", "SI Brochure, table 8"),
    ("lb", "0.45359237", "international pound of 1959"),
    ("D", "1", "ISO 80000-7: reciprocal metre"),
    ("sr", "1", "SI Brochure, table 4"),
    ("G", "0.0001", "SP 811, appendix B.8"),
]


@pytest.mark.parametrize(("typed", "value", "source"), DEFINED)
def test_defined(typed: str, value: str, source: str) -> None:
    assert read_unit(Text(typed)).scale.fraction == Fraction(value), source


def test_atomic_mass_unit() -> None:
    # CODATA 2022, NIST's table as it comes with SciPy.
    from scipy.constants import physical_constants

    value, unit, _ = physical_constants["atomic mass constant"]
    assert unit == "kg"
    assert read_unit(Text("u")).scale.fraction == read_unit(Text("Da")).scale.fraction == Fraction(str(value))


def test_masses_in_particle_physics() -> None:
    # CODATA 2022, NIST's table as it comes with SciPy: u in MeV/c², printed to 11 figures.
    from scipy.constants import physical_constants

    printed, unit, _ = physical_constants["atomic mass constant energy equivalent in MeV"]
    assert unit == "MeV"
    value = convert(Real.of(1), read_unit(Text("u")), read_unit(Text("MeV/c²")))
    assert float(value) == pytest.approx(printed, abs=5e-9)


def test_angles_and_the_parsec_hold_pi_exactly() -> None:
    # 180° = π, 1 rev = 2π by definition; the parsec is 648 000/π AU by IAU 2015 resolution B2.
    assert (read_unit(Text("°")).scale * Real.of(180) / PI).fraction == 1
    assert (read_unit(Text("rev")).scale / PI).fraction == 2
    assert (read_unit(Text("pc")).scale * PI / Real.of(149597870700)).fraction == 648000
    assert (read_unit(Text("rpm")).scale / PI).fraction == Fraction(1, 30)


def test_temperature_points() -> None:
    # SP 811, appendix B.8 and B.9: T/K = t/°C + 273.15; t/°C = (t/°F − 32)/1.8, both exact.
    celsius, fahrenheit = read_unit(Text("°C")), read_unit(Text("°F"))
    assert to_si(Real.of(0), celsius).fraction == Fraction("273.15")
    assert from_si(to_si(Real.of(212), fahrenheit), celsius).fraction == 100
    assert from_si(to_si(Real.of(-40), celsius), fahrenheit).fraction == -40
