"""Text of a formula → tree."""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache
from typing import Any, cast

from ..exact import Number, read_number
from ..limits import LIMITS, allow, limit
from ..problems import Span, Text
from ..problems.language import DivisionAmbiguous, FormulaUnreadable
from . import tree as t
from .automaton import Node, TextRefused, Token, parse
from .messages import explain_syntax
from .names import read_name

#: Longer or deeper texts are not formulas that anybody prints; the limits keep hostile ones cheap.
MAX_LENGTH = LIMITS["formula-length"].usual

_SUPER = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻", "0123456789+-")
_FUNCTION = {"arcsin": "asin", "arccos": "acos", "arctan": "atan"}
_INVERSE = {"sin": "asin", "cos": "acos", "tan": "atan"}
_JOIN = {"*": "·", "⋅": "·", "∙": "·", "·": "·", "×": "×", "/": "/", "÷": "/"}


@lru_cache(maxsize=1024)
def _parsed(value: str, start: str) -> Node:
    """The rules that a text follows; they know no places but offsets, so a formula met again is not parsed again.

    Raises:
        TextRefused: it does not follow the grammar.
    """
    return parse(_bars(value), start)


def _bars(text: str) -> str:
    """The text with its bars told apart; the same length, so that places stay right."""
    opened = False
    out = []
    for character in text:
        if character == "|":
            opened = not opened
            character = "⟨" if opened else "⟩"
        out.append(character)
    return "".join(out)


