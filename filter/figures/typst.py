"""A picture as Typst markup: lines of its own, letters in the font of the page."""

from __future__ import annotations

import re
from collections.abc import Sequence

from .letters import LOWERED, RAISED, SCRIPT
from .picture import WIDEST, Circle, Label, Line, Pen, Picture, Run

_MARKUP = re.compile(r"[!-/:-@\[-`{-~]")
#: Small Greek letters, each with the slanted one of mathematics (Unicode 15.1, chart 1D400).
_GREEK = {chr(0x3B1 + n): chr(0x1D6FC + n) for n in range(25)}
_CONTROL = re.compile(r"[\x00-\x1f\x7f-\x9f\u2028\u2029\ufffe\uffff]+")
_ANCHORS = {"start": "left", "middle": "center", "end": "right"}
_DASHES = {"dashed": "(1.6mm, 1.1mm)", "dotted": "(0.25mm, 0.9mm)"}


def typst(picture: Picture, alternative: str) -> str:
    """The picture as a Typst expression, to stand after `#`.

    Args:
        picture: the picture.
        alternative: what it shows, in words, for those who do not see it.
    """
    box = picture.box
    out = [
        f"figure(alt: {string(alternative)}, outlined: false, box(width: {box.width:.2f}mm, "
        f"height: {box.height:.2f}mm, {{\n"
        'set text(top-edge: "cap-height", bottom-edge: "baseline", hyphenate: false)\n'
    ]
    for shape in picture.strokes():
        match shape:
            case tuple():
                out.append(_lines(shape, box.left, box.top))
            case Circle():
                x, y = shape.centre[0] - box.left - shape.radius, box.top - shape.centre[1] - shape.radius
                out.append(
                    f"place(dx: {x:.2f}mm, dy: {y:.2f}mm, circle(radius: {shape.radius:.2f}mm, "
                    f"fill: {_fill(shape.fill)}, stroke: {_stroke(shape.pen)}))"
                )
            case Label():
                out.append(_label(shape, box.left, box.top))
    return "\n".join([*out, "}))"])


def string(text: str) -> str:
    """Text as a Typst string literal, quotes included."""
    plain = _CONTROL.sub(" ", text).encode("utf-8", "replace").decode("utf-8")
    return '"' + plain.replace("\\", "\\\\").replace('"', '\\"') + '"'


def _fill(fill: float | None) -> str:
    return "none" if fill is None else f"luma({100 * fill:.0f}%)"


def _stroke(pen: Pen | None) -> str:
    if pen is None:
        return "none"
    dash = f", dash: {_DASHES[pen.dash]}" if pen.dash else ""
    paint = f"paint: luma({100 * pen.grey:.0f}%)"
    return f'({paint}, thickness: {pen.width:.2f}mm, cap: "round", join: "round"{dash})'


def _lines(lines: Sequence[Line], left: float, top: float) -> str:
    pieces: list[str] = []
    for line in lines:
        points = [f"({x - left:.2f}mm,{top - y:.2f}mm)" for x, y in line.points]
        pieces += [f"curve.move({points[0]})", *(f"curve.line({point})" for point in points[1:])]
        if line.closed:
            pieces.append('curve.close(mode: "straight")')
    first = lines[0]
    return f"place(curve(fill: {_fill(first.fill)}, stroke: {_stroke(first.pen)}, {','.join(pieces)}))"


def _label(label: Label, left: float, top: float) -> str:
    x, y = label.at[0] - left, top - label.at[1]
    words = "".join(_run(run, label.size) for run in label.runs)
    anchor = _ANCHORS[label.anchor]
    # In a box that is wide enough for any label, so that none is broken into lines.
    text = f"box(width: {2 * WIDEST:g}mm, align({anchor}, text(size: {label.size:g}pt)[{words}]))"
    if label.turned:
        # Turned about where its line of writing begins, ends or has its middle, which is where it is placed.
        text = f"rotate(-90deg, origin: {anchor} + bottom, {text})"
    return (
        f"place(dx: {x:.2f}mm, dy: {y:.2f}mm, box(width: 0pt, height: 0pt, place({anchor} + bottom, {text})))"
    )


def _run(run: Run, size: float) -> str:
    text = _MARKUP.sub(r"\\\g<0>", _CONTROL.sub(" ", run.text))
    if run.slant and run.text in _GREEK:
        # As in formulas: the slanted letters of the text's font are others (ϵ for ε).
        text = f'#text(font: "New Computer Modern Math")[{_GREEK[run.text]}]'
    elif run.slant:
        text = f"#emph[{text}]"
    if run.level:
        shift = {-1: LOWERED, 1: -RAISED}[run.level] * size
        text = f"#text(size: {SCRIPT * size:.2f}pt, baseline: {shift:.2f}pt)[{text}]"
    return text
