"""Factors of the formulas against results that textbooks print.

Dimensions cannot show a wrong ½ or 4π. Each case is a worked example of an OpenStax book (CC BY): only its
numbers are taken. The printed result must come out when the printed data go into the sheet's formula.
"""

from __future__ import annotations

import pytest

from physcalc.exact import Real, read_number
from physcalc.language import read_name
from physcalc.problems import Text
from physcalc.sheets import load_sheet
from physcalc.units import read_unit, to_si

from .arithmetic import Amount, work_out

SCHOOL = load_sheet("school")

P = "OpenStax, Physics, section "
U1 = "OpenStax, University Physics Volume 1, section "
U2 = "OpenStax, University Physics Volume 2, section "
U3 = "OpenStax, University Physics Volume 3, section "

#: source, formula and which of its forms, data (with the printed result last) and half a step of its last
#: digit.
CASES = [
    (P + "5.3, firework", "projectile-height", 0, "v_0 70.0 m/s; θ 75 °; g 9.80 m/s^2; h 233 m", 0.5),
    (
        P + "7.1, Kepler's third law",
        "kepler-3-ratio",
        0,
        "T_1 27.3 d; r_1 3.84e8 m; r_2 7880 km; T_2 1.93 h",
        0.005,
    ),
    (P + "5.5, measuring g", "pendulum", 0, "L 75.000 cm; T 1.7357 s; g 9.8281 m/s^2", 0.00005),
    (P + "14.2, sound level", "sound-level", 0, "I 5.04e-4 W/m^2; I_0 1e-12 W/m^2; β 87.0", 0.05),
    (P + "16.2, index from angles", "snell", 0, "n_1 1.333; θ_1 45.00 °; θ_2 40.30 °; n_2 1.457", 0.0005),
    (P + "16.1, object distance", "mirror", 0, "f 25.0 cm; d_i 3.00 m; d_o 27.3 cm", 0.05),
    (P + "17.1, two slits", "double-slit", 0, "d 0.0100 mm; θ 10.95 °; m 3; λ 633 nm", 0.5),
    (P + "17.2, laser", "resolution", 0, "λ 633 nm; D 1.00 mm; θ 7.72e-4 rad", 0.5e-6),
    (P + "17.2, grating", "grating", 0, "d 5.00 µm; λ 520 nm; m 1; θ 5.97 °", 0.005),
    (
        P + "18.5, flash",
        "capacitor-plates",
        1,
        "κ 3.4; ε_0 8.85e-12 F/m; C 200 µF; d 0.010 mm; A 66 m^2",
        0.5,
    ),
    (P + "18.5, flash", "capacitor-energy", 0, "C 200 µF; V 100 V; U 1.0 J", 0.05),
    (P + "18.3, doorknob", "field-point", 0, "k 8.99e9 N·m²/C²; Q 1.5 nC; r 3.5 cm; E 1.1e4 N/C", 500),
    (
        P + "21.1, photons",
        "photon-wavelength",
        0,
        "h 6.63e-34 J·s; c 3.00e8 m/s; λ 580 nm; E 3.43e-19 J",
        0.5e-21,
    ),
    (P + "22.3, carbon-11", "half-life", 1, "T_{1/2} 20.334 min; λ 5.68e-4 s^-1", 0.5e-6),
    (P + "22.1, hydrogen", "hydrogen-spectrum", 0, "R_H 1.097e7 m^-1; n_f 1; n_i 3; λ 102.6 nm", 0.05),
    (P + "21.2, calcium", "photoelectric", 0, "E 2.96 eV; W_0 2.71 eV; E_{k(max)} 0.25 eV", 0.005),
    (U1 + "10.2, fishing reel", "angle-time", 1, "ω_0 0 rad/s; α 110 rad/s^2; t 2.00 s; θ 35.0 rev", 0.05),
    (
        U1 + "10.2, centrifuge",
        "angular-velocity-angle",
        1,
        "ω 0 rad/s; ω_0 7000 rev/min; α -73.3038 rad/s^2; θ 3665.2 rad",
        0.05,
    ),
    (U1 + "10.8, propeller", "power-rotation", 0, "P 9.0e4 W; ω 300 rev/min; τ 2864.8 N·m", 0.05),
    (
        U1 + "13.4, space station",
        "kepler-3",
        0,
        "G 6.67e-11 N·m²/kg²; M 5.96e24 kg; r 6770 km; T 5.55e3 s",
        5,
    ),
    (
        U1 + "13.3, escape",
        "escape-speed",
        0,
        "G 6.67e-11 N·m²/kg²; M 5.96e24 kg; r 6.37e6 m; v 1.12e4 m/s",
        50,
    ),
    (
        U1 + "13.2, station",
        "gravitational-field-point",
        0,
        "G 6.67e-11 N·m²/kg²; M 5.96e24 kg; r 6770 km; g 8.67 m/s^2",
        0.005,
    ),
    (
        U1 + "14.7, air duct",
        "poiseuille",
        0,
        "Δp 0.054 Pa; r 9.00 cm; η 0.0181 mPa·s; l 20 m; Q 3.84e-3 m^3/s",
        0.5e-5,
    ),
    (U1 + "12.3, rod", "young-modulus", 0, "E 2.0e11 Pa; σ 1.79667e8 Pa; ε 0.9e-3", 0.5e-5),
    (U1 + "17.5, organ", "pipe-harmonic", 0, "v 344.078 m/s; n 1; f_n 128 Hz; L 0.672 m", 0.0005),
    (U2 + "1.3, bridge", "expansion-linear", 0, "α 12e-6 K^-1; L_0 1275 m; ΔT 55 K; ΔL 0.84 m", 0.005),
    (
        U2 + "1.6, person",
        "radiation-net",
        0,
        "σ 5.67e-8 W·m⁻²·K⁻⁴; e_m 0.97; A 1.50 m^2; T_2 295.15 K; T_1 306.15 K; P 99 W",
        0.5,
    ),
    (
        U2 + "2.1, breath",
        "ideal-gas-molecules",
        0,
        "p 1.01e5 Pa; V 500 mL; T 273.15 K; k_B 1.38e-23 J/K; N 1.34e22",
        5e19,
    ),
    (U2 + "2.2, nitrogen", "molecule-energy", 0, "T 293.15 K; k_B 1.38e-23 J/K; E_k 6.07e-21 J", 0.5e-23),
    (
        U2 + "2.2, nitrogen",
        "molecule-speed",
        0,
        "T 293.15 K; k_B 1.38e-23 J/K; m 4.65e-26 kg; v_rms 511 m/s",
        0.5,
    ),
    (
        U2 + "5.3, hydrogen",
        "coulomb-permittivity",
        0,
        "Q_1 1.602e-19 C; Q_2 1.602e-19 C; r 5.29e-11 m; ε_0 8.85e-12 F/m; F 8.25e-8 N",
        0.5e-10,
    ),
    (
        U2 + "11.6, selector",
        "charge-circle",
        0,
        "m 9.1e-31 kg; v 3e6 m/s; q 1.6e-19 C; B 2.0 mT; r 8.5e-3 m",
        0.05e-3,
    ),
    (
        U2 + "11.6, Hall",
        "current-drift",
        0,
        "n 5.9e28 m^-3; A 2e-5 m^2; q 1.6e-19 C; v 5.29661e-4 m/s; I 100 A",
        0.5,
    ),
    (U2 + "11.4, wire", "force-conductor", 2, "B 0.50 T; l 50 cm; F 0.098 N; I 0.39 A", 0.005),
    (U2 + "13.3, tether", "induction-rod", 0, "B 5.00e-5 T; l 20.0 km; v 7.80 km/s; ε 7.80e3 V", 5),
    (U2 + "14.5, oscillation", "resonance", 0, "L 2.0e-2 H; C 8.0e-6 F; f_0 398 Hz", 0.5),
    (U2 + "15.4, generator", "voltage-rms", 0, "V_max 4.00 V; V_rms 2.83 V", 0.005),
    (U2 + "15.4, generator", "impedance", 0, "R 5.00 Ω; X_L 20.0 Ω; X_C 25.0 Ω; Z 7.07 Ω", 0.005),
    (U3 + "1.7, polariser", "malus", 0, "I 10.0 W/m^2; I_0 100 W/m^2; θ 71.6 °", 0.05),
    (U3 + "2.4, lens maker", "lens-maker", 0, "n 1.55; f -20 cm; R_2 22 cm; R_1 -22 cm", 0.5),
    (U3 + "4.1, slit", "single-slit", 0, "λ 550 nm; m 2; θ 45.0 °; a 1.56e-6 m", 0.5e-8),
    (U3 + "5.3, muon", "time-dilation", 0, "v 2.85e8 m/s; c 3.00e8 m/s; Δt_0 2.20 µs; Δt 7.05 µs", 0.005),
    (
        U3 + "5.9, electron",
        "relativistic-kinetic-energy",
        0,
        "γ 7.08881; m 9.11e-31 kg; c 3.00e8 m/s; E_k 3.12 MeV",
        0.005,
    ),
    (U3 + "5.9, electron", "lorentz-factor", 0, "v 2.97e8 m/s; c 3.00e8 m/s; γ 7.09", 0.005),
    (
        U3 + "6.3, Compton",
        "compton",
        0,
        "h 6.626e-34 J·s; m_e 9.109e-31 kg; c 2.998e8 m/s; θ 180 °; Δλ 4.86 pm",
        0.01,
    ),
    (U3 + "10.1, iron", "nuclear-radius", 0, "r_0 1.2 fm; A 56; R 4.6 fm", 0.05),
    (U3 + "10.2, alpha", "binding-energy-nucleon", 0, "E_b 27.3 MeV; A 4; E_n 6.82 MeV", 0.01),
    (U3 + "11.6, redshift", "hubble", 0, "v 2.808e8 m/s; H_0 73.8 km/(s·Mpc); d 3.8e3 Mpc", 50),
]


