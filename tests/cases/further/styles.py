"""Units, very small and very large values, temperatures, angles, money; the answers by mpmath. Our own numbers."""

from __future__ import annotations

from typing import Any

from mpmath import cos, pi, sin, sqrt, tan

from ..syllabus.values import G, R, c, e, ev, g, h, n, rad, u

_mercury, _atm = n("133.322387415"), n("101325")

BLOCKS: tuple[tuple[str, dict[str, Any]], ...] = (
    ("given:\n  m: 0,000 000 35 kg\nformula: W = m g\nfind: W in N to 3 sf in standard form", {"W": n("3.5e-7") * g}),
    (
        "given:\n  n: 6.02e23\n  m: 3.35e-26 kg\nformula: M = n m\nfind: M in g to 3 sf",
        {"M": n("6.02e23") * n("3.35e-26") * 1000},
    ),
    ("given:\n  r: 15 cm\n  θ: 140°\nformula: s = r θ\nfind: s in cm", {"s": 15 * rad(n("140"))}),
    ("given:\n  ω: 1500 rev/min\n  r: 20 cm\nformula: v = ω r\nfind: v in m/s", {"v": 10 * pi}),
    ("given:\n  ω: 33.3 rev/min\n  r: 15 cm\nformula: a = ω^2 r\nfind: a in m/s^2 to 3 sf",
     {"a": (n("33.3") * pi / 30) ** 2 * n("0.15")}),
    ("given:\n  f: 25 Hz\n  r: 0.2 m\nformula: v = 2 π f r\nfind: v in km/h", {"v": 10 * pi * n("3.6")}),
    ("given:\n  α: 0.51°\n  d: 3.84e8 m\nformula: D = d tan α\nfind: D in km to 4 sf",
     {"D": n("3.84e5") * tan(rad(n("0.51")))}),
    ("given:\n  θ: 2 rad\nformula: s = sin θ\nfind: s to 4 dp", {"s": sin(n("2"))}),
    ("given:\n  f: 50 Hz\n  V_0: 311 V\n  t: 3 ms\nformula: V = V_0 sin(2 π f t)\nfind: V in V to 1 dp",
     {"V": 311 * sin(n("0.3") * pi)}),
    ("given:\n  A: 4 cm\n  ω: 5 rad/s\n  t: 0.7 s\n  φ: 30°\nformula: x = A cos(ω t + φ)\nfind: x in cm",
     {"x": 4 * cos(n("3.5") + pi / 6)}),
    ("given:\n  T_1: 20 °C\n  T_2: 75 °C\n  V_1: 2 L\nformula: V_1 / T_1 = V_2 / T_2\nfind: V_2 in L",
     {"V_2": 2 * n("348.15") / n("293.15")}),
    (
        "given:\n  p_1: 760 mmHg\n  V_1: 2.5 L\n  T_1: 27 °C\n  p_2: 1.5 atm\n  T_2: 127 °C\n"
        "formula: p_1 V_1 / T_1 = p_2 V_2 / T_2\nfind: V_2 in L",
        {"V_2": 760 * _mercury * n("2.5") / n("300.15") * n("400.15") / (n("1.5") * _atm)},
    ),
    ("given:\n  p: 780 mmHg\n  V: 250 mL\n  T: 21.5 °C\nformula: p V = n R T\nfind: n in mol to 3 sf",
     {"n": 780 * _mercury * n("250e-6") / (R * n("294.65"))}),
    (
        "given:\n  m_a: 0.5 kg\n  m_b: 0.8 kg\n  T_a: 90 °C\n  T_b: 15 °C\n  c: 4200 J/(kg·K)\n"
        "formula: m_a c (T_a - T) = m_b c (T - T_b)\nfind: T in °C to 1 dp",
        {"T": n("57") / n("1.3")},
    ),
    ("given:\n  T_1: 15 °C\n  ΔT: 80 °C\nformula: T_2 = T_1 + ΔT\nfind: T_2 in °C", {"T_2": n("95")}),
    ("given:\n  T_h: 450 °C\n  T_c: 30 °C\nformula: η = 1 - T_c / T_h\nfind: η in % to 1 dp",
     {"η": 100 - 100 * n("303.15") / n("723.15")}),
    ("given:\n  P: 2.2 kW\n  t: 47 min\nformula: E = P t\nfind: E in kWh", {"E": n("2.2") * 47 / 60}),
    ("given:\n  E: 13.6 eV\nformula: E = h f\nfind: f in Hz to 3 sf", {"f": n("13.6") * ev / h}),
    ("given:\n  m: 4.0026 u\nformula: E = m c^2\nfind: E in MeV to 1 dp", {"E": n("4.0026") * u * c**2 / ev / 10**6}),
    ("given:\n  Δm: 0.0305 u\nformula: E = Δm c^2\nfind: E in MeV to 2 dp", {"E": n("0.0305") * u * c**2 / ev / 10**6}),
    ("given:\n  E: 2.3 MeV\n  q: e\nformula: V = E / q\nfind: V in V", {"V": n("2.3e6") * ev / e}),
    ("given:\n  m: 3,0e-26 kg\n  v: 450 m/s\nformula: E = 1/2 m v^2\nfind: E in eV to 3 sf",
     {"E": n("1.5e-26") * 450**2 / ev}),
    ("given:\n  λ_1: 0.35 µm\n  W: 2.3 eV\nformula: E_k = h c / λ_1 - W\nfind: E_k in eV to 2 dp",
     {"E_k": h * c / n("0.35e-6") / ev - n("2.3")}),
    ("given:\n  M: 1.99e30 kg\n  T: 687 d\nformula: T^2 = 4 π^2 r^3 / (G M)\nfind: r in km to 3 sf",
     {"r": (G * n("1.99e30") * (n("687") * 86400) ** 2 / (4 * pi**2)) ** (n("1") / 3) / 1000}),
    ("given:\n  r: 1.496e11 m\n  T: 365.25 d\nformula: v = 2 π r / T\nfind: v in km/s to 4 sf",
     {"v": 2 * pi * n("1.496e8") / (n("365.25") * 86400)}),
    ("given:\n  p: 120 mmHg\n  ρ: 1060 kg/m^3\nformula: p = ρ g h\nfind: h in cm",
     {"h": 120 * _mercury / (1060 * g) * 100}),
    ("given:\n  ρ: 1.03e3 kg/m^3\n  h: 2.5 km\n  p_0: 1 atm\nformula: p = p_0 + ρ g h\nfind: p in MPa",
     {"p": (_atm + 1030 * g * 2500) / 10**6}),
    ("given:\n  v: 120 km/h\n  t: 1.5 s\n  a: 6.5 m/s^2\nformula: d = v t + v^2 / (2 a)\nfind: d in m to 1 dp",
     {"d": 50 + (n("100") / 3) ** 2 / 13}),
    ("given:\n  f_L: 475 Hz\n  f: 440 Hz\n  v: 340 m/s\nformula: f_L = f v / (v - v_s)\nfind: v_s in km/h to 1 dp",
     {"v_s": 340 * (1 - n("440") / 475) * n("3.6")}),
    ("given:\n  P_out: 780 W\n  P_in: 1.2 kW\nformula: η = P_out / P_in\nfind: η in %", {"η": n("65")}),
    ("given:\n  P_out: 780 W\n  P_in: 1.2 kW\nformula: η = (P_out / P_in) × 100\nfind: η", {"η": n("65")}),
    ("rounding: half-even\ngiven:\n  a: 2.5\nformula: c = a\nfind: c to 0 dp", {"c": n("2")}),
    ("given:\n  a: -2.5\nformula: c = a\nfind: c to 0 dp", {"c": n("-3")}),
    ("given:\n  h: 0.87 m\nformula: v = sqrt(2 g h)\nfind: v in km/h to 3 sf",
     {"v": sqrt(2 * g * n("0.87")) * n("3.6")}),
)  # fmt: skip
