"""TeX of a working line as an output format needs it: cut where a line may be broken, or measured.

The TeX comes from physcalc's renderer. Nothing here interprets it further than its brackets.
"""

from __future__ import annotations

import re
from functools import lru_cache

#: A line is asked for its width and its pieces again and again while its columns are found.
_REMEMBERED = 2048

_TOKEN = re.compile(r"\\[A-Za-z]+\s*|\\.|.", re.DOTALL)

#: A sign after one of these is no operator but belongs to the number that follows.
_BEFORE_SIGN = frozenset(
    {"", "=", "<", ">", "\\times", "\\cdot", "\\approx", "\\le", "\\ge", "(", "+", "-", "/"}
)

#: The pieces after which a line may end.
SIGNS = frozenset(("+", "-", "=", "\\pm", "\\mp"))


def cut_at_operators(tex: str) -> list[str]:
    """The pieces between which a line may be broken: each `+`, `-` or `=` outside every bracket stands alone.

    `a + b` gives `["a", "+", "b"]`; signs that belong to a number, and signs inside braces, brackets or
    `\\left … \\right`, are left where they are. Joined again the pieces are the TeX that was given, but
    for blanks.
    """
    return list(_cut(tex))


@lru_cache(maxsize=_REMEMBERED)
def _cut(tex: str) -> tuple[str, ...]:
    pieces: list[str] = []
    current = ""
    depth = 0
    before = ""
    for match in _TOKEN.finditer(tex):
        token = match.group()
        word = token.strip()
        if word in ("{", "(", "[", "\\left", "\\{"):
            # \left and the bracket after it open twice, \right and its bracket close twice: it comes out
            # even for \left( … \right), and for \left| … \right| as well.
            depth += 1
        elif word in ("}", ")", "]", "\\right", "\\}"):
            depth = max(0, depth - 1)
        operator = word != "=" and word in SIGNS and before not in _BEFORE_SIGN
        if depth == 0 and (operator or (word == "=" and before != "")):
            pieces += [current.strip(), word]
            current = ""
        else:
            current += token
        if word:
            before = word
    pieces.append(current.strip())
    return tuple(piece for piece in pieces if piece)


#: A piece of more letters than this may be broken between its brackets as well.
_WIDEST_PIECE = 24.0


def pieces_of(tex: str) -> list[str]:
    """The pieces of a formula for a line that may have to break: between signs, and in long products between
    brackets, `(a)(b)`. A sign of `SIGNS` is a piece of its own.
    """
    pieces: list[str] = []
    for piece in cut_at_operators(tex):
        pieces += _factors(piece) if width(piece) > _WIDEST_PIECE else [piece]
    return pieces


def _factors(tex: str) -> list[str]:
    factors: list[str] = []
    start = 0
    depth = 0
    before = ""
    for match in _TOKEN.finditer(tex):
        word = match.group().strip()
        opens = word in ("(", "\\left") and before == ")"
        if opens and depth == 0:
            factors.append(tex[start : match.start()])
            start = match.start()
        if word in ("{", "(", "[", "\\left", "\\{"):
            depth += 1
        elif word in ("}", ")", "]", "\\right", "\\}"):
            depth = max(0, depth - 1)
        before = word or before
    return [*factors, tex[start:]]


@lru_cache(maxsize=_REMEMBERED)
def width(tex: str) -> float:
    """A rough width of a formula in letters, to choose columns by; a fraction counts its wider part."""
    parsed, _ = _measure(tex, 0)
    return parsed


def _group(tex: str, at: int) -> tuple[str, int]:
    """The braced group (or single sign) at `at`, and where it ends."""
    while at < len(tex) and tex[at].isspace():
        at += 1
    if at >= len(tex):
        return "", at
    if tex[at] != "{":
        match = _TOKEN.match(tex, at)
        return (match.group(), match.end()) if match else ("", at)
    depth = 0
    for end in range(at, len(tex)):
        if tex[end] == "\\":
            continue
        if tex[end] == "{" and (end == 0 or tex[end - 1] != "\\"):
            depth += 1
        elif tex[end] == "}" and tex[end - 1] != "\\":
            depth -= 1
            if depth == 0:
                return tex[at + 1 : end], end + 1
    return tex[at + 1 :], len(tex)


