"""Constants for the calculations over the syllabus, whose answers are worked out with mpmath.

The numbers are our own. Constants are typed again as the sheet `school` prints them; eV and u as CODATA 2022 has
them (from memory), mmHg, atm and the like from their definitions.
"""

from __future__ import annotations

from typing import Any

from mpmath import log, mp, mpf, pi

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