def amount(words: str) -> tuple[str, Amount, float]:
    """ "h 233 m" → the name's key, the amount in SI units, and the SI size of one of its unit."""
    name, rest = words.strip().split(" ", 1)
    read = read_number(Text(rest), 0, ".")
    symbol = read_name(name)
    assert read is not None
    assert symbol is not None
    unit = read_unit(Text(rest[read[1] :].strip()))
    value = float(to_si(Real.of(read[0].value), unit).approximate(20))
    return symbol.key, Amount(value, unit.dimension), float(unit.scale.approximate(20))


@pytest.mark.parametrize(
    ("source", "slug", "form", "data", "half"), CASES, ids=[f"{c[1]}-{c[2]}" for c in CASES]
)
def test_a_printed_result_comes_out(source: str, slug: str, form: int, data: str, half: float) -> None:
    read = [amount(words) for words in data.split(";")]
    values = {key: value for key, value, _ in read}
    key, printed, size = read[-1]
    formula = SCHOOL.laws[slug].formulas[form]

    def difference(of_result: float) -> float:
        tried = {**values, key: Amount(of_result, printed.dimension)}
        return work_out(formula.left, tried).value - work_out(formula.right, tried).value

    # The printed result is right when the two sides change order within half a step of its last digit.
    low, high = difference(printed.value - half * size), difference(printed.value + half * size)
    assert low * high <= 0, source


def test_doppler_with_the_signs_chosen() -> None:
    # OpenStax, University Physics Volume 1, section 17.7: 150 Hz at 35.0 m/s, sound at 340 m/s: 167 Hz,
    # then 136 Hz.
    formula = SCHOOL.laws["doppler"].formulas[0]
    values = {key: amount(words)[1] for key, words in [
        ("v", "v 340 m/s"), ("v_L", "v_L 0 m/s"), ("v_s", "v_s 35.0 m/s"), ("f_s", "f_s 150 Hz"),
    ]}  # fmt: skip
    assert work_out(formula.right, values, "-").value == pytest.approx(167, abs=0.5)
    assert work_out(formula.right, values, "+").value == pytest.approx(136, abs=0.5)
