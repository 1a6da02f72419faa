"""Readings with uncertainties; what the answers may lie off by mpmath, from derivatives by hand. Our own numbers.

Each has the value and its uncertainty to more figures than are printed.
"""

from __future__ import annotations

from typing import Any

from mpmath import cos, cot, pi, sin, sqrt, tan

from ..syllabus.values import ln, n, rad

_G = "given:\n  L: 0.750 ± 0.002 m\n  T: 1.74 ± 0.01 s\nformula: g = 4 π^2 L / T^2\nfind: g in m/s^2 with percentage"
_WIRE = (
    "given:\n  d: 0.36 mm ± 2 %\n  L: 1,200 ± 0,002 m\n  R: 5.4 ± 0.1 Ω\n"
    "formula: ρ = R π d^2 / (4 L)\nfind: ρ in Ω·m with percentage"
)
_LENS = "given:\n  u: 30.0 ± 0.2 cm\n  v: 42.0 ± 0.5 cm\nformula: 1/f = 1/u + 1/v\nfind: f in cm"
_GLASS = "given:\n  θ_1: 30.0 ± 0.5 °\n  θ_2: 19.5 ± 0.5 °\nformula: n = sin θ_1 / sin θ_2\nfind: n"
_g = 4 * pi**2 * n("0.75") / n("1.74") ** 2
_rho = n("5.4") * pi * n("0.36e-3") ** 2 / n("4.8")
_f = (n("17.5") / 30) ** 2 * n("0.2"), (n("17.5") / 42) ** 2 * n("0.5")
_n = sin(rad(n("30"))) / sin(rad(n("19.5")))
_half = rad(n("0.5"))
_SUM = "uncertainty: sum\n"


def _root(*parts: Any) -> Any:
    return sqrt(sum(part**2 for part in parts))


BLOCKS: tuple[tuple[str, str, Any, Any], ...] = (
    # With the value as it is printed, 1,4, no share gives 0,23.
    (
        _SUM + "given:\n  a: 7,4 ± 0,3\n  b: 34,352 ± 0,797\nformula: y = 4 a^3 / b^2\nfind: y with percentage",
        "y", 4 * n("7.4") ** 3 / n("34.352") ** 2,
        4 * n("7.4") ** 3 / n("34.352") ** 2 * (n("0.9") / n("7.4") + 2 * n("0.797") / n("34.352")),
    ),
    (_G, "g", _g, _g * _root(n("0.002") / n("0.75"), n("0.02") / n("1.74"))),
    (_SUM + _G, "g", _g, _g * (n("0.002") / n("0.75") + n("0.02") / n("1.74"))),
    (_WIRE, "ρ", _rho, _rho * _root(n("0.04"), n("0.002") / n("1.2"), n("0.1") / n("5.4"))),
    (_SUM + _WIRE, "ρ", _rho, _rho * (n("0.04") + n("0.002") / n("1.2") + n("0.1") / n("5.4"))),
    (_LENS, "f", n("17.5"), _root(*_f)),
    (_SUM + _LENS, "f", n("17.5"), sum(_f)),
    (_GLASS, "n", _n, _n * _half * _root(1 / tan(rad(n("30"))), cot(rad(n("19.5"))))),
    (_SUM + _GLASS, "n", _n, _half * (cos(rad(n("30"))) / sin(rad(n("19.5"))) + _n * cot(rad(n("19.5"))))),
    (
        "given:\n  a: 12.3 ± 0.1 cm\n  b: 45 ± 2 mm\nformula: c = a / (a + b)\nfind: c",
        "c", n("12.3") / n("16.8"), _root(n("4.5") * n("0.1"), n("12.3") * n("0.2")) / n("16.8") ** 2,
    ),
    (
        "given:\n  N_0: 1200 ± 35\n  N: 300 ± 17\n  t: 10.0 min\nformula: N = N_0 exp(-λ t)\nfind: λ in 1/min",
        "λ", ln(n("4")) / 10, _root(n("35") / 1200, n("17") / 300) / 10,
    ),
    (
        _SUM + "given:\n  V: 1.5 ± 0.05 V\n  I: 95 mA ± 3 %\n  t: 300 ± 1 s\nformula: W = V I t\n"
        "find: W in J with percentage",
        "W", n("42.75"), n("42.75") * (n("0.05") / n("1.5") + n("0.03") + n("1") / 300),
    ),
    (
        _SUM + "given:\n  T_1: 21.5 ± 0.5 °C\n  T_2: 68.0 ± 0.5 °C\n  m: 0.200 ± 0.001 kg\n"
        "  c: 4190 J/(kg·°C)\nformula: Q = m c (T_2 - T_1)\nfind: Q in kJ",
        "Q", n("38.967"), n("4.19") * (n("46.5") * n("0.001") + n("0.2")),
    ),
    (
        "given:\n  r: 2.50 ± 0.05 cm\nformula: V = 4/3 π r^3\nfind: V in cm^3 with percentage",
        "V", 4 * pi * n("2.5") ** 3 / 3, 4 * pi * n("2.5") ** 2 * n("0.05"),
    ),
)  # fmt: skip
