"""A picture as TikZ for LaTeX: lines of its own, letters in the font of the page."""

from __future__ import annotations

from .picture import Circle, Label, Line, Pen, Picture, Run

_ANCHORS = {"start": "base west", "middle": "base", "end": "base east"}
_DASHES = {"dashed": "on 1.6mm off 1.1mm", "dotted": "on 0.25mm off 0.9mm"}
_GREEK = {
    "α": "alpha", "β": "beta", "γ": "gamma", "δ": "delta", "ε": "varepsilon", "ζ": "zeta", "η": "eta", "θ": "theta",
    "ι": "iota", "κ": "kappa", "λ": "lambda", "μ": "mu", "ν": "nu", "ξ": "xi", "π": "pi", "ρ": "rho", "σ": "sigma",
    "τ": "tau", "υ": "upsilon", "φ": "phi", "χ": "chi", "ψ": "psi", "ω": "omega", "Γ": "Gamma", "Δ": "Delta",
    "Θ": "Theta", "Λ": "Lambda", "Ξ": "Xi", "Π": "Pi", "Σ": "Sigma", "Υ": "Upsilon", "Φ": "Phi", "Ψ": "Psi",
    "Ω": "Omega",
}  # fmt: skip
_SIGNS = {
    "\\": r"\textbackslash{}", "{": r"\{", "}": r"\}", "$": r"\$", "&": r"\&", "#": r"\#", "%": r"\%", "_": r"\_",
    "^": r"\textasciicircum{}", "~": r"\textasciitilde{}", "<": r"\(<\)", ">": r"\(>\)", "|": r"\textbar{}",
    '"': r"\textquotedbl{}", "\u00a0": "~", "\u202f": r"\,", "\u2009": r"\,", "\u200a": r"\,", "−": r"\(-\)",
    "×": r"\(\times\)", "·": r"\(\cdot\)", "°": r"\(^\circ\)", "±": r"\(\pm\)", "∓": r"\(\mp\)", "′": r"\('\)",
    "µ": r"\(\mu\)", "≈": r"\(\approx\)", "→": r"\(\to\)", "∞": r"\(\infty\)", "≤": r"\(\le\)", "≥": r"\(\ge\)",
    "ℓ": r"\(\ell\)", "+": r"\(+\)", "=": r"\(=\)", "-": "{-}", "`": r"\textasciigrave{}",
    "'": r"\textquotesingle{}", "∥": r"\(\parallel\)", "⊥": r"\(\perp\)", "√": r"\(\surd\)",
    **{letter: rf"\(\{name}\)" for letter, name in _GREEK.items()},
}  # fmt: skip


def tikz(picture: Picture, alternative: str) -> str:
    """The picture as a TikZ environment.

    Args:
        picture: the picture.
        alternative: what it shows, in words, for those who do not see it.
    """
    box = picture.box
    words = " ".join(alternative.split()).replace("%", "").replace("\\", "/")
    out = [
        f"% {words}",
        r"\begin{tikzpicture}[x=1mm,y=1mm,line cap=round,line join=round,inner sep=0pt,outer sep=0pt,"
        r"baseline={([yshift=-2ex]current bounding box.north)}]",
        f"\\useasboundingbox ({box.left:.2f},{box.bottom:.2f}) rectangle ({box.right:.2f},{box.top:.2f});",
    ]
    for shape in picture.shapes:
        match shape:
            case Line():
                # TeX holds a line of its source in a buffer of bounded length, so each point has its own line.
                path = "\n-- ".join(f"({x:.2f},{y:.2f})" for x, y in shape.points)
                out.append(
                    f"\\path[{_style(shape.pen, shape.fill)}] {path}{' -- cycle' if shape.closed else ''};"
                )
            case Circle():
                x, y = shape.centre
                style = _style(shape.pen, shape.fill)
                out.append(f"\\path[{style}] ({x:.2f},{y:.2f}) circle[radius={shape.radius:.2f}mm];")
            case Label():
                x, y = shape.at
                turn = ",rotate=90" if shape.turned else ""
                size = f"\\fontsize{{{shape.size:g}}}{{{1.2 * shape.size:g}}}\\selectfont"
                runs = "".join(map(_run, shape.runs))
                out.append(
                    f"\\node[anchor={_ANCHORS[shape.anchor]}{turn}] at ({x:.2f},{y:.2f}) {{{size} {runs}}};"
                )
    return "\n".join([*out, r"\end{tikzpicture}"])


def _style(pen: Pen | None, fill: float | None) -> str:
    parts = [] if fill is None else [f"fill={_shade(fill)}"]
    if pen is not None:
        parts += [f"draw={_shade(pen.grey)}", f"line width={pen.width:.2f}mm"]
        parts += [f"dash pattern={_DASHES[pen.dash]}"] if pen.dash else []
    return ",".join(parts)


def _shade(grey: float) -> str:
    return "black" if grey <= 0 else "white" if grey >= 1 else f"black!{100 - 100 * grey:.0f}"


def _run(run: Run) -> str:
    plain = " ".join(run.text.split(" ")).encode("utf-8", "replace").decode("utf-8")
    text = "".join(_SIGNS.get(sign, sign if sign.isprintable() else " ") for sign in plain)
    if run.slant:
        text = rf"\textit{{{text}}}"
    if run.level:
        text = rf"\textsubscript{{{text}}}" if run.level < 0 else rf"\textsuperscript{{{text}}}"
    return text