def _measure(tex: str, nesting: int) -> tuple[float, int]:
    total = 0.0
    at = 0
    if nesting > 40:
        return float(len(tex)), len(tex)
    while at < len(tex):
        match = _TOKEN.match(tex, at)
        if match is None:
            break
        token = match.group().strip()
        at = match.end()
        if token in ("\\frac", "\\dfrac", "\\tfrac"):
            top, at = _group(tex, at)
            bottom, at = _group(tex, at)
            total += max(_measure(top, nesting + 1)[0], _measure(bottom, nesting + 1)[0]) + 0.5
        elif token in ("^", "_"):
            script, at = _group(tex, at)
            total += 0.7 * _measure(script, nesting + 1)[0]
        elif token in ("\\text", "\\mathrm", "\\sqrt", "\\operatorname", "\\mathit"):
            body, at = _group(tex, at)
            inner = len(body) * 0.9 if token != "\\sqrt" else _measure(body, nesting + 1)[0] + 1
            total += inner
        elif token in ("\\,", "\\;", "\\:", "\\!", "\\ ", "\\quad", "\\left", "\\right", "{", "}", ""):
            total += 0.3 if token.startswith("\\") and token not in ("\\left", "\\right") else 0.0
        elif token in ("+", "-", "=", "\\times", "\\cdot", "\\pm", "\\mp", "\\approx"):
            total += 1.8
        elif token.startswith("\\") and len(token) > 2 and token[1:] in ("sin", "cos", "tan", "log", "exp"):
            total += 2.5
        else:
            total += 1.0
    return total, at


_RAISED = re.compile(r"[⁻⁰¹²³⁴-⁹]+")
_LEVEL = str.maketrans("⁻⁰¹²³⁴⁵⁶⁷⁸⁹", "-0123456789")


def with_raised_figures(tex: str) -> str:
    r"""The same TeX with the raised figures of units as true powers: `\text{m·s⁻²}` is `\text{m·s}^{-2}`.

    Few fonts have a raised minus that is of a size with their other powers, and some have none.
    """

    def text(match: re.Match[str]) -> str:
        made = ""
        at = 0
        for raised in _RAISED.finditer(match[1]):
            made += rf"\text{{{match[1][at : raised.start()]}}}^{{{raised.group().translate(_LEVEL)}}}"
            at = raised.end()
        rest = match[1][at:]
        return made + (rf"\text{{{rest}}}" if rest or not at else "")

    return re.sub(r"\\text\{([^{}\\]*)\}(?!\s*\^)", text, tex)


_WORDS = frozenset(("\\text", "\\mathrm", "\\operatorname", "\\textbf", "\\textit"))


def with_paired_brackets(tex: str) -> str:
    r"""The same TeX with `(…)` written `\left(…\right)` where both ends lie in one group; words stay as they are."""
    tokens = [match.group() for match in _TOKEN.finditer(tex)]
    opened: list[list[int]] = [[]]
    before = ""
    #: How many groups lie around a token inside `\text{…}`; 0 outside of it.
    words = 0
    for at, token in enumerate(tokens):
        word = token.strip()
        if words or (word == "{" and before in _WORDS):
            words += (word == "{") - (word == "}")
        elif word == "{":
            opened.append([])
        elif word == "}" and len(opened) > 1:
            opened.pop()
        elif word == "(" and before != "\\left":
            opened[-1].append(at)
        elif word == ")" and before != "\\right" and opened[-1]:
            tokens[opened[-1].pop()] = r"\left("
            tokens[at] = r"\right)"
        before = word or before
    return "".join(tokens)


_FUNCTIONS = frozenset(
    ("\\sin", "\\cos", "\\tan", "\\arcsin", "\\arccos", "\\arctan", "\\exp", "\\ln", "\\log")
)
_OPENING = frozenset(
    ("", "{", "(", "[", "\\,", "\\ ", "\\left", "\\cdot", "\\times", "+", "-", "=", "&", "^", "_")
)


@lru_cache(maxsize=_REMEMBERED)
def with_spaced_functions(tex: str) -> str:
    r"""The same TeX with thin blanks around `\cos` and its like, as TeX itself sets them: `m g\,\cos\,12`.

    MathML and Word's equations have no such rule of their own.
    """
    made = ""
    before = ""
    after_function = False
    for match in _TOKEN.finditer(tex):
        token = match.group()
        word = token.strip()
        if after_function and word and word not in ("(", "\\left", "^", "_", "\\,", "{", "\\limits"):
            made = made.rstrip() + "\\,"
        if word in _FUNCTIONS and before not in _OPENING:
            made = made.rstrip() + "\\,"
        made += token
        if word:
            after_function = word in _FUNCTIONS
            before = word
    return made
