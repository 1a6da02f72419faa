"""Problems over the whole syllabus as documents, with answers worked out here with mpmath.

Each answer is a formula written out below in SI coherent units, with the sheet's constants typed again, so that
nothing of the program's own solving, units or rounding is used. The numbers and contexts are our own.

Every document must check clean, and must not once an answer is moved by three per cent.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from mpmath import asin, atan, atan2, degrees, floor, log, mp, mpf, pi, radians, sin, sqrt
from mpmath import cos as _cos
from physcalc_filter import pipeline
from physcalc_filter.sources import read_source

mp.dps = 40

# The constants of the sheet `school`, as it prints them; eV as CODATA 2022 has it.
g, k, c, h, e = mpf("9.8"), mpf("9e9"), mpf("3e8"), mpf("6.63e-34"), mpf("1.6e-19")
G, M_E, R_E, R, m_e = mpf("6.67e-11"), mpf("5.98e24"), mpf("6.38e6"), mpf("8.31"), mpf("9.11e-31")
R_H, EV = mpf("1.097e7"), mpf("1.602176634e-19")


def n(text: str) -> Any:
    """A typed number, exactly."""
    return mpf(text)


def s(angle: str) -> Any:
    return sin(radians(mpf(angle)))


def co(angle: str) -> Any:
    return _cos(radians(mpf(angle)))


def places(value: Any, count: int) -> str:
    """Rounded half away from zero to so many places."""
    units = str(int(floor(abs(value) * mpf(10) ** count + mpf("0.5")))).rjust(count + 1, "0")
    digits = f"{units[:-count]}.{units[-count:]}" if count else units
    return ("-" if value < 0 else "") + digits


def standard(value: Any, count: int) -> str:
    """In standard form, the leading factor with so many places."""
    power = int(floor(log(abs(value), 10)))
    return f"{places(value / mpf(10) ** power, count)}e{power}"


@dataclass(frozen=True)
class Case:
    """A question.

    Attributes:
        name: what it is about.
        given, calc: the two blocks; @1, @2 … in `calc` stand where answers are typed.
        answers: the value, places (negative for standard form) and what follows the number, of each.
        settings: attributes of the question.
    """

    name: str
    given: str
    calc: str
    answers: tuple[tuple[Any, int, str], ...]
    settings: str = ""

    def document(self, factor: Any = 1, moved: int = -1) -> str:
        calc = self.calc.strip()
        for index, (value, count, rest) in enumerate(self.answers):
            shown = value * factor if index == moved else value
            typed = places(shown, count) if count >= 0 else standard(shown, -count)
            calc = calc.replace(f"@{index + 1}", typed + rest)
        return (
            "---\nlang: en-ZA\nphyscalc:\n  sheet: school\n---\n\n"
            f"::: {{.question #q marks=6 {self.settings}}}\nCalculate what is asked.\n\n"
            f"```{{.given}}\n{self.given.strip()}\n```\n\n```{{.calc}}\n{calc}\n```\n:::\n"
        )


_A3 = n("75") / 25 - n("0.15") * g
_SLOPE = (6 * g - 4 * g * (s("35") + n("0.30") * co("35"))) / 10
_LOOP = (n("9") + n("6") / 2) / (1 + n("5") * (1 + n("1") / 2))
_MOM = (n("1100") * 14 / 3000, n("1900") * 11 / 3000)
_PULL = n("0.28") * 23 * g / (co("40") + n("0.28") * s("40"))
_DEFECT = 8 * (n("1.00728") + n("1.00866")) - n("15.9905")

CASES = (
    Case(
        "a bolt falls from a rising drone",
        "v_i: 3.2 m/s, up\nh: 45 m\nΔy: h, down\na: g, down",
        "use: displacement-time\nfind: Δt in s to 2 dp\nanswer: @1",
        (((n("3.2") + sqrt(n("3.2") ** 2 + 2 * g * 45)) / g, 2, " s"),),
        'axis="up is positive"',
    ),
    Case(
        "a tram catches up with a cyclist",
        "v: 9.0 m/s\na: 1.5 m/s^2",
        "formula:\n  - Δx = v Δt\n  - Δx = 1/2 a Δt^2\nfind:\n  - Δt in s to 2 dp\n  - Δx in m to 2 dp\n"
        "take: Δt > 0 s\nanswer:\n  Δt: @1\n  Δx: @2",
        ((2 * n("9") / n("1.5"), 2, " s"), (2 * n("81") / n("1.5"), 2, " m")),
    ),
    Case(
        "a jet of water meets a pond",
        "v_x: 4.8 m/s\nΔy: 1.9 m, down\nv_iy: 0 m/s\na: g, down",
        "steps:\n  -\n    formula: v_y^2 = v_iy^2 + 2 a Δy\n    find: v_y in m/s to 2 dp\n    take: positive\n"
        "  -\n    formula: v = sqrt(v_x^2 + v_y^2)\n    find: v in m/s to 2 dp\n    answer: @1\n"
        "  -\n    formula: tan θ = v_y / v_x\n    find: θ in ° to 1 dp\n    answer: @2",
        (
            (sqrt(n("4.8") ** 2 + 2 * g * n("1.9")), 2, " m/s"),
            (degrees(atan(sqrt(2 * g * n("1.9")) / n("4.8"))), 1, "°"),
        ),
        'axis="down is positive"',
    ),
    Case(
        "a boat across a river",
        "v_bw: 3.5 m/s at north\nv_w: 1.6 m/s at east",
        "formula: v_b = v_bw + v_w\nfind: v_b in m/s to 2 dp with direction\nanswer: @1",
        (
            (
                sqrt(n("3.5") ** 2 + n("1.6") ** 2),
                2,
                f" m/s at {places(degrees(atan(n('3.5') / n('1.6'))), 2)}° north of east",
            ),
        ),
    ),
    Case(
        "three sledges with friction",
        "m_1: 12 kg\nm_2: 8.0 kg\nm_3: 5.0 kg\nF: 75 N\nμ: 0.15",
        "formula:\n  - F - T_1 - μ m_1 g = m_1 a\n  - T_1 - T_2 - μ m_2 g = m_2 a\n  - T_2 - μ m_3 g = m_3 a\n"
        "find:\n  - a in m/s^2 to 2 dp\n  - T_1 in N to 2 dp\n  - T_2 in N to 2 dp\n"
        "answer:\n  a: @1\n  T_1: @2\n  T_2: @3",
        ((_A3, 2, " m/s^2"), (n("75") * 13 / 25, 2, " N"), (n("75") * 5 / 25, 2, " N")),
    ),
    Case(
        "a block on a slope and a hanging one",
        "m_1: 4.0 kg\nm_2: 6.0 kg\nθ: 35°\nμ_k: 0.30",
        "formula:\n  - m_2 g - T = m_2 a\n  - T - m_1 g sin θ - μ_k m_1 g cos θ = m_1 a\n"
        "find:\n  - a in m/s^2 to 2 dp\n  - T in N to 2 dp\nanswer:\n  a: @1\n  T: @2",
        ((_SLOPE, 2, " m/s^2"), (6 * (g - _SLOPE), 2, " N")),
    ),
    Case(
        "a suitcase pulled by a strap",
        "m: 23 kg\nθ: 40°\nμ_k: 0.28",
        "formula:\n  - F cos θ - μ_k N = 0\n  - N + F sin θ - m g = 0\n"
        "find:\n  - F in N to 2 dp\n  - N in N to 2 dp\nanswer:\n  F: @1\n  N: @2",
        ((_PULL, 2, " N"), (23 * g - _PULL * s("40"), 2, " N")),
    ),
    Case(
        "an elastic collision",
        "m_1: 0.35 kg\nm_2: 0.25 kg\nu_1: 1.8 m/s, right\nu_2: 0.60 m/s, left",
        "formula:\n  - m_1 u_1 + m_2 u_2 = m_1 v_1 + m_2 v_2\n"
        "  - 1/2 m_1 u_1^2 + 1/2 m_2 u_2^2 = 1/2 m_1 v_1^2 + 1/2 m_2 v_2^2\n"
        "find:\n  - v_1 in m/s to 2 dp with direction\n  - v_2 in m/s to 2 dp with direction\n"
        "take: v_2 > 0 m/s\nanswer:\n  v_1: @1\n  v_2: @2",
        (
            # v_1 = ((m_1 − m_2) u_1 + 2 m_2 u_2) / (m_1 + m_2), and its like for v_2.
            (-(n("0.10") * n("1.8") - n("0.50") * n("0.60")) / n("0.60"), 2, " m/s, left"),
            ((n("0.70") * n("1.8") + n("0.10") * n("0.60")) / n("0.60"), 2, " m/s, right"),
        ),
        'axis="right is positive"',
    ),
    Case(
        "a collision in a plane",
        "m_1: 1100 kg\nm_2: 1900 kg\nv_1: 14 m/s at east\nv_2: 11 m/s at north",
        "use: momentum-conservation-joined\nformula: v = (m_1 v_1 + m_2 v_2) / (m_1 + m_2)\n"
        "find: v in m/s to 2 dp with direction\nanswer: @1",
        (
            (
                sqrt(_MOM[0] ** 2 + _MOM[1] ** 2),
                2,
                f" m/s at {places(degrees(atan2(_MOM[1], _MOM[0])), 2)}° north of east",
            ),
        ),
    ),
    Case(
        "a ball and a bat",
        "m: 156 g\nv_i: 28 m/s, towards the bat\nv_f: 35 m/s, away from the bat\nΔt: 1.8 ms",
        "use: impulse-momentum\nformula: F_net Δt = m v_f - m v_i\n"
        "find: F_net in N to 2 dp with direction\nanswer: @1",
        ((n("0.156") * 63 / n("0.0018"), 2, " N, away from the bat"),),
        'axis="towards the bat is positive, away from the bat is negative"',
    ),
    Case(
        "the work of friction on a slope",
        "m: 36 kg\nh_i: 5.5 m\nh_f: 0 m\nv_i: 0 m/s\nv_f: 8.2 m/s",
        "use: work-nonconservative\nfind: W_nc in J to 2 dp\nanswer: @1",
        ((n("36") * n("8.2") ** 2 / 2 - 36 * g * n("5.5"), 2, " J"),),
    ),
    Case(
        "a block falls onto a spring",
        "m: 0.80 kg\nh: 0.50 m\nk: 520 N/m",
        "formula: m g (h + x) = 1/2 k x^2\nfind: x in cm to 2 dp\ntake: positive\nanswer: @1",
        (
            (
                100 * (n("0.8") * g + sqrt((n("0.8") * g) ** 2 + 520 * n("0.8") * g)) / 520,
                2,
                " cm",
            ),
        ),
    ),
    Case(
        "the efficiency of a pump",
        "m: 480 kg\nh: 12 m\nΔt: 2.5 min\nP_in: 550 W",
        "steps:\n  -\n    formula: P_out = m g h / Δt\n    find: P_out in W to 2 dp\n"
        "  -\n    use: efficiency-power\n    find: η in % to 1 dp\n    answer: @1",
        ((100 * 480 * g * 12 / 150 / 550, 1, " %"),),
    ),
    Case(
        "the energy and cost of a geyser",
        "P: 3.0 kW\nt_d: 2.5 h\nΔt: 30 * t_d\np: 2.85 kWh^-1",
        "steps:\n  -\n    formula: W = P Δt\n    find: W in kWh to 1 dp\n    answer: @1\n"
        "  -\n    formula: C = W p\n    find: C to 2 dp\n    answer: @2",
        ((n("3") * 75, 1, " kWh"), (n("225") * n("2.85"), 2, "")),
    ),
    Case(
        "a satellite",
        "h: 620 km\nr: R_E + h\nM: M_E",
        "steps:\n  -\n    use: orbital-speed\n    find: v in m/s to 2 dp\n    answer: @1\n"
        "  -\n    use: circular-speed\n    find: T in min to 1 dp\n    answer: @2",
        (
            (sqrt(G * M_E / (R_E + 620000)), 2, " m/s"),
            (2 * pi * sqrt((R_E + 620000) ** 3 / (G * M_E)) / 60, 1, " min"),
        ),
    ),
    Case(
        "a conical pendulum",
        "m: 0.30 kg\nL: 0.80 m\nθ: 25°\nr: L sin θ",
        "formula:\n  - T cos θ = m g\n  - T sin θ = m v^2 / r\n"
        "find:\n  - T in N to 2 dp\n  - v in m/s to 2 dp\nanswer:\n  T: @1\n  v: @2",
        (
            (n("0.30") * g / co("25"), 2, " N"),
            (sqrt(g * n("0.80") * s("25") ** 2 / co("25")), 2, " m/s"),
        ),
    ),
    Case(
        "a bolt dropped into water",
        "m_1: 180 g\nc_1: 450 J/(kg K)\nT_1: 95 °C\nm_2: 400 g\nc_2: 4180 J/(kg K)\nT_2: 18 °C",
        "use: heat-exchange\nfind: T in °C to 1 dp\nanswer: @1",
        (((n("81") * 95 + n("1672") * 18) / (n("81") + 1672), 1, " °C"),),
    ),
    Case(
        "a balloon that rises",
        "V_1: 2.4 m^3\nT_1: 22 °C\np_1: 100 kPa\np_2: 62 kPa\nT_2: -8 °C",
        "use: gas-general\nfind: V_2 in m^3 to 2 dp\nanswer: @1",
        ((n("2.4") * 100 / 62 * n("265.15") / n("295.15"), 2, " m^3"),),
    ),
    Case(
        "the mass of a gas",
        "V: 12 L\np: 150 bar\nT: 20 °C\nM: 32 g/mol",
        "steps:\n  -\n    use: ideal-gas\n    find: n in mol to 2 dp\n"
        "  -\n    use: amount\n    find: m in kg to 2 dp\n    answer: @1",
        ((n("1.5e7") * n("0.012") / (R * n("293.15")) * n("0.032"), 2, " kg"),),
    ),
    Case(
        "where the field of two charges vanishes",
        "Q_1: 9.0 µC\nQ_2: 4.0 µC\nd: 50 cm",
        "formula: k Q_1 / x^2 = k Q_2 / (d - x)^2\nfind: x in cm to 1 dp\ntake: x < 50 cm\nanswer: @1",
        ((n("50") * 3 / 5, 1, " cm"),),
    ),
    Case(
        "a capacitor discharges",
        "C: 47 µF\nV_0: 12 V\nR: 220 kΩ\nV: 3.0 V",
        "use: capacitor-discharging\nfind: t in s to 2 dp\nanswer: @1",
        ((n("47e-6") * 220000 * log(4), 2, " s"),),
    ),
    Case(
        "resistors renamed one onto the other",
        "R_1: 4.0 Ω\nR_2: 6.0 Ω\nR_3: 3.0 Ω\nV_p: 3.53 V",
        "steps:\n  -\n    use: resistors-parallel (R_1 = R_2, R_2 = R_3)\n    find: R_p in Ω to 2 dp\n"
        "    answer: @1\n"
        "  -\n    given:\n      I: 1.76 A\n    use: electric-power (V = V_p, R = R_3)\n    find: P in W to 2 dp\n"
        "    answer: @2",
        ((1 / (1 / n("6") + 1 / n("3")), 2, " Ω"), (n("3.53") ** 2 / 3, 2, " W")),
    ),
    Case(
        "two batteries and a load",
        "ε_1: 9.0 V\nε_2: 6.0 V\nr_1: 1.0 Ω\nr_2: 2.0 Ω\nR: 5.0 Ω",
        "formula:\n  - I = I_1 + I_2\n  - ε_1 = I_1 r_1 + I R\n  - ε_2 = I_2 r_2 + I R\n"
        "find:\n  - I_1 in A to 2 dp\n  - I_2 in A to 2 dp\n  - I in A to 2 dp\n"
        "answer:\n  I_1: @1\n  I_2: @2\n  I: @3",
        ((9 - 5 * _LOOP, 2, " A"), ((6 - 5 * _LOOP) / 2, 2, " A"), (_LOOP, 2, " A")),
    ),
    Case(
        "an emf induced in a coil",
        "N: 120\nA: 35 cm^2\nB_i: 0.60 T\nB_f: 0.15 T\nΔt: 0.18 s\nθ: 0°",
        "use: induction\nformula: ε = -N (B_f A cos θ - B_i A cos θ) / Δt\nfind: ε in V to 2 dp\nanswer: @1",
        ((n("120") * n("0.45") * n("0.0035") / n("0.18"), 2, " V"),),
    ),
    Case(
        "a coil, a capacitor and a resistor",
        "R: 40 Ω\nL: 0.15 H\nC: 60 µF\nf: 50 Hz",
        "steps:\n  -\n    use: reactance-inductive\n    find: X_L in Ω to 2 dp\n"
        "  -\n    use: reactance-capacitive\n    find: X_C in Ω to 2 dp\n"
        "  -\n    use: impedance\n    find: Z in Ω to 2 dp\n    answer: @1",
        ((sqrt(1600 + (15 * pi - 1 / (100 * pi * n("60e-6"))) ** 2), 2, " Ω"),),
    ),
    Case(
        "a listener who moves away",
        "f_s: 520 Hz\nf_L: 489 Hz\nv: 343 m/s",
        "use: doppler\nformula: f_L = f_s (v - v_L) / v\nfind: v_L in m/s to 2 dp\nanswer: @1",
        ((343 * (1 - n("489") / 520), 2, " m/s"),),
    ),
    Case(
        "the power of a loudspeaker",
        "β: 104 dB\nI_0: 1.0e-12 W/m^2\nr: 8.0 m",
        "steps:\n  -\n    use: sound-level\n    find: I in W/m^2 to 2 dp\n    answer: @1\n"
        "  -\n    use: intensity-point\n    find: P in W to 2 dp\n    answer: @2",
        (
            (n("1e-12") * mpf(10) ** n("10.4"), -2, " W/m^2"),
            (4 * pi * 64 * n("1e-12") * mpf(10) ** n("10.4"), 2, " W"),
        ),
    ),
    Case(
        "light from water into glass",
        "n_1: 1.33\nn_2: 1.52\nθ_1: 48°",
        "use: snell\nfind: θ_2 in ° to 1 dp\nanswer: @1",
        ((degrees(asin(n("1.33") * s("48") / n("1.52"))), 1, "°"),),
    ),
    Case(
        "a magnifying glass",
        "d_o: 12 cm\nf: 18 cm",
        "steps:\n  -\n    use: lens\n    find: d_i in cm to 2 dp\n    answer: @1\n"
        "  -\n    use: magnification\n    find: m to 2 dp\n    answer: @2",
        ((1 / (1 / n("18") - 1 / n("12")), 2, " cm"), (n("36") / 12, 2, "")),
    ),
    Case(
        "photoelectrons",
        "λ: 240 nm\nW_0: 4.3 eV",
        "use: photoelectric\nformula: h c / λ = W_0 + E_{k(max)}\nfind: E_{k(max)} in eV to 2 dp\nanswer: @1",
        ((h * c / n("240e-9") / EV - n("4.3"), 2, " eV"),),
    ),
    Case(
        "the wavelength of an electron",
        "V: 150 V\nm: m_e",
        "steps:\n  -\n    formula: e V = 1/2 m v^2\n    find: v in m/s to 3 sf in standard form\n"
        "  -\n    use: de-broglie\n    formula: λ = h / (m v)\n    find: λ in m to 3 sf\n    answer: @1",
        ((h / sqrt(2 * m_e * e * 150), -2, " m"),),
    ),
    Case(
        "a line of hydrogen",
        "n_i: 5\nn_f: 2",
        "use: hydrogen-spectrum\nfind: λ in nm to 1 dp\nanswer: @1",
        ((mpf(10) ** 9 / (R_H * (n("1") / 4 - n("1") / 25)), 1, " nm"),),
    ),
    Case(
        "how long an activity takes to fall",
        "A_0: 840 Bq\nA: 150 Bq\nT_{1/2}: 5.3 yr",
        "use: activity-decay\nformula: A = A_0 (1/2)^(t / T_{1/2})\nfind: t in yr to 1 dp\nanswer: @1",
        ((n("5.3") * log(n("840") / 150) / log(2), 1, " yr"),),
    ),
    Case(
        "the binding energy of oxygen",
        "Z: 8\nN: 8\nA: 16\nm_p: 1.00728 u\nm_n: 1.00866 u\nm_nuc: 15.9905 u\nx: 931.5 MeV/u",
        "steps:\n  -\n    use: mass-defect\n    find: Δm in u to 5 dp\n    answer: @1\n"
        "  -\n    formula: E_b = Δm x\n    find: E_b in MeV to 2 dp\n    answer: @2\n"
        "  -\n    use: binding-energy-nucleon\n    find: E_n in MeV to 2 dp\n    answer: @3",
        ((_DEFECT, 5, " u"), (_DEFECT * n("931.5"), 2, " MeV"), (_DEFECT * n("931.5") / 16, 2, " MeV")),
    ),
    Case(
        "muons",
        "Δt_0: 2.2 µs\nv: 0.995 c",
        "steps:\n  -\n    use: time-dilation\n    find: Δt in µs to 2 dp\n    answer: @1\n"
        "  -\n    formula: d = v Δt\n    find: d in km to 2 dp\n    answer: @2",
        (
            (n("2.2") / sqrt(1 - n("0.995") ** 2), 2, " µs"),
            (n("0.995") * c * n("2.2e-6") / sqrt(1 - n("0.995") ** 2) / 1000, 2, " km"),
        ),
    ),
)

#: Notes that may stand beside a right answer: digits carried or rounded, a constant hidden by a datum.
_NOTES = {"carry-matters", "name-hidden"}


def _slugs(document: str, folder: Path) -> list[str]:
    path = folder / "fresh.md"
    path.write_text(document, encoding="utf-8")
    return [problem.slug for problem in pipeline.check(read_source(path, "fresh.md"), folder=folder).problems]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_right_answers_agree(case: Case, tmp_path: Path) -> None:
    assert set(_slugs(case.document(), tmp_path)) <= _NOTES


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_each_wrong_answer_is_caught(case: Case, tmp_path: Path) -> None:
    for moved in range(len(case.answers)):
        found = [s for s in _slugs(case.document(n("1.03"), moved), tmp_path) if s not in _NOTES]
        assert found == ["answer-disagrees"]
