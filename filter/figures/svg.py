"""A picture as SVG for HTML, EPUB and readers of Markdown: letters stay letters, lines take the colour of the text."""

from __future__ import annotations

import html
import re

from .letters import LOWERED, RAISED, SCRIPT
from .picture import POINT, Circle, Label, Pen, Picture, Run

#: The dashes of a pen, in millimetres.
DASHES = {"": "", "dashed": "1.6 1.1", "dotted": "0.25 0.9"}
_FONTS = "'New Computer Modern','Latin Modern Roman','STIX Two Text','Libertinus Serif',Cambria,Georgia,serif"
_CONTROL = re.compile(r"[\x00-\x1f\x7f-\x9f\u2028\u2029\ufffe\uffff]+")


def svg(picture: Picture, alternative: str, *, alone: bool = False) -> str:
    """The picture as an SVG element.

    Args:
        picture: the picture.
        alternative: what it shows, in words, for those who do not see it.
        alone: whether it is a file of its own; in a page its colour is that of the text around it.
    """
    box = picture.box
    ink = "#000" if alone else "currentColor"
    words = _escaped(alternative)
    out = [
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="{words}" '
        f'width="{box.width:.2f}mm" height="{box.height:.2f}mm" viewBox="0 0 {box.width:.2f} {box.height:.2f}" '
        f'font-family="{_FONTS}" fill="none" stroke-linejoin="round" stroke-linecap="round">',
        f"<title>{words}</title>",
    ]
    for shape in picture.strokes():
        match shape:
            case tuple():
                path = "".join(
                    "M"
                    + " ".join(f"{x - box.left:.2f},{box.top - y:.2f}" for x, y in line.points)
                    + ("Z" if line.closed else "")
                    for line in shape
                )
                out.append(f'<path d="{path}"{_style(shape[0].pen, shape[0].fill, ink)}/>')
            case Circle():
                x, y = shape.centre
                out.append(
                    f'<circle cx="{x - box.left:.2f}" cy="{box.top - y:.2f}" r="{shape.radius:.2f}"'
                    f"{_style(shape.pen, shape.fill, ink)}/>"
                )
            case Label():
                out.append(_label(shape, box.left, box.top, ink))
    return "".join([*out, "</svg>"])


def _escaped(text: str) -> str:
    return html.escape(_CONTROL.sub(" ", text).encode("utf-8", "replace").decode("utf-8"), quote=True)


def _shade(grey: float, ink: str, stroke: str) -> str:
    if grey >= 1:
        # White is the paper: what lies below is hidden by it, on a dark page as well.
        return f' {stroke}="{"#fff" if ink != "currentColor" else "Canvas"}"'
    faint = f' {stroke}-opacity="{1 - grey:.2f}"' if grey else ""
    return f' {stroke}="{ink}"{faint}'


def _style(pen: Pen | None, fill: float | None, ink: str) -> str:
    out = "" if fill is None else _shade(fill, ink, "fill")
    if pen is not None:
        out += _shade(pen.grey, ink, "stroke") + f' stroke-width="{pen.width:.2f}"'
        out += f' stroke-dasharray="{DASHES[pen.dash]}"' if pen.dash else ""
    return out


def _label(label: Label, left: float, top: float, ink: str) -> str:
    x, y = label.at[0] - left, top - label.at[1]
    size = label.size * POINT
    turn = f' transform="rotate(-90 {x:.2f} {y:.2f})"' if label.turned else ""
    return (
        f'<text x="{x:.2f}" y="{y:.2f}" font-size="{size:.2f}" text-anchor="{label.anchor}" fill="{ink}"'
        f' xml:space="preserve"{turn}>{_runs(label.runs, size)}</text>'
    )


def _runs(runs: tuple[Run, ...], size: float) -> str:
    out, height = "", 0.0
    for run in runs:
        wanted = {0: 0.0, -1: LOWERED * size, 1: -RAISED * size}[run.level]
        style = f' dy="{wanted - height:.2f}"' if abs(wanted - height) > 1e-9 else ""
        style += f' font-size="{SCRIPT * size:.2f}"' if run.level else ""
        style += ' font-style="italic"' if run.slant else ""
        text = _escaped(run.text)
        out += f"<tspan{style}>{text}</tspan>" if style else text
        height = wanted
    return out
