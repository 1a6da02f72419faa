"""Calculations of mechanics and gravitation; the answers by mpmath. Our own numbers."""

from __future__ import annotations

from typing import Any

from mpmath import atan, cos, pi, sin, sqrt, tan

from .values import M_E, R_E, G, deg, g, n, rad

#: A calculation, and what it finds.
BLOCKS: tuple[tuple[str, dict[str, Any]], ...] = (
    (
        """
given:
  u: 54 km/h
  v: 90 km/h
  s: 250 m
formula: v^2 = u^2 + 2 a s
find: a in m/s^2 to 2 dp
""",
        {"a": (n("25") ** 2 - n("15") ** 2) / (n("2") * n("250"))},
    ),
    (
        """
given:
  v_i: 54 km/h
  v_f: 90 km/h
  a: 0.8 m/s^2
use: velocity-time
find: Δt in s to 1 dp
""",
        {"Δt": n("10") / n("0.8")},
    ),
    (
        """
given:
  v_i: 12,5 m/s
  v_f: 0 m/s
  Δt: 3,2 s
use: mean-velocity-displacement
find: Δx in m to 2 sf
""",
        {"Δx": n("12.5") / n("2") * n("3.2")},
    ),
    (
        """
given:
  h: 45 m
formula: h = 1/2 g t^2
find: t in s to 3 sf
""",
        {"t": sqrt(n("2") * n("45") / g)},
    ),
    (
        """
given:
  v_0: 18 m/s
  θ: 35°
formula: h = (v_0 sin θ)^2 / (2 g)
find: h in m
""",
        {"h": (n("18") * sin(rad(n("35")))) ** n("2") / (n("2") * g)},
    ),
    (
        """
given:
  v_0: 18 m/s
  θ: 35°
  h: 1.2 m
steps:
  -
    formula: v_y = v_0 sin θ
    find: v_y in m/s
  -
    formula: h + v_y t - 1/2 g t^2 = 0
    find: t in s
  -
    formula: x = v_0 t cos θ
    find: x in m
""",
        {
            "x": n("18")
            * cos(rad(n("35")))
            * (
                n("18") * sin(rad(n("35")))
                + sqrt((n("18") * sin(rad(n("35")))) ** n("2") + n("2") * g * n("1.2"))
            )
            / g
        },
    ),
    (
        """
given:
  m: 4 kg
  θ: 28°
  μ: 0.25
formula: m g sin θ - μ m g cos θ = m a
find: a in m/s^2
""",
        {"a": g * (sin(rad(n("28"))) - n("0.25") * cos(rad(n("28"))))},
    ),
    (
        """
given:
  m: 4 kg
  θ: 28°
formula: m g sin θ - μ m g cos θ = 0
find: μ to 3 dp
""",
        {"μ": tan(rad(n("28")))},
    ),
    (
        """
given:
  μ: 0.62
formula: m g sin θ = μ m g cos θ
find: θ in ° to 1 dp
""",
        {"θ": deg(atan(n("0.62")))},
    ),
    (
        """
given:
  m_1: 3 kg
  m_2: 5 kg
formula:
  - T - m_1 g = m_1 a
  - m_2 g - T = m_2 a
find:
  - a in m/s^2
  - T in N
""",
        {"a": g * n("2") / n("8"), "T": n("3") * (g + g * n("2") / n("8"))},
    ),
    (
        """
given:
  m_1: 3 kg
  m_2: 5 kg
  θ: 30°
  μ: 0.1
formula:
  - T - m_1 g sin θ - μ m_1 g cos θ = m_1 a
  - m_2 g - T = m_2 a
find:
  - a in m/s^2
  - T in N
""",
        {"a": (n("5") * g - n("3") * g * n("0.5") - n("0.1") * n("3") * g * cos(rad(n("30")))) / n("8")},
    ),
    (
        """
given:
  F: 60 N
  θ: 25°
  m: 12 kg
  μ: 0.3
formula:
  - N + F sin θ = m g
  - F cos θ - μ N = m a
find:
  - N in N
  - a in m/s^2
""",
        {
            "N": n("12") * g - n("60") * sin(rad(n("25"))),
            "a": (n("60") * cos(rad(n("25"))) - n("0.3") * (n("12") * g - n("60") * sin(rad(n("25")))))
            / n("12"),
        },
    ),
    (
        """
given:
  m: 58 g
  v_i: -30 m/s
  v_f: 25 m/s
  Δt: 4 ms
formula: F = m (v_f - v_i) / Δt
find: F in N
""",
        {"F": n("0.058") * n("55") / n("0.004")},
    ),
    (
        """
given:
  m: 58 g
  v_i: -30 m/s
  v_f: 25 m/s
use: momentum-change
find: Δp in g·m/s to 0 dp
""",
        {"Δp": n("58") * n("55")},
    ),
    (
        """
given:
  m_1: 20 g
  v_1: 400 m/s
  m_2: 1.98 kg
  v_2: 0 m/s
use: momentum-conservation-joined
find: v in m/s
""",
        {"v": n("0.02") * n("400") / n("2")},
    ),
    (
        """
given:
  m: 70 kg
  v: 3 m/s
  M: 50 kg
formula: 0 = m v + M V
find: V in m/s
""",
        {"V": -n("70") * n("3") / n("50")},
    ),
    (
        """
given:
  m: 900 kg
  v: 90 km/h
use: kinetic-energy
find: E_k in kJ to 1 dp
""",
        {"E_k": n("0.5") * n("900") * n("625") / n("1000")},
    ),
    (
        """
given:
  E_k: 2.5 kJ
  m: 1.2 g
use: kinetic-energy
find: v in km/h to 0 dp
""",
        {"v": n("3.6") * sqrt(n("2") * n("2500") / n("0.0012"))},
    ),
    (
        """
given:
  m: 60 kg
  h: 3.2 m
  t: 4.5 s
formula: P = m g h / t
find: P in kW to 3 sf
""",
        {"P": n("60") * g * n("3.2") / n("4.5") / n("1000")},
    ),
    (
        """
given:
  P: 75 kW
  v: 108 km/h
use: power-velocity
find: F in N to 0 dp
""",
        {"F": n("75000") / n("30")},
    ),
    (
        """
given:
  W_out: 3.4 MJ
  W_in: 1.25 kWh
use: efficiency
find: η in % to 1 dp
""",
        {"η": n("100") * n("3.4") / (n("1.25") * n("3.6"))},
    ),
    (
        """
given:
  W_out: 3.4 MJ
  η: 75 %
use: efficiency
find: W_in in kWh to 2 dp
""",
        {"W_in": n("3.4") / n("3.6") / n("0.75")},
    ),
    (
        """
given:
  k: 250 N/m
  x: 4 cm
  m: 20 g
formula: 1/2 k x^2 = 1/2 m v^2
find: v in m/s
""",
        {"v": n("0.04") * sqrt(n("250") / n("0.02"))},
    ),
    (
        """
given:
  r: 0.8 m
  f: 2.5 Hz
  m: 150 g
formula: F = 4 π^2 m r f^2
find: F in N
""",
        {"F": n("4") * pi ** n("2") * n("0.15") * n("0.8") * n("2.5") ** n("2")},
    ),
    (
        """
given:
  r: 25 m
  m: 1200 kg
  v: 36 km/h
use: centripetal-force
find: F_c in kN
""",
        {"F_c": n("1.2") * n("100") / n("25")},
    ),
    (
        """
given:
  v: 20 m/s
  r: 60 m
use: banked-curve
find: θ in ° to 1 dp
""",
        {"θ": deg(atan(n("400") / (n("60") * g)))},
    ),
    (
        """
given:
  ω_i: 1200 rev/min
  ω_f: 0 rad/s
  Δt: 8 s
use: angular-acceleration
find: α in rad/s^2 to 2 dp
""",
        {"α": -n("1200") * n("2") * pi / n("60") / n("8")},
    ),
    (
        """
given:
  ω_i: 1200 rev/min
  ω_f: 0 rad/s
  Δt: 8 s
formula: Δθ = ((ω_i + ω_f) / 2) Δt
find: Δθ in rev to 1 dp
""",
        {"Δθ": n("20") * n("8") / n("2")},
    ),
    (
        """
given:
  I: 0.4 kg·m^2
  ω: 300 rev/min
use: rotational-energy
find: E_k in J
""",
        {"E_k": n("0.5") * n("0.4") * (n("10") * pi) ** n("2")},
    ),
    (
        """
given:
  F: 40 N
  r: 30 cm
  θ: 60°
use: torque
find: τ in N·m
""",
        {"τ": n("40") * n("0.3") * sin(rad(n("60")))},
    ),
    (
        """
given:
  m: 7.35e22 kg
  r: 1.74e6 m
formula: g_M = G m / r^2
find: g_M in m/s^2
""",
        {"g_M": G * n("7.35e22") / (n("1.74e6")) ** n("2")},
    ),
    (
        """
given:
  T: 27.3 d
  M: M_E
use: kepler-3
find: r in km to 3 sf
""",
        {
            "r": (G * M_E * (n("27.3") * n("86400")) ** n("2") / (n("4") * pi ** n("2"))) ** (n("1") / n("3"))
            / n("1000")
        },
    ),
    (
        """
given:
  T_1: 1 yr
  r_1: 1.5e11 m
  r_2: 7.78e11 m
use: kepler-3-ratio
find: T_2 in yr to 2 dp
""",
        {"T_2": (n("7.78") / n("1.5")) ** n("1.5")},
    ),
    (
        """
given:
  M: M_E
  R: R_E
use: escape-speed
find: v_esc in km/s
""",
        {"v_esc": sqrt(n("2") * G * M_E / R_E) / n("1000")},
    ),
    (
        """
given:
  m: 500 kg
  r_1: 7000 km
  r_2: 4.2e4 km
formula: W = G M_E m (1/r_1 - 1/r_2)
find: W in GJ to 2 dp
""",
        {"W": G * M_E * n("500") * (n("1") / n("7e6") - n("1") / n("4.2e7")) / n("1e9")},
    ),
    (
        """
given:
  g_h: 4.9 m/s^2
formula: g_h = G M_E / (R_E + h)^2
find: h in km to 0 dp
take: positive
""",
        {"h": (sqrt(G * M_E / n("4.9")) - R_E) / n("1000")},
    ),
    (
        """
given:
  L: 90 cm
use: pendulum
find: T in s
""",
        {"T": n("2") * pi * sqrt(n("0.9") / g)},
    ),
    (
        """
given:
  T: 1.2 s
  m: 250 g
use: spring-period
find: k in N/m to 2 dp
""",
        {"k": n("4") * pi ** n("2") * n("0.25") / n("1.44")},
    ),
)
