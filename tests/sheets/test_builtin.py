"""The built-in sheets: every entry is read, every formula's dimensions agree, the constants are right."""

from __future__ import annotations

from fractions import Fraction

import pytest
import scipy.constants

from physcalc.exact import Real
from physcalc.problems import Text
from physcalc.sheets import Constant, Definition, Law, builtin_sheets, load_sheet
from physcalc.sheets.contents import contents_of, raising
from physcalc.sheets.entries import own_meanings
from physcalc.sheets.loading import _builtin_contents
from physcalc.sheets.nodes import read_nodes
from physcalc.sheets.stored import BUILTIN, stored_contents
from physcalc.sheets.storing import stored

from .arithmetic import Amount, work_out

SCHOOL = load_sheet("school")
CODATA = load_sheet("codata")


def si(constant: Constant) -> float:
    return float((Real.of(constant.number.value) * constant.unit.scale).approximate(20))


def test_the_built_in_sheets_are_these() -> None:
    assert builtin_sheets() == ("codata", "school")


@pytest.mark.parametrize("name", builtin_sheets())
def test_what_is_stored_of_a_sheet_is_what_its_yaml_says(name: str) -> None:
    """`python -m physcalc.sheets.storing` writes it."""
    assert (BUILTIN / f"{name}.json").read_text(encoding="utf-8") == stored(name)
    source = (BUILTIN / f"{name}.yaml").read_text(encoding="utf-8")
    typed, kept = contents_of(read_nodes(source, f"{name}.yaml"), raising), stored_contents(name)
    assert (kept.title, kept.extends, kept.topics) == (typed.title, typed.extends, typed.topics)
    for held, read in ((kept.constants, typed.constants), (kept.definitions, typed.definitions)):
        assert list(held.items()) == list(read.items())
    assert list(kept.laws.items()) == list(typed.laws.items())


def test_the_school_sheet_is_as_large_as_promised() -> None:
    assert len(SCHOOL.laws) >= 110
    assert len(SCHOOL.definitions) >= 30
    assert list(CODATA.laws) == list(SCHOOL.laws)
    assert list(CODATA.definitions) == list(SCHOOL.definitions)


@pytest.mark.parametrize("slug", ["newton-2", "coulomb", "power-velocity", "electric-field", "field-point"])
def test_formulas_that_documents_rely_on_are_there(slug: str) -> None:
    assert SCHOOL.find_law(Text(slug)).slug == slug


@pytest.mark.parametrize("law", SCHOOL.laws.values(), ids=lambda law: law.slug)
def test_both_sides_and_all_terms_of_a_formula_have_one_dimension(law: Law) -> None:
    # A speed of one half of c = 1 keeps the roots of relativity real; where equal values make
    # a divisor zero, unequal ones are taken.
    values = {
        key: Amount(0.5 if key in ("v", "θ") else 1.0, s.unit.dimension) for key, s in law.symbols.items()
    }
    for formula in law.formulas:
        try:
            left, right = work_out(formula.left, values), work_out(formula.right, values)
        except ZeroDivisionError:
            values = {key: Amount(2.0 + place, v.dimension) for place, (key, v) in enumerate(values.items())}
            left, right = work_out(formula.left, values), work_out(formula.right, values)
        assert left.dimension == right.dimension, law.slug


@pytest.mark.parametrize("law", SCHOOL.laws.values(), ids=lambda law: law.slug)
def test_every_symbol_that_a_formula_explains_stands_in_it(law: Law) -> None:
    explained = own_meanings(_builtin_contents("school").laws[law.slug], raising)
    assert set(explained) <= set(law.symbols)


def test_no_two_formulas_have_one_title() -> None:
    # Two formulas may look alike (a lens and a mirror); then their titles tell them apart.
    titles = [law.title for law in SCHOOL.laws.values()]
    assert len(titles) == len(set(titles))


def test_masses_and_times_are_not_negative() -> None:
    for law in SCHOOL.laws.values():
        for symbol in law.symbols.values():
            if (
                symbol.unit.text() in ("kg", "s")
                and "change" not in symbol.title
                and "defect" not in symbol.title
            ):
                constant = SCHOOL.constants.get(symbol.name.key)
                assert constant is not None or symbol.minimum == 0, (law.slug, symbol.name.key)


def test_only_formulas_of_charges_take_magnitudes() -> None:
    found = {slug for slug, law in SCHOOL.laws.items() if law.magnitudes}
    assert {"coulomb", "field-point"} <= found
    assert "charge-sharing" not in found
    for slug in found:
        assert any(symbol.unit.text() == "C" for symbol in SCHOOL.laws[slug].symbols.values())


def test_limits_of_sense() -> None:
    efficiency = SCHOOL.laws["efficiency"].symbols["η"]
    assert efficiency.allows(Real.of(1))
    assert not efficiency.allows(Real.of(Fraction(101, 100)))
    speed = SCHOOL.laws["lorentz-factor"].symbols["v"]
    assert speed.allows(Real.of(0))
    assert speed.allows(Real.of(299_999_999))
    assert not speed.allows(Real.of(300_000_000))
    # The same formula under the other sheet knows that sheet's speed of light.
    assert CODATA.laws["lorentz-factor"].symbols["v"].maximum == 299_792_458
    moving = SCHOOL.laws["velocity-addition"].symbols["u'"]
    assert moving.minimum == -300_000_000
    assert moving.exclusive
    assert moving.exclusive_maximum
    assert SCHOOL.laws["newton-2"].symbols["F_net"].vector
    assert SCHOOL.laws["snell"].symbols["θ_1"].maximum == 90


