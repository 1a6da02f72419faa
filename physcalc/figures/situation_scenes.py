"""What a situation shows, as data: a scene of one kind, and arrows on its bodies."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar, Literal

from ..exact import Real
from .drawn import Diagram, FigureKind
from .reading import Direction
from .situation_reading import Amount

ArrowKind = Literal["force", "velocity", "acceleration", "momentum"]


@dataclass(frozen=True, slots=True)
class Arrow:
    """An arrow on a body.

    Attributes:
        kind: what it stands for.
        amount: its label.
        body: the key of the body.
        direction: where it points.
    """

    kind: ArrowKind
    amount: Amount
    body: str
    direction: Direction


@dataclass(frozen=True, slots=True)
class Body:
    """Something with a name.

    Attributes:
        key: how other lines name it.
        labels: what stands beside or inside it: its name, its mass or charge.
        word: the thing that it is: "charge", "mass", "point", "block".
    """

    key: str
    labels: tuple[Amount, ...]
    word: str


# Things in a plane.


@dataclass(frozen=True, slots=True)
class Placed:
    """A body with its place in a plane.

    Attributes:
        body: the body.
        kind: how it is drawn: a sphere with the sign of its charge, a sphere, a dot.
        sign: the sign of its charge; 0 where that is not known.
        sign_typed: whether the author says the sign in words.
        x, y: its place, to the right and upwards, in metres.
    """

    body: Body
    kind: Literal["charge", "mass", "point"]
    sign: int
    sign_typed: bool
    x: Real
    y: Real


@dataclass(frozen=True, slots=True)
class Measure:
    """A distance between two bodies.

    Attributes:
        first, second: their keys.
        amount: its label.
    """

    first: str
    second: str
    amount: Amount


@dataclass(frozen=True, slots=True)
class AngleMark:
    """An angle at a body between the lines to two others.

    Attributes:
        corner, first, second: their keys.
        amount: its label.
    """

    corner: str
    first: str
    second: str
    amount: Amount


@dataclass(frozen=True, slots=True)
class Plan:
    """Bodies on a line or in a plane.

    Attributes:
        bodies: the bodies.
        measures: distances.
        angles: angles.
        links: pairs of keys that a line joins.
        scaled: whether every place is known; otherwise the picture is not to scale.
    """

    bodies: tuple[Placed, ...]
    measures: tuple[Measure, ...]
    angles: tuple[AngleMark, ...]
    links: tuple[tuple[str, str], ...]
    scaled: bool


# Blocks.


@dataclass(frozen=True, slots=True)
class Block:
    """A block.

    Attributes:
        body: its name and labels.
        place: where it is: on the surface, hanging over a pulley, or the key of the block it lies on.
        above: its height above the ground; None for none.
        back: whether it hangs at the left end of the surface.
    """

    body: Body
    place: str
    above: Amount | None = None
    back: bool = False


@dataclass(frozen=True, slots=True)
class Thread:
    """A string between two blocks.

    Attributes:
        first, second: their keys.
        amount: its label; None for none.
        spring: whether it is a spring; `first` is then "wall", or the key of a block.
    """

    first: str
    second: str
    amount: Amount | None
    spring: bool = False


@dataclass(frozen=True, slots=True)
class Blocks:
    """Blocks on a surface, and over pulleys.

    Attributes:
        blocks: the blocks, from the left (or the bottom of a slope).
        threads: strings and springs.
        surface: "" where there is only a pulley, "level" or "slope".
        finish: "", "rough" or "smooth".
        angle, height, length: of the slope; None for none.
        left: whether the slope rises to the left.
    """

    blocks: tuple[Block, ...]
    threads: tuple[Thread, ...]
    surface: Literal["", "level", "slope"]
    finish: str = ""
    angle: Amount | None = None
    height: Amount | None = None
    length: Amount | None = None
    left: bool = False


@dataclass(frozen=True, slots=True)
class Hanging:
    """A body that hangs.

    Attributes:
        kind: how it hangs.
        body: the body.
        threads: the label of each thread, with its angle to the ceiling (a pendulum: to the vertical); the first is at
            the left. For a spring its constant.
        length: of a pendulum's thread or a spring; None where not marked.
        height: of a pendulum's bob above its lowest point; None where not marked.
        extension: of a spring; None where not marked.
        left: whether a pendulum's bob is at the left.
        inside: who stands in a lift; None for nobody.
    """

    kind: Literal["pendulum", "threads", "spring", "lift"]
    body: Body
    threads: tuple[tuple[Amount | None, Amount | None], ...]
    length: Amount | None = None
    height: Amount | None = None
    extension: Amount | None = None
    left: bool = False
    inside: Body | None = None


# Motion.


@dataclass(frozen=True, slots=True)
class Mover:
    """Bodies that move as one.

    Attributes:
        bodies: the bodies, from the left.
        velocity: the label of their velocity; None at rest, or where nothing is said of it.
        way: 1 to the right, −1 to the left, 0 at rest.
        rest: whether they are at rest.
    """

    bodies: tuple[Body, ...]
    velocity: Amount | None
    way: int
    rest: bool


@dataclass(frozen=True, slots=True)
class Collision:
    """Bodies before and after.

    Attributes:
        rows: "before" and "after", each with what is seen then, from the left.
    """

    rows: tuple[tuple[Literal["before", "after"], tuple[Mover, ...]], ...]


@dataclass(frozen=True, slots=True)
class Projectile:
    """The path of a projectile.

    Attributes:
        body: the projectile.
        speed: at which it is launched; None for no label.
        angle: of the launch above the horizontal; None for a horizontal launch.
        below: whether it is launched below the horizontal.
        height: of the launch above the ground; None for a launch from the ground.
        top: its greatest height, to be marked; None for none.
        reach: its range, to be marked; None for none.
        drop: g h / v², the shape of the path for a launch from a height; None where that is not known.
    """

    body: Body
    speed: Amount | None
    angle: Amount | None
    below: bool
    height: Amount | None
    top: Amount | None
    reach: Amount | None
    drop: Real | None


# Light.


@dataclass(frozen=True, slots=True)
class Optics:
    """An object before a lens or a mirror.

    Attributes:
        kind: which.
        focal: its focal length, for the label; None for a plane mirror.
        power: 1/f with its sign (positive where parallel light is brought together), in m⁻¹.
        distance: of the object.
        height: of the object; None where not said.
        image: the distance of the image, positive for a real one; None where there is none.
        image_distance, image_height: labels of the image; None for none.
        rays: whether rays and image are drawn.
    """

    kind: Literal["converging lens", "diverging lens", "concave mirror", "convex mirror", "plane mirror"]
    focal: Amount | None
    power: Real
    distance: Amount
    height: Amount | None
    image: Real | None
    image_distance: Amount | None
    image_height: Amount | None
    rays: bool


@dataclass(frozen=True, slots=True)
class Interface:
    """Light at the plane between two media.

    Attributes:
        media: the words for the medium the light comes from, and for the other.
        indices: their refractive indices; None where not said.
        down: whether the light comes from above.
        incident: the angle of incidence, in radians.
        refracted: the angle of refraction; None where the light is totally reflected.
        labels: of the angles of incidence, reflection and refraction; None for none.
        reflects: whether a reflected ray is drawn.
    """

    media: tuple[str, str]
    indices: tuple[Amount | None, Amount | None]
    down: bool
    incident: Real
    refracted: Real | None
    labels: tuple[Amount, Amount | None, Amount | None]
    reflects: bool


# Waves.


@dataclass(frozen=True, slots=True)
class Wave:
    """A wave.

    Attributes:
        kind: which.
        amplitude, wavelength: their labels; None where not marked.
        count: how many wavelengths are drawn.
        way: 1 to the right, −1 to the left, 0 where not said.
        speed: the label of its speed; None for none.
    """

    kind: Literal["transverse", "longitudinal"]
    amplitude: Amount | None
    wavelength: Amount | None
    count: int
    way: int
    speed: Amount | None


@dataclass(frozen=True, slots=True)
class Standing:
    """A standing wave.

    Attributes:
        quarters: how many quarters of a wavelength it holds.
        medium: on a string, or in a pipe.
        open: which ends are free: of a pipe the open ones.
        length: the label of its length; None for none.
        wavelength: the label of its wavelength; None for none.
    """

    quarters: int
    medium: Literal["string", "pipe"]
    open: tuple[bool, bool]
    length: Amount | None
    wavelength: Amount | None


@dataclass(frozen=True, slots=True)
class Fronts:
    """Wavefronts of a source.

    Attributes:
        ratio: its speed over that of the waves; None where that is not known.
        way: 1 to the right, −1 to the left, 0 at rest.
        source: the label of its speed; None for none.
        wave: the label of the waves' speed; None for none.
        observers: each with whether it stands ahead of the source.
    """

    ratio: Real | None
    way: int
    source: Amount | None
    wave: Amount | None
    observers: tuple[tuple[Body, bool], ...]


Scene = Plan | Blocks | Hanging | Collision | Projectile | Optics | Interface | Wave | Standing | Fronts


@dataclass(frozen=True, slots=True)
class SituationDiagram(Diagram):
    """A situation.

    Attributes:
        scene: what there is.
        arrows: arrows on its bodies.
        values: whether values stand beside symbols.
    """

    KIND: ClassVar[FigureKind] = "situation"

    scene: Scene
    arrows: tuple[Arrow, ...] = ()
    values: bool = True