class _Builder:
    """The grammar's rules → our tree. A method is a rule of the grammar, and takes what its parts came to."""

    def __init__(self, text: Text, decimal: str) -> None:
        self.text = text
        self.decimal = decimal

    def built(self, node: Node) -> Any:
        """What a node comes to, its parts first, from left to right."""
        parts = [self.built(part) if isinstance(part, Node) else part for part in node.children]
        rule: Callable[[Node, list[Any]], Any] = getattr(self, node.rule)
        return rule(node, parts)

    def _span(self, node: Node) -> Span:
        return self.text.at(node.start, node.end)

    def _number(self, token: Token) -> Number:
        start, end = token.start, token.end
        piece = Text(self.text.value[start:end], self.text.at(start, end))
        found = read_number(piece, 0, self.decimal, plain=True)  # type: ignore[arg-type]
        if found is None:
            # Digits of other scripts are digits to the grammar as well.
            raise FormulaUnreadable(
                piece.span, f'"{piece.value}" is no number', "write it with the digits 0 to 9"
            )
        return found[0]

    def _exponent_of(self, token: Token) -> t.Expr:
        digits = token.text.translate(_SUPER)
        span = self.text.at(token.start, token.end)
        number, _ = cast(tuple[Number, int], read_number(Text(digits, span), 0, "."))
        return t.Num(number, "", span)

    def number(self, node: Node, parts: list[Any]) -> t.Expr:
        return t.Num(self._number(parts[0]), "", self._span(node))

    def angle(self, node: Node, parts: list[Any]) -> t.Expr:
        unit = "rad" if parts[1].text == "rad" else "°"
        return t.Num(self._number(parts[0]), unit, self._span(node))

    def name(self, node: Node, parts: list[Any]) -> t.Expr:
        name = read_name(parts[0].text)
        if name is None:
            raise FormulaUnreadable(self._span(node), f'"{parts[0].text}" is not a name')
        return t.Sym(name, self._span(node))

    def pi(self, node: Node, _parts: list[Any]) -> t.Expr:
        return t.Pi(self._span(node))

    def group(self, node: Node, parts: list[Any]) -> t.Expr:
        return t.Group(parts[0], self._span(node))

    def magnitude(self, node: Node, parts: list[Any]) -> t.Expr:
        return t.Abs(parts[0], self._span(node))

    def simple(self, _node: Node, parts: list[Any]) -> t.Expr:
        return cast(t.Expr, parts[0])

    def call_power(self, _node: Node, parts: list[Any]) -> t.Expr:
        first = parts[0]
        if first.type == "SUPER":
            return self._exponent_of(first)
        span = self.text.at(first.start, parts[-1].end)
        number = self._number(parts[-1])
        if len(parts) == 2 and _sign(first) == "-":
            number = Number(-number.value, "-" + number.digits, number.exponent, "-" + number.typed)
        return t.Num(number, "", span)

    def _call(
        self, node: Node, function: str, arguments: list[t.Expr], power: Any, bracketed: bool
    ) -> t.Expr:
        function = _FUNCTION.get(function, function)
        if isinstance(power, t.Num) and power.number.value == -1 and function in _INVERSE:
            function, power = _INVERSE[function], None
        wanted = 2 if function == "atan2" else 1
        if len(arguments) != wanted:
            raise FormulaUnreadable(
                self._span(node),
                f"{function} takes {wanted} value{'s' if wanted > 1 else ''}, not {len(arguments)}",
                "write a semicolon between them: atan2(y; x)" if wanted > 1 else "",
            )
        # asin² would be printed sin⁻¹², which is another thing.
        closed = function in ("sqrt", "asin", "acos", "atan", "atan2")
        if isinstance(power, t.Num) and (closed or power.number.value.denominator != 1):
            raise FormulaUnreadable(
                power.span,
                f"{function} can not carry this power before its bracket",
                f"put the power behind: ({function}(x))^{power.number.typed}",
            )
        return t.Call(function, tuple(arguments), bracketed, power, self._span(node))

    def call(self, node: Node, parts: list[Any]) -> t.Expr:
        rest = [p for p in parts[1:] if not isinstance(p, Token)]
        power = rest.pop(0) if self._powered(parts) else None
        return self._call(node, parts[0].text, rest, power, True)

    def bare_call(self, node: Node, parts: list[Any]) -> t.Expr:
        power = parts[1] if len(parts) == 3 else None
        return self._call(node, parts[0].text, [parts[-1]], power, False)

    def _powered(self, parts: list[Any]) -> bool:
        """Whether the first thing after the function's name is its exponent: it ends before the bracket."""
        end = parts[0].end
        following = self.text.value[end:].lstrip()
        return following[:1] in "^⁺⁻⁰¹²³⁴⁵⁶⁷⁸⁹" and following[:1] != ""

    def root(self, node: Node, parts: list[Any]) -> t.Expr:
        return t.Call("sqrt", (parts[0],), True, None, self._span(node))

    def bare_root(self, node: Node, parts: list[Any]) -> t.Expr:
        return t.Call("sqrt", (parts[0],), False, None, self._span(node))

    def power(self, _node: Node, parts: list[Any]) -> t.Expr:
        return cast(t.Expr, parts[0])

    def raised(self, node: Node, parts: list[Any]) -> t.Expr:
        return t.Power(parts[0], parts[1], self._span(node))

    def raised_super(self, node: Node, parts: list[Any]) -> t.Expr:
        return t.Power(parts[0], self._exponent_of(parts[1]), self._span(node))

    def exponent(self, node: Node, parts: list[Any]) -> t.Expr:
        if len(parts) == 1:
            return cast(t.Expr, parts[0])
        sign, body = _sign(parts[0]), parts[1]
        if isinstance(body, t.Num) and sign == "-":
            number = body.number
            negative = Number(-number.value, "-" + number.digits, number.exponent, "-" + number.typed)
            return t.Num(negative, body.unit, self._span(node))
        return body if sign == "+" else t.Sum((body,), (sign,), self._span(node))

    def product(self, node: Node, parts: list[Any]) -> t.Expr:
        factors: list[t.Expr] = []
        joins: list[str] = []
        join = ""
        for part in parts:
            if isinstance(part, Token):
                join = _JOIN[part.text]
            else:
                if factors:
                    joins.append(join)
                factors.append(part)
                join = ""
        if len(factors) == 1:
            return factors[0]
        self._numbers_are_apart(factors, joins)
        self._division_is_clear(factors, joins)
        return t.Product(tuple(factors), tuple(joins), self._span(node))

    def _numbers_are_apart(self, factors: list[t.Expr], joins: list[str]) -> None:
        """Raise where two numbers stand side by side: a product, or digits badly grouped."""
        for before, after, join in zip(factors, factors[1:], joins, strict=False):
            if join == "" and isinstance(before, t.Num) and isinstance(after, t.Num):
                begin = before.span.column - self.text.span.column
                end = after.span.column - self.text.span.column + after.span.length
                raise FormulaUnreadable(
                    self.text.at(begin, end),
                    f'two numbers stand side by side in "{self.text.value[begin:end]}"',
                    "write * between them, or one number with its digits in threes",
                )

    def _division_is_clear(self, factors: list[t.Expr], joins: list[str]) -> None:
        """Raise where a solidus is followed by more than one factor.

        A plain fraction (1/2 m) and a bracketed divisor (1/(4 π) x) are clear.
        """
        for index, join in enumerate(joins):
            if join != "/" or index + 1 >= len(joins) or joins[index + 1] == "/":
                continue
            dividend, divisor = factors[index], factors[index + 1]
            if isinstance(divisor, t.Group):
                continue
            plain = isinstance(dividend, t.Num) and isinstance(divisor, t.Num)
            if plain and (index == 0 or joins[index - 1] != "/"):
                continue
            last = index + 2
            while last < len(joins) and joins[last] != "/":
                last += 1
            source = self.text
            begin = factors[0].span.column - source.span.column
            middle = divisor.span.column - source.span.column
            middle_end = middle + divisor.span.length
            end = factors[last].span.column - source.span.column + factors[last].span.length
            text = source.value
            top = text[begin:middle].rstrip(" /÷\u00a0")
            down, rest = text[middle:middle_end], text[middle_end:end].strip()
            raise DivisionAmbiguous(
                source.at(begin, end),
                text[begin:end],
                f"{top} / ({down} {rest.lstrip('*·×⋅ ')})",
                f"({top} / {down}) {rest.lstrip('*·×⋅ ')}",
            )

    def sum(self, node: Node, parts: list[Any]) -> t.Expr:
        terms: list[t.Expr] = []
        signs: list[str] = []
        sign = ""
        for part in parts:
            if isinstance(part, Token):
                sign = _sign(part)
            else:
                terms.append(part)
                signs.append(sign)
        if len(terms) == 1 and signs[0] == "":
            return terms[0]
        return t.Sum(tuple(terms), tuple(signs), self._span(node))

    def equation(self, node: Node, parts: list[Any]) -> t.Equation:
        return t.Equation(parts[0], parts[1], self._span(node))

    def expression(self, _node: Node, parts: list[Any]) -> t.Expr:
        return cast(t.Expr, parts[0])