@pytest.mark.parametrize("definition", SCHOOL.definitions.values(), ids=lambda d: d.slug)
def test_key_phrases_stand_in_the_wording(definition: Definition) -> None:
    assert definition.phrases
    assert all(phrase in definition.wording for phrase in definition.phrases)
    assert "".join(piece for piece, _ in definition.pieces()) == definition.wording
    assert tuple(piece for piece, key in definition.pieces() if key) == definition.phrases
    assert definition.wording.endswith(".")
    assert "[" not in definition.wording


# CODATA 2022 as packaged in scipy.constants (NIST's ASCII table of 2022), and what it does not list
# computed from it.

_NIST = {
    "g": "standard acceleration of gravity",
    "G": "Newtonian constant of gravitation",
    "c": "speed of light in vacuum",
    "h": "Planck constant",
    "e": "elementary charge",
    "m_e": "electron mass",
    "m_p": "proton mass",
    "m_n": "neutron mass",
    "m_u": "atomic mass constant",
    "ε_0": "vacuum electric permittivity",
    "μ_0": "vacuum mag. permeability",
    "k_B": "Boltzmann constant",
    "N_A": "Avogadro constant",
    "R": "molar gas constant",
    "R_{∞}": "Rydberg constant",
    "a_0": "Bohr radius",
    "μ_B": "Bohr magneton",
    "p_atm": "standard atmosphere",
}


@pytest.mark.skipif("2022" not in scipy.constants.__doc__, reason="this scipy holds an older adjustment")
@pytest.mark.parametrize(("key", "title"), _NIST.items())
def test_codata_agrees_digit_for_digit(key: str, title: str) -> None:
    constant = CODATA.constants[key]
    assert si(constant) == scipy.constants.physical_constants[title][0]
    # The digits are NIST's: the printed decimal is the shortest one of its table's number.
    assert float(constant.number.value) == scipy.constants.physical_constants[title][0]


@pytest.mark.parametrize(
    ("key", "value"),
    [
        ("σ", scipy.constants.physical_constants["Stefan-Boltzmann constant"][0]),
        ("b", scipy.constants.physical_constants["Wien wavelength displacement law constant"][0]),
    ],
)
def test_codata_constants_with_endless_digits_are_cut(key: str, value: float) -> None:
    constant = CODATA.constants[key]
    assert 0 <= value - si(constant) < 10.0 ** (constant.number.exponent or 0) * 10**-constant.number.places


def test_codata_constants_that_nist_does_not_list() -> None:
    nist = scipy.constants.physical_constants
    assert si(CODATA.constants["k"]) == pytest.approx(
        1 / (4 * scipy.constants.pi * nist["vacuum electric permittivity"][0]), rel=1e-10
    )
    rydberg = nist["Rydberg constant"][0] / (1 + nist["electron-proton mass ratio"][0])
    assert si(CODATA.constants["R_H"]) == pytest.approx(rydberg, rel=1e-11)


# Deviations of rounded constants from CODATA 2022, in per cent, worked out by hand from the printed digits
# of both (standard gravity for g; 1/(4π ε_0) for k; the geocentric constant 3.986004418e14 over G for the
# Earth's mass and 6378.1 km for its radius, both of the IERS conventions).


@pytest.mark.parametrize(
    ("key", "digits", "exact", "deviation"),
    [
        ("g", "9.8", 9.80665, -0.068),
        ("G", "6.67", 6.67430e-11, -0.064),
        ("c", "3.0", 299792458, 0.069),
        ("h", "6.63", 6.62607015e-34, 0.059),
        ("k", "9.0", 8.9875517862e9, 0.139),
        ("e", "1.6", 1.602176634e-19, -0.136),
        ("m_e", "9.11", 9.1093837139e-31, 0.007),
        ("m_p", "1.673", 1.67262192595e-27, 0.023),
        ("m_n", "1.675", 1.67492750056e-27, 0.004),
        ("m_u", "1.66", 1.66053906892e-27, -0.032),
        ("ε_0", "8.85", 8.8541878188e-12, -0.047),
        ("μ_0", "1.257", 1.25663706127e-6, 0.029),
        ("k_B", "1.38", 1.380649e-23, -0.047),
        ("N_A", "6.02", 6.02214076e23, -0.036),
        ("R", "8.31", 8.314462618, -0.054),
        ("σ", "5.67", 5.670374419e-8, -0.007),
        ("b", "2.90", 2.897771955e-3, 0.077),
        ("R_H", "1.097", 10973731.568, -0.034),
        ("M_E", "5.98", 5.9722e24, 0.131),
        ("R_E", "6.38", 6.3781e6, 0.030),
        ("p_atm", "1.01", 101325, -0.321),
    ],
)
def test_school_constants_are_rounded_as_stated(
    key: str, digits: str, exact: float, deviation: float
) -> None:
    constant = SCHOOL.constants[key]
    assert constant.number.digits == digits
    assert (si(constant) / exact - 1) * 100 == pytest.approx(deviation, abs=0.0006)
    # The line that the sheet prints about the source says the same (to the places that it has).
    if key != "p_atm":
        assert f"{deviation:+.3f} %".replace("-", "−") in constant.source


def test_every_constant_of_the_school_sheet_has_a_full_value() -> None:
    assert set(SCHOOL.constants) <= set(CODATA.constants)
    for key, constant in SCHOOL.constants.items():
        assert constant.unit.dimension == CODATA.constants[key].unit.dimension
        assert si(constant) == pytest.approx(si(CODATA.constants[key]), rel=0.004)


def test_a_rounded_sheet_agrees_with_itself() -> None:
    # G M_E / R_E² of the rounded values is 9.7991, which is the g of the same sheet to its two figures.
    g = si(SCHOOL.constants["G"]) * si(SCHOOL.constants["M_E"]) / si(SCHOOL.constants["R_E"]) ** 2
    assert g == pytest.approx(9.7991, abs=0.0001)
