"""What points in a plane give: distances by the names of two points, and what leads from one to another."""

from __future__ import annotations

from ..exact import Real, cos, sin
from ..language.headings import Heading
from ..language.names import Name
from ..language.points import Points
from ..problems.language import HeadingUnreadable, PointUnknown
from .scope import Datum, Plane, Quantity, Scope


class Distances(dict[Name, Datum]):
    """The distances between points: AP is how far A and P are apart."""


def with_distances(scope: Scope, points: Points | None) -> Scope:
    """The scope with the distances between points as its outermost names."""
    if points is None or any(isinstance(layer, Distances) for layer in scope.layers):
        return scope
    layer = Distances()
    names = [name for name, _, _ in points.places]
    for start in names:
        for end in names:
            distance = points.distance(start, end)
            if start != end and distance is not None and (start + end).isalpha():
                name = Name(start + end)
                layer[name] = Datum(name, Quantity(distance, points.unit), "given", "the points")
    return Scope((*scope.layers, layer), scope.elsewhere)


def headed(size: Real, heading: Heading, points: Points | None) -> Plane:
    """A vector of a size in a direction.

    Raises:
        PointUnknown: the direction leads between points one of which is not there.
        HeadingUnreadable: they lie on each other.
    """
    if heading.between is None:
        angle = heading.direction()
        return Plane(size * cos(angle), size * sin(angle), heading.kind, heading)
    start, end = heading.between
    known = () if points is None else tuple(name for name, _, _ in points.places)
    for point in (start, end):
        if point not in known:
            raise PointUnknown(heading.span, point, known)
    step = points.step(start, end) if points is not None else None
    length = points.distance(start, end) if points is not None else None
    if step is None or length is None or length.sign() == 0:
        raise HeadingUnreadable(
            heading.span, f"{start} to {end}", "the two points lie on each other: name two others"
        )
    return Plane(size * step[0] / length, size * step[1] / length, "angle", heading)
