"""A formula as a polynomial in one unknown, and its real roots."""

from __future__ import annotations

from ..checking.value import Values, evaluate
from ..exact import Real, isolated_root, polynomial_roots, spend, sqrt
from ..language import tree as t
from ..language.names import Name

#: Coefficients by power, the constant first.
Polynomial = tuple[Real, ...]

MAX_DEGREE = 12
_ZERO, _ONE = Real.of(0), Real.of(1)


def _add(a: Polynomial, b: Polynomial, sign: int = 1) -> Polynomial:
    size = max(len(a), len(b))
    out = []
    for i in range(size):
        x = a[i] if i < len(a) else _ZERO
        y = b[i] if i < len(b) else _ZERO
        out.append(x + y if sign > 0 else x - y)
    return tuple(out)


def _times(a: Polynomial, b: Polynomial) -> Polynomial:
    out = [_ZERO] * (len(a) + len(b) - 1)
    for i, x in enumerate(a):
        for j, y in enumerate(b):
            out[i + j] = out[i + j] + x * y
    return tuple(out)


Ratio = tuple[Polynomial, Polynomial]


def as_ratio(node: t.Expr, unknown: Name, values: Values) -> Ratio | None:
    """A tree as a ratio of two polynomials in the unknown, or None where it is not one.

    Raises RealError and NoValueError as `evaluate` does.
    """
    if not t.count(unknown, node):
        return (evaluate(node, values),), (_ONE,)
    match node:
        case t.Sym():
            return (_ZERO, _ONE), (_ONE,)
        case t.Group(body):
            return as_ratio(body, unknown, values)
        case t.Sum(terms, signs):
            total: Ratio = (_ZERO,), (_ONE,)
            for term, sign in zip(terms, signs, strict=True):
                part = as_ratio(term, unknown, values)
                if part is None or _too_big(total, part):
                    return None
                same = len(total[1]) == len(part[1]) == 1
                if same:
                    scaled = tuple(x / part[1][0] for x in part[0])
                    total = _add(total[0], scaled, -1 if sign == "-" else 1), total[1]
                else:
                    over = _add(
                        _times(total[0], part[1]), _times(part[0], total[1]), -1 if sign == "-" else 1
                    )
                    total = over, _times(total[1], part[1])
            return total
        case t.Product(factors, joins):
            result: Ratio = (_ONE,), (_ONE,)
            for factor, join in zip(factors, ("", *joins), strict=True):
                part = as_ratio(factor, unknown, values)
                if part is None or _too_big(result, part):
                    return None
                if join == "/":
                    part = part[1], part[0]
                result = _times(result[0], part[0]), _times(result[1], part[1])
            return result
        case t.Power(base, exponent):
            if t.count(unknown, exponent):
                return None
            power = evaluate(exponent, values).fraction
            if power is None or power.denominator != 1 or abs(power) > MAX_DEGREE:
                return None
            part = as_ratio(base, unknown, values)
            if part is None:
                return None
            result = (_ONE,), (_ONE,)
            for _ in range(abs(int(power))):
                if _too_big(result, part):
                    return None
                result = _times(result[0], part[0]), _times(result[1], part[1])
            return result if power > 0 else (result[1], result[0])
        case _:
            return None


def _too_big(a: Ratio, b: Ratio) -> bool:
    return len(a[0]) + len(b[0]) > MAX_DEGREE + 2 or len(a[1]) + len(b[1]) > MAX_DEGREE + 2


def trimmed(polynomial: Polynomial) -> Polynomial:
    """Without the leading coefficients that vanish."""
    size = len(polynomial)
    while size > 1 and polynomial[size - 1].sign() == 0:
        size -= 1
    return polynomial[:size]


def real_roots(polynomial: Polynomial) -> list[Real]:
    """Every real root, each once, in rising order; the zero polynomial has none to name.

    Degrees one and two, and those in even powers only, are exact; higher ones are isolated by sympy (`isolation`)
    where the coefficients are rational, and found by mpmath's simultaneous iteration where they are not.
    """
    polynomial = trimmed(polynomial)
    zero_root = False
    while len(polynomial) > 1 and polynomial[0].sign() == 0:
        zero_root = True
        polynomial = polynomial[1:]
    roots = [_ZERO] if zero_root else []
    degree = len(polynomial) - 1
    if degree == 1:
        roots.append(-polynomial[0] / polynomial[1])
    elif degree == 2:
        roots.extend(quadratic_roots(polynomial[2], polynomial[1], polynomial[0]))
    elif degree > 2 and all(c.sign() == 0 for c in polynomial[1::2]):
        for square in real_roots(polynomial[::2]):
            if square.sign() > 0:
                roots.extend((-sqrt(square), sqrt(square)))
    elif degree > 2:
        roots.extend(_higher_roots(polynomial))
    return _sorted(roots)


def _sorted(roots: list[Real]) -> list[Real]:
    return sorted(roots, key=float)


def quadratic_roots(a: Real, b: Real, c: Real) -> list[Real]:
    """The real roots of a x² + b x + c, by the quadratic formula; one where they coincide."""
    discriminant = b * b - Real.of(4) * a * c
    sign = discriminant.sign()
    if sign < 0:
        return []
    two_a = Real.of(2) * a
    if sign == 0:
        return [-b / two_a]
    root = sqrt(discriminant)
    return [(-b - root) / two_a, (-b + root) / two_a]


#: Steps of the isolation of roots that are counted as one unit of work: those that take as long as the coefficients
#: are, and those for roots so near to one another that their distance has as many digits again.
_STEPS, _NEAR_STEPS = 400, 1_000


def _higher_roots(polynomial: Polynomial) -> list[Real]:
    known = [f for f in (c.fraction for c in polynomial) if f is not None]
    if len(known) < len(polynomial):
        return polynomial_roots(polynomial)
    # What the isolation may take is counted before, so that every machine stops at the same place: about the cube of
    # the degree times the length of the coefficients; and where roots lie as near to one another as they can, a step
    # for each binary place between them, on numbers of that length (measured; tests/hostile has such roots).
    bits = max(f.numerator.bit_length() + f.denominator.bit_length() for f in known)
    size = len(known)
    spend(size**3 * bits // _STEPS + ((size - 1) * bits) ** 2 // _NEAR_STEPS)
    # Loaded here only: no ordinary block needs the process.
    from .isolation import ISOLATOR

    coefficients, intervals = ISOLATOR.ask(known)
    return [isolated_root(coefficients, low, high) for low, high in intervals]
