"""A tree as plain text, in the layout that was typed: for messages, and wherever no maths is set."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from ..exact import Number, NumberStyle, Numeral, numeral_text
from ..exact.numeral import MINUS
from ..units import Currency
from . import tree as t
from .names import Name
from .words import direction_words

_SUPER = str.maketrans("0123456789+-−", "⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻⁻")
_BELOW = str.maketrans("0123456789", "₀₁₂₃₄₅₆₇₈₉")
NO_BREAK = "\u00a0"


def plain_name(name: Name) -> str:
    """A name as text: "v₀", "F_net", "E_{k(max)}"."""
    below = name.below
    if below.isdigit():
        below = below.translate(_BELOW)
    elif below:
        below = f"_{below}" if below.isalnum() else "_{" + below + "}"
    return ("Δ" if name.delta else "") + name.base + below + "′" * name.primes


def plain_number(number: Number, style: NumberStyle) -> str:
    """A number as typed, in the document's number style."""
    if "/" in number.digits:
        return number.digits.replace("-", "−")
    return numeral_text(Numeral.of_number(number), style)


def plain_printed(printed: t.Printed, style: NumberStyle, unit_style: str = "powers") -> str:
    """A value ready to print: digits, unit and direction, held together by no-break spaces."""
    text = numeral_text(printed.numeral, style)
    if printed.uncertainty is not None and printed.width_unit is None:
        unit_text = printed.unit.text(unit_style) if printed.unit is not None else ""  # type: ignore[arg-type]
        text = _with_uncertainty(printed.numeral, printed.uncertainty, style, bool(unit_text))
    if printed.unit is not None and (price := printed.unit.price) is not None:
        text = with_money(text, price, style)
    elif printed.unit is not None:
        unit = printed.unit.text(unit_style)  # type: ignore[arg-type]
        if unit:
            text += (NO_BREAK if printed.unit.spaced else "") + unit
    if printed.uncertainty is not None and printed.width_unit is not None:
        width = plain_printed(t.Printed(printed.uncertainty, printed.width_unit), style, unit_style)
        text += f"{NO_BREAK}±{NO_BREAK}{width}"
    return f"{text} {direction_words(printed.direction, style.lang)}" if printed.direction else text


def with_money(digits: str, price: tuple[Currency, str], style: NumberStyle) -> str:
    """An amount or a price: the sign of its currency where the language has it, a code behind the digits."""
    currency, behind = price
    if not currency.sign or style.money == "behind":
        return f"{digits}{NO_BREAK}{currency.behind}{behind}"
    minus = MINUS if digits.startswith(MINUS) else ""
    gap = NO_BREAK if style.money == "apart" else ""
    return f"{minus}{currency.sign}{gap}{digits.removeprefix(MINUS)}{behind}"


def _with_uncertainty(numeral: Numeral, uncertainty: Numeral, style: NumberStyle, unit: bool) -> str:
    """A value with its uncertainty, in brackets where a unit or a power of ten covers both (SP 811, 7.7)."""
    value = numeral_text(replace(numeral, exponent=None), style)
    width = numeral_text(replace(uncertainty, exponent=None), style)
    text = f"{value}{NO_BREAK}±{NO_BREAK}{width}"
    if unit or numeral.exponent is not None:
        text = f"({text})"
    if numeral.exponent is None:
        return text
    power = numeral_text(Numeral(False, "", "", numeral.exponent), style)
    return f"{text}{NO_BREAK}×{NO_BREAK}{power}"


def _loose(node: t.Expr) -> bool:
    return isinstance(node, t.Sum)