def _sign(token: Token) -> str:
    return "-" if token.text in "-−" else token.text


def _parse(text: Text, start: str, decimal: str, sheet: bool) -> Any:
    value = text.value
    if not value.strip():
        raise FormulaUnreadable(text.span, "a formula is missing here")
    if len(value) > (most := limit("formula-length")):
        raise FormulaUnreadable(
            text.span,
            f"a formula of {len(value)} characters is too long",
            f"at most {most} characters{allow('formula-length')}",
        )
    depth = deepest = 0
    for character in value:
        depth += (character in "([{") - (character in ")]}")
        deepest = max(deepest, depth)
    if max(deepest, value.count("^"), value.count("√")) > (most := limit("formula-depth")):
        raise FormulaUnreadable(
            text.span,
            "this formula is nested too deeply",
            f"at most {most} levels, powers and roots each; use `steps`{allow('formula-depth')}",
        )
    if not sheet:
        for sign in "±∓":
            if sign in value:
                place = value.index(sign)
                raise FormulaUnreadable(
                    text.at(place, place + 1),
                    f'"{sign}" does not say which sign is meant',
                    "a sheet's formula may hold it; here write + or −",
                )
    try:
        parsed = _parsed(value, start)
    except TextRefused:
        raise _problem(text, start) from None
    return _Builder(text, decimal).built(parsed)


def _problem(text: Text, start: str) -> FormulaUnreadable:
    from .lark_parser import refusal  # Here: lark takes its time to import, and only a wrong text needs it.

    at, length, expected = refusal(_bars(text.value), start)
    place = len(text.value) if at is None else at
    what, hint = explain_syntax(text.value, place, at is None, expected, start)
    return FormulaUnreadable(text.at(place, place + length), what, hint)


def parse_formula(text: Text, decimal: str = ".", sheet: bool = False) -> t.Equation:
    """Read a formula: two sides with an equals sign.

    Args:
        text: the formula with its place.
        decimal: the document's decimal sign, "." or ",", for telling a thousands mark from a decimal one.
        sheet: whether ± and ∓ may stand in it.

    Raises:
        FormulaUnreadable: it does not follow the grammar, is too long or too deep.
        DivisionAmbiguous: a solidus with more than one factor behind it.
        NumberAmbiguous: a number that may hold a thousands mark.
    """
    return cast(t.Equation, _parse(text, "equation", decimal, sheet))


def parse_expression(text: Text, decimal: str = ".") -> t.Expr:
    """Read an expression: one side. Raises as `parse_formula` does."""
    return cast(t.Expr, _parse(text, "expression", decimal, False))
