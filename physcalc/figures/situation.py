"""Situations: what a teacher draws beside a question, one line for each thing."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ..checking.scope import Scope
from ..problems import Problem, Text, nearest
from ..problems.figures import FigureNameUnknown, FigurePhraseUnreadable, ForceUndirected
from ..problems.figures_situation import (
    SituationEmpty,
    SituationThingsApart,
    SituationThingsMany,
    SituationThingUnknown,
)
from . import situation_scenes as s
from .drawn import Drawn
from .reading import Slope, direction_of, split_direction
from .situation_phrases import SCENES
from .situation_reading import LONGEST_LINE, MOST_LINES, AmountReader, SituationText, degrees, fit

_ARROW = (
    r"(?P<kind>force|velocity|acceleration|momentum)\s+(?P<label>.+?)\s+(?:on|of)\s+(?P<body>[^,]+?)\s*,"
    r"\s+(?P<way>.+)"
)
_WORDS = (
    "charge", "mass", "sphere", "point", "distance", "line", "angle", "pendulum", "lift", "block", "crate", "trolley",
    "surface", "incline", "string", "spring", "pulley", "before", "after", "projectile", "converging lens",
    "diverging lens", "concave mirror", "convex mirror", "plane mirror", "object", "image", "interface",
    "incident ray", "refracted ray", "reflected ray", "transverse wave", "longitudinal wave", "standing wave",
    "source", "force", "velocity", "acceleration", "positive charge", "negative charge", "momentum",
)  # fmt: skip
_SOME = ("charge", "block", "pendulum", "projectile", "converging lens", "transverse wave")


def situation(body: SituationText, scope: Scope) -> Drawn:
    """The situation that an author describes.

    Args:
        body: what is said.
        scope: what names mean there.

    Returns:
        What it shows; nothing where a part of it cannot be drawn.
    """
    problems: list[Problem] = []
    if len(body.lines) > MOST_LINES:
        return Drawn(None, {}, (SituationThingsMany(body.lines[MOST_LINES].span, MOST_LINES),))
    too_long = [problem for text in body.lines if (problem := overlong(text)) is not None]
    if too_long:
        return Drawn(None, {}, tuple(too_long))
    arrows = [text for text in body.lines if _is_arrow(text)]
    others = [text for text in body.lines if not _is_arrow(text)]
    reader = AmountReader(scope, body.conventions)
    kind = _kind(others, problems)
    if problems:
        return Drawn(None, {}, tuple(problems))
    if kind is None:
        return Drawn(None, {}, (SituationEmpty(body.lines[0].span if body.lines else body.span),))
    scene = _scene(kind, others, reader, problems)
    found: list[s.Arrow] = []
    for text in arrows:
        try:
            if scene is not None:
                found.append(_arrow(text, scene, reader))
        except Problem as problem:
            problems.append(problem)
    values = said(body.values, "values", problems, True)
    if scene is None or any(problem.level != "note" for problem in problems):
        return Drawn(None, {}, tuple(problems))
    return Drawn(s.SituationDiagram(scene, tuple(found), values), {}, tuple(problems))


def overlong(text: Text) -> Problem | None:
    """The problem of a line that is longer than any thing is described."""
    if len(text.value) <= LONGEST_LINE:
        return None
    place = text.part(0, 20)
    return FigurePhraseUnreadable(
        place.span, "a thing", place.value + "…", f"lines of up to {LONGEST_LINE} characters"
    )


def said(text: Text | None, what: str, problems: list[Problem], otherwise: bool) -> bool:
    """`yes` or `no`."""
    if text is None:
        return otherwise
    word = text.value.strip()
    if word not in ("yes", "no"):
        problems.append(
            FigurePhraseUnreadable(text.span, what, word, "yes or no", nearest(word, ("yes", "no")))
        )
    return word == "yes"


def _is_arrow(text: Text) -> bool:
    return re.match(r"(?:force|velocity|acceleration|momentum)\b", text.value, re.IGNORECASE) is not None


def _kind(lines: Sequence[Text], problems: list[Problem]) -> str | None:
    """The scene that the lines belong to."""
    kind, first = None, None
    waiting = []
    for text in lines:
        fits = [name for name, pattern in SCENES if fit(pattern, text) is not None]
        if not fits:
            problems.append(unknown(text))
            continue
        if kind is None:
            waiting.append((text, fits))
            # What may belong to several scenes ("string") waits for a line that does not.
            if len(fits) == 1 or fits[0] not in ("blocks", "hanging"):
                kind, first = fits[0], text
        elif kind not in fits:
            problems.append(
                SituationThingsApart(text.span, text.value, first.value if first is not None else "")
            )
    if kind is None and waiting:
        kind, first = waiting[0][1][0], waiting[0][0]
    for text, fits in waiting:
        if kind not in fits:
            problems.append(
                SituationThingsApart(text.span, text.value, first.value if first is not None else "")
            )
    return kind


def unknown(
    text: Text, words: Sequence[str] = _WORDS, some: tuple[str, ...] = _SOME
) -> SituationThingUnknown:
    """The problem of a line that begins with nothing known: its first words are the place."""
    pieces = re.split(r"[\s,]+", text.value.strip())
    for count in (2, 1):
        near = nearest(" ".join(pieces[:count]).lower(), tuple(words))
        if near is not None:
            length = re.match(r"\s*" + r"[\s,]+".join([r"[^\s,]+"] * min(count, len(pieces))), text.value)
            place = text.part(0, length.end()) if length is not None else text
            return SituationThingUnknown(place.span, place.value, some, near)
    return SituationThingUnknown(text.span, text.value, some)


def _scene(kind: str, lines: Sequence[Text], reader: AmountReader, problems: list[Problem]) -> s.Scene | None:
    try:
        # Each kind of scene is imported where there is one.
        match kind:
            case "collision" | "projectile":
                from .situation_motion import collision, projectile

                return collision(lines, reader) if kind == "collision" else projectile(lines, reader)
            case "hanging":
                from .situation_hanging import hanging

                return hanging(lines, reader)
            case "wave" | "standing" | "fronts":
                from .situation_waves import fronts, standing, wave

                if kind == "wave":
                    return wave(lines, reader)
                return standing(lines, reader) if kind == "standing" else fronts(lines, reader)
            case "optics" | "interface":
                from .situation_light import interface, optics

                return interface(lines, reader) if kind == "interface" else optics(lines, reader, problems)
            case "blocks":
                from .situation_bodies import BlocksMaker

                return BlocksMaker(reader).blocks_of(lines)
            case _:
                from .situation_plan import PlanMaker

                return PlanMaker(reader, problems).plan(lines)
    except Problem as problem:
        problems.append(problem)
        return None


# Arrows.


def bodies_of(scene: s.Scene) -> tuple[s.Body, ...]:
    """The bodies of a scene that arrows may stand on."""
    match scene:
        case s.Plan():
            return tuple(placed.body for placed in scene.bodies)
        case s.Blocks():
            return tuple(block.body for block in scene.blocks)
        case s.Hanging():
            return (scene.body,) if scene.inside is None else (scene.body, scene.inside)
        case _:
            return ()


_UNITS = {"force": "N", "velocity": "m/s", "acceleration": "m/s^2", "momentum": "kg*m/s"}


def _arrow(text: Text, scene: s.Scene, reader: AmountReader) -> s.Arrow:
    short = fit(
        r"(?P<kind>force|velocity|acceleration|momentum)\s+(?P<label>.+?)\s+(?:on|of)\s+(?P<body>[^,]+)", text
    )
    found = fit(_ARROW, text)
    if found is None and short is None:
        form = "such as force F on A, right, or velocity v of A, at 30° above right"
        raise FigurePhraseUnreadable(text.span, "an arrow", text.value, form)
    got = found if found is not None else short
    assert got is not None
    kind = got.word("kind")
    bodies = bodies_of(scene)
    word = re.sub(r"^the\s+", "", got.part("body").value)
    name = word.replace("'", "′")
    body = next((one for one in bodies if one.key in (word, name) or one.word == word.lower()), None)
    if body is None:
        from ..language.names import read_name

        spelled = read_name(word)
        body = next((one for one in bodies if spelled is not None and one.key == spelled.key), None)
    if body is None:
        known = tuple(one.key for one in bodies)
        raise FigureNameUnknown(got.part("body").span, word, known, nearest(word, known))
    amount = reader.amount(got.part("label"), kind, _UNITS[kind])
    direction = None
    if found is not None:
        rest, direction = split_direction(found.part("way"), reader.conventions, _slope(scene))
        if rest is not None:
            direction = None
    elif amount.datum is not None:
        direction = direction_of(amount.datum)
    if direction is None:
        raise ForceUndirected(text.span, got.part("label").value, text.value)
    return s.Arrow(kind, amount, body.key, direction)  # type: ignore[arg-type]


def _slope(scene: s.Scene) -> Slope | None:
    if not isinstance(scene, s.Blocks) or scene.surface != "slope":
        return None
    datum = scene.angle.datum if scene.angle is not None else None
    angle = datum.quantity.value if datum is not None else degrees(30)
    from ..checking.scope import Datum, Quantity
    from ..language.names import Name
    from ..units import read_unit

    return Slope(
        angle, scene.left, datum or Datum(Name("θ"), Quantity(angle, read_unit(Text("°"))), "given", "")
    )
