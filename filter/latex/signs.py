"""Signs that the fonts of some TeX engine lack, as what every engine sets."""

from __future__ import annotations

#: The same signs as in `editions/layouts/signs.tex`, and the letters of formulas in words.
_SIGNS = {
    "⁰": "{}^0", "¹": "{}^1", "²": "{}^2", "³": "{}^3", "⁴": "{}^4", "⁵": "{}^5", "⁶": "{}^6", "⁷": "{}^7",
    "⁸": "{}^8", "⁹": "{}^9", "⁻": "{}^-", "−": "-", "·": "{\\cdot}", "×": "\\times", "°": "{}^\\circ",
    "±": "\\pm", "≈": "\\approx", "≤": "\\le", "≥": "\\ge", "≠": "\\ne", "→": "\\to", "⇒": "\\Rightarrow",
    "√": "\\surd", "∝": "\\propto", "′": "{}'", "∞": "\\infty", "⊥": "\\perp", "∥": "\\parallel", "∠": "\\angle",
    "½": "\\frac12", "¼": "\\frac14", "¾": "\\frac34",
    "α": "\\alpha", "β": "\\beta", "γ": "\\gamma", "δ": "\\delta", "ε": "\\varepsilon", "ζ": "\\zeta",
    "η": "\\eta", "θ": "\\theta", "κ": "\\kappa", "λ": "\\lambda", "µ": "\\mu", "μ": "\\mu", "ν": "\\nu",
    "ξ": "\\xi", "π": "\\pi", "ρ": "\\rho", "σ": "\\sigma", "τ": "\\tau", "φ": "\\varphi", "χ": "\\chi",
    "ψ": "\\psi", "ω": "\\omega", "Γ": "\\Gamma", "Δ": "\\Delta", "Θ": "\\Theta", "Λ": "\\Lambda", "Ξ": "\\Xi",
    "Π": "\\Pi", "Σ": "\\Sigma", "Φ": "\\Phi", "Ψ": "\\Psi", "Ω": "\\Omega",
    "\u2126": "\\Omega",
}  # fmt: skip
_BLANKS = {"\u202f": "\\nobreak\\hspace{0.167em}", "\u2009": "\\hspace{0.167em}", "\u200b": "", "\ufeff": ""}
_TABLE = str.maketrans(
    {sign: f"\\ensuremath{{{tex}}}" for sign, tex in _SIGNS.items()} | _BLANKS | {"✓": "\\pctick{}"}
)


def plain_signs(tex: str) -> str:
    """TeX that any engine sets, whatever the fonts."""
    return tex.translate(_TABLE)
