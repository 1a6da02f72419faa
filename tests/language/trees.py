"""Random trees of formulas, of every form that can be typed."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from hypothesis import strategies as st

from physcalc.exact import Number
from physcalc.language import tree as t
from physcalc.language.names import Name

GREEK = "αβγδεζηθικλμνξρστυφχψωΓΔΘΛΞΣΦΨΩ"
_WORDS = ("COP", "emf", "m", "a", "F", "e", "E", "g", "x", "ℓ", "Re", *"θωλ")
_BELOW = ("", "", "0", "1", "12", "A", "net", "k(max)", "i,x", "θ", "E1", "+")

names = st.builds(
    Name,
    st.sampled_from(_WORDS),
    st.sampled_from(_BELOW),
    st.booleans(),
    st.integers(0, 3),
    st.just(""),
)


def _number(coefficient: int, places: int) -> Number:
    digits = str(coefficient)
    if places:
        digits = digits.rjust(places + 1, "0")
        digits = f"{digits[:-places]}.{digits[-places:]}"
    return Number(Fraction(coefficient, 10**places), digits, None, digits)


# Four decimals at most: more are grouped where they are printed, and a formula does not hold grouped decimals.
numbers = st.builds(_number, st.integers(0, 10**7), st.integers(0, 4)).filter(
    lambda n: n.digits.count(".") == 0 or not n.digits.startswith("0.000")
)
_plain = st.builds(t.Num, numbers)
_angles = st.builds(t.Num, numbers, st.sampled_from(["°", "rad"]))
_symbols = st.builds(t.Sym, names)
simple = st.one_of(_symbols, _symbols, _plain, _angles, st.just(t.Pi()))

_whole = st.integers(-9, 12).map(lambda n: t.Num(Number(Fraction(n), str(n), None, str(n))))


def _sum(parts: list[t.Expr], signs: list[str], first: str) -> t.Expr:
    chosen = (first, *signs[: len(parts) - 1])
    return parts[0] if len(parts) == 1 and not first else t.Sum(tuple(parts), chosen)


def _product(parts: list[t.Expr], joins: list[str]) -> t.Expr:
    """Factors with joins that the language takes: clear divisions, no two numbers side by side."""
    if len(parts) == 1:
        return parts[0]
    chosen = list(joins[: len(parts) - 1])
    for i, join in enumerate(chosen):
        before, after = parts[i], parts[i + 1]
        if join == "/" and i + 1 < len(chosen):
            parts[i + 1] = t.Group(after)
        digits = isinstance(after, t.Num) or (isinstance(after, t.Power) and isinstance(after.base, t.Num))
        ends = before.arguments[0] if isinstance(before, t.Call) and not before.bracketed else before
        if digits and isinstance(ends, t.Num) and join == "":
            # Side by side their digits would run together.
            chosen[i] = "·"
        elif join == "·" and not (digits and isinstance(ends, t.Num)):
            # A dot between letters is printed as a space.
            chosen[i] = ""
    return t.Product(tuple(parts), tuple(chosen))


def _raised(number: int) -> t.Num:
    return t.Num(Number(Fraction(number), str(number), None, str(number)))


_function_powers = st.one_of(st.none(), st.none(), st.integers(2, 4).map(_raised))


def _sums(atom: st.SearchStrategy[t.Expr]) -> st.SearchStrategy[t.Expr]:
    """Sums of products of powers of atoms, each of which may be one thing alone."""
    power = st.one_of(
        atom,
        st.builds(t.Power, atom, _whole),
        st.builds(t.Power, atom, st.one_of(_symbols, atom.map(t.Group))),
    )
    product = st.builds(
        _product,
        st.lists(power, min_size=1, max_size=4),
        st.lists(st.sampled_from(["", "", "·", "×", "/"]), min_size=3, max_size=3),
    )
    return st.builds(
        _sum,
        st.lists(product, min_size=1, max_size=3),
        st.lists(st.sampled_from(["+", "-"]), min_size=2, max_size=2),
        st.sampled_from(["", "", "", "-", "+"]),
    )


def _call(function: str, argument: t.Expr, power: t.Expr | None) -> t.Expr:
    # An inverse function takes no power before its bracket: sin⁻¹² would be another thing.
    return t.Call(function, (argument,), True, None if function in ("asin", "acos", "atan") else power)


def _bare_call(function: str, argument: t.Expr, power: t.Expr | None) -> t.Expr:
    return t.Call(function, (argument,), False, power)


def _without_magnitude(node: t.Expr) -> bool:
    return not any(isinstance(part, t.Abs) for part in t.walk(node))


def _atoms(inner: st.SearchStrategy[t.Expr]) -> st.SearchStrategy[t.Expr]:
    total = _sums(inner)
    functions = st.sampled_from(["sin", "cos", "tan", "exp", "ln", "abs", "asin", "acos", "atan"])
    return st.one_of(
        total.map(t.Group),
        total.filter(_without_magnitude).map(t.Abs),
        st.builds(_call, functions, total, _function_powers),
        st.builds(_bare_call, st.sampled_from(["sin", "cos", "log"]), simple, _function_powers),
        st.builds(lambda a, b: t.Call("atan2", (a, b)), total, total),
        total.map(lambda x: t.Call("sqrt", (x,))),
        simple.map(lambda x: t.Call("sqrt", (x,), False)),
    )


#: Magnitudes do not nest, so trees with one inside another are left out.
expressions = _sums(st.recursive(simple, _atoms, max_leaves=6)).filter(
    lambda node: (
        not any(
            isinstance(part, t.Abs) and any(isinstance(below, t.Abs) for below in t.walk(part.body))
            for part in t.walk(node)
        )
    )
)


def without_places(node: t.Expr) -> t.Expr:
    """The tree without spans, the typed spelling of numbers and brackets that only hold an exponent together."""

    def inner(part: t.Expr) -> t.Expr:
        return without_places(part)

    match node:
        case t.Num(number, unit):
            return t.Num(Number(number.value, number.digits, number.exponent, ""), unit)
        case t.Sym(name):
            return t.Sym(name)
        case t.Pi():
            return t.Pi()
        case t.Sum(terms, signs):
            return t.Sum(tuple(inner(x) for x in terms), signs)
        case t.Product(factors, joins):
            return t.Product(tuple(inner(x) for x in factors), joins)
        case t.Power(base, exponent):
            return t.Power(inner(base), inner(exponent.body if isinstance(exponent, t.Group) else exponent))
        case t.Call(function, arguments, bracketed, power):
            return t.Call(
                function,
                tuple(inner(x) for x in arguments),
                bracketed,
                None if power is None else inner(power),
            )
        case t.Group(body):
            return t.Group(inner(body))
        case t.Abs(body):
            return t.Abs(inner(body))
        case _:
            return replace(node)
