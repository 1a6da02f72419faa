"""What a syntax mistake is called: plain sentences for the usual ones, and never a terminal's name."""

from __future__ import annotations

import re

#: Sentence → formulas that must lead to it. The table is its own test.
SAMPLES: dict[str, tuple[str, ...]] = {
    "a bracket is opened and not closed": ("F = m (a", "v = sqrt(2 g h", "F = k (Q_1 Q_2 / r^2"),
    "a bracket is closed that was not opened": ("F = m a)", "v = 2 g) h"),
    "a magnitude is opened with | and not closed": ("F = |q E", "F = k |Q_1| |Q_2 / r^2"),
    "the formula has no right side": ("F =", "T - m g ="),
    "the formula has no left side": ("= m a",),
    "a formula has one equals sign, and here is a second": ("F = m a = 3", "v == 3"),
    "a formula needs an equals sign": ("m a", "k Q_1 Q_2 / r^2"),
    "something is missing after the sign": ("F = m +", "F = m a /", "E = 2 ^", "v = v_0 + ) t"),
    "two signs follow each other": ("F = m * / a", "v = u + * t", "v = u / / t"),
    "a function stands alone: it takes a bracket or the one name or number that follows": (
        "F = sin",
        "F = m g sin / 2",
        "m g cos = 2",
        "v = √",
    ),
    "brackets are empty": ("F = m ()", "v = sqrt()"),
    "a subscript is missing after _": ("F = m_ a", "F = m_", "F = m_{} a"),
    "the braces of a subscript are opened and not closed": ("F = m_{ a", "v_{i,x = 3"),
    "a name begins with a letter": ("F = m _a", "F = 2_a"),
    "a name has one subscript": ("v_i_x = 3", "F = m__a"),
    "braces stand only in a subscript": ("v = x^{2}", "F = {m a}"),
    "a formula holds no backslash": (r"F = \frac{a}{b}", r"v = \sqrt{2 g h}"),
    "a comma can not stand here": ("F = m, a", "F = m a; v = a t"),
    "a formula can not begin with this sign": ("* F = m a", "/ F = m a"),
    "a formula holds no dollar sign": ("F = m $ a",),
    "there is a character here that no formula holds": ("F = m & a", 'F = "m a"'),
}


def explain_syntax(value: str, place: int, ended: bool, expected: set[str], start: str) -> tuple[str, str]:
    """The sentence and the mend for a formula that could not be read.

    Args:
        value: the text of the formula.
        place: where reading stopped, an index into `value`.
        ended: whether it stopped at the end.
        expected: names of terminals that could have followed.
        start: "equation" or "expression".
    """
    here = value[place : place + 1]
    before = value[:place].rstrip()
    last = before[-1:]
    bars = value.count("|")
    depth = before.count("(") - before.count(")")
    function_open = "LPAR" in expected and "NAME" in expected and "JOIN" not in expected and last.isalnum()
    if ended:
        if last == "=":
            return "the formula has no right side", "write what it equals"
        if last and last in "+-−*/·×^÷⋅±∓":
            return "something is missing after the sign", "write a name, a number or a bracket after it"
        if function_open or last == "√":
            return _function()
        if depth > 0:
            return "a bracket is opened and not closed", "write ) where it ends"
        if bars % 2:
            return (
                "a magnitude is opened with | and not closed",
                "write | where it ends; magnitudes do not nest",
            )
        return "a formula needs an equals sign", "write what is found, =, and what it equals"
    if here == "=":
        if not before:
            return "the formula has no left side", "write what is found before ="
        if "=" in before:
            return "a formula has one equals sign, and here is a second", "write a list of two formulas"
        if function_open or last == "√":
            return _function()
        if depth > 0:
            return "a bracket is opened and not closed", "write ) before the equals sign"
        if start == "expression":
            return "an equals sign can not stand in an expression", "write one side only"
        return "something is missing after the sign", "write a name, a number or a bracket after it"
    if here == ")":
        if last == "(":
            return "brackets are empty", "write something between them"
        if last and last in "+-−*/·×^÷⋅±∓=":
            return "something is missing after the sign", "write a name, a number or a bracket after it"
        if depth <= 0:
            return "a bracket is closed that was not opened", "write ( where it begins"
        if function_open:
            return _function()
    if here and here in "+-−*/·×^÷⋅±∓":
        if function_open:
            return _function()
        if last and last in "+-−*/·×^÷⋅±∓=(":
            return "two signs follow each other", "keep one, or put the signed part in brackets"
        if not before:
            return "a formula can not begin with this sign", ""
    if here == "," or here == ";":
        return (
            "a comma can not stand here",
            "a decimal comma stands between digits; formulas of a set are a list",
        )
    if here == "|" and bars % 2:
        return "a magnitude is opened with | and not closed", "write | where it ends; magnitudes do not nest"
    if here == "_":
        return _subscript(value[place + 1 :], value[:place])
    if here in ("{", "}"):
        return "braces stand only in a subscript", "write round brackets: x^(1/2)"
    if here == "\\":
        return "a formula holds no backslash", "write it plainly: (a + b) / c, sqrt(x), θ or theta"
    if here == "$":
        return (
            "a formula holds no dollar sign",
            "write it plainly, without mathematics of TeX: 14 kg, v_i, 10^-6",
        )
    if here and here in "½⅓⅔¼¾":
        return "a formula holds no such fraction", "write it with a solidus: 1/2"
    if here == "%":
        return "a formula holds no %", "leave × 100 % out: find: η in % gives the percentage"
    if here and here in "–—‐‑":
        return "there is a dash here that is no minus sign", 'for minus write "-" or "−"'
    return (
        "there is a character here that no formula holds"
        if here and not here.isalnum() and here not in "()[]|.'"
        else "the formula can not be read from here on",
        "a formula holds names, numbers, + − * / ^, brackets and the listed functions",
    )


def _subscript(after: str, before: str) -> tuple[str, str]:
    run = re.search(r"[\w{},()']*$", before)
    if run is None or not any(character.isalpha() for character in run[0]):
        return "a name begins with a letter", "write the letters first: F_a"
    if after.startswith("{") and "}" not in after:
        return "the braces of a subscript are opened and not closed", "write } where it ends: v_{i,x}"
    if not after[:1].strip() or after.startswith("{}"):
        return "a subscript is missing after _", "write what stands below: F_a, v_{i,x}"
    return "a name has one subscript", "put the whole subscript in braces: v_{i,x}"


def _function() -> tuple[str, str]:
    return (
        "a function stands alone: it takes a bracket or the one name or number that follows",
        "write sin(θ) or sin θ",
    )
