"""Calculations over the syllabus, and their answers in the unit asked, worked out with mpmath from formulas below.

The numbers are our own. Constants are typed again as the sheet `school` prints them; eV and u as CODATA 2022 has
them (from memory), mmHg, atm and the like from their definitions.
"""

from __future__ import annotations

from typing import Any

from mpmath import asin, atan, cos, exp, log, mp, mpf, pi, sin, sqrt, tan

mp.dps = 40

g, k, c, h, e = mpf("9.8"), mpf("9e9"), mpf("3e8"), mpf("6.63e-34"), mpf("1.6e-19")
G, M_E, R_E, R, m_e = mpf("6.67e-11"), mpf("5.98e24"), mpf("6.38e6"), mpf("8.31"), mpf("9.11e-31")
boltzmann, b, mu0, eps0 = mpf("1.38e-23"), mpf("2.90e-3"), mpf("1.257e-6"), mpf("8.85e-12")
ev, u = mpf("1.602176634e-19"), mpf("1.66053906892e-27")


def n(text: str) -> Any:
    """A typed number, exactly."""
    return mpf(text)


def rad(degrees: Any) -> Any:
    return degrees * pi / 180


def deg(radians: Any) -> Any:
    return radians * 180 / pi


def ln(x: Any) -> Any:
    return log(x)


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
