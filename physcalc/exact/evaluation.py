"""Approximations of exact numbers, at rising precision until a question is settled.

This module brings in mpmath through `balls`. `real` and `rounding` import it only inside the functions that
need it, so that a document whose numbers are all fractions never pays for it.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress
from fractions import Fraction
from typing import TYPE_CHECKING

from . import balls
from .balls import Ball, Uncertain
from .errors import TooLarge
from .real import Node, Real
from .work import spend

if TYPE_CHECKING:
    from mpmath import mpf

#: Working precisions, in digits, that are tried one after the other.
PRECISIONS = (60, 120, 240, 480, 960, 1920)
_MOST_DIGITS = 12_000


def sign_of(node: Node) -> int:
    """−1, 0 or 1; what vanishes to 200 digits of the terms that cancel in it is 0."""
    for ball in refined(Real(Fraction(1), node=node)):
        if ball.sign is not None:
            return ball.sign
    raise AssertionError("refined() ends with an error")


def approximate(value: Real, digits: int) -> mpf:
    """The value to `digits` significant digits, at least, as an ordinary mpmath number."""
    for ball in refined(value, digits):
        if ball.digits() >= digits:
            return balls.exported(ball, digits)
    raise AssertionError("refined() ends with an error")


def first_look(node: Node) -> None:
    """Approximate at the lowest precision, so that what lies beyond all bounds is refused at once."""
    with suppress(Uncertain):  # A higher precision is tried where the value is asked for.
        _ball(Real(Fraction(1), node=node), PRECISIONS[0])


def refined(value: Real, digits: int = 0) -> Iterator[Ball]:
    """Ever narrower approximations, the first fit for about `digits` digits.

    Raises:
        TooLarge: when the last one has been taken and the question it was for is still open.
    """
    if digits > _MOST_DIGITS:
        raise TooLarge("so many digits cannot be had")
    first = next((p for p in PRECISIONS if p >= digits + 20), None)
    wanted = PRECISIONS[PRECISIONS.index(first) :] if first else (digits + 60, 2 * digits + 60)
    for precision in wanted:
        try:
            yield _ball(value, precision)
        except Uncertain:
            continue
    raise TooLarge(f"a value cannot be told apart at {wanted[-1]} digits")


def _ball(value: Real, precision: int) -> Ball:
    """The approximation of `value` at a working precision; the graph is walked without recursion."""
    balls.set_digits(precision)
    waiting = [value.node] if value.node else []
    while waiting:
        node = waiting[-1]
        below = [a.node for a in node.arguments if a.node and precision not in a.node.balls]
        if below and precision not in node.balls:
            waiting.extend(below)
            continue
        waiting.pop()
        if precision not in node.balls:
            spend(1 + precision // 240)
            node.balls[precision] = _apply(node, precision)
    return _scaled(value, precision)


def _scaled(value: Real, precision: int) -> Ball:
    if value.node is None:
        return balls.closed(value.coefficient, value.pi_power, value.radicand)
    ball = value.node.balls[precision]
    if value.coefficient == 1 and not value.pi_power and value.radicand == 1:
        return ball
    return balls.multiply(balls.closed(value.coefficient, value.pi_power, value.radicand), ball)


def _apply(node: Node, precision: int) -> Ball:
    if node.compute is not None:
        return balls.computed(node.compute, precision)
    arguments = [_scaled(argument, precision) for argument in node.arguments]
    match node.operation:
        case "add":
            return balls.add(*arguments)
        case "multiply":
            return balls.multiply(*arguments)
        case "power":
            return balls.power(arguments[0], node.exponent)
        case name:
            return balls.FUNCTIONS[name](arguments[0])
