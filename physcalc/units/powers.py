"""How powers are spelled: superscript digits in and out."""

from __future__ import annotations

from fractions import Fraction

_RAISED = dict(zip("0123456789-", "⁰¹²³⁴⁵⁶⁷⁸⁹⁻", strict=True))
#: Raised characters and the plain ones they stand for.
LOWERED = {raised: plain for plain, raised in _RAISED.items()} | {"⁺": "+"}


def power_text(power: Fraction) -> str:
    """A power as it stands behind a symbol: "" for 1, "²", "⁻¹"; a broken one as "^(1/2)"."""
    if power == 1:
        return ""
    if power.denominator != 1:
        # Unicode has no raised solidus that fonts and screen readers agree on.
        return f"^({power})"
    return "".join(_RAISED[digit] for digit in str(power))
