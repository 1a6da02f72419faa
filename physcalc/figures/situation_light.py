"""Light at lenses, mirrors, and the plane between two media."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ..checking.printing import printed_datum
from ..checking.scope import Datum, Quantity
from ..exact import Form, Real, asin, sin
from ..language.names import Name
from ..language.plain import plain_printed
from ..problems import Problem, Text
from ..problems.figures import FigurePhraseUnreadable
from ..problems.figures_situation import (
    SituationImageNone,
    SituationPartMissing,
    SituationRefractionNone,
    SituationValueOutside,
)
from ..units import read_unit
from .situation_reading import Amount, AmountReader, Line, fit
from .situation_scenes import Interface, Optics

_KIND = r"(?P<kind>(?:thin\s+)?(?:converging|diverging|convex|concave|plane)\s+(?:lens|mirror))"
#: A convex lens brings light together, a concave mirror does.
_KINDS = {"convex lens": "converging lens", "concave lens": "diverging lens"}
_ZERO = Real.of(0)


def optics(lines: Sequence[Text], reader: AmountReader, problems: list[Problem]) -> Optics:
    """An object before a lens or a mirror, with its image.

    1/f = 1/u + 1/v, distances of virtual images and focal points being negative (every textbook of optics).

    Raises:
        Problem: the first thing that is wrong; notes are added to `problems`.
    """
    kind, focal, distance, height, image_distance, image_height = "", None, None, None, None, None
    rays = True
    place = lines[0].span
    object_place = place
    for text in lines:
        line = Line(text)
        if fit(_KIND, line.clauses[0]) is not None:
            head = line.head(_KIND, "a lens or mirror", "converging lens, focal length f")
            if kind:
                raise FigurePhraseUnreadable(
                    text.span, "a part of this figure", text.value, "one lens or mirror"
                )
            kind = re.sub(r"^thin\s+", "", " ".join(head.word("kind").split()))
            kind = _KINDS.get(kind, kind)
            place = text.span
            if (found := line.take(r"(?:focal\s+length\s+)(?P<far>.+)", "focal length f")) is not None:
                focal = reader.known(found.part("far"), "focal length", "m")
                if focal.value is None or focal.value.sign() == 0:
                    raise SituationValueOutside(
                        found.text.span, "a focal length", found.text.value, "one that is not zero"
                    )
            line.finish("a lens or mirror")
        elif fit(r"(?:object|image)\b.*", text) is not None:
            which = line.head(
                r"(?P<which>object|image)", "an object or image", "object, height h, u from the lens"
            ).word("which")
            found = line.take(r"height\s+(?P<far>.+)", "height h")
            tall = reader.amount(found.part("far"), "height", "m") if found is not None else None
            found = line.take(
                r"(?:distance\s+)?(?P<far>.+?)\s+from\s+the\s+(?:lens|mirror)", "u from the lens"
            )
            if found is None:
                found = line.take(r"distance\s+(?P<far>.+)", "distance u")
            far = None
            if found is not None and which == "object":
                far = reader.known(found.part("far"), "distance", "m")
                if far.value is None or far.value.sign() <= 0:
                    raise SituationValueOutside(
                        found.text.span, "an object distance", found.text.value, "one that is more than zero"
                    )
                object_place = found.text.span
            elif found is not None:
                far = reader.amount(found.part("far"), "distance", "m")
            line.finish(f"the {which}")
            if which == "object":
                distance, height = far, tall
            else:
                image_distance, image_height = far, tall
        elif re.fullmatch(r"(?:without|no)\s+rays", text.value, re.IGNORECASE):
            rays = False
        else:
            raise FigurePhraseUnreadable(
                text.span, "a part of this figure", text.value, "object, image or without rays"
            )
    if not kind:
        raise SituationPartMissing(
            place, "the object", "the lens or mirror", "converging lens, focal length f"
        )
    if focal is None and kind != "plane mirror":
        raise SituationPartMissing(place, f"a {kind}", "its focal length", "focal length f")
    if distance is None or distance.size is None:
        form = f"object, u from the {kind.split()[1]}"
        raise SituationPartMissing(place, f"the image of a {kind}", "where the object stands", form)
    power = _power(kind, focal)
    image = None
    difference = power - Real.of(1) / distance.size
    if difference.sign() == 0:
        problems.append(SituationImageNone(object_place, kind))
    else:
        image = Real.of(1) / difference
    return Optics(
        kind,  # type: ignore[arg-type]
        focal,
        power,
        distance,
        height,
        image,
        image_distance,
        image_height,
        rays,
    )


def _power(kind: str, focal: Amount | None) -> Real:
    if focal is None or focal.size is None:
        return _ZERO
    power = Real.of(1) / focal.size
    return power if kind in ("converging lens", "concave mirror") else -power


# The plane between two media.

_MEDIUM = r"[^():,]+?"
INTERFACE = (
    rf"(?:interface|boundary)\s*(?::|between|of)?\s*(?P<one>{_MEDIUM})(?:\s*\((?P<first>[^()]+)\))?\s+(?P<way>above|over|below|under|and)"
    rf"\s+(?P<other>{_MEDIUM})(?:\s*\((?P<second>[^()]+)\))?"
)


def interface(lines: Sequence[Text], reader: AmountReader) -> Interface:
    """Light at the plane between two media: n₁ sin θ₁ = n₂ sin θ₂ (Snell's law).

    Raises:
        Problem: the first thing that is wrong.
    """
    media: list[tuple[str, Amount | None]] = []
    upper_first = True
    incident: tuple[Text, Amount, str] | None = None
    refracted: tuple[Text, Amount | None] | None = None
    reflected: tuple[Text, Amount | None] | None = None
    for text in lines:
        head = fit(INTERFACE, text)
        ray = fit(
            r"(?P<kind>incident|refracted|reflected)\s+ray(?:\s+at\s+(?P<angle>.+?))?(?:\s+(?:in|from)\s+(?:the\s+)?(?P<medium>[^\d]+))?",
            text,
        )
        if head is not None:
            media = []
            for name, index in (("one", "first"), ("other", "second")):
                amount = reader.amount(head.part(index), "refractive index", "") if index in head else None
                if amount is not None and amount.value is not None and (amount.value - Real.of(1)).sign() < 0:
                    raise SituationValueOutside(
                        head.part(index).span, "a refractive index", head.part(index).value, "one from 1 up"
                    )
                media.append((head.part(name).value, amount))
            upper_first = head.word("way") in ("above", "over", "and")
        elif ray is not None:
            angle = reader.angle(ray.part("angle"), "angle of a ray", ends=True) if "angle" in ray else None
            if ray.word("kind") == "incident":
                if angle is None or angle.value is None:
                    form = "incident ray at θ_1, with a value of θ_1 under given"
                    raise SituationPartMissing(text.span, "the ray", "the angle of incidence", form)
                incident = (text, angle, ray.word("medium").strip())
            elif ray.word("kind") == "refracted":
                refracted = (text, angle)
            else:
                reflected = (text, angle)
        else:
            form = "interface: air (n_1) above glass (n_2), incident ray at θ_1, refracted ray at θ_2, or reflected ray"
            raise FigurePhraseUnreadable(text.span, "a part of this figure", text.value, form)
    if not media:
        raise SituationPartMissing(
            lines[0].span, "the ray", "the two media", "interface: air (n_1) above glass (n_2)"
        )
    if incident is None:
        raise SituationPartMissing(lines[0].span, "refraction", "the incident ray", "incident ray at θ_1")
    where, angle, medium = incident
    first = 0
    if medium:
        found = [at for at, (words, _) in enumerate(media) if words.lower() == medium]
        if not found:
            known = f"{media[0][0]} or {media[1][0]}"
            raise FigurePhraseUnreadable(where.span, "a medium of this figure", medium, known)
        first = found[0]
    one, other = media[first], media[1 - first]
    down = upper_first == (first == 0)
    assert angle.value is not None
    turned = _refracted(angle.value, one[1], other[1], refracted, where, reader)
    labels = (angle, reflected[1] if reflected else None, refracted[1] if refracted else None)
    return Interface(
        (one[0], other[0]),
        (one[1], other[1]),
        down,
        angle.value,
        turned,
        labels,
        bool(reflected) or turned is None,
    )


def _refracted(
    angle: Real,
    one: Amount | None,
    other: Amount | None,
    asked: tuple[Text, Amount | None] | None,
    where: Text,
    reader: AmountReader,
) -> Real | None:
    """The angle of refraction; None for total reflection."""
    if one is not None and other is not None and one.value is not None and other.value is not None:
        sine = one.value * sin(angle) / other.value
        if (sine - Real.of(1)).sign() <= 0:
            return asin(sine)
        if asked is not None:
            critical = asin(other.value / one.value)
            texts = (_degrees(turned, reader) for turned in (angle, critical))
            raise SituationRefractionNone(asked[0].span, *texts)
        return None
    if asked is not None and asked[1] is not None and asked[1].value is not None:
        return asked[1].value
    form = "interface: air (1.00) above glass (1.50)"
    raise SituationPartMissing(where.span, "the refracted ray", "the refractive index of each medium", form)


def _degrees(angle: Real, reader: AmountReader) -> str:
    datum = Datum(Name("θ"), Quantity(angle, read_unit(Text("°"))), "given", "")
    style = reader.conventions.style
    return plain_printed(printed_datum(datum, style, Form("places", 1, False)), style)
