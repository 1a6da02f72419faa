"""Calculations of oscillations, waves, optics and heat; the answers by mpmath. Our own numbers."""

from __future__ import annotations

from typing import Any

from mpmath import asin, pi, sin, sqrt

from .values import R, b, boltzmann, deg, n, rad

#: A calculation, and what it finds.
BLOCKS: tuple[tuple[str, dict[str, Any]], ...] = (
    (
        """
given:
  A: 8 cm
  x: 5 cm
  f: 1.5 Hz
steps:
  -
    use: angular-frequency
    find: ω in rad/s
  -
    use: shm-speed
    find: v in cm/s to 1 dp
""",
        {"v": n("3") * pi * sqrt(n("64") - n("25"))},
    ),
    (
        """
given:
  x: -5 cm
  T: 0.8 s
steps:
  -
    use: angular-frequency
    find: ω in rad/s
  -
    use: shm-acceleration
    find: a in m/s^2
""",
        {"a": n("0.05") * (n("2") * pi / n("0.8")) ** n("2")},
    ),
    (
        """
given:
  f: 440 Hz
  v: 340 m/s
use: wave
find: λ in cm to 1 dp
""",
        {"λ": n("34000") / n("440")},
    ),
    (
        """
given:
  f_s: 600 Hz
  v: 340 m/s
  v_s: 25 m/s
formula: f_L = f_s v / (v - v_s)
find: f_L in Hz to 1 dp
""",
        {"f_L": n("600") * n("340") / n("315")},
    ),
    (
        """
given:
  f_s: 600 Hz
  f_L: 640 Hz
  v: 340 m/s
formula: f_L = f_s v / (v - v_s)
find: v_s in km/h to 1 dp
""",
        {"v_s": n("3.6") * (n("340") - n("600") * n("340") / n("640"))},
    ),
    (
        """
given:
  v: 340 m/s
  L: 85 cm
  n: 3
use: pipe-harmonic
find: f_n in Hz to 0 dp
""",
        {"f_n": n("300")},
    ),
    (
        """
given:
  f_1: 256 Hz
  f_2: 260 Hz
use: beat
find: f_b in Hz to 0 dp
""",
        {"f_b": n("4")},
    ),
    (
        """
given:
  n: 1.52
  θ_1: 40°
formula: sin θ_1 = n sin θ_2
find: θ_2 in ° to 1 dp
""",
        {"θ_2": deg(asin(sin(rad(n("40"))) / n("1.52")))},
    ),
    (
        """
given:
  λ: 590 nm
  d: 0.25 mm
  D: 1.8 m
use: fringe-spacing
find: Δy in mm
""",
        {"Δy": n("590e-9") * n("1.8") / n("0.25e-3") * n("1000")},
    ),
    (
        """
given:
  N: 500 mm^-1
  λ: 589 nm
  m: 2
steps:
  -
    use: grating-spacing
    find: d in m
  -
    use: grating
    find: θ in ° to 1 dp
""",
        {"θ": deg(asin(n("2") * n("589e-9") * n("500e3")))},
    ),
    (
        """
given:
  d: 2 µm
  λ: 600 nm
  θ: 90°
use: grating
find: m to 1 dp
""",
        {"m": n("2000") / n("600")},
    ),
    (
        """
given:
  f: -12 cm
  d_o: 20 cm
steps:
  -
    use: lens
    find: d_i in cm
  -
    use: magnification
    find: m
""",
        {"m": -(n("1") / (n("1") / (-n("12")) - n("1") / n("20"))) / n("20")},
    ),
    (
        """
given:
  P: 2.5 D
use: lens-power
find: f in cm to 1 dp
""",
        {"f": n("40")},
    ),
    (
        """
given:
  D: 10 cm
  λ: 550 nm
use: resolution
find: θ in rad to 3 sf
""",
        {"θ": n("1.22") * n("550e-9") / n("0.1")},
    ),
    (
        """
given:
  m: 250 g
  c: 900 J/(kg K)
  T_1: 22 °C
  T_2: 90 °C
formula: Q = m c (T_2 - T_1)
find: Q in J to 0 dp
""",
        {"Q": n("0.25") * n("900") * n("68")},
    ),
    (
        """
given:
  m: 0.2 kg
  c_i: 2100 J/(kg K)
  c_w: 4200 J/(kg K)
  L: 334 kJ/kg
  ΔT_1: 10 K
  ΔT_2: 25 K
formula: Q = m c_i ΔT_1 + m L + m c_w ΔT_2
find: Q in kJ to 1 dp
""",
        {"Q": n("0.2") * (n("2.1") * n("10") + n("334") + n("4.2") * n("25"))},
    ),
    (
        """
given:
  m_1: 200 g
  T_1: 80 °C
  m_2: 300 g
  T_2: 20 °C
use: mixture-temperature
find: T in °C to 1 dp
""",
        {"T": (n("200") * n("80") + n("300") * n("20")) / n("500")},
    ),
    (
        """
given:
  V_1: 3 L
  T_1: 20 °C
  V_2: 3.6 L
use: charles
find: T_2 in °C to 1 dp
""",
        {"T_2": n("293.15") * n("1.2") - n("273.15")},
    ),
    (
        """
given:
  V_1: 3 L
  T_1: 20 °C
  ΔT: 50 °C
  T_2: T_1 + ΔT
use: charles
find: V_2 in L
""",
        {"V_2": n("3") * (n("343.15") / n("293.15"))},
    ),
    (
        """
given:
  p: 2 atm
  V: 500 cm^3
  T: 298 K
use: ideal-gas-molecules
find: N to 3 sf
""",
        {"N": n("2") * n("101325") * n("500e-6") / (boltzmann * n("298"))},
    ),
    (
        """
given:
  T: 300 K
  M: 28 g/mol
use: molecule-speed
find: v_rms in m/s to 0 dp
""",
        {"v_rms": sqrt(n("3") * R * n("300") / n("0.028"))},
    ),
    (
        """
given:
  ΔL: 0.9 mm
  L_0: 1.5 m
  α: 1.2e-5 /K
use: expansion-linear
find: ΔT in °C to 1 dp
""",
        {"ΔT": n("0.0009") / n("1.5") / n("1.2e-5")},
    ),
    (
        """
given:
  L: 1.5009 m
  L_0: 1.5 m
  α: 1.2e-5 /K
  T_0: 18 °C
formula: L = L_0 (1 + α (T - T_0))
find: T in °C to 1 dp
""",
        {"T": n("18") + n("0.0009") / n("1.5") / n("1.2e-5")},
    ),
    (
        """
given:
  Q: 600 J
  W: 0.25 kJ
use: thermodynamics-1
find: ΔU in J
""",
        {"ΔU": n("350")},
    ),
    (
        """
given:
  T: 5500 °C
use: wien
find: λ_max in nm to 0 dp
""",
        {"λ_max": b / n("5773.15") * n("1e9")},
    ),
    (
        """
given:
  k: 0.8 W/(m K)
  A: 2 m^2
  d: 6 mm
  T_1: 21 °C
  T_2: 5 °C
formula: P = k A (T_1 - T_2) / d
find: P in W to 0 dp
""",
        {"P": n("0.8") * n("2") * n("16") / n("0.006")},
    ),
    (
        """
given:
  T_c: -15 °C
  T_h: 30 °C
formula: COP = T_c / (T_h - T_c)
find: COP
""",
        {"COP": n("258.15") / n("45")},
    ),
    (
        """
given:
  T_1: 300 K
  T_2: 27 °C
formula: ΔT = T_1 - T_2
find: ΔT in °C
""",
        {"ΔT": -n("0.15")},
    ),
)
