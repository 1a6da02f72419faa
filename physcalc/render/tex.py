"""A tree or a value as TeX maths, in the layout that was typed.

A `/` between factors is set as a fraction, as a formula sheet prints it. Numbers whose decimal sign is a
comma, or whose digits are grouped, are set as text: in maths a bare comma would be followed by a gap.
"""

from __future__ import annotations

from dataclasses import replace

from ..exact import Number, NumberStyle, Numeral, grouped
from ..language import tree as t
from ..language.names import Name
from ..language.plain import plain_printed
from ..language.statements import Conventions
from ..language.tree import Printed
from ..language.words import direction_words

_GREEK = {
    "α": "alpha", "β": "beta", "γ": "gamma", "δ": "delta", "ε": "varepsilon", "ζ": "zeta", "η": "eta",
    "θ": "theta", "ι": "iota", "κ": "kappa", "λ": "lambda", "μ": "mu", "ν": "nu", "ξ": "xi", "π": "pi",
    "ρ": "rho", "σ": "sigma", "τ": "tau", "υ": "upsilon", "φ": "varphi", "χ": "chi", "ψ": "psi",
    "ω": "omega", "Γ": "Gamma", "Δ": "Delta", "Θ": "Theta",
    "Λ": "Lambda", "Ξ": "Xi", "Π": "Pi", "Σ": "Sigma", "Υ": "Upsilon", "Φ": "Phi", "Ψ": "Psi",
    "Ω": "Omega", "ℓ": "ell",
}  # fmt: skip
_ESCAPES = {
    "\\": r"\textbackslash{}", "{": r"\{", "}": r"\}", "$": r"\$", "&": r"\&", "#": r"\#", "%": r"\%",
    "_": r"\_", "^": r"\^{}", "~": r"\~{}",
}  # fmt: skip
_FUNCTIONS = {
    "asin": r"\sin^{-1}", "acos": r"\cos^{-1}", "atan": r"\tan^{-1}", "log10": r"\log",
    "atan2": r"\operatorname{atan2}", "abs": r"\operatorname{abs}",
}  # fmt: skip


def tex_text(text: str) -> str:
    """Words inside maths, with every character that TeX would obey escaped."""
    return r"\text{" + "".join(_ESCAPES.get(c, c) for c in text) + "}"


def _letters(letters: str) -> str:
    if letters in _GREEK:
        return "\\" + _GREEK[letters]
    if len(letters) == 1:
        return letters
    if all(c in _GREEK for c in letters):
        return " ".join("\\" + _GREEK[c] for c in letters)
    return r"\mathrm{" + "".join("\\" + _GREEK[c] + " " if c in _GREEK else c for c in letters) + "}"


def tex_name(name: Name) -> str:
    """A name: single letters slanted, runs of letters upright; below, words upright and letters slanted."""
    out = _letters(name.base)
    if name.delta:
        out = r"\Delta " + out
    if name.below:
        out += "_{" + _below(name.below) + "}"
    return out + "'" * name.primes


def _below(text: str) -> str:
    pieces: list[str] = []
    run = ""
    for character in text + "\0":
        if (character.isalpha() and character not in _GREEK) or (character == " " and run):
            run += character
            continue
        if run:
            # One letter below is a quantity or a label alike; a word is upright.
            pieces.append(run if len(run) == 1 and (run.islower() or run in "XYZ") else r"\text{" + run + "}")
            run = ""
        if character in _GREEK:
            pieces.append("\\" + _GREEK[character] + " ")
        elif character != "\0":
            pieces.append(
                character if character.isdigit() or character in "(),+-=/' " else tex_text(character)
            )
    return "".join(pieces)


def tex_numeral(numeral: Numeral, style: NumberStyle) -> str:
    """A number: its digits, and the power of ten behind a cross."""
    whole, part = grouped(numeral, style)
    sign = "-" if numeral.negative else ""
    if "/" in whole:
        over, under = whole.split("/")
        return sign + r"\frac{" + over + "}{" + under + "}"
    digits = whole + (style.decimal + part if part else "")
    if digits and (not digits.isascii() or "," in digits):
        # The minus goes into the text with them: beside a text a maths minus would be set with a gap.
        digits = r"\text{" + ("\u2212" if sign else "") + digits + "}"
        sign = ""
    if numeral.exponent is not None:
        power = "10^{" + str(numeral.exponent) + "}"
        digits = rf"{digits} \times {power}" if digits else power
    return sign + digits


