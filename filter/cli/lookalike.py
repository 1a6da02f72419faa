"""Text for a stream whose encoding lacks some of its characters, as that of a pipe on Windows does.

What an author would type stands for them: `s^-2` for s⁻², `x` for ×, `theta` for θ.
"""

from __future__ import annotations

import io
import re
import unicodedata

from physcalc.language.names import GREEK

_LIKE = {
    "·": ".", "×": "x", "−": "-", "–": "-", "—": "-", "‑": "-", "÷": "/", "±": "+-", "∓": "-+", "√": "sqrt", "∞": "inf",
    "≤": "<=", "≥": ">=", "≠": "!=", "≈": "~", "→": "->", "←": "<-", "↔": "<->", "⇒": "=>", "…": "...",
    "‘": "'", "’": "'", "‚": "'", "“": '"', "”": '"', "„": '"', "«": '"', "»": '"', "′": "'", "″": '"', "‴": "'''",
    "✓": "v", "•": "*", "─": "-", "│": "|", "├": "|", "└": "`", "Ω": "ohm", "µ": "u", "μ": "u", "°": "deg", "ℓ": "l",
    "Δ": "Delta_", "⊥": "perp", "∥": "par", "€": "EUR", "£": "GBP",
} | {letter: name for name, letter in GREEK.items() if letter not in "μΔΩ" and not name.startswith("var")}  # fmt: skip
#: A power as a whole: a part of it as it is and another replaced would be read as something else.
_RAISED = re.compile("[⁺⁻]?[⁰¹²³⁴⁵⁶⁷⁸⁹]+|[⁺⁻]")


class Fitted(io.TextIOWrapper):
    """A stream that takes any text."""

    def write(self, text: str) -> int:
        """Writes what is like `text` where the encoding lacks a character of it."""
        try:
            text.encode(self.encoding)
        except UnicodeEncodeError:
            text = like(text, self.encoding)
        return super().write(text)


def like(text: str, encoding: str) -> str:
    """The text with what stands for characters that an encoding lacks; a question mark where nothing looks like one."""

    def fits(piece: str) -> bool:
        try:
            piece.encode(encoding)
        except UnicodeEncodeError:
            return False
        return True

    def power(found: re.Match[str]) -> str:
        plain = unicodedata.normalize("NFKD", found[0]).replace("\u2212", "-")
        return found[0] if fits(found[0]) else "^" + plain

    return "".join(one if fits(one) else _alike(one) for one in _RAISED.sub(power, text))


def _alike(character: str) -> str:
    if character in _LIKE:
        return _LIKE[character]
    if character.isspace():
        return " "
    return unicodedata.normalize("NFKD", character).encode("ascii", "ignore").decode() or "?"
