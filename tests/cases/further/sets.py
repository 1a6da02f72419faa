"""Sets of formulas, quadratic equations, angles, logarithms and powers; the answers by mpmath. Our own numbers."""

from __future__ import annotations

from typing import Any

from mpmath import acos, asin, atan, cos, exp, log10, lu_solve, matrix, sin, sqrt

from ..syllabus.values import deg, g, ln, n, rad


def linear(rows: list[list[Any]], right: list[Any]) -> list[Any]:
    """The unknowns of a linear set."""
    return list(lu_solve(matrix(rows), matrix(right)))


_ROPES = linear(
    [[cos(rad(n("40"))), -cos(rad(n("65")))], [sin(rad(n("40"))), sin(rad(n("65")))]], [n("0"), 12 * g]
)
_LOOPS = linear(
    [[n("1"), n("1"), n("-1")], [n("4.7"), n("0"), n("6.8")], [n("0"), n("2.2"), n("6.8")]],
    [n("0"), n("12"), n("9")],
)
_SEVENTH = linear([[n("3.7"), n("1")], [n("0.9"), n("-1")]], [n("17.3"), n("-5.1")])

BLOCKS: tuple[tuple[str, dict[str, Any]], ...] = (
    (
        "given:\n  m: 12 kg\nformula:\n  - T_1 cos 40° = T_2 cos 65°\n  - T_1 sin 40° + T_2 sin 65° = m g\n"
        "find:\n  - T_1 in N\n  - T_2 in N",
        {"T_1": _ROPES[0], "T_2": _ROPES[1]},
    ),
    (
        "given:\n  ε_1: 12 V\n  ε_2: 9 V\n  R_1: 4.7 Ω\n  R_2: 2.2 Ω\n  R_3: 6.8 Ω\nformula:\n  - I_1 + I_2 = I_3\n"
        "  - ε_1 = I_1 R_1 + I_3 R_3\n  - ε_2 = I_2 R_2 + I_3 R_3\n"
        "find:\n  - I_1 in A to 3 dp\n  - I_2 in A to 3 dp\n  - I_3 in A to 3 dp",
        {"I_1": _LOOPS[0], "I_2": _LOOPS[1], "I_3": _LOOPS[2]},
    ),
    (
        "given:\n  m_1: 3.7 kg\n  m_2: 0.9 kg\n  F_1: 17.3 N\n  F_2: 5.1 N\nformula:\n  - F_1 - T = m_1 a\n"
        "  - T - F_2 = m_2 a\nfind: T in N to 3 dp",
        {"T": _SEVENTH[1]},
    ),
    (
        "given:\n  m_1: 3 kg\n  m_2: 50 g\n  F: 2.7 N\nformula:\n  - F - T = m_1 a\n  - T = m_2 a\n"
        "find: T in N to 3 sf",
        {"T": n("2.7") * n("0.05") / n("3.05")},
    ),
    (
        "given:\n  V_1: 11.2 V\n  I_1: 2.0 A\n  V_2: 10.3 V\n  I_2: 4.5 A\nformula:\n  - ε = V_1 + I_1 r\n"
        "  - ε = V_2 + I_2 r\nfind:\n  - r in Ω\n  - ε in V",
        {"r": n("0.36"), "ε": n("11.92")},
    ),
    (
        "given:\n  R_s: 9 Ω\n  R_p: 1.7 Ω\nformula:\n  - R_1 + R_2 = R_s\n  - R_1 R_2 / (R_1 + R_2) = R_p\n"
        "find:\n  - R_1 in Ω\n  - R_2 in Ω\ntake: R_1 > 4.5 Ω",
        {"R_1": (9 + sqrt(81 - 36 * n("1.7"))) / 2, "R_2": (9 - sqrt(81 - 36 * n("1.7"))) / 2},
    ),
    (
        "given:\n  D: 91 cm\n  f: 20.5 cm\nformula:\n  - u + v = D\n  - 1/u + 1/v = 1/f\n"
        "find:\n  - u in cm\n  - v in cm\ntake: u > 46 cm",
        {
            "u": (91 + sqrt(n("91") ** 2 - 4 * 91 * n("20.5"))) / 2,
            "v": (91 - sqrt(n("91") ** 2 - 4 * 91 * n("20.5"))) / 2,
        },
    ),
    (
        "given:\n  v: 23.7 m/s\n  θ: 37°\n  y: 2.13 m\nformula:\n  - y = v t sin θ - 1/2 g t^2\n"
        "  - x = v t cos θ\nfind:\n  - t in s to 1 dp\n  - x in m to 4 sf\ntake: largest",
        {
            "x": n("23.7")
            * cos(rad(n("37")))
            * (n("23.7") * sin(rad(n("37"))) + sqrt((n("23.7") * sin(rad(n("37")))) ** 2 - 2 * g * n("2.13")))
            / g
        },
    ),
    (
        "given:\n  λ_1: 0.35 µm\n  W: 2.3 eV\nformula:\n  - h c / λ_1 = W + E_k\n  - E_k = 1/2 m_e v^2\n"
        "find: v in m/s to 3 sf\ntake: positive",
        {
            "v": sqrt(
                2
                * (n("6.63e-34") * n("3e8") / n("0.35e-6") - n("2.3") * n("1.602176634e-19"))
                / n("9.11e-31")
            )
        },
    ),
    (
        "given:\n  V: 157 V\nformula:\n  - e V = 1/2 m_e v^2\n  - λ = h / (m_e v)\n"
        "find: λ in nm to 4 sf\ntake: positive",
        {"λ": n("6.63e-34") / sqrt(2 * n("9.11e-31") * n("1.6e-19") * 157) * n("1e9")},
    ),
    (
        "given:\n  L: 0.5 m\nformula: x^2 + 2*x = 3.37\nfind: x to 4 dp\ntake: positive",
        {"x": -1 + sqrt(n("4.37"))},
    ),
    (
        "given:\n  u: 20.3 m/s\n  s: 15 m\nformula: s = u t - 1/2 g t^2\nfind: t in s to 4 dp\ntake: smallest",
        {"t": (n("20.3") - sqrt(n("20.3") ** 2 - 30 * g)) / g},
    ),
    (
        "given:\n  v_i: 38.3 m/s\n  s: 65 m\n  a: 2.74 m/s^2\nformula: s = v_i t + 1/2 a t^2\nfind: t in min to 3 sf",
        {"t": (sqrt(n("38.3") ** 2 + 130 * n("2.74")) - n("38.3")) / n("2.74") / 60},
    ),
    (
        "given:\n  v: 18.59 m/s\n  θ: 26°\n  h: 9 m\nformula:\n  - 0 = h + v t sin θ - 1/2 g t^2\n"
        "  - x = v t cos θ\nfind:\n  - t in s to 5 sf\n  - x in m",
        {
            "t": (n("18.59") * sin(rad(n("26"))) + sqrt((n("18.59") * sin(rad(n("26")))) ** 2 + 18 * g)) / g,
        },
    ),
    (
        "given:\n  R: 30 m\n  v: 18 m/s\nformula: R = v^2 sin(2 θ) / g\nfind: θ in ° to 1 dp\ntake: largest",
        {"θ": 90 - deg(asin(30 * g / 324)) / 2},
    ),
    (
        "given:\n  μ: 0.3\n  m: 2 kg\n  a: 1.5 m/s^2\nformula: m g sin θ - μ m g cos θ = m a\nfind: θ in ° to 2 dp",
        {"θ": deg(asin(n("1.5") / (g * sqrt(n("1.09")))) + atan(n("0.3")))},
    ),
    ("given:\n  n: 1.52\nformula: sin θ_c = 1 / n\nfind: θ_c in °", {"θ_c": deg(asin(1 / n("1.52")))}),
    (
        "given:\n  A: 60°\n  D: 38.6°\nformula: n = sin((A + D)/2) / sin(A/2)\nfind: n to 3 dp",
        {"n": sin(rad(n("49.3"))) / sin(rad(n("30")))},
    ),
    (
        "given:\n  n: 1.5\n  A: 60°\nformula: n = sin((A + D)/2) / sin(A/2)\nfind: D in ° to 1 dp\ntake: smallest",
        {"D": 2 * deg(asin(n("0.75"))) - 60},
    ),
    (
        "given:\n  I: 3.2e-5 W/m^2\n  I_0: 1e-12 W/m^2\nformula: β = 10 log(I / I_0)\nfind: β in dB to 1 dp",
        {"β": 10 * log10(n("3.2e7"))},
    ),
    (
        "given:\n  β: 85 dB\n  I_0: 1e-12 W/m^2\nformula: β = 10 log(I / I_0)\nfind: I in W/m^2 to 3 sf",
        {"I": n("10") ** n("-3.5")},
    ),
    (
        "given:\n  β_1: 85 dB\n  n: 4\nformula: β_2 = β_1 + 10 log(n)\nfind: β_2 in dB to 1 dp",
        {"β_2": 85 + 10 * log10(n("4"))},
    ),
    (
        "given:\n  N_0: 8.0e14\n  N: 6.0e13\n  T: 5.27 yr\nformula: N = N_0 (1/2)^(t/T)\nfind: t in yr to 2 dp",
        {"t": n("5.27") * ln(n("80") / 6) / ln(n("2"))},
    ),
    (
        "given:\n  T_h: 8.02 d\n  m_0: 5.0 mg\n  t: 30 d\nformula: m = m_0 / 2^(t / T_h)\nfind: m in mg to 3 sf",
        {"m": 5 / n("2") ** (30 / n("8.02"))},
    ),
    (
        "given:\n  V_0: 12 V\n  R: 47 kΩ\n  C: 22 µF\n  t: 0.8 s\nformula: V = V_0 (1 - exp(-t / (R C)))\nfind: V in V",
        {"V": 12 * (1 - exp(-n("0.8") / n("1.034")))},
    ),
    (
        "given:\n  V_0: 12 V\n  V: 7.5 V\n  R: 47 kΩ\n  C: 22 µF\nformula: V = V_0 (1 - exp(-t / (R C)))\nfind: t in s",
        {"t": -n("1.034") * ln(1 - n("7.5") / 12)},
    ),
    (
        "given:\n  p_1: 100 kPa\n  V_1: 3 L\n  V_2: 0.5 L\n  γ: 1.4\nformula: p_1 V_1^γ = p_2 V_2^γ\nfind: p_2 in kPa",
        {"p_2": 100 * n("6") ** n("1.4")},
    ),
    (
        "given:\n  p_1: 100 kPa\n  V_1: 3 L\n  p_2: 900 kPa\n  V_2: 0.6 L\nformula: p_2 / p_1 = (V_1 / V_2)^n\nfind: n",
        {"n": ln(n("9")) / ln(n("5"))},
    ),
    (
        "given:\n  T_1: 300 K\n  P_2: 95 W\n  P_1: 40 W\nformula: P_2 / P_1 = (T_2 / T_1)^4\nfind: T_2 in K to 1 dp",
        {"T_2": 300 * (n("95") / 40) ** (n("1") / 4)},
    ),
    ("given:\n  pH: 4.3\nformula: c = 10^(-pH)\nfind: c to 2 sf", {"c": n("10") ** n("-4.3")}),
    (
        "given:\n  F: 12.6 N\n  W: 61 J\n  s: 7.3 m\nformula: W = F s cos θ\nfind: θ in ° to 1 dp",
        {"θ": deg(acos(61 / (n("12.6") * n("7.3"))))},
    ),
)
