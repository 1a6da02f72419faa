"""Problems of figures: situations and fields."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from .base import Problem


@dataclass(eq=False, repr=False)
class SituationThingUnknown(Problem):
    """A line of a situation or a field begins with no thing that such a figure knows.

    The reference lists all lines, under "Situations" and "Fields".

    Attributes:
        typed: the line.
        known: some things that it may begin with.
        near: the one that was perhaps meant; None where nothing is close.
    """

    slug: ClassVar[str] = "situation-thing-unknown"
    wrong: ClassVar[str] = "situation:\n  - pendulm m, length L"
    right: ClassVar[str] = "situation:\n  - pendulum m, length L"

    typed: str
    known: tuple[str, ...]
    near: str | None = None

    def sentence(self) -> str:
        return f'"{self.typed}" is nothing that can be drawn'

    def mend(self) -> str:
        if self.near is not None:
            return f'perhaps "{self.near}" was meant'
        return f"a line begins with {', '.join(self.known[:-1])} or {self.known[-1]}, for example"


@dataclass(eq=False, repr=False)
class SituationThingsApart(Problem):
    """Two lines of one situation belong to two pictures: a lens and a pendulum, say.

    Attributes:
        typed: the line that does not fit.
        first: the line that says what is drawn.
    """

    slug: ClassVar[str] = "situation-things-apart"
    wrong: ClassVar[str] = "situation:\n  - pendulum m, length L\n  - before: A at rest"
    right: ClassVar[str] = "situation:\n  - pendulum m, length L"

    typed: str
    first: str

    def sentence(self) -> str:
        return f'"{self.typed}" does not belong into one picture with "{self.first}"'

    def mend(self) -> str:
        return "make two figures of it"


@dataclass(eq=False, repr=False)
class SituationEmpty(Problem):
    """A situation or a field says of nothing that can be drawn."""

    slug: ClassVar[str] = "situation-empty"
    wrong: ClassVar[str] = "situation:\n  - force F on A, right"
    right: ClassVar[str] = "situation:\n  - block A on a surface\n  - force F on A, right"

    def sentence(self) -> str:
        return "there is nothing to draw"

    def mend(self) -> str:
        return "name the things in it, one on each line"


@dataclass(eq=False, repr=False)
class SituationThingsMany(Problem):
    """A situation or a field has more lines than a picture can show.

    Attributes:
        most: how many there may be.
    """

    slug: ClassVar[str] = "situation-things-many"

    most: int

    def sentence(self) -> str:
        return f"there are more than {self.most} things, which no picture shows readably"

    def mend(self) -> str:
        return "make several figures of it"


@dataclass(eq=False, repr=False)
class SituationPartMissing(Problem):
    """Something without which a figure cannot be drawn is not said, such as where the object stands before a lens.

    Attributes:
        thing: what is drawn.
        part: what is missing.
        form: the words to add.
    """

    slug: ClassVar[str] = "situation-part-missing"
    wrong: ClassVar[str] = "given:\n  f: 10 cm\nsituation:\n  - converging lens, focal length f"
    right: ClassVar[str] = (
        "given:\n  f: 10 cm\nsituation:\n  - converging lens, focal length f\n  - object, 25 cm from the lens"
    )

    thing: str
    part: str
    form: str

    def sentence(self) -> str:
        return f"{self.thing} cannot be drawn: {self.part} is not said"

    def mend(self) -> str:
        return f'add "{self.form}"'


@dataclass(eq=False, repr=False)
class SituationDimension(Problem):
    """A value in a figure has another dimension than what it stands for: a distance in seconds.

    Attributes:
        what: what it stands for.
        typed: the text.
        unit: the unit that it has.
        wanted: a unit that it may have.
    """

    slug: ClassVar[str] = "situation-dimension"
    wrong: ClassVar[str] = "situation:\n  - charge A\n  - charge B, 0.3 s right of A"
    right: ClassVar[str] = "situation:\n  - charge A\n  - charge B, 0.3 m right of A"

    what: str
    typed: str
    unit: str
    wanted: str

    def sentence(self) -> str:
        has = f"its unit is {self.unit}" if self.unit else "it is a bare number"
        return f'"{self.typed}" is no {self.what}: {has}'

    def mend(self) -> str:
        if not self.wanted:
            return "take a number without a unit"
        return f"take a value in {self.wanted}, or a name that has one"


@dataclass(eq=False, repr=False)
class SituationValueOutside(Problem):
    """A value in a figure lies where it makes no picture: a slope of 95°, a focal length of zero.

    Attributes:
        what: what it stands for.
        typed: the text.
        allowed: which values make one.
    """

    slug: ClassVar[str] = "situation-value-outside"
    wrong: ClassVar[str] = "situation:\n  - incline 95°\n  - block A on the incline"
    right: ClassVar[str] = "situation:\n  - incline 25°\n  - block A on the incline"

    what: str
    typed: str
    allowed: str

    def sentence(self) -> str:
        return f'"{self.typed}" cannot be drawn as {self.what}'

    def mend(self) -> str:
        return f"take {self.allowed}"


@dataclass(eq=False, repr=False)
class SituationPlaceTaken(Problem):
    """Two things of a figure stand in one place.

    Attributes:
        name: the second of them.
        other: the first.
    """

    slug: ClassVar[str] = "situation-place-taken"
    wrong: ClassVar[str] = "situation:\n  - charge A at 0 m\n  - charge B at 0 m"
    right: ClassVar[str] = "situation:\n  - charge A at 0 m\n  - charge B at 0.4 m"

    name: str
    other: str

    def sentence(self) -> str:
        return f"{self.name} stands where {self.other} stands"

    def mend(self) -> str:
        return "correct one of the places"


@dataclass(eq=False, repr=False)
class SituationDistanceEnormous(Problem):
    """One distance of a figure is more than a thousand times another, most likely a slip in a power of ten or a unit.

    Attributes:
        name: what stands so far away.
        ratio: how many times the smallest distance the largest is, rounded.
    """

    slug: ClassVar[str] = "situation-distance-enormous"
    wrong: ClassVar[str] = (
        "situation:\n  - charge A\n  - charge B, 3 mm right of A\n  - charge C, 40 m right of A"
    )
    right: ClassVar[str] = (
        "situation:\n  - charge A\n  - charge B, 3 mm right of A\n  - charge C, 40 mm right of A"
    )

    name: str
    ratio: str

    def sentence(self) -> str:
        return f"{self.name} is {self.ratio} times as far away as other things are from one another"

    def mend(self) -> str:
        return "correct its place, or the unit of it; no picture shows both"


@dataclass(eq=False, repr=False)
class SituationDistanceDiffers(Problem):
    """A distance that is written into a figure is not the one between the two things there.

    Attributes:
        typed: the distance as said.
        first, second: the two things.
        found: how far apart they are.
    """

    slug: ClassVar[str] = "situation-distance-differs"
    wrong: ClassVar[str] = (
        "situation:\n  - charge A\n  - charge B, 0.3 m right of A\n  - distance 0.4 m between A and B"
    )
    right: ClassVar[str] = (
        "situation:\n  - charge A\n  - charge B, 0.3 m right of A\n  - distance 0.3 m between A and B"
    )

    typed: str
    first: str
    second: str
    found: str

    def sentence(self) -> str:
        return (
            f"{self.first} and {self.second} are {self.found} apart, but {self.typed} is written between them"
        )

    def mend(self) -> str:
        return "correct the distance or one of the places"


@dataclass(eq=False, repr=False)
class SituationImageNone(Problem):
    """The object stands at a focal point, so that there is no image: the rays leave parallel to one another.

    The figure is drawn so.

    Attributes:
        thing: the lens or mirror.
    """

    slug: ClassVar[str] = "situation-image-none"
    level = "note"
    wrong: ClassVar[str] = (
        "situation:\n  - converging lens, focal length 10 cm\n  - object, 10 cm from the lens"
    )
    right: ClassVar[str] = (
        "situation:\n  - converging lens, focal length 10 cm\n  - object, 15 cm from the lens"
    )

    thing: str

    def sentence(self) -> str:
        return f"the object stands at the focal point of the {self.thing}: there is no image"


@dataclass(eq=False, repr=False)
class SituationRefractionNone(Problem):
    """A refracted ray is asked for, but the light is totally reflected.

    Beyond the critical angle, whose sine is n₂/n₁, none leaves the denser medium (Snell's law has no solution).

    Attributes:
        angle: the angle of incidence.
        critical: the critical angle.
    """

    slug: ClassVar[str] = "situation-refraction-none"
    wrong: ClassVar[str] = (
        "situation:\n  - interface: water (1.33) below air (1.00)\n  - incident ray at 60°\n  - refracted ray at θ_r"
    )
    right: ClassVar[str] = (
        "situation:\n  - interface: water (1.33) below air (1.00)\n  - incident ray at 40°\n  - refracted ray at θ_r"
    )

    angle: str
    critical: str

    def sentence(self) -> str:
        return f"no ray is refracted: {self.angle} is more than the critical angle of {self.critical}"

    def mend(self) -> str:
        return "take the refracted ray out (the reflected one is drawn), or make the angle smaller"


@dataclass(eq=False, repr=False)
class FieldChargeUnknown(Problem):
    """A charge of a field has no value, or is zero, so that its lines cannot be computed.

    Attributes:
        name: the charge.
    """

    slug: ClassVar[str] = "field-charge-unknown"
    wrong: ClassVar[str] = "field:\n  - charge A"
    right: ClassVar[str] = "field:\n  - charge A, 3 nC"

    name: str

    def sentence(self) -> str:
        return f"the field of {self.name} cannot be computed: its charge has no value other than zero"

    def mend(self) -> str:
        return f'give it one, as in "charge {self.name} = 3 nC", or under given'


@dataclass(eq=False, repr=False)
class FieldChargesUnequal(Problem):
    """The charges of a field are so unequal that the number of lines cannot show it.

    Attributes:
        name: the smallest charge.
        ratio: how many times as large the largest is, rounded.
        most: how many times it may be.
    """

    slug: ClassVar[str] = "field-charges-unequal"
    wrong: ClassVar[str] = "field:\n  - charge A = 3 nC\n  - charge B = 3 mC, 0.2 m right of A"
    right: ClassVar[str] = "field:\n  - charge A = 3 nC\n  - charge B = 6 nC, 0.2 m right of A"

    name: str
    ratio: str
    most: int

    def sentence(self) -> str:
        return f"the largest charge is {self.ratio} times {self.name}: its lines leave no room for those of the other"

    def mend(self) -> str:
        return f"correct the charges; one may be {self.most} times the other at most"
