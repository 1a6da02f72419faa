"""By which factor a result changes; the factors by mpmath."""

from __future__ import annotations

from typing import Any

from mpmath import sqrt

from ..syllabus.values import n

BLOCKS: tuple[tuple[str, str, Any], ...] = (
    ("formula: F = k Q_1 Q_2 / r^2\nchange: r × 3, Q_1 doubled\nfind: F", "F", n("2") / 9),
    ("formula: T = 2 π sqrt(L / g)\nchange: L increased by 44 %\nfind: T", "T", n("1.2")),
    ("formula: E = 1/2 m v^2\nchange: v decreased by 10 %\nfind: E", "E", n("0.81")),
    ("formula: P = V^2 / R\nchange: V halved, R halved\nfind: P", "P", n("0.5")),
    ("formula: v = sqrt(2 g h)\nchange: h doubled\nfind: v", "v", sqrt(n("2"))),
    ("formula: v = sqrt(2 g h)\nchange: h doubled\nfind: v to 4 dp", "v", sqrt(n("2"))),
    ("given:\n  v_0: 0 m/s\nformula: v = v_0 + a t\nchange: t doubled\nfind: v", "v", n("2")),
    (
        "given:\n  v_0: 3 m/s\n  a: 2 m/s^2\n  t: 4 s\nformula: v = v_0 + a t\nchange: t doubled\nfind: v",
        "v",
        n("19") / 11,
    ),
    (
        "formula: F = G m_1 m_2 / r^2\nchange: m_1 trebled, m_2 quartered, r increased by 50 %\nfind: F to 3 sf",
        "F",
        n("1") / 3,
    ),
    ("formula:\n  - A = π d^2 / 4\n  - R = ρ L / A\nchange: d halved, L halved\nfind: R", "R", n("2")),
)
