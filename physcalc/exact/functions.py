"""The functions of school physics, exact where a closed form is known. Angles are in radians."""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache
from math import isqrt

from .errors import DivisionByZero, OutOfDomain
from .real import ONE, PI, ZERO, Real, closed, node_power, operation

_HALF = Fraction(1, 2)
#: Sines of the angles of the first quadrant that have a root as closed form: angle/π → sine.
_SINES = {
    Fraction(0): ZERO,
    Fraction(1, 6): Real(_HALF),
    Fraction(1, 4): Real(_HALF, radicand=2),
    Fraction(1, 3): Real(_HALF, radicand=3),
    Fraction(1, 2): ONE,
}
#: The same read backwards: square of the sine, or of the tangent, → angle/π.
_ARCSINES = {Fraction(0): Fraction(0), Fraction(1, 4): Fraction(1, 6), _HALF: Fraction(1, 4),
             Fraction(3, 4): Fraction(1, 3), Fraction(1): _HALF}  # fmt: skip
_ARCTANGENTS = {Fraction(0): Fraction(0), Fraction(1, 3): Fraction(1, 6), Fraction(1): Fraction(1, 4),
                Fraction(3): Fraction(1, 3)}  # fmt: skip
#: Roots up to this index are looked for exactly; and the largest exact power, in bits.
_LARGEST_INDEX = 200
_LARGEST_POWER_BITS = 50_000


