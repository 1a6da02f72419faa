"""Signs along an axis, with either direction positive; the answers by mpmath, as sizes. Our own numbers.

A result that is asked with its direction is a pair: its size, and the words for the direction.
"""

from __future__ import annotations

from typing import Any

from mpmath import sqrt

from ..syllabus.values import g, n

_FALL = (12 + sqrt(n("144") + 50 * g)) / g
_THROW = (
    "given:\n  v_i: 12 m/s, up\n  a: g, down\n  Δy: 25 m, down\nuse: displacement-time\nfind: Δt in s to 2 dp"
)
_ELASTIC = "given:\n  m_1: 2 kg\n  m_2: 3 kg\n  u_1: 4 m/s, right\n  u_2: 2 m/s, left\n"

BLOCKS: tuple[tuple[str, dict[str, Any]], ...] = (
    ("axis: up is positive\n" + _THROW, {"Δt": _FALL}),
    ("axis: down is positive\n" + _THROW, {"Δt": _FALL}),
    (
        "axis: down is positive\ngiven:\n  v_i: 12 m/s, up\n  a: g, down\n  Δy: 25 m, down\n"
        "formula: v_f^2 = v_i^2 + 2 a Δy\nfind: v_f in m/s with direction\ntake: positive",
        {"v_f": (sqrt(n("144") + 50 * g), "downwards")},
    ),
    # Charges go in without signs: where the forces point is reasoned, and counts from then on.
    (
        "axis: right is positive\ngiven:\n  Q: 5 nC\n  Q_1: 8 nC\n  Q_2: -3 nC\n  r_1: 20 mm\n  r_2: 30 mm\nsteps:\n"
        "  -\n    use: coulomb (F = F_1, Q_1 = Q, Q_2 = Q_1, r = r_1)\n    find: F_1 in N with direction\n"
        "    answer: 9.00e-4 N, left\n"
        "  -\n    use: coulomb (F = F_2, Q_1 = Q, Q_2 = Q_2, r = r_2)\n    find: F_2 in N with direction\n"
        "    answer: 1.50e-4 N, right\n"
        "  -\n    formula: F = F_1 + F_2\n    find: F in N with direction",
        {"F": (n("9e9") * n("5e-9") * (n("8e-9") / n("4e-4") - n("3e-9") / n("9e-4")), "to the left")},
    ),
    (
        "axis: right is positive\nsigns: magnitudes\ngiven:\n  F_1: 40 N, left\n  F_2: 25 N, right\n"
        "formula: F = F_1 - F_2\nfind: F in N with direction\nanswer: 15 N, left",
        {"F": (n("15"), "to the left")},
    ),
    (
        "axis: up is positive\nsigns: both\ngiven:\n  v_i: 12 m/s, up\n  a: g, down\n  Δt: 3 s\n"
        "use: velocity-time\nfind: v_f in m/s with direction",
        {"v_f": (3 * g - 12, "downwards")},
    ),
    (
        "axis: east is positive\ngiven:\n  v_A: 20 m/s, east\n  v_B: 15 m/s, west\nformula: v_AB = v_A - v_B\n"
        "find: v_AB in m/s with direction",
        {"v_AB": (n("35"), "east")},
    ),
    (
        "axis: towards the wall is positive\ngiven:\n  m: 60 g\n  u: 25 m/s, towards the wall\n"
        "  v: 20 m/s, away from the wall\nformula: Δp = m v - m u\nfind: Δp in kg·m/s with direction",
        {"Δp": (n("2.7"), "away from the wall")},
    ),
    (
        "axis: forwards is positive\ngiven:\n  u: 25 m/s, forward\n  a: 5.3 m/s^2, backward\n  t: 11 s\n"
        "formula: s = u t + 1/2 a t^2\nfind: s in m with direction",
        {"s": (n("2.65") * 121 - 275, "backwards")},
    ),
    (
        "axis: clockwise is positive\ngiven:\n  F_1: 20 N\n  F_2: 30 N\n  d_1: 0.4 m\n  d_2: 0.3 m\n"
        "formula: τ = F_1 d_1 - F_2 d_2\nfind: τ in N·m with direction",
        {"τ": (n("1"), "anticlockwise")},
    ),
    (
        "axis: right is positive\ngiven:\n  F_1: 20 N, right\n  F_2: 35 N, to the left\nformula: F = F_1 + F_2\n"
        "find: F in N",
        {"F": n("-15")},
    ),
    (
        "axis: up the slope is positive\ngiven:\n  m: 5 kg\n  θ: 30°\n  F: 20 N, up the slope\n"
        "  f: 6 N, down the slope\nformula: F + f - m g sin θ = m a\nfind: a in m/s^2 with direction",
        {"a": (g / 2 - n("2.8"), "down the slope")},
    ),
    (
        "axis: up is positive\ngiven:\n  v_i: 15 m/s, upward\n  a: 9.8 m/s^2, downward\n  v_f: 0 m/s\n"
        "formula: v_f^2 = v_i^2 + 2 a Δy\nfind: Δy in m with direction",
        {"Δy": (n("225") / (2 * g), "upwards")},
    ),
    (
        "axis: right is positive\n" + _ELASTIC + "formula:\n  - m_1 u_1 + m_2 u_2 = m_1 v_1 + m_2 v_2\n"
        "  - u_1 - u_2 = v_2 - v_1\nfind:\n  - v_1 in m/s with direction\n  - v_2 in m/s with direction",
        {"v_1": (n("3.2"), "to the left"), "v_2": (n("2.8"), "to the right")},
    ),
    (
        "axis: right is positive\n" + _ELASTIC + "formula:\n  - m_1 u_1 + m_2 u_2 = m_1 v_1 + m_2 v_2\n"
        "  - 1/2 m_1 u_1^2 + 1/2 m_2 u_2^2 = 1/2 m_1 v_1^2 + 1/2 m_2 v_2^2\n"
        "find:\n  - v_1 in m/s with direction\n  - v_2 in m/s with direction\ntake: v_1 < 0 m/s",
        {"v_1": (n("3.2"), "to the left"), "v_2": (n("2.8"), "to the right")},
    ),
)
