"""A pupil's calculator: it works out a line of a substitution from the numbers that are printed there.

It is set to degrees: a number with ° means that angle. It knows nothing of the program's own parser or numbers; machine
numbers do, since lines hold few figures.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable

_SUPERSCRIPTS = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹⁻", "0123456789-")
_DIGITS = r"\d+(?: \d+)*(?:[,.]\d+(?: \d+)*)?(?:\s*×\s*10[⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+)?"
_TOKEN = re.compile(
    rf"\s*(?:(?P<number>{_DIGITS})(?P<degrees>\s?°(?!C))?|(?P<raised>[⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+)"
    r"|(?P<function>(?:sin|cos|tan|ln|log|exp|√)(?=[\s(⁻²]|$))"
    r"|(?P<name>[^\W\d_⁰¹²³⁴-⁹]+(?:_\{[^}]*\}|_[^\W⁰¹²³⁴-⁹]+|[₀-₉]+)?′*)|(?P<sign>[-+−*/^()|·×]))"
)
_FUNCTIONS: dict[str, Callable[[float], float]] = {
    "sin": math.sin, "cos": math.cos, "tan": math.tan, "ln": math.log, "log": math.log10, "exp": math.exp,
    "√": math.sqrt, "sin⁻¹": math.asin, "cos⁻¹": math.acos, "tan⁻¹": math.atan,
}  # fmt: skip
_PRINTED = re.compile(rf"^(?P<minus>−?)(?P<number>{_DIGITS})\s*(?P<rest>.*)$")

Token = tuple[str, str, bool]


def plain_blanks(text: str) -> str:
    return re.sub("[\u00a0\u2009\u202f]", " ", text)


def number(text: str) -> float:
    digits = text.replace(" ", "").replace(",", ".")
    leading, _, power = digits.partition("×10")
    return float(leading) * 10.0 ** int(power.translate(_SUPERSCRIPTS) or 0)


class Calculator:
    """Reads one side of a line."""

    def __init__(self, text: str, names: dict[str, float]) -> None:
        self.names = names
        self.tokens: list[Token] = []
        place, text = 0, plain_blanks(text).rstrip()
        while place < len(text):
            found = _TOKEN.match(text, place)
            if found is None or found.end() == place:
                raise ValueError(f"cannot type in {text[place:]}")
            place = found.end()
            kind = found.lastgroup if found["number"] is None else "number"
            self.tokens.append((str(kind), found[str(kind)], found["degrees"] is not None))
        self.place = 0

    def result(self) -> float:
        value = self._sum()
        if self.place < len(self.tokens):
            raise ValueError(f"left over: {self.tokens[self.place :]}")
        return value

    def _next(self) -> Token:
        return self.tokens[self.place] if self.place < len(self.tokens) else ("", "", False)

    def _take(self, sign: str) -> bool:
        if self._next()[:2] == ("sign", sign):
            self.place += 1
            return True
        return False

    def _sum(self) -> float:
        value = self._product()
        while True:
            if self._take("+"):
                value += self._product()
            elif self._take("−") or self._take("-"):
                value -= self._product()
            else:
                return value

    def _product(self) -> float:
        value = self._signed()
        while True:
            kind, text, _ = self._next()
            if self._take("/"):
                value /= self._signed()
            elif self._take("·") or self._take("×"):
                value *= self._signed()
            elif kind in ("number", "function", "name") or (kind, text) == ("sign", "("):
                value *= self._power()
            else:
                return value

    def _signed(self) -> float:
        if self._take("−") or self._take("-"):
            return -self._signed()
        return self._power()

    def _power(self) -> float:
        value = self._atom()
        kind, text, _ = self._next()
        if kind == "raised":
            self.place += 1
            return float(value ** int(text.translate(_SUPERSCRIPTS)))
        return float(value ** self._signed()) if self._take("^") else value

    def _atom(self) -> float:
        kind, text, degrees = self._next()
        self.place += 1
        if kind == "number":
            return math.radians(number(text)) if degrees else number(text)
        if kind == "name":
            return math.pi if text == "π" else self.names[text]
        if kind == "function":
            power = 1
            if self._next()[0] == "raised":
                raised = self._next()[1]
                self.place += 1
                if raised == "⁻¹":
                    text += raised
                else:
                    power = int(raised.translate(_SUPERSCRIPTS))
            return float(_FUNCTIONS[text](self._power()) ** power)
        if (kind, text) == ("sign", "("):
            value = self._sum()
            assert self._take(")")
            return value
        if (kind, text) == ("sign", "|"):
            value = self._sum()
            assert self._take("|")
            return abs(value)
        raise ValueError(f"cannot type in {text!r}")


def printed(text: str) -> tuple[float, float, str]:
    """A printed value: the number, half a unit of its last digit, and what follows."""
    found = _PRINTED.match(plain_blanks(text).strip())
    assert found is not None, text
    leading, _, power = found["number"].replace(" ", "").replace(",", ".").partition("×10")
    exponent = int(power.translate(_SUPERSCRIPTS) or 0)
    places = len(leading.partition(".")[2])
    value = number(found["number"])
    return -value if found["minus"] else value, 0.5 * 10.0 ** (exponent - places), found["rest"].strip()


def holds(line: str, name: str, value: float, half: float) -> bool:
    """Whether an equation holds for a value of its one unknown, to the last digit printed."""
    left, right = line.split(" = ")

    def apart(at: float) -> float:
        return Calculator(left, {name: at}).result() - Calculator(right, {name: at}).result()

    return apart(value - half) * apart(value + half) <= 0