def sqrt(x: Real) -> Real:
    """The positive square root.

    Raises:
        OutOfDomain: x is negative.
    """
    sign = x.sign()
    if sign < 0:
        raise OutOfDomain("the square root of a negative number is not real")
    if sign == 0:
        return ZERO
    if x.node is None and x.radicand == 1 and x.pi_power % 2 == 0:
        above, below = x.coefficient.numerator, x.coefficient.denominator
        return closed(Fraction(1, below), x.pi_power // 2, above * below)
    return operation("sqrt", x)


def power(base: Real, exponent: Real) -> Real:
    """base ** exponent; 0 ** 0 is 1.

    Raises:
        DivisionByZero: a negative power of zero.
        OutOfDomain: a power of a negative number that is not whole.
        TooLarge: the result lies beyond 10^±5000.
    """
    exact = _exact_power(base, exponent.fraction) if exponent.rational else None
    if exact is not None:
        return exact
    sign = base.sign()
    if sign == 0:
        if exponent.sign() < 0:
            raise DivisionByZero("zero has no negative power")
        return ZERO if exponent.sign() else ONE
    if sign < 0:
        raise OutOfDomain("a negative number has only whole powers")
    return _exp_node(exponent * ln(base))


def _exact_power(base: Real, exponent: Fraction | None) -> Real | None:
    """The power where it has a closed form or is whole, else None."""
    if exponent is None:
        return None
    if exponent.denominator == 1:
        return _whole_power(base, exponent.numerator)
    if base.sign() <= 0:
        return None
    index = exponent.denominator
    if index == 2:
        return _whole_power(sqrt(base), exponent.numerator)
    if not base.rational or index > _LARGEST_INDEX:
        return None
    root = _exact_root(base.coefficient, index)
    if root is not None:
        return _whole_power(Real(root), exponent.numerator)
    if index % 2 == 0:
        root = _exact_root(base.coefficient, index // 2)
        if root is not None:
            return _whole_power(sqrt(Real(root)), exponent.numerator)
    return None


def _whole_power(base: Real, exponent: int) -> Real:
    if exponent == 0:
        return ONE
    if base.sign() == 0:
        if exponent < 0:
            raise DivisionByZero("zero has no negative power")
        return ZERO
    bits = max(
        base.coefficient.numerator.bit_length(),
        base.coefficient.denominator.bit_length(),
        base.radicand.bit_length(),
    )
    if base.node is None and abs(base.coefficient) == 1 and base.radicand == 1 and not base.pi_power:
        return base if exponent % 2 else ONE
    if bits * abs(exponent) > _LARGEST_POWER_BITS:
        # Too long to write out, though its value may be an ordinary one (1.0001^100000).
        size = operation("power", Real(abs(base.coefficient), base.pi_power, base.radicand, base.node),
                         exponent=exponent)  # fmt: skip
        return -size if base.coefficient < 0 and exponent % 2 else size
    halves, odd = divmod(exponent, 2)
    coefficient = base.coefficient**exponent * Fraction(base.radicand) ** halves
    plain = closed(coefficient, base.pi_power * exponent, base.radicand if odd else 1)
    return plain if base.node is None else plain * node_power(base.node, exponent)


def _exact_root(value: Fraction, index: int) -> Fraction | None:
    """The index-th root of a positive fraction where it is a fraction."""
    above = _whole_root(value.numerator, index)
    below = _whole_root(value.denominator, index) if above is not None else None
    return Fraction(above, below) if above is not None and below is not None else None


def _whole_root(value: int, index: int) -> int | None:
    """The index-th root of a positive whole number where it is whole."""
    if value == 1 or index == 1:
        return value
    if index == 2:
        root = isqrt(value)
        return root if root * root == value else None
    bits = -(-value.bit_length() // index)
    root = 1 << bits
    while True:  # Newton's method on whole numbers, falling to the root from above.
        better = ((index - 1) * root + value // root ** (index - 1)) // index
        if better >= root:
            return root if root**index == value else None
        root = better


def exp(x: Real) -> Real:
    """e to the power x.

    Raises:
        TooLarge: the result lies beyond 10^±5000.
    """
    if x.node is not None and x.node.operation == "ln" and not x.pi_power and x.radicand == 1:
        exact = _exact_power(x.node.arguments[0], x.coefficient)
        if exact is not None:
            return exact
    return _exp_node(x)


def _exp_node(x: Real) -> Real:
    return operation("exp", x) if x.coefficient else ONE


def ln(x: Real) -> Real:
    """The natural logarithm.

    Raises:
        OutOfDomain: x is zero or negative.
    """
    if x.sign() <= 0:
        raise OutOfDomain("only a positive number has a logarithm")
    if x.rational:
        return _ln_of_fraction(x.coefficient)
    if x.node is not None and x.node.operation == "exp" and _bare(x):
        return x.node.arguments[0]
    return operation("ln", x)


@lru_cache(maxsize=512)
def _ln_of_fraction(value: Fraction) -> Real:
    """Kept, so that one logarithm is one node, and cancels against itself."""
    return operation("ln", Real(value)) if value != 1 else ZERO


def log10(x: Real) -> Real:
    """The logarithm to base ten.

    Raises:
        OutOfDomain: x is zero or negative.
    """
    if x.sign() > 0 and x.node is None and not x.pi_power:
        # (c √r)² is a fraction: half its exponent is ours, where it is a power of ten.
        exponent = _power_of_ten(x.coefficient**2 * x.radicand)
        if exponent is not None:
            return Real(Fraction(exponent, 2))
    return ln(x) / _ln_of_fraction(Fraction(10))


def _power_of_ten(value: Fraction) -> int | None:
    if value.denominator != 1:
        found = _power_of_ten(1 / value) if value.numerator == 1 else None
        return None if found is None else -found
    digits = (value.numerator.bit_length() - 1) * 30103 // 100000
    return next((e for e in (digits, digits + 1) if 10**e == value.numerator), None)


def _bare(x: Real) -> bool:
    return x.coefficient == 1 and not x.pi_power and x.radicand == 1


def sin(x: Real) -> Real:
    """The sine."""
    if x.node is None and (not x.coefficient or (x.pi_power == 1 and x.radicand == 1)):
        return _sine_of(x.coefficient)
    return operation("sin", x)


def cos(x: Real) -> Real:
    """The cosine."""
    if x.node is None and (not x.coefficient or (x.pi_power == 1 and x.radicand == 1)):
        return _sine_of(x.coefficient + _HALF)
    return operation("cos", x)


def _sine_of(part: Fraction) -> Real:
    """sin(part · π), led back to the first quadrant."""
    part %= 2
    negative = part >= 1
    if negative:
        part -= 1
    value = _first_quadrant_sine(min(part, 1 - part))
    return -value if negative else value


@lru_cache(maxsize=512)
def _first_quadrant_sine(part: Fraction) -> Real:
    return _SINES[part] if part in _SINES else operation("sin", Real(part, pi_power=1))


def tan(x: Real) -> Real:
    """The tangent.

    Raises:
        OutOfDomain: x is an odd multiple of 90°.
    """
    below = cos(x)
    if below.sign() == 0:
        raise OutOfDomain("the tangent of an odd multiple of 90° does not exist")
    return sin(x) / below


def asin(x: Real) -> Real:
    """The angle from −π/2 to π/2 with that sine.

    Raises:
        OutOfDomain: x lies beyond −1 to 1.
    """
    beyond = (abs(x) - 1).sign()
    if beyond > 0:
        raise OutOfDomain("no angle has a sine or cosine beyond 1")
    if beyond == 0:
        return PI * (_HALF if x.sign() > 0 else -_HALF)
    exact = _angle(x, _ARCSINES)
    return operation("asin", x) if exact is None else exact


def acos(x: Real) -> Real:
    """The angle from 0 to π with that cosine.

    Raises:
        OutOfDomain: x lies beyond −1 to 1.
    """
    return PI * _HALF - asin(x)


def atan(x: Real) -> Real:
    """The angle between −π/2 and π/2 with that tangent."""
    exact = _angle(x, _ARCTANGENTS)
    return operation("atan", x) if exact is None else exact


def _angle(x: Real, table: dict[Fraction, Fraction]) -> Real | None:
    if x.node is not None or x.pi_power:
        return None
    part = table.get(x.coefficient**2 * x.radicand)
    if part is None:
        return None
    return PI * (part if x.coefficient > 0 else -part)


def atan2(y: Real, x: Real) -> Real:
    """The angle above −π and up to π of the point (x, y), anticlockwise from the +x axis.

    Raises:
        OutOfDomain: the point is the origin.
    """
    across, up = x.sign(), y.sign()
    if across == 0:
        if up == 0:
            raise OutOfDomain("a vector of no length has no direction")
        return PI * (_HALF * up)
    if up == 0:
        return ZERO if across > 0 else PI
    angle = atan(y / x)
    return angle if across > 0 else angle + PI * up
