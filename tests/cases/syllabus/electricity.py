"""Calculations of electricity and magnetism; the answers by mpmath. Our own numbers."""

from __future__ import annotations

from typing import Any

from mpmath import exp, pi, sqrt

from .values import e, eps0, k, m_e, mu0, n

#: A calculation, and what it finds.
BLOCKS: tuple[tuple[str, dict[str, Any]], ...] = (
    (
        """
given:
  Q_1: 3 µC
  Q_2: -5 µC
  r: 20 cm
use: coulomb
find: F in N
""",
        {"F": k * n("15e-12") / n("0.04")},
    ),
    (
        """
given:
  Q_1: 3 µC
  Q_2: -5 µC
  r: 20 cm
formula: F = k Q_1 Q_2 / r^2
find: F in N
""",
        {"F": n("0") - k * n("15e-12") / n("0.04")},
    ),
    (
        """
given:
  Q: -4 nC
  n: 5
formula: N = Q / e
find: N in standard form
""",
        {"N": n("0") - n("2.5e10")},
    ),
    (
        """
given:
  n: 5e9
use: charge-quantisation
find: Q in nC
""",
        {"Q": n("0.8")},
    ),
    (
        """
given:
  E: 3.0e4 V/m
  d: 2 cm
use: field-plates
find: V in V to 0 dp
""",
        {"V": n("600")},
    ),
    (
        """
given:
  V: 600 V
  q: e
  m: m_e
formula: 1/2 m v^2 = q V
find: v in m/s to 3 sf
""",
        {"v": sqrt(n("2") * e * n("600") / m_e)},
    ),
    (
        """
given:
  ε: 12 V
  r: 0.5 Ω
  R: 5.5 Ω
use: emf
find: I in A
""",
        {"I": n("2")},
    ),
    (
        """
given:
  ε: 12 V
  V: 11.2 V
  I: 1.6 A
use: terminal-voltage
find: r in Ω
""",
        {"r": n("0.5")},
    ),
    (
        """
given:
  R_1: 4 Ω
  R_2: 6 Ω
  R_3: 12 Ω
use: resistors-parallel
find: R_p in Ω
""",
        {"R_p": n("2")},
    ),
    (
        """
given:
  R_p: 2.4 Ω
  R_1: 4 Ω
use: resistors-parallel
find: R_2 in Ω
""",
        {"R_2": n("6")},
    ),
    (
        """
given:
  ρ: 1.7e-8 Ω·m
  L: 25 m
  d: 0.8 mm
formula: R = ρ L / (π d^2 / 4)
find: R in Ω
""",
        {"R": n("1.7e-8") * n("25") / (pi * n("0.64e-6") / n("4"))},
    ),
    (
        """
given:
  V: 230 V
  P: 2 kW
formula: P = V^2 / R
find: R in Ω
""",
        {"R": n("230") ** 2 / n("2000")},
    ),
    (
        """
given:
  P: 60 W
  t: 30 d
formula: W = P t
find: W in kWh to 1 dp
""",
        {"W": n("0.06") * n("720")},
    ),
    (
        """
given:
  C: 100 µF
  V: 12 V
use: capacitor-energy
find: U in mJ to 1 dp
""",
        {"U": n("7.2")},
    ),
    (
        """
given:
  C: 100 µF
  R: 47 kΩ
  V_0: 12 V
  t: 3 s
use: capacitor-discharging
find: V in V
""",
        {"V": n("12") * exp(-n("3") / n("4.7"))},
    ),
    (
        """
given:
  A: 20 cm^2
  d: 1.5 mm
use: capacitor-plates
find: C in pF to 2 dp
""",
        {"C": eps0 * n("20e-4") / n("1.5e-3") * n("1e12")},
    ),
    (
        """
given:
  B: 0.35 T
  I: 4 A
  l: 25 cm
  θ: 90°
use: force-conductor
find: F in N
""",
        {"F": n("0.35") * n("4") * n("0.25")},
    ),
    (
        """
given:
  B: 0.35 T
  q: e
  v: 2.4e6 m/s
  m: m_p
use: charge-circle
find: r in cm to 2 dp
""",
        {"r": n("100") * n("1.673e-27") * n("2.4e6") / (e * n("0.35"))},
    ),
    (
        """
given:
  N: 200
  A: 12 cm^2
  B_i: 0.1 T
  B_f: 0.4 T
  Δt: 50 ms
formula: ε = -N (B_f - B_i) A / Δt
find: ε in V
""",
        {"ε": n("0") - n("200") * n("0.3") * n("12e-4") / n("0.05")},
    ),
    (
        """
given:
  N: 200
  A: 12 cm^2
  B_i: 0.1 T
  B_f: 0.4 T
  Δt: 50 ms
formula: ε = N (B_f - B_i) A / Δt
find: |ε| in mV to 0 dp
""",
        {"ε": n("1440")},
    ),
    (
        """
given:
  N: 80
  B: 0.2 T
  A: 150 cm^2
  f: 50 Hz
formula: ε_max = 2 π f N B A
find: ε_max in V to 1 dp
""",
        {"ε_max": n("100") * pi * n("80") * n("0.2") * n("0.015")},
    ),
    (
        """
given:
  N: 80
  B: 0.2 T
  A: 150 cm^2
  ω: 3000 rev/min
use: generator
find: ε_max in V to 1 dp
""",
        {"ε_max": n("100") * pi * n("80") * n("0.2") * n("0.015")},
    ),
    (
        """
given:
  V_p: 230 V
  N_p: 1150
  N_s: 60
use: transformer
find: V_s in V
""",
        {"V_s": n("12")},
    ),
    (
        """
given:
  V_max: 325 V
use: voltage-rms
find: V_rms in V to 1 dp
""",
        {"V_rms": n("325") / sqrt(n("2"))},
    ),
    (
        """
given:
  P_ave: 60 W
  V_rms: 230 V
use: power-average
find: I_rms in A to 3 sf
""",
        {"I_rms": n("60") / n("230")},
    ),
    (
        """
given:
  I: 2 A
  r: 5 cm
use: field-wire
find: B in µT to 2 dp
""",
        {"B": mu0 * n("2") / (n("2") * pi * n("0.05")) * n("1e6")},
    ),
    (
        """
given:
  L: 20 mH
  C: 5 µF
use: resonance
find: f_0 in Hz to 1 dp
""",
        {"f_0": n("1") / (n("2") * pi * sqrt(n("20e-3") * n("5e-6")))},
    ),
)
