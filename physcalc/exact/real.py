"""Exact real numbers.

A real number is held as c · π^k · √r · x with c a fraction, k a whole number, r a positive whole number and x
either nothing or the node of a graph of operations that has no such closed form (ln 2, sin 40°, 1 + √2).
Ordinary school arithmetic stays in fractions. What is irrational is approximated only when it has to be
compared or rounded, at rising precision and with a bound on the error, until the question is settled: see
`evaluation`, which brings mpmath in and is therefore imported only inside what needs it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from fractions import Fraction
from math import gcd, inf, isinf, isqrt
from typing import TYPE_CHECKING, Literal

from .errors import DivisionByZero, TooLarge

if TYPE_CHECKING:
    from mpmath import mpf

    from .balls import Ball

Operation = Literal["add", "multiply", "power", "sqrt", "exp", "ln", "sin", "cos", "atan", "asin", "computed"]

#: Largest fraction that is kept, in bits of numerator and denominator together (10^5000 takes 16 610).
_LARGEST_FRACTION = 100_000
_LARGEST_MAGNITUDE = 16_610
_LARGEST_PI_POWER = 1000
_LARGEST_EXPONENT = 10**12
_DEEPEST = 5000


@dataclass(eq=False, slots=True)
class Node:
    """An operation that has no closed form.

    Attributes:
        operation: what is done.
        arguments: what it is done to.
        exponent: the whole exponent of a power; 1 otherwise.
        depth: length of the longest way down from here.
        balls: the approximations made so far, by working precision.
        compute: for a number that is found by search (a root): gives it as an mpf to so many digits.
    """

    operation: Operation
    arguments: tuple[Real, ...]
    exponent: int = 1
    depth: int = 1
    balls: dict[int, Ball] = field(default_factory=dict)
    compute: Callable[[int], mpf] | None = None


@dataclass(frozen=True, slots=True, eq=False)
class Real:
    """An exact real number: coefficient · π^pi_power · √radicand · node.

    `==` and `hash` compare what is held: numbers in closed form are equal when their values are, numbers with
    a node only when it is the very same node. `equals` compares values always.

    Attributes:
        coefficient: the rational factor; it carries the sign, and is 0 for zero.
        pi_power: the power of π.
        radicand: a positive whole number below the root; not a perfect square unless 1.
        node: the factor that has no closed form; None where there is none.
    """

    coefficient: Fraction
    pi_power: int = 0
    radicand: int = 1
    node: Node | None = None

    @staticmethod
    def of(value: Fraction | int) -> Real:
        """The number itself."""
        return Real(_guarded(value if type(value) is Fraction else Fraction(value)))

    @staticmethod
    def computed(compute: Callable[[int], mpf]) -> Real:
        """A number known by a way to compute it, such as the root of an equation found by search.

        `compute(digits)` gives it as an mpf, right to so many significant digits; it raises a RealError where
        it cannot.
        """
        return Real(ONE.coefficient, node=Node("computed", (), compute=compute))

    @property
    def rational(self) -> bool:
        """Whether it is held as a fraction."""
        return self.node is None and not self.pi_power and self.radicand == 1

    @property
    def fraction(self) -> Fraction | None:
        """Its value where it is held as a fraction, else None."""
        return self.coefficient if self.rational else None

    # Arithmetic

    def __add__(self, other: Real | Fraction | int) -> Real:
        other = _real(other)
        if self.rational and other.rational:
            return Real(_guarded(self.coefficient + other.coefficient))
        if not other.coefficient:
            return self
        if not self.coefficient:
            return other
        if self.node is other.node and self.pi_power == other.pi_power:
            ratio = _root_ratio(self.radicand, other.radicand)
            if ratio is not None:
                total = _guarded(self.coefficient + other.coefficient * ratio)
                return Real(total, self.pi_power, self.radicand, self.node) if total else ZERO
        return operation("add", self, other)

    def __mul__(self, other: Real | Fraction | int) -> Real:
        other = _real(other)
        if self.rational and other.rational:
            return Real(_guarded(self.coefficient * other.coefficient))
        if not self.coefficient or not other.coefficient:
            return ZERO
        common = gcd(self.radicand, other.radicand)
        plain = closed(
            self.coefficient * other.coefficient * common,
            self.pi_power + other.pi_power,
            self.radicand // common * (other.radicand // common),
        )
        if self.node is None or other.node is None:
            return Real(plain.coefficient, plain.pi_power, plain.radicand, self.node or other.node)
        return plain * _product(self.node, other.node)

    def __neg__(self) -> Real:
        return Real(-self.coefficient, self.pi_power, self.radicand, self.node)

    def __pos__(self) -> Real:
        return self

    def __sub__(self, other: Real | Fraction | int) -> Real:
        other = _real(other)
        if self.rational and other.rational:
            return Real(_guarded(self.coefficient - other.coefficient))
        return self + -other

    def __truediv__(self, other: Real | Fraction | int) -> Real:
        other = _real(other)
        if self.rational and other.rational and other.coefficient:
            return Real(_guarded(self.coefficient / other.coefficient))
        return self * _inverse(other)

    def __radd__(self, other: Fraction | int) -> Real:
        return self + other

    def __rmul__(self, other: Fraction | int) -> Real:
        return self * other

    def __rsub__(self, other: Fraction | int) -> Real:
        return _real(other) - self

    def __rtruediv__(self, other: Fraction | int) -> Real:
        return _real(other) / self

    def __pow__(self, exponent: Real | Fraction | int) -> Real:
        # The functions are made of reals, and a power in general of functions: imported once both are there.
        from .functions import power

        return power(self, _real(exponent))

    def __rpow__(self, base: Fraction | int) -> Real:
        return _real(base) ** self

    def __abs__(self) -> Real:
        return -self if self.sign() < 0 else self

    # Comparison

    def sign(self) -> int:
        """−1, 0 or 1. What vanishes to 200 digits of the terms that cancel in it is 0."""
        above = self.coefficient.numerator
        plain = (above > 0) - (above < 0)
        if self.node is None or not plain:
            return plain
        from .evaluation import sign_of

        return plain * sign_of(self.node)

    def equals(self, other: Real | Fraction | int) -> bool:
        """Whether the two have the same value (to 200 digits where no closed form tells)."""
        return (self - other).sign() == 0

    def __lt__(self, other: Real | Fraction | int) -> bool:
        return (self - other).sign() < 0

    def __le__(self, other: Real | Fraction | int) -> bool:
        return (self - other).sign() <= 0

    def __gt__(self, other: Real | Fraction | int) -> bool:
        return (self - other).sign() > 0

    def __ge__(self, other: Real | Fraction | int) -> bool:
        return (self - other).sign() >= 0

    def _key(self) -> tuple[object, ...]:
        square = self.coefficient * abs(self.coefficient) * self.radicand
        return (square, self.pi_power, id(self.node) if self.node else 0)

    def __eq__(self, other: object) -> bool:
        if isinstance(other, Real):
            if self.rational and other.rational:
                return self.coefficient == other.coefficient
            return self is other or self._key() == other._key()
        if isinstance(other, Fraction | int):
            return self.rational and self.coefficient == other
        return NotImplemented

    def __hash__(self) -> int:
        return hash(self.coefficient) if self.rational else hash(self._key())

    def __bool__(self) -> bool:
        return self.sign() != 0

    # Approximation

    def approximate(self, digits: int) -> mpf:
        """The value to `digits` significant digits, at least.

        Raises:
            TooLarge: where so many digits cannot be had.
        """
        from .evaluation import approximate

        return approximate(self, digits)

    def __float__(self) -> float:
        try:
            value = float(self.coefficient) if self.rational else float(self.approximate(20))
        except OverflowError:
            value = inf
        if isinf(value):
            raise TooLarge("the value does not fit a machine number")
        return value

    def __repr__(self) -> str:
        parts = [str(self.coefficient)]
        if self.pi_power:
            parts.append(f"π^{self.pi_power}")
        if self.radicand != 1:
            parts.append(f"√{self.radicand}")
        if self.node:
            parts.append(self.node.operation)
        return f"Real({'·'.join(parts)})"


def _guarded(value: Fraction) -> Fraction:
    """`value`, unless it is too large or too small or takes too many digits."""
    numerator, denominator = value.as_integer_ratio()
    above, below = numerator.bit_length(), denominator.bit_length()
    if above + below > _LARGEST_MAGNITUDE and (
        above + below > _LARGEST_FRACTION or abs(above - below) > _LARGEST_MAGNITUDE
    ):
        raise TooLarge("a value lies beyond 10^±5000, or takes too many digits")
    return value


def _real(value: Real | Fraction | int) -> Real:
    return value if isinstance(value, Real) else Real.of(value)


def _root_ratio(first: int, second: int) -> Fraction | None:
    """√second / √first where that is a fraction: just where the product is a perfect square."""
    if first == second:
        return Fraction(1)
    product = first * second
    root = isqrt(product)
    return Fraction(root, first) if root * root == product else None


def closed(coefficient: Fraction, pi_power: int, radicand: int) -> Real:
    """coefficient · π^pi_power · √radicand, a perfect square taken out of the root."""
    if radicand != 1:
        root = isqrt(radicand)
        if root * root == radicand:
            coefficient, radicand = coefficient * root, 1
    if not coefficient:
        return ZERO
    if abs(pi_power) > _LARGEST_PI_POWER or radicand.bit_length() > _LARGEST_FRACTION:
        raise TooLarge("a power of π or a number below a root is too large")
    return Real(_guarded(coefficient), pi_power, radicand)


def operation(name: Operation, *arguments: Real, exponent: int = 1) -> Real:
    """The number that an operation without a closed form gives.

    It is approximated once at the lowest precision, so what lies beyond all bounds is refused here and now.
    """
    from .evaluation import first_look

    depth = 1 + max(argument.node.depth if argument.node else 0 for argument in arguments)
    if depth > _DEEPEST or abs(exponent) > _LARGEST_EXPONENT:
        raise TooLarge("too many operations follow one on the other, or an exponent is too large")
    node = Node(name, arguments, exponent, depth)
    first_look(node)
    return Real(ONE.coefficient, node=node)


def _inverse(value: Real) -> Real:
    if value.sign() == 0:
        raise DivisionByZero("the divisor is zero")
    plain = closed(1 / (value.coefficient * value.radicand), -value.pi_power, value.radicand)
    return plain if value.node is None else plain * node_power(value.node, -1)


def node_power(node: Node, exponent: int) -> Real:
    """A whole power of a node; powers, roots and exponentials below it are taken along."""
    if exponent == 1:
        return Real(ONE.coefficient, node=node)
    if exponent == 0:
        return ONE
    if node.operation == "computed":
        return operation("power", Real(ONE.coefficient, node=node), exponent=exponent)
    argument = node.arguments[0]
    if node.operation == "power" and argument.node:
        return node_power(argument.node, node.exponent * exponent)
    if node.operation == "exp":
        scaled = argument * exponent
        return operation("exp", scaled) if scaled.coefficient else ONE
    if node.operation == "sqrt" and exponent % 2 == 0:
        half = exponent // 2
        return argument if half == 1 else argument**half
    return operation("power", Real(ONE.coefficient, node=node), exponent=exponent)


def _product(first: Node, second: Node) -> Real:
    """The product of two nodes; powers of one base are joined."""
    base, m = _base(first)
    other, n = _base(second)
    if base is other:
        return node_power(base, m + n)
    if first.operation == "exp" and second.operation == "exp":
        total = first.arguments[0] + second.arguments[0]
        return operation("exp", total) if total.coefficient else ONE
    return operation("multiply", Real(ONE.coefficient, node=first), Real(ONE.coefficient, node=second))


def _base(node: Node) -> tuple[Node, int]:
    below = node.arguments[0].node if node.arguments else None
    return (below, node.exponent) if node.operation == "power" and below else (node, 1)


ZERO = Real(Fraction(0))
ONE = Real(Fraction(1))
PI = Real(Fraction(1), pi_power=1)
