"""Problems of vectors in a plane beside quantities without a direction, and of sums of them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from .base import Problem


@dataclass(eq=False, repr=False)
class VectorMeetsScalar(Problem):
    """A vector is added to a quantity that has no direction."""

    slug: ClassVar[str] = "vector-meets-scalar"
    wrong: ClassVar[str] = "F_2: 5 N"
    right: ClassVar[str] = "F_2: 5 N at 180°"

    scalar: str
    vector: str

    def sentence(self) -> str:
        return f"{self.scalar} has no direction in the plane and is added to the vector {self.vector}"

    def mend(self) -> str:
        return (
            "give it a direction (5 N at 180°, 5 N at down), find it with direction, "
            "or take sizes or components: |F|, F.x, F.y"
        )


@dataclass(eq=False, repr=False)
class VectorsAsSizes(Problem):
    """Vectors in a plane are added in a place where only their sizes could be, which is not their sum.

    A sum of vectors is worked out by components where it is a formula of its own: one formula, with one thing
    to find. In a set of formulas, in a product with another vector or inside bars that are not the whole of a
    side, sizes or components have to be named.
    """

    slug: ClassVar[str] = "vectors-as-sizes"
    wrong: ClassVar[str] = "formula: p = |F_1 + F_2| / A\nfind: p in Pa"
    right: ClassVar[str] = (
        "steps:\n"
        "  -\n"
        "    formula: F = |F_1 + F_2|\n"
        "    find: F in N\n"
        "  -\n"
        "    formula: p = F / A\n"
        "    find: p in Pa"
    )

    vector: str

    def sentence(self) -> str:
        return f"{self.vector} is a vector in a plane, and here only its size would be added"

    def mend(self) -> str:
        return "find the sum first in a step of its own, or take sizes or components: |F|, F.x, F.y"
