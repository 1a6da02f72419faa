"""What a situation or a field shows, in words, for those who do not see it."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from physcalc.checking.scope import Datum, Quantity
from physcalc.exact import Form, Real, numeral_text, write
from physcalc.figures import situation_scenes as s
from physcalc.figures.situation_reading import Amount
from physcalc.language import Name
from physcalc.language.plain import plain_name
from physcalc.language.words import punctuated
from physcalc.problems import Text
from physcalc.units import read_unit

from .amounts import Labels
from .words import way, word


def describe(diagram: s.SituationDiagram, labels: Labels) -> str:
    """What a situation shows, in words."""
    lang = labels.look.lang
    parts = [part for part in _parts(diagram.scene, labels) if part]
    for arrow in diagram.arrows:
        body = next((one for one in _bodies(diagram.scene) if one.key == arrow.body), None)
        text = word(
            f"a-{arrow.kind}", lang, size=labels.text(arrow.amount), body=short(body, labels) if body else ""
        )
        parts.append(f"{text}: {direction(arrow, labels)}")
    text = "; ".join(parts)
    return punctuated(text[:1].upper() + text[1:] + ".", lang)


def direction(arrow: s.Arrow, labels: Labels) -> str:
    """The direction of an arrow in words: as the author typed it, else from its angle."""
    turned = arrow.direction.degrees % 360
    for turn, key in ((0, "right"), (90, "up"), (180, "left"), (270, "down"), (360, "right")):
        if abs(turned - turn) < 0.01:
            return word(key, labels.look.lang)
    if said := way(arrow.direction, labels.look.conventions.style, labels.look.lang):
        return said
    style = labels.look.conventions.style
    degrees = Real.of(Fraction(round(turned * 10), 10))
    _, numeral = write(degrees, Form("places", 1, False), labels.look.conventions.rule, style)
    return word("at", labels.look.lang, angle=numeral_text(numeral, style) + "°")


def short(body: s.Body, labels: Labels) -> str:
    """What a body is called in a sentence about it: its name, or what it is."""
    name = next((label.name for label in body.labels if label.name is not None), None)
    if name is not None:
        return plain_name(name)
    return labels.name(body) or _kind(body.word, labels)


def _kind(typed: str, labels: Labels) -> str:
    key = typed if typed in ("charge", "point", "block", "bob", "lift", "projectile") else "mass"
    if typed in ("person", "passenger"):
        key = "person"
    if typed in ("crate", "box", "trolley", "cart", "car", "book", "sled"):
        key = "block"
    return word(f"s-{key}", labels.look.lang)


def thing(body: s.Body, labels: Labels, sign: int = 0) -> str:
    """A body with what it is and its labels: "block m = 5 kg"."""
    kind = _kind(body.word, labels)
    if sign:
        kind = word("s-positive" if sign > 0 else "s-negative", labels.look.lang)
    said = labels.name(body)
    return f"{kind} {said}" if said else kind


def _quantity(key: str, amount: Amount | None, labels: Labels) -> str:
    return word(key, labels.look.lang, size=labels.text(amount)) if amount is not None else ""


def _bodies(scene: s.Scene) -> tuple[s.Body, ...]:
    match scene:
        case s.Plan():
            return tuple(one.body for one in scene.bodies)
        case s.Blocks():
            return tuple(one.body for one in scene.blocks)
        case s.HangingPair():
            return scene.bodies
        case s.Hanging():
            return (scene.body,) if scene.inside is None else (scene.body, scene.inside)
        case _:
            return ()


def _parts(scene: s.Scene, labels: Labels) -> Iterator[str]:
    keys: tuple[tuple[str, Amount | None], ...]
    match scene:
        case s.Plan():
            yield from plan_words(scene, labels)
        case s.Blocks():
            yield from _blocks(scene, labels)
        case s.Hanging():
            yield from _hanging(scene, labels)
        case s.HangingPair():
            yield from _pair(scene, labels)
        case s.Collision():
            for when, row in scene.rows:
                said = ", ".join(_mover(mover, labels) for mover in row)
                yield f"{word(f'row-{when}', labels.look.lang)}: {said}"
        case s.Projectile():
            yield word("s-path", labels.look.lang)
            keys = (
                ("q-speed", scene.speed),
                ("q-angle", scene.angle),
                ("q-height", scene.height),
                ("q-top", scene.top),
            )
            yield from (_quantity(key, amount, labels) for key, amount in (*keys, ("q-range", scene.reach)))
        case s.Optics():
            yield from _optics(scene, labels)
        case s.Interface():
            yield from _interface(scene, labels)
        case s.Wave():
            yield word(f"w-{scene.kind}", labels.look.lang)
            keys = (
                ("q-amplitude", scene.amplitude),
                ("q-wavelength", scene.wavelength),
                ("q-speed", scene.speed),
            )
            yield from (_quantity(key, amount, labels) for key, amount in keys)
        case s.Standing():
            yield word("w-standing", labels.look.lang, count=str(scene.quarters))
            keys = ("q-length", scene.length), ("q-wavelength", scene.wavelength)
            yield from (_quantity(key, amount, labels) for key, amount in keys)
        case s.Fronts():
            yield word("w-fronts", labels.look.lang)
            if scene.way:
                yield _quantity("q-speed", scene.source, labels)
                yield word("right" if scene.way > 0 else "left", labels.look.lang)
            yield _quantity("w-waves", scene.wave, labels)


def plan_words(scene: s.Plan, labels: Labels) -> Iterator[str]:
    """Bodies on a line or in a plane, with the distances that are written there."""
    lang = labels.look.lang
    first = scene.bodies[0]
    across = all((one.y - first.y).sign() == 0 for one in scene.bodies)
    up = all((one.x - first.x).sign() == 0 for one in scene.bodies)
    hidden = any(labels.hides(measure.amount) for measure in scene.measures)
    key = "s-across" if across else "s-upwards" if up else "s-plane"
    ordered = sorted(scene.bodies, key=lambda one: (float(one.x - first.x), float(one.y - first.y)))
    if not across and not up:
        ordered = list(scene.bodies)
    said = []
    for one in ordered:
        secret = not one.sign_typed and any(labels.hides(label) for label in one.body.labels)
        text = thing(one.body, labels, 0 if secret or one.kind != "charge" else one.sign)
        if not across and not up and scene.scaled and not hidden:
            text += f" ({_metres(one.x, labels)}; {_metres(one.y, labels)})"
        said.append(text)
    alone = len(said) == 1
    yield said[0] if alone else f"{word(key, lang)}: {', '.join(said)}"
    names = {one.body.key: short(one.body, labels) for one in scene.bodies}
    for measure in scene.measures:
        yield word(
            "s-apart",
            lang,
            first=names[measure.first],
            second=names[measure.second],
            size=labels.text(measure.amount),
        )
    for mark in scene.angles:
        yield word("s-angle-at", lang, corner=names[mark.corner], size=labels.text(mark.amount))


def _metres(value: Real, labels: Labels) -> str:
    return labels.look.value(Datum(Name("x"), Quantity(value, read_unit(Text("m"))), "given", ""))


def _blocks(scene: s.Blocks, labels: Labels) -> Iterator[str]:
    lang = labels.look.lang
    names = {one.body.key: short(one.body, labels) for one in scene.blocks} | {"wall": word("s-wall", lang)}
    standing = ", ".join(thing(one.body, labels) for one in scene.blocks if one.place == "surface")
    head = word({"slope": "s-slope", "level": "s-level", "": "s-pulley"}[scene.surface], lang)
    more = [
        word(f"surface-{scene.finish}", lang) if scene.finish else "",
        *(
            _quantity(key, amount, labels)
            for key, amount in (
                ("q-angle", scene.angle),
                ("q-height", scene.height),
                ("q-length", scene.length),
            )
        ),
    ]
    more = [part for part in more if part]
    head += f" ({', '.join(more)})" if more else ""
    yield f"{head}: {standing}" if standing else head
    for one in scene.blocks:
        if one.place == "pulley":
            yield word("s-over", lang, body=thing(one.body, labels))
            yield _quantity("q-height", one.above, labels)
        elif one.place != "surface":
            yield word("s-on", lang, body=thing(one.body, labels), other=names[one.place])
    for thread in scene.threads:
        text = word(
            "s-spring" if thread.spring else "s-string",
            lang,
            first=names[thread.first],
            second=names[thread.second],
        )
        yield text + (f" ({labels.text(thread.amount)})" if thread.amount is not None else "")


def _hanging(scene: s.Hanging, labels: Labels) -> Iterator[str]:
    lang = labels.look.lang
    body = thing(scene.body, labels)
    if scene.kind == "pendulum":
        said = labels.name(scene.body)
        yield word("s-pendulum", lang) + (f" {said}" if said else "")
    elif scene.kind == "threads":
        count = len(scene.threads)
        yield word("s-thread" if count == 1 else "s-threads", lang, body=body, count=str(count))
    else:
        yield word("s-from-spring" if scene.kind == "spring" else "s-cable", lang, body=body)
    for label, angle in scene.threads:
        yield _quantity("q-constant" if scene.kind == "spring" else "q-tension", label, labels)
        yield _quantity("q-angle", angle, labels)
    for key, amount in (
        ("q-length", scene.length),
        ("q-height", scene.height),
        ("q-extension", scene.extension),
    ):
        yield _quantity(key, amount, labels)
    if scene.inside is not None:
        yield word("s-inside", lang, body=thing(scene.inside, labels))


def _pair(scene: s.HangingPair, labels: Labels) -> Iterator[str]:
    lang = labels.look.lang
    first, second = (thing(one, labels) for one in scene.bodies)
    yield word("s-pair-one" if scene.points == 1 else "s-pair-two", lang, first=first, second=second)
    yield word("s-attract" if scene.attracting else "s-repel", lang)
    for key, amount in (
        ("q-length", scene.length),
        ("q-angle", scene.angle),
        ("q-distance", scene.distance),
        ("q-tension", scene.tension),
        ("q-force", scene.force),
    ):
        yield _quantity(key, amount, labels)


def _mover(mover: s.Mover, labels: Labels) -> str:
    body = " + ".join(thing(one, labels) for one in mover.bodies)
    if mover.rest:
        return f"{body} {word('at-rest', labels.look.lang)}"
    if mover.velocity is None:
        return body
    way = word("m-right" if mover.way > 0 else "m-left", labels.look.lang)
    return word("m-moves", labels.look.lang, body=body, size=labels.text(mover.velocity.plain), way=way)


def _optics(scene: s.Optics, labels: Labels) -> Iterator[str]:
    lang = labels.look.lang
    yield word(f"o-{scene.kind}", lang)
    yield _quantity("q-focal", scene.focal, labels)
    yield f"{word('optics-object', lang)}: {_quantity('q-distance', scene.distance, labels)}"
    yield _quantity("q-height", scene.height, labels)
    if not scene.rays:
        return
    if scene.image is None:
        yield word("optics-no-image", lang).rstrip(".")
        return
    yield word("o-real" if scene.image.sign() > 0 else "o-virtual", lang)
    yield _quantity("q-distance", scene.image_distance, labels)
    yield _quantity("q-height", scene.image_height, labels)


def _interface(scene: s.Interface, labels: Labels) -> Iterator[str]:
    lang = labels.look.lang
    names = [
        f"{words} ({labels.text(index)})" if index is not None else words
        for words, index in zip(scene.media, scene.indices, strict=True)
    ]
    yield word("i-from", lang, one=names[0], other=names[1])
    yield _quantity("i-incidence", scene.labels[0], labels)
    for key, there, amount in (
        ("i-reflection", scene.reflects, scene.labels[1]),
        ("i-refraction", scene.refracted is not None, scene.labels[2]),
    ):
        if there:
            yield word(key, lang) + (
                f": {_quantity('q-angle', amount, labels)}" if amount is not None else ""
            )
    if scene.refracted is None:
        yield word("i-total", lang)
