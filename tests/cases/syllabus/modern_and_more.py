"""Calculations of modern physics, fluids, materials, angles and times; the answers by mpmath. Our own numbers."""

from __future__ import annotations

from typing import Any

from mpmath import atan, cos, pi, sin, sqrt

from .values import c, deg, e, ev, g, h, ln, m_e, mu0, n, rad, u

#: A calculation, and what it finds.
BLOCKS: tuple[tuple[str, dict[str, Any]], ...] = (
    (
        """
given:
  f: 6.0e14 Hz
use: photon
find: E in eV to 2 dp
""",
        {"E": h * n("6e14") / ev},
    ),
    (
        """
given:
  W_0: 2.3 eV
use: work-function
find: f_0 in Hz to 3 sf
""",
        {"f_0": n("2.3") * ev / h},
    ),
    (
        """
given:
  W_0: 2.3 eV
  f: 8.2e14 Hz
use: photoelectric
find: E_{k(max)} in J to 3 sf
""",
        {"E_{k(max)}": h * n("8.2e14") - n("2.3") * ev},
    ),
    (
        """
given:
  V_s: 1.1 V
  f: 8.2e14 Hz
formula: h f = W_0 + e V_s
find: W_0 in eV to 2 dp
""",
        {"W_0": (h * n("8.2e14") - e * n("1.1")) / ev},
    ),
    (
        """
given:
  V: 5 kV
formula: λ = h c / (e V)
find: λ in nm to 3 sf
""",
        {"λ": h * c / (e * n("5000")) * n("1e9")},
    ),
    (
        """
given:
  n: 3
  E_1: -13.6 eV
use: hydrogen-levels
find: E_n in eV to 2 dp
""",
        {"E_n": (n("0") - n("13.6")) / n("9")},
    ),
    (
        """
given:
  E_i: -1.51 eV
  E_f: -3.40 eV
use: energy-levels
find: f in Hz to 3 sf
""",
        {"f": n("1.89") * ev / h},
    ),
    (
        """
given:
  A_0: 1200 Bq
  t: 14 d
  T_{1/2}: 8.02 d
use: activity-decay
find: A in Bq to 0 dp
""",
        {"A": n("1200") * n("0.5") ** (n("14") / n("8.02"))},
    ),
    (
        """
given:
  A_0: 1200 Bq
  t: 14 d
  A: 350 Bq
use: activity-decay
find: λ in d^-1 to 3 sf
""",
        {"λ": ln(n("1200") / n("350")) / n("14")},
    ),
    (
        """
given:
  A: 3.7e10 Bq
  T_{1/2}: 1600 yr
  M: 226 g/mol
steps:
  -
    use: half-life
    find: λ in s^-1
  -
    use: activity
    find: N
  -
    formula: m = N M / N_A
    find: m in g to 2 dp
""",
        {"m": n("3.7e10") * n("1600") * n("31557600") / ln(n("2")) * n("226") / n("6.02e23")},
    ),
    (
        """
given:
  Δm: 0.2156 u
use: mass-energy
find: E in MeV to 1 dp
""",
        {"E": n("0.2156") * u * c ** n("2") / ev / n("1e6")},
    ),
    (
        """
given:
  m: m_e
use: rest-energy
find: E_0 in keV to 0 dp
""",
        {"E_0": m_e * c ** n("2") / ev / n("1000")},
    ),
    (
        """
given:
  Δt_0: 1 yr
  v: 0.6*c
use: time-dilation
find: Δt in yr to 2 dp
""",
        {"Δt": n("1.25")},
    ),
    (
        """
given:
  L_0: 100 m
  L: 80 m
use: length-contraction
find: v in m/s to 3 sf
""",
        {"v": n("0.6") * c},
    ),
    (
        """
given:
  u': 0.5*c
  v: 0.4*c
use: velocity-addition
find: u in m/s to 3 sf
""",
        {"u": n("0.9") / n("1.2") * c},
    ),
    (
        """
given:
  m: m_p
  v: 0.9*c
  γ: 1 / sqrt(1 - v^2 / c^2)
use: relativistic-kinetic-energy
find: E_k in MeV to 1 dp
""",
        {"E_k": (n("1") / sqrt(n("1") - n("0.81")) - n("1")) * n("1.673e-27") * c ** n("2") / ev / n("1e6")},
    ),
    (
        """
given:
  p: 1.5 atm
  h: 5 m
  ρ: 1025 kg/m^3
formula: p_t = p + ρ g h
find: p_t in kPa to 1 dp
""",
        {"p_t": (n("1.5") * n("101325") + n("1025") * g * n("5")) / n("1000")},
    ),
    (
        """
given:
  ρ: 1000 kg/m^3
  V: 350 mL
use: archimedes
find: F_B in N
""",
        {"F_B": n("1000") * n("350e-6") * g},
    ),
    (
        """
given:
  Q: 12 L/min
  d: 1.5 cm
formula: Q = (π d^2 / 4) v
find: v in m/s
""",
        {"v": n("12e-3") / n("60") / (pi * n("0.015") ** n("2") / n("4"))},
    ),
    (
        """
given:
  F_1: 50 N
  d_1: 2 cm
  d_2: 12 cm
formula: F_1 / (π d_1^2 / 4) = F_2 / (π d_2^2 / 4)
find: F_2 in N
""",
        {"F_2": n("50") * n("36")},
    ),
    (
        """
given:
  E: 2.0e11 Pa
  F: 500 N
  d: 0.6 mm
  l_0: 2.2 m
  A: π d^2 / 4
use: young-modulus
find: Δl in mm
""",
        {"Δl": n("500") * n("2.2") / (n("2e11") * pi * n("0.36e-6") / n("4")) * n("1000")},
    ),
    (
        """
given:
  I_1: 3 A
  I_2: 2 A
  d: 4 cm
  l: 1 m
formula: F = μ_0 I_1 I_2 l / (2 π d)
find: F in µN to 1 dp
""",
        {"F": mu0 * n("6") / (n("2") * pi * n("0.04")) * n("1e6")},
    ),
    (
        """
given:
  v: 120 km/h
  a: 3 m/s^2
formula: t = v / a
find: t in s to 1 dp
""",
        {"t": n("120") / n("3.6") / n("3")},
    ),
    (
        """
given:
  v: 120 km/h
  t: 40 min
formula: s = v t
find: s in km to 0 dp
""",
        {"s": n("80")},
    ),
    (
        """
given:
  θ: 1.2 rad
  r: 30 cm
use: arc-length
find: s in cm to 1 dp
""",
        {"s": n("36")},
    ),
    (
        """
given:
  θ: 75°
  r: 30 cm
use: arc-length
find: s in cm to 1 dp
""",
        {"s": rad(n("75")) * n("30")},
    ),
    (
        """
given:
  Δθ: 240°
  Δt: 0.5 s
use: angular-velocity
find: ω in rad/s
""",
        {"ω": rad(n("240")) / n("0.5")},
    ),
    (
        """
given:
  ω: 15 rad/s
  Δt: 0.5 s
use: angular-velocity
find: Δθ in ° to 1 dp
""",
        {"Δθ": deg(n("7.5"))},
    ),
    (
        """
given:
  ω: 2.5 rad/s
  t: 0.3 s
  A: 12 cm
formula: x = A cos(ω t)
find: x in cm
""",
        {"x": n("12") * cos(n("0.75"))},
    ),
    (
        """
given:
  f: 2.5 Hz
  t: 0.13 s
  A: 12 cm
formula: v = -2 π f A sin(2 π f t)
find: v in cm/s to 1 dp
""",
        {"v": -n("5") * pi * n("12") * sin(n("5") * pi * n("0.13"))},
    ),
    (
        """
given:
  φ: 30°
  ω: 2.5 rad/s
  t: 0.3 s
  A: 12 cm
formula: x = A cos(ω t + φ)
find: x in cm
""",
        {"x": n("12") * cos(n("0.75") + pi / n("6"))},
    ),
    (
        """
given:
  V_0: 5 V
  f: 50 Hz
  t: 3 ms
formula: V = V_0 sin(2 π f t)
find: V in V
""",
        {"V": n("5") * sin(n("100") * pi * n("0.003"))},
    ),
    (
        """
given:
  R: 30 Ω
  X: 40 Ω
formula: tan φ = X / R
find: φ in ° to 1 dp
""",
        {"φ": deg(atan(n("4") / n("3")))},
    ),
)
