"""Sets of linear equations, exactly, with as many unknowns left over as there are: what can be told is told."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from ..exact import spend

#: An unknown: a potential ("v", node) or a current ("i", part).
Key = tuple[str, int]
#: A sum of unknowns, each with its factor.
Sum = Mapping[Key, Fraction]
#: What a sum is equal to: a number (under "") and multiples of readings, each under its own word.
Known = dict[str, Fraction]

_ZERO = Fraction(0)


def added(one: Sum, other: Sum, factor: Fraction = Fraction(1)) -> dict[Key, Fraction]:
    """The one sum and the other, times a factor."""
    out = dict(one)
    _add(out, other, factor)
    return out


@dataclass(slots=True)
class System:
    """Equations in reduced form (Gauss–Jordan): each bound unknown as a sum of free ones and what is known.

    Attributes:
        bound: each bound unknown with its sum.
        uses: for each free unknown the bound ones whose sums hold it.
    """

    bound: dict[Key, tuple[dict[Key, Fraction], Known]] = field(default_factory=dict)
    uses: dict[Key, set[Key]] = field(default_factory=dict)

    def reduced(self, total: Sum) -> tuple[dict[Key, Fraction], Known]:
        """A sum in free unknowns and what is known."""
        rest: dict[Key, Fraction] = {}
        known: Known = {}
        for key, factor in total.items():
            if key in self.bound:
                own, constant = self.bound[key]
                _add(rest, own, factor)
                _add(known, constant, factor)
            else:
                _add(rest, {key: Fraction(1)}, factor)
        return rest, known

    def value(self, total: Sum) -> Known | None:
        """What a sum is equal to; None where the equations do not say."""
        rest, known = self.reduced(total)
        return None if rest else known

    def add(self, total: Sum, equal: Known) -> Known | None:
        """One more equation.

        Returns:
            None where it says something new; else what its left side is already known to be, less what it is here.
        """
        rest, known = self.reduced(total)
        _add(known, equal, Fraction(-1))
        if not rest:
            return known
        # The one that fewest sums hold: so the fewest must be written anew.
        chosen = min(rest, key=lambda key: (len(self.uses.get(key, ())), key))
        factor = -1 / rest.pop(chosen)
        own = {key: value * factor for key, value in rest.items()}
        constant = {word: value * factor for word, value in known.items()}
        for user in self.uses.pop(chosen, set()):
            terms, numbers = self.bound[user]
            share = terms.pop(chosen)
            before = set(terms)
            _add(terms, own, share)
            _add(numbers, constant, share)
            for key in before - set(terms):
                self.uses[key].discard(user)
            for key in set(terms) - before:
                self.uses.setdefault(key, set()).add(user)
        self.bound[chosen] = (own, constant)
        for key in own:
            self.uses.setdefault(key, set()).add(chosen)
        return None


def _add(into: dict, terms: Mapping, factor: Fraction) -> None:  # type: ignore[type-arg]
    bits = 0
    for key, value in terms.items():
        new = into.get(key, _ZERO) + value * factor
        bits += new.numerator.bit_length() + new.denominator.bit_length()
        if new:
            into[key] = new
        else:
            into.pop(key, None)
    # An operation on 60 digits works on some 200 bits; short fractions are counted together.
    spend((bits + len(terms)) // 1000)