def _tex_unit(text: str) -> str:
    return r"\text{" + "".join(_ESCAPES.get(c, c) for c in text) + "}"


def tex_printed(printed: Printed, style: NumberStyle, unit_style: str = "powers") -> str:
    """A value: digits, unit and direction."""
    out = tex_numeral(printed.numeral, style)
    if printed.uncertainty is not None and printed.width_unit is None:
        value = tex_numeral(replace(printed.numeral, exponent=None), style)
        width = tex_numeral(replace(printed.uncertainty, exponent=None), style)
        out = rf"{value} \pm {width}"
        if printed.numeral.exponent is not None or (printed.unit is not None and printed.unit.text()):
            out = f"({out})"
        if printed.numeral.exponent is not None:
            out += rf" \times 10^{{{printed.numeral.exponent}}}"
    if printed.unit is not None and printed.unit.price is not None:
        out = _tex_money(printed, out, style)
    elif printed.unit is not None and (unit := printed.unit.text(unit_style)):  # type: ignore[arg-type]
        if unit == "°":
            out += r"^{\circ}"
        else:
            out += (r"\," if printed.unit.spaced else "") + _tex_unit(unit)
    if printed.uncertainty is not None and printed.width_unit is not None:
        out += r" \pm " + tex_printed(Printed(printed.uncertainty, printed.width_unit), style, unit_style)
    if printed.direction:
        out += r"\ " + tex_text(direction_words(printed.direction, style.lang))
    return out


def _tex_money(printed: Printed, digits: str, style: NumberStyle) -> str:
    """An amount or a price: one text with its sign, so that nothing parts it from its digits; a code behind a gap."""
    assert printed.unit is not None
    price = printed.unit.price
    assert price is not None
    currency, behind = price
    if not currency.sign or style.money == "behind":
        return rf"{digits}\,{_tex_unit(currency.behind + behind)}"
    if printed.numeral.exponent is not None or printed.uncertainty is not None:
        gap = r"\," if style.money == "apart" else ""
        minus = "-" if digits.startswith("-") else ""
        return (
            minus
            + _tex_unit(currency.sign)
            + gap
            + digits.removeprefix("-")
            + (_tex_unit(behind) if behind else "")
        )
    return _tex_unit(plain_printed(Printed(printed.numeral, printed.unit), style))


def _number(number: Number, style: NumberStyle) -> str:
    if "/" in number.digits:
        over, _, under = number.digits.partition("/")
        return r"\frac{" + over + "}{" + under + "}"
    return tex_numeral(Numeral.of_number(number), style)


def tex(node: t.Expr | t.Equation | Printed, conventions: Conventions) -> str:
    """The TeX maths of a formula, an expression or a value.

    Args:
        node: what to set.
        conventions: number and unit style.
    """
    return _Setter(conventions).set(node)


