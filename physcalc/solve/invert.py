"""The unknown made the subject of a formula in which it stands once, in a person's steps.

The result is a tree, so that the rearranged line can be printed and the value computed from the same thing.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from ..exact import Number
from ..language import tree as t
from ..language.names import Name


def _num(value: int) -> t.Num:
    return t.Num(Number(Fraction(value), str(value), None, str(value)))


@dataclass(frozen=True, slots=True)
class Branch:
    """One way to the unknown.

    Attributes:
        tree: what the core equals.
        reason: "" or what made this a second way ("−", "180° − θ").
        core: the smallest part that holds every occurrence of the unknown; None where that is the unknown
            alone.
    """

    tree: t.Expr
    reason: str = ""
    core: t.Expr | None = None


def isolate(equation: t.Equation, unknown: Name) -> list[Branch] | None:
    """Everything the unknown can equal, or None where it does not stand exactly once or can not be freed.

    An even power and a magnitude give two branches, sin and cos two, tan two (angles from −180° to 360°).
    """
    if t.count(unknown, equation.left, equation.right) != 1:
        return None
    return peel(equation, unknown)


def peel(equation: t.Equation, unknown: Name) -> list[Branch] | None:
    """Take a formula apart down to the smallest part that holds the unknown, however often it stands there.

    None where the unknown stands on both sides, on neither, or behind something that can not be undone.
    """
    left, right = t.count(unknown, equation.left), t.count(unknown, equation.right)
    if bool(left) == bool(right):
        return None
    one, two = _without_equal_numbers(equation.left, equation.right)
    side, other = (one, two) if left else (two, one)
    return _free(side, other, unknown)


def _without_equal_numbers(left: t.Expr, right: t.Expr) -> tuple[t.Expr, t.Expr]:
    """Both sides without the numbers that both begin with: the halves of 1/2 k x² = 1/2 m v²."""
    if not isinstance(left, t.Product) or not isinstance(right, t.Product):
        return left, right
    same = 0
    for i, (a, b) in enumerate(zip(left.factors, right.factors, strict=False)):
        if not isinstance(a, t.Num) or not isinstance(b, t.Num) or a.unit or b.unit:
            break
        if a.number.value != b.number.value or a.number.value == 0:
            break
        if i and left.joins[i - 1] != right.joins[i - 1]:
            break
        same = i + 1
    sides: list[t.Expr] = []
    for side in (left, right):
        if not same or same == len(side.factors) or side.joins[same - 1] == "/":
            return left, right
        rest = side.factors[same:]
        sides.append(rest[0] if len(rest) == 1 else t.Product(rest, side.joins[same:], side.span))
    return sides[0], sides[1]


def _free(side: t.Expr, other: t.Expr, unknown: Name) -> list[Branch] | None:
    """Take `side = other` apart until the unknown stands alone."""
    if sum(1 for part in t.children(side) if t.count(unknown, part)) > 1:
        return [Branch(other, core=side)]
    match side:
        case t.Sym():
            return [Branch(other)]
        case t.Group(body):
            return _free(body, other, unknown)
        case t.Sum(terms, signs):
            return _free_sum(terms, signs, other, unknown)
        case t.Product(factors, joins):
            return _free_product(factors, joins, other, unknown)
        case t.Power(base, exponent):
            return _free_power(base, exponent, other, unknown)
        case t.Abs(body):
            return _either(body, other, unknown)
        case t.Call():
            return _free_call(side, other, unknown)
        case _:
            return None


def _either(body: t.Expr, other: t.Expr, unknown: Name) -> list[Branch] | None:
    first = _free(body, other, unknown)
    second = _free(body, negated(other), unknown)
    if first is None or second is None:
        return None
    return first + [replace(branch, reason="−") for branch in second]


def negated(node: t.Expr) -> t.Expr:
    """Minus a tree, signs taken in where that is plain."""
    if isinstance(node, t.Num) and node.number.value == 0:
        return node
    if isinstance(node, t.Sum) and len(node.terms) == 1 and node.signs[0] == "-":
        return node.terms[0]
    if isinstance(node, t.Sum):
        flipped = tuple("-" if sign in ("", "+") else "+" for sign in node.signs)
        if flipped[0] == "+":
            flipped = ("", *flipped[1:])
        return _tidy_sum(list(node.terms), list(flipped))
    return t.Sum((node,), ("-",))


def _tidy_sum(terms: list[t.Expr], signs: list[str]) -> t.Expr:
    """A sum that begins with a positive term where there is one, without zero terms."""
    kept = [
        (term, sign)
        for term, sign in zip(terms, signs, strict=True)
        if not (isinstance(term, t.Num) and term.number.value == 0)
    ]
    if not kept:
        return _num(0)
    first = next((i for i, (_, sign) in enumerate(kept) if sign != "-"), 0)
    ordered = [kept[first], *kept[:first], *kept[first + 1 :]]
    out = [("" if i == 0 and s != "-" else ("-" if s == "-" else "+")) for i, (_, s) in enumerate(ordered)]
    if len(ordered) == 1 and out[0] == "":
        return ordered[0][0]
    return t.Sum(tuple(term for term, _ in ordered), tuple(out))


def _free_sum(
    terms: tuple[t.Expr, ...], signs: tuple[str, ...], other: t.Expr, unknown: Name
) -> list[Branch] | None:
    where = next(i for i, term in enumerate(terms) if t.count(unknown, term))
    rest = [(term, sign) for i, (term, sign) in enumerate(zip(terms, signs, strict=True)) if i != where]
    if signs[where] in ("±", "∓") or any(sign in ("±", "∓") for _, sign in rest):
        return None
    if isinstance(other, t.Sum):
        other_terms, other_signs = list(other.terms), [sign or "+" for sign in other.signs]
    else:
        other_terms, other_signs = [other], ["+"]
    if signs[where] == "-":
        # The unknown's term is subtracted: the rest stays, the other side crosses over.
        flipped = ["-" if sign == "+" else "+" for sign in other_signs]
        combined = _tidy_sum([x for x, _ in rest] + other_terms, [s or "+" for _, s in rest] + flipped)
    else:
        crossed = ["-" if s in ("", "+") else "+" for _, s in rest]
        combined = _tidy_sum(other_terms + [x for x, _ in rest], other_signs + crossed)
    return _free(terms[where], combined, unknown)


def _factor(node: t.Expr) -> t.Expr:
    """A tree as a factor: sums get brackets."""
    return t.Group(node) if isinstance(node, t.Sum) else node


def _numbers_first(factors: list[t.Expr]) -> list[t.Expr]:
    """Factors as they are written: numbers before names, no needless ones, sums in brackets."""
    kept = [_factor(x) for x in factors if not (isinstance(x, t.Num) and x.number.value == 1 and not x.unit)]
    return sorted(kept, key=lambda x: not isinstance(x, t.Num))


def fraction(over: list[t.Expr], under: list[t.Expr]) -> t.Expr:
    """A product over a product, laid out as typed fractions are."""
    over, under = _numbers_first(over), _numbers_first(under)
    if not over:
        over = [_num(1)]
    if not under:
        return over[0] if len(over) == 1 else t.Product(tuple(over), ("",) * (len(over) - 1))
    below = under[0] if len(under) == 1 else t.Group(t.Product(tuple(under), ("",) * (len(under) - 1)))
    return t.Product((*over, below), (*("",) * (len(over) - 1), "/"))


def split_fraction(node: t.Expr) -> tuple[list[t.Expr], list[t.Expr]]:
    """The factors above and below the fraction line of a tree."""
    if isinstance(node, t.Product):
        over: list[t.Expr] = [node.factors[0]]
        under: list[t.Expr] = []
        for factor, join in zip(node.factors[1:], node.joins, strict=True):
            if join == "/":
                inner = factor.body if isinstance(factor, t.Group) else factor
                if isinstance(inner, t.Product) and "/" not in inner.joins:
                    under.extend(inner.factors)
                else:
                    under.append(factor)
            else:
                over.append(factor)
        return over, under
    return [node], []


def _free_product(
    factors: tuple[t.Expr, ...], joins: tuple[str, ...], other: t.Expr, unknown: Name
) -> list[Branch] | None:
    where = next(i for i, factor in enumerate(factors) if t.count(unknown, factor))
    above = [f for i, f in enumerate(factors) if i != where and (i == 0 or joins[i - 1] != "/")]
    below = [f for i, f in enumerate(factors) if i != where and i > 0 and joins[i - 1] == "/"]
    over, under = split_fraction(other)
    flat_below: list[t.Expr] = []
    for factor in below:
        inner = factor.body if isinstance(factor, t.Group) else factor
        flat_below.extend(
            inner.factors if isinstance(inner, t.Product) and "/" not in inner.joins else [factor]
        )
    if where == 0 or joins[where - 1] != "/":
        # unknown · above / below = over / under
        return _free(factors[where], fraction(_without_one(over) + flat_below, under + above), unknown)
    return _free(factors[where], fraction(above + under, flat_below + over), unknown)


def _without_one(factors: list[t.Expr]) -> list[t.Expr]:
    return [f for f in factors if not (isinstance(f, t.Num) and f.number.value == 1)] or [_num(1)]


def _free_power(base: t.Expr, exponent: t.Expr, other: t.Expr, unknown: Name) -> list[Branch] | None:
    if t.count(unknown, exponent):
        ratio = fraction([t.Call("ln", (other,))], [t.Call("ln", (base,))])
        return _free(exponent, ratio, unknown)
    power = exponent.number.value if isinstance(exponent, t.Num) and not exponent.unit else None
    if power is None:
        return _free(base, t.Power(_factor_power(other), t.Group(fraction([_num(1)], [exponent]))), unknown)
    if power == 0:
        return None
    if power < 0:
        positive = t.Num(Number(-power, str(-power), None, str(-power)))
        over, under = split_fraction(other)
        inverse = fraction(under or [_num(1)], over)
        if power == -1:
            return _free(base, inverse, unknown)
        return _free_power(base, positive, inverse, unknown)
    if power == 2:
        root: t.Expr = t.Call("sqrt", (other,))
    else:
        root = t.Power(_factor_power(other), t.Group(fraction([_num(1)], [exponent])))
    if power.denominator == 1 and power % 2 == 0:
        return _either(base, root, unknown)
    if power.denominator == 1 and power > 1:
        # An odd root of a negative number is minus that of its magnitude; one of the two ways has a value.
        first = _free(base, root, unknown)
        below = t.Power(_factor_power(negated(other)), t.Group(fraction([_num(1)], [exponent])))
        second = _free(base, negated(below), unknown)
        return None if first is None or second is None else first + second
    return _free(base, root, unknown)


def _factor_power(node: t.Expr) -> t.Expr:
    return t.Group(node) if isinstance(node, t.Sum | t.Product | t.Power) else node


def _free_call(call: t.Call, other: t.Expr, unknown: Name) -> list[Branch] | None:
    if call.power is not None:
        bare = t.Call(call.function, call.arguments, call.bracketed)
        return _free_power(bare, call.power, other, unknown)
    if call.function == "atan2":
        return None
    body = call.arguments[0]
    half_turn = t.Num(Number(Fraction(180), "180", None, "180"), "°")
    match call.function:
        case "sqrt":
            return _free(body, t.Power(_factor_power(other), _num(2)), unknown)
        case "exp":
            return _free(body, t.Call("ln", (other,)), unknown)
        case "ln":
            return _free(body, t.Call("exp", (other,)), unknown)
        case "log" | "log10":
            return _free(body, t.Power(_num(10), _factor_power(other)), unknown)
        case "abs":
            return _either(body, other, unknown)
        case "asin" | "acos" | "atan":
            return _free(body, t.Call(call.function[1:], (other,)), unknown)
        case "sin":
            first = t.Call("asin", (other,))
            second: t.Expr = t.Sum((half_turn, first), ("", "-"))
            mark = "180° − θ"
        case "cos":
            first = t.Call("acos", (other,))
            second, mark = t.Sum((first,), ("-",)), "−"
        case "tan":
            first = t.Call("atan", (other,))
            second, mark = t.Sum((half_turn, first), ("", "+")), "180° + θ"
        case _:
            return None
    one, two = _free(body, first, unknown), _free(body, second, unknown)
    if one is None or two is None:
        return None
    return one + [replace(branch, reason=mark) for branch in two]