def plain(node: t.Expr | t.Equation | t.Printed, style: NumberStyle, unit_style: str = "powers") -> str:
    """The text of a tree.

    Args:
        node: a formula, an expression or a value.
        style: how numbers are written.
        unit_style: "powers" or "solidus".
    """

    def inner(part: t.Expr) -> str:
        return plain(part, style, unit_style)

    match node:
        case t.Printed():
            return plain_printed(node, style, unit_style)
        case t.Equation(left, right):
            return f"{inner(left)} = {inner(right)}"
        case t.Num(number, unit):
            return plain_number(number, style) + (NO_BREAK + unit if unit == "rad" else unit)
        case t.Sym(name):
            return plain_name(name)
        case t.Pi():
            return "π"
        case t.Put(printed):
            return plain_printed(printed, style, unit_style)
        case t.Sum(terms, signs):
            pieces = []
            for index, (term, sign) in enumerate(zip(terms, signs, strict=True)):
                shown = sign.replace("-", "−")
                text = inner(term)
                if isinstance(term, t.Sum) or (
                    isinstance(term, t.Put) and term.printed.numeral.negative and (index or sign)
                ):
                    text = f"({text})"
                pieces.append(f"{shown}{text}" if index == 0 else f" {shown} {text}")
            return "".join(pieces)
        case t.Product(factors, joins):
            return _product(factors, joins, inner)
        case t.Power(base, exponent):
            text = inner(base)
            if isinstance(base, t.Put | t.Product | t.Sum | t.Power) or (
                isinstance(base, t.Num) and base.number.value < 0
            ):
                text = f"({text})"
            if isinstance(exponent, t.Num) and exponent.number.value.denominator == 1 and not exponent.unit:
                return text + str(exponent.number.value).translate(_SUPER)
            power = inner(exponent)
            return f"{text}^{power}" if isinstance(exponent, t.Sym | t.Group) else f"{text}^({power})"
        case t.Call(function, arguments, bracketed, power):
            raised = ""
            if power is not None:
                raised = inner(power).translate(_SUPER)
            if function == "sqrt":
                inside = inner(arguments[0])
                single = isinstance(arguments[0], t.Sym | t.Num | t.Pi) and not bracketed
                return f"√{inside}" if single else f"√({inside})"
            head = {"asin": "sin⁻¹", "acos": "cos⁻¹", "atan": "tan⁻¹", "log10": "log"}.get(function, function)
            values = "; ".join(inner(argument) for argument in arguments)
            if not bracketed and isinstance(arguments[0], t.Sym | t.Num | t.Pi | t.Put):
                return f"{head}{raised} {values}"
            return f"{head}{raised}({values})"
        case t.Group(body):
            return f"({inner(body)})"
        case t.Abs(body):
            return f"|{inner(body)}|"


def _product(factors: tuple[t.Expr, ...], joins: tuple[str, ...], inner: Callable[[t.Expr], str]) -> str:
    pieces = []
    several_values = (
        sum(isinstance(f, t.Put) for f in factors) + sum(isinstance(f, t.Num) for f in factors) > 1
    )
    for index, factor in enumerate(factors):
        text = inner(factor)
        join = joins[index - 1] if index else ""
        alone = join == "/" and (index + 1 == len(factors) or joins[index] == "/")
        put = isinstance(factor, t.Put) and (
            factor.printed.numeral.negative
            or (
                join == "/"
                and (factor.printed.numeral.exponent is not None or "/" in factor.printed.numeral.whole)
            )
            or (not alone and (index > 0 or (several_values and joins[0] != "/")))
        )
        beside = (
            index > 0 and not join and isinstance(factor, t.Num) and isinstance(factors[index - 1], t.Put)
        )
        if put or beside or isinstance(factor, t.Sum):
            text = f"({text})"
        if index == 0:
            pieces.append(text)
        elif join == "/":
            pieces.append(
                f"/{text}"
                if all(isinstance(f, t.Num) for f in factors[index - 1 : index + 1])
                and (index == 1 or joins[index - 2] != "/")
                else f" / {text}"
            )
        elif join == "×":
            pieces.append(f" × {text}")
        elif text.startswith("(") and (pieces[-1].endswith(")") or isinstance(factors[index - 1], t.Num)):
            pieces.append(text)
        else:
            pieces.append(f"{' · ' if join == '·' and text[0].isdigit() else ' '}{text}")
    return "".join(pieces)
