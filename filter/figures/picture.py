"""What a picture is made of: lines, circles and labels, in millimetres, y upwards."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

#: A place in millimetres: to the right, upwards.
Point = tuple[float, float]
Dash = Literal["", "dashed", "dotted"]

#: Millimetres in a point of type.
POINT = 25.4 / 72
#: The size of labels in points, and the smallest at which a photocopy can be read.
LABEL_SIZE = 10.0
SMALLEST_SIZE = 8.0
#: The widest picture that a page's text holds.
WIDEST = 150.0


@dataclass(frozen=True, slots=True)
class Pen:
    """How a line is drawn.

    Attributes:
        width: in millimetres.
        dash: unbroken, dashed or dotted.
        grey: 0 for black, 1 for white.
    """

    width: float = 0.3
    dash: Dash = ""
    grey: float = 0.0


INK = Pen()
BOLD = Pen(0.5)
FINE = Pen(0.18)
DASHED = Pen(0.22, "dashed")


@dataclass(frozen=True, slots=True)
class Line:
    """A line through points, or an area.

    Attributes:
        points: two or more.
        pen: how it is drawn; None for an area without an edge.
        closed: whether it ends where it begins.
        fill: the grey of the area inside; None for none.
        role: what it is, for tests and for what lies near it: "arrow F_g", "axis x", "wire"; may be empty.
    """

    points: tuple[Point, ...]
    pen: Pen | None = INK
    closed: bool = False
    fill: float | None = None
    role: str = ""


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle.

    Attributes:
        centre, radius: in millimetres.
        pen, fill, role: as for `Line`.
    """

    centre: Point
    radius: float
    pen: Pen | None = INK
    fill: float | None = None
    role: str = ""


@dataclass(frozen=True, slots=True)
class Run:
    """A piece of a label in one style.

    Attributes:
        text: its letters.
        slant: whether it is slanted, as symbols of quantities are.
        level: 0 on the line, −1 below it, 1 above it.
    """

    text: str
    slant: bool = False
    level: Literal[-1, 0, 1] = 0


@dataclass(frozen=True, slots=True)
class Label:
    """A short text.

    Attributes:
        at: where its line of writing begins, ends or has its middle.
        runs: its pieces.
        anchor: which of these.
        size: in points.
        turned: whether it is written upwards (the label of an axis).
        role: what it labels; may be empty.
    """

    at: Point
    runs: tuple[Run, ...]
    anchor: Literal["start", "middle", "end"] = "middle"
    size: float = LABEL_SIZE
    turned: bool = False
    role: str = ""

    @property
    def text(self) -> str:
        """Its letters."""
        return "".join(run.text for run in self.runs)


Shape = Line | Circle | Label


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle along the axes, in millimetres."""

    left: float
    bottom: float
    right: float
    top: float

    @property
    def width(self) -> float:
        """How wide."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """How high."""
        return self.top - self.bottom

    def meets(self, other: Box, gap: float = 0.0) -> bool:
        """Whether two boxes overlap, or lie nearer than a gap."""
        return (
            self.left < other.right + gap
            and other.left < self.right + gap
            and self.bottom < other.top + gap
            and other.bottom < self.top + gap
        )

    def joined(self, other: Box) -> Box:
        """The smallest box around both."""
        return Box(
            min(self.left, other.left),
            min(self.bottom, other.bottom),
            max(self.right, other.right),
            max(self.top, other.top),
        )

    def grown(self, by: float) -> Box:
        """The box with a margin."""
        return Box(self.left - by, self.bottom - by, self.right + by, self.top + by)


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture.

    Attributes:
        shapes: what is drawn, the lowest first.
        box: what the page keeps free for it.
    """

    shapes: tuple[Shape, ...]
    box: Box

    def labels(self) -> Iterator[Label]:
        """Its labels."""
        return (shape for shape in self.shapes if isinstance(shape, Label))

    def strokes(self) -> Iterator[tuple[Line, ...] | Circle | Label]:
        """Its shapes as they are written down: plain lines of one pen that follow each other (a grid) as one."""
        run: list[Line] = []
        for shape in self.shapes:
            line = shape if isinstance(shape, Line) and not shape.closed and shape.fill is None else None
            if run and (line is None or line.pen != run[-1].pen):
                yield tuple(run)
                run = []
            if line is not None:
                run.append(line)
            elif isinstance(shape, Line):
                yield (shape,)
            else:
                yield shape
        if run:
            yield tuple(run)

    def with_role(self, role: str) -> list[Shape]:
        """The shapes of a role."""
        return [shape for shape in self.shapes if shape.role == role]
