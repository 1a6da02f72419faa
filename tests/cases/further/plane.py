"""Vectors in a plane; the answers by complex numbers of mpmath. Our own numbers."""

from __future__ import annotations

from typing import Any

from mpmath import cos, expj, mpc, sin, sqrt

from ..syllabus.values import g, k, n, rad


def at(size: str, degrees: str) -> Any:
    """A vector by its size and its angle from x."""
    return n(size) * expj(rad(n(degrees)))


def bearing(size: str, degrees: str) -> Any:
    """A vector by its size and its bearing."""
    return n(size) * expj(rad(90 - n(degrees)))


def between(size: Any, start: tuple[str, str], end: tuple[str, str]) -> Any:
    """A vector of a size that points from one place to another."""
    along = mpc(n(end[0]) - n(start[0]), n(end[1]) - n(start[1]))
    return size * along / abs(along)


def coulomb(charges: tuple[str, str], start: tuple[str, str], end: tuple[str, str]) -> Any:
    """The size of the force between charges in nC at places in cm."""
    r = abs(mpc(n(end[0]) - n(start[0]), n(end[1]) - n(start[1]))) / 100
    return k * n(charges[0]) * n(charges[1]) * n("1e-18") / r**2


_HIT = """
given:
  m_1: 0.20 kg
  m_2: 300 g
  u_1: 5.0 m/s at right
  u_2: 0 m/s
  v_1: 3.0 m/s at 40° above right
formula: m_1 u_1 + m_2 u_2 = m_1 v_1 + m_2 v_2
find: v_2 in m/s to 2 dp with direction
"""
_BALL = """
given:
  m: 58 g
  Δt: 4.2 ms
  v_i: 22 m/s at 15° below right
  v_f: 18 m/s at 35° above left
"""
_BOUNCE = at("18", "145") - at("22", "-15")
_CHARGES = """
given:
  q_1: 3.0 nC
  q_2: -4.0 nC
  q: 2.0 nC
points: A: 0 cm, 0 cm; B: 12 cm, 0 cm; P: 4 cm, 5 cm
steps:
  -
    use: coulomb (F = F_1, Q_1 = q_1, Q_2 = q, r = AP)
    find: F_1 in N to 3 sf at A to P
  -
    use: coulomb (F = F_2, Q_1 = q_2, Q_2 = q, r = BP)
    find: F_2 in N to 3 sf at P to B
  -
    formula: F = F_1 + F_2
    find: F in N to 3 sf with direction
"""
_A, _B, _P = ("0", "0"), ("12", "0"), ("4", "5")

