"""Numbers for names that drop out: whatever they are, what is asked comes out the same."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from ..exact import Real
from ..language.names import Name

#: Two places to begin, unlike enough that what depends on such a name shows.
ONE, OTHER = Fraction(7, 3), Fraction(29, 11)


def standing_in(cancelled: Iterable[Name], start: Fraction = ONE) -> dict[Name, Real]:
    """A value for each name, no two of them alike."""
    return {name: Real.of(start + index) for index, name in enumerate(cancelled)}
