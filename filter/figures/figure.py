"""A figure ready for a page: its picture, its key, and its description."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from physcalc.checking.scope import Datum
from physcalc.language import Conventions

from .picture import LABEL_SIZE, SMALLEST_SIZE, Box, Circle, Label, Line, Picture, Run


@dataclass(frozen=True, slots=True)
class Look:
    """How figures of a document look.

    Attributes:
        lang: the document's language tag.
        edition: "paper", "memo" or "guide".
        value: the text of a datum's value, with its unit, in the document's numbers.
        conventions: the settings in force at the figure.
        choice: "drawn" for the figure itself; of a graph in a paper "grid" or "axes".
    """

    lang: str
    edition: str
    value: Callable[[Datum], str]
    conventions: Conventions
    choice: str = "drawn"


@dataclass(frozen=True, slots=True)
class KeyRow:
    """A row of the key: what a label in the picture stands for.

    Attributes:
        label: the label.
        meaning: what it is.
    """

    label: tuple[Run, ...]
    meaning: str


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure.

    Attributes:
        picture: what is drawn.
        alternative: what it shows, in words made from the data.
        key: what its labels stand for; empty for none.
        note: a line below it ("Scale: 1 cm for 10 N"); empty for none. Pieces where it names quantities.
    """

    picture: Picture
    alternative: str
    key: tuple[KeyRow, ...] = ()
    note: str | tuple[Run, ...] = ""


def fitted(picture: Picture, width: float) -> Picture:
    """The picture drawn larger or smaller to a width in millimetres; its letters shrink no further than can be read.

    Args:
        picture: the picture.
        width: how wide it is to be.
    """
    scale = width / picture.box.width
    size = max(min(1.0, scale), SMALLEST_SIZE / LABEL_SIZE)

    def moved(point: tuple[float, float]) -> tuple[float, float]:
        return point[0] * scale, point[1] * scale

    shapes: list[Line | Circle | Label] = []
    for shape in picture.shapes:
        match shape:
            case Line():
                shapes.append(replace(shape, points=tuple(map(moved, shape.points))))
            case Circle():
                shapes.append(replace(shape, centre=moved(shape.centre), radius=shape.radius * scale))
            case Label():
                shapes.append(replace(shape, at=moved(shape.at), size=max(shape.size * size, SMALLEST_SIZE)))
    box = picture.box
    return Picture(tuple(shapes), Box(*(side * scale for side in (box.left, box.bottom, box.right, box.top))))