class _Setter:
    def __init__(self, conventions: Conventions) -> None:
        self.style = conventions.style
        self.unit_style = conventions.unit_style

    def set(self, node: t.Expr | t.Equation | Printed) -> str:
        match node:
            case Printed():
                return tex_printed(node, self.style, self.unit_style)
            case t.Equation(left, right):
                return f"{self.set(left)} = {self.set(right)}"
            case t.Num(number, unit):
                return _number(number, self.style) + {"°": r"^{\circ}", "rad": r"\,\text{rad}"}.get(unit, "")
            case t.Sym(name):
                return tex_name(name)
            case t.Pi():
                return r"\pi"
            case t.Put(printed):
                return tex_printed(printed, self.style, self.unit_style)
            case t.Sum(terms, signs):
                return self._sum(terms, signs)
            case t.Product(factors, joins):
                return self._product(factors, joins)
            case t.Power(base, exponent):
                return f"{self._base(base)}^{{{self._exponent(_bare(exponent))}}}"
            case t.Call():
                return self._call(node)
            case t.Group(body):
                return self._brackets(self.set(body))
            case t.Abs(body):
                return r"\left|" + self.set(body) + r"\right|"

    def _brackets(self, inside: str) -> str:
        return r"\left(" + inside + r"\right)" if r"\frac" in inside else f"({inside})"

    def _sum(self, terms: tuple[t.Expr, ...], signs: tuple[str, ...]) -> str:
        out = ""
        for index, (term, sign) in enumerate(zip(terms, signs, strict=True)):
            text = self.set(term)
            negative = isinstance(term, t.Put) and term.printed.numeral.negative
            if isinstance(term, t.Sum) or (negative and (index or sign)):
                text = self._brackets(text)
            shown = {"±": r"\pm ", "∓": r"\mp "}.get(sign, sign)
            out += f" {shown} {text}" if index else shown + text
        return out

    def _base(self, base: t.Expr) -> str:
        text = self.set(base)
        tall = isinstance(base, t.Product | t.Sum | t.Power | t.Put | t.Call)
        negative = isinstance(base, t.Num) and base.number.value < 0
        typed_power = isinstance(base, t.Num) and (
            base.number.exponent is not None or base.unit or base.number.is_fraction
        )
        return self._brackets(text) if tall or negative or typed_power else text

    def _exponent(self, exponent: t.Expr) -> str:
        """An exponent; a plain quotient in it is set with a solidus, since a fraction would be too small to read."""
        if isinstance(exponent, t.Product) and exponent.joins == ("/",):
            over, under = exponent.factors
            if isinstance(over, t.Sym | t.Num | t.Put) and isinstance(under, t.Sym | t.Num | t.Put):
                return f"{self.set(over)}/{self.set(under)}"
        return self.set(exponent)

    def _call(self, call: t.Call) -> str:
        # Each argument is set once: a root of a root of a root would double the work each time.
        inside = [self.set(_bare(a)) for a in call.arguments]
        if call.function == "sqrt":
            return r"\sqrt{" + inside[0] + "}"
        head = _FUNCTIONS.get(call.function, "\\" + call.function)
        if call.power is not None:
            head += "^{" + self.set(call.power) + "}"
        single = isinstance(call.arguments[0], t.Sym | t.Num | t.Pi | t.Put)
        if len(inside) == 1 and single and (not call.bracketed or _angle(call.arguments[0])):
            return f"{head} {inside[0]}"
        return head + self._brackets(r";\ ".join(inside))

    def _product(self, factors: tuple[t.Expr, ...], joins: tuple[str, ...]) -> str:
        """Factors side by side; each solidus makes a fraction of all before it and its divisor.

        A plain fraction in front (1/2 m v²) is set by itself.
        """
        parts: list[t.Expr] = [factors[0]]
        part_joins: list[str] = []
        index = 0
        done = ""
        while index < len(joins):
            join, factor = joins[index], factors[index + 1]
            if join == "/":
                over = done if not parts else self._row(parts, part_joins, done)
                fraction = r"\frac{" + over + "}{" + self.set(_bare(factor)) + "}"
                done, parts, part_joins = fraction, [], []
            else:
                if parts:
                    part_joins.append(join)
                parts.append(factor)
                if not part_joins and done and len(parts) == 1:
                    done += r" \times " if join == "×" else " "
            index += 1
        return self._row(parts, part_joins, done) if parts else done

    def _row(self, parts: list[t.Expr], joins: list[str], before: str) -> str:
        """Factors side by side, values and sums in brackets."""
        alone = len(parts) == 1 and not before
        values = sum(
            isinstance(p.base if isinstance(p, t.Power) else p, t.Put)
            or (isinstance(p, t.Num) and not p.number.is_fraction)
            for p in parts
        )
        out = before
        for index, part in enumerate(parts):
            inner = _bare(part) if alone else part
            text = self.set(inner)
            join = joins[index - 1] if index else ""
            needs = isinstance(inner, t.Sum) and not alone
            if isinstance(inner, t.Put):
                needs = not alone and (
                    values > 1
                    or inner.printed.numeral.negative
                    or inner.printed.numeral.exponent is not None
                    or bool(before)
                    or index > 0
                )
            elif isinstance(inner, t.Num) and join == "":
                # Digits behind digits need brackets: (1 900)(0).
                needs = index > 0 and (
                    inner.number.exponent is not None or isinstance(parts[index - 1], t.Put)
                )
            if needs:
                text = self._brackets(text)
            if index and join == "×":
                out += rf" \times {text}"
            elif (
                index
                and (join == "·" or (isinstance(inner, t.Num) and isinstance(parts[index - 1], t.Num)))
                and not needs
            ):
                out += rf" \cdot {text}" if isinstance(inner, t.Num) else rf"\,{text}"
            elif index and not (needs or text.startswith(("(", r"\left("))):
                out += rf"\,{text}" if isinstance(parts[index - 1], t.Call | t.Put) else f" {text}"
            else:
                out += text
        return out


def _angle(node: t.Expr) -> bool:
    return isinstance(node, t.Put | t.Num)


def _bare(node: t.Expr) -> t.Expr:
    """What stands between brackets that the layout (a fraction line, a root) makes needless."""
    return node.body if isinstance(node, t.Group) else node