#: A calculation, and what it finds: a complex number for a vector of which the direction is asked.
BLOCKS: tuple[tuple[str, dict[str, Any]], ...] = (
    (
        "given:\n  F_1: 3 N, 4 N\n  F_2: -7.5 N, 2.2 N\nformula: F = F_1 + F_2\nfind: F in N to 2 dp with direction",
        {"F": mpc("-4.5", "6.2")},
    ),
    (
        "given:\n  F_1: 30 N at 25° above right\n  F_2: 45 N at 40° below left\nformula: R = F_1 + F_2\n"
        "find: R in N to 1 dp with direction",
        {"R": at("30", "25") + at("45", "220")},
    ),
    (
        "given:\n  v_b: 4.5 m/s at bearing 40°\n  v_w: 2.0 m/s at bearing 300°\nformula: v = v_b + v_w\n"
        "find: v in m/s to 2 dp with direction",
        {"v": bearing("4.5", "40") + bearing("2", "300")},
    ),
    (
        "given:\n  F_1: 12 N at 30° above right\n  F_2: 9 N at 50° above left\nformula: F_1 + F_2 + F_3 = 0\n"
        "find: F_3 in N to 2 dp with direction",
        {"F_3": -at("12", "30") - at("9", "130")},
    ),
    (
        "given:\n  v_A: 54 km/h at east\n  v_B: 20 m/s at 30° west of north\nformula: v_AB = v_A - v_B\n"
        "find: v_AB in m/s to 2 dp with direction",
        {"v_AB": at("15", "0") - at("20", "120")},
    ),
    (
        "given:\n  v_A: 54 km/h at east\n  v_B: 20 m/s at 30° west of north\nformula: v_AB = v_A - v_B\n"
        "find: |v_AB| in km/h to 1 dp",
        {"v_AB": abs(at("15", "0") - at("20", "120")) * n("3.6")},
    ),
    (
        "given:\n  v_1: 152 km/h at bearing 117°\n  v_2: 10 m/s at 5.8° south of west\nformula: v = v_1 + v_2\n"
        "find: v in km/h to 3 sf with direction",
        {"v": bearing("152", "117") + n("3.6") * at("10", "185.8")},
    ),
    (_HIT, {"v_2": (at("1", "0") - n("0.2") * at("3", "40")) / n("0.3")}),
    (
        "given:\n  F_1: 6 N at 20°\n  F_2: 0 N\n  F_3: 7 N at 100°\nformula: F = F_1 + F_2 + F_3\n"
        "find: F in N with direction",
        {"F": at("6", "20") + at("7", "100")},
    ),
    (
        _BALL + "formula: Δp = m v_f - m v_i\nfind: Δp in kg·m/s to 3 sf with direction",
        {"Δp": n("0.058") * _BOUNCE},
    ),
    (
        _BALL + "formula: F = m (v_f - v_i) / Δt\nfind: F in N to 3 sf with direction",
        {"F": n("0.058") * _BOUNCE / n("0.0042")},
    ),
    (
        _BALL + "formula: F Δt = m v_f - m v_i\nfind: |F| in N to 3 sf",
        {"F": abs(n("0.058") * _BOUNCE / n("0.0042"))},
    ),
    (
        "given:\n  v_0: 20 m/s at 35°\n  t: 1.4 s\n  a: g at down\nformula: v = v_0 + a t\n"
        "find: v in m/s to 2 dp with direction",
        {"v": at("20", "35") - mpc(0, 1) * g * n("1.4")},
    ),
    (
        "given:\n  v_0: 20 m/s at 35°\n  t: 1.4 s\n  a: g at down\nformula: s = v_0 t + 1/2 a t^2\n"
        "find: s in m to 2 dp with direction",
        {"s": at("20", "35") * n("1.4") - mpc(0, 1) * g * n("1.4") ** 2 / 2},
    ),
    (
        "given:\n  F: 250 N at 20° below the horizontal, to the right\n  μ: 0.30\n  m: 40 kg\n"
        "formula: f = μ (m g - F.y)\nfind: f in N to 1 dp",
        {"f": n("0.3") * (40 * g + 250 * sin(rad(n("20"))))},
    ),
    (
        "given:\n  s_1: 120 m at 0°\n  s_2: 81 m at 90°\n  s_3: 50 m at 180°\n  t: 1.5 min\nsteps:\n  -\n"
        "    formula: s = s_1 + s_2 + s_3\n    find: s in m to 1 dp with direction\n  -\n"
        "    formula: v = s / t\n    find: v in m/s to 2 dp with direction",
        {"v": mpc(70, 81) / 90},
    ),
    (
        "given:\n  F_1: 10 N at 0°\n  F_2: 10 N at 120°\n  F_3: 10 N at 240°\nformula: F = F_1 + F_2 + F_3\n"
        "find: F in N to 2 dp with direction",
        {"F": mpc(0)},
    ),
    (
        "given:\n  F_1: 10 N at north-east\n  F_2: 10 N at south-west\n  F_3: 4 N at west\n"
        "formula: F = F_1 + F_2 + F_3\nfind: F in N to 2 dp with direction",
        {"F": mpc(-4)},
    ),
    (
        "given:\n  v_w: 50 km/h at bearing 270°\n  v_g: 400 km/h at bearing 0°\nformula: v_g = v_a + v_w\n"
        "find: v_a in km/h to 1 dp with direction",
        {"v_a": mpc(50, 400)},
    ),
    (
        "given:\n  F: 10 N at 30° north of east\nformula: F_x = F.x\nfind: F_x in N",
        {"F_x": 10 * cos(rad(n("30")))},
    ),
    (
        "given:\n  F: 10 N at bearing 210°\nformula: F_y = F.y\nfind: F_y in N",
        {"F_y": 10 * cos(rad(n("210")))},
    ),
    (
        "given:\n  F: 6.0 N at 60°\n  d: 3.0 m at 10°\nformula: W = F.x d.x + F.y d.y\nfind: W in J to 2 dp",
        {"W": 18 * cos(rad(n("50")))},
    ),
    (
        _CHARGES,
        {
            "F": between(coulomb(("3", "2"), _A, _P), _A, _P) + between(coulomb(("4", "2"), _P, _B), _P, _B),
        },
    ),
    (
        "given:\n  E_A: 300 N/C at 20° south of west\n  q: -2 µC\nformula: F = q E_A\nfind: F in N with direction",
        {"F": n("-2e-6") * at("300", "200")},
    ),
    (
        "given:\n  T_1: 40 N at 30° above left\n  T_2: 50 N at 50° above right\nformula: W = |T_1 + T_2|\n"
        "find: W in N",
        {"W": abs(at("40", "150") + at("50", "50"))},
    ),
    (
        "given:\n  F: 3 N, 4 N\n  m: 0.7 kg\nformula: F = m a\nfind: a in m/s^2 to 3 sf with direction",
        {"a": mpc(3, 4) / n("0.7")},
    ),
    (
        "given:\n  v_1: 6 m/s at north\n  v_2: 8 m/s at west\n  Δt: 4 s\nformula: a = (v_2 - v_1) / Δt\n"
        "find: a in m/s^2 with direction",
        {"a": mpc(-2, "-1.5")},
    ),
    (
        "given:\n  v_br: 5 m/s at north\n  v_r: 3.3 m/s at east\n  w: 210 m\nsteps:\n  -\n"
        "    formula: v = v_br + v_r\n    find: v in m/s with direction\n  -\n"
        "    formula: w = v.y t\n    find: t in s\n  -\n    formula: x = v.x t\n    find: x in m",
        {"x": n("3.3") * 42},
    ),
    (
        "given:\n  u: 15 m/s at 20°\n  h: 2 m\nformula: 0 = h + u.y t - 1/2 g t^2\nfind: t in s to 3 sf",
        {"t": (15 * sin(rad(n("20"))) + sqrt((15 * sin(rad(n("20")))) ** 2 + 4 * g)) / g},
    ),
    (
        "given:\n  R: 340 N at 0.5 rad\n  F_1: 200 N at 0°\nformula: R = F_1 + F_2\n"
        "find: F_2 in N to 0 dp with direction",
        {"F_2": 340 * expj(n("0.5")) - 200},
    ),
)
