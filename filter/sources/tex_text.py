"""Inline TeX maths of the kind that a typed value holds, flattened: `10^{-6}` to `10^-6`."""

from __future__ import annotations

import re

_GREEK = {
    "alpha": "α", "beta": "β", "gamma": "γ", "delta": "δ", "epsilon": "ε", "varepsilon": "ε", "zeta": "ζ",
    "eta": "η", "theta": "θ", "vartheta": "θ", "kappa": "κ", "lambda": "λ", "mu": "µ", "nu": "ν", "xi": "ξ",
    "pi": "π", "rho": "ρ", "sigma": "σ", "tau": "τ", "phi": "φ", "varphi": "φ", "chi": "χ", "psi": "ψ",
    "omega": "ω", "Gamma": "Γ", "Delta": "Δ", "Theta": "Θ", "Lambda": "Λ", "Xi": "Ξ", "Pi": "Π", "Sigma": "Σ",
    "Phi": "Φ", "Psi": "Ψ", "Omega": "Ω",
}  # fmt: skip
_SIGNS = {
    "times": " × ", "cdot": "·", "pm": "±", "mp": "∓", "circ": "°", "degree": "°", "ohm": "Ω", "micro": "µ",
    "quad": " ", "qquad": " ", ",": " ", ";": " ", ":": " ", " ": " ", "!": "", "left": "", "right": "",
    "displaystyle": "", "textstyle": "", "%": "%", "approx": "≈", "sqrt": "√", "prime": "′",
}  # fmt: skip
#: Commands whose braces hold what is to be read, and nothing more.
_WRAPPERS = frozenset(
    {"text", "mathrm", "textrm", "rm", "mathit", "mathbf", "mbox", "operatorname", "mathsf", "hbox"}
)
_TOKEN = re.compile(r"\\([A-Za-z]+)\s*|\\(.)|(\s+)|(.)", re.DOTALL)

#: Longer maths is no typed value; it is returned as it stands.
_LONGEST = 2000


#: Where letters stand upright, commands, and the letters that are quantities.
_LETTERS = re.compile(
    r"(\\(?:text|mathrm|textrm|mbox|operatorname|mathsf|hbox)\s*\{(?:[^{}]|\{[^{}]*\})*\})|\\[A-Za-z]+|\\.|([A-Za-z]+)",
    re.DOTALL,
)


def upright_text(tex: str) -> str:
    """The same, with the sign U+FFFC for each run of italic letters: they are quantities, and no units."""
    if len(tex) > _LONGEST:
        return "\ufffc"
    return tex_text(_LETTERS.sub(lambda found: "\ufffc" if found[2] else found[0], tex))


def tex_text(tex: str) -> str:
    """The plain text of TeX maths; what is not known is left as it was typed."""
    if len(tex) > _LONGEST:
        return tex
    tokens = list(_TOKEN.finditer(tex))
    words = [match[1] or match[2] or "" for match in tokens]
    return " ".join(_Flattened(tokens, words).until_end(0, 0)[0].split())


class _Flattened:
    def __init__(self, tokens: list[re.Match[str]], words: list[str]) -> None:
        self.tokens = tokens
        self.words = words

    def until_end(self, at: int, depth: int) -> tuple[str, int]:
        """The text from token `at` to the brace that closes its group, and the token after that."""
        text = ""
        while at < len(self.tokens):
            if self.tokens[at][4] == "}":
                return text, at + 1
            piece, at = self.one(at, depth)
            text += piece
        return text, at

    def one(self, at: int, depth: int) -> tuple[str, int]:
        if at >= len(self.tokens):
            return "", at
        token, word = self.tokens[at], self.words[at]
        if token[3] is not None:
            # Maths drops blanks; only those of \text would count, and the number and unit reader forgive.
            return " ", at + 1
        if word in {"frac", "dfrac", "tfrac"}:
            top, at = self.one(at + 1, depth + 1)
            bottom, at = self.one(at, depth + 1)
            return f"{_bracketed(top)}/{_bracketed(bottom)}", at
        if word in _WRAPPERS:
            return "", at + 1
        if word:
            return _GREEK.get(word, _SIGNS.get(word, token.group())), at + 1
        sign = token[4]
        if sign == "{" and depth < 50:
            return self.until_end(at + 1, depth + 1)
        if sign in {"^", "_"}:
            body, at = self.one(at + 1, depth + 1)
            return script(sign, body.strip()), at
        return ("" if sign in "{}" else " " if sign == "~" else sign), at + 1


def script(sign: str, body: str) -> str:
    """A raised or lowered text on one line: `^2`, `_{net}`, `^(n+1)`."""
    if sign == "^" and body in {"°", "′"}:
        return body
    if re.fullmatch(r"[+\-−]?\w+", body):
        return sign + body
    return sign + ("(" + body + ")" if sign == "^" else "{" + body + "}")


def _bracketed(text: str) -> str:
    return text if re.fullmatch(r"[\w.,]*", text) else f"({text})"
