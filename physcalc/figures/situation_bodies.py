"""Blocks on surfaces, slopes and pulleys."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ..language.names import read_name
from ..problems import Text, nearest
from ..problems.figures import FigureNameUnknown, FigurePhraseUnreadable
from ..problems.figures_situation import SituationPartMissing
from .situation_phrases import SURFACE, SURFACES, THINGS
from .situation_reading import Amount, AmountReader, Found, Line, fit
from .situation_scenes import Block, Blocks, Body, Thread

_BLOCK = (
    rf"(?P<word>{THINGS})(?:\s+(?!(?:on|hanging|hangs|against)\b)(?P<label>.+?))?"
    r"(?:\s+(?P<where>(?:on|hanging|hangs|against)\s+.+))?"
)
_ON = (
    r"on\s+(?:a\s+|an\s+|the\s+)?(?:(?P<finish>rough|smooth|frictionless)\s+)?(?:horizontal\s+|inclined\s+)?"
    rf"(?P<kind>{SURFACES})(?:\s+(?:of\s+|at\s+)?(?P<angle>.+))?"
)
_PULLEY = (
    r"(?:hanging|hangs)(?:\s+(?:on|at)\s+the\s+(?P<side>left|right))?"
    r"\s+(?:over|from)\s+(?:a|the)\s+(?:\w+\s+)?pulley"
)
_TOP = r"on\s+(?:top\s+of\s+)?(?P<other>.+)"
_BLOCK_FORM = "such as block m on the surface, or block m_2 hanging over a pulley"
_PIECES = 8


def labelled(
    reader: AmountReader, head: Found, extra: Sequence[Text], others: Sequence[Body], *units: str
) -> Body:
    """A body with its name and what else is written on it.

    Raises:
        Problem: a label has another dimension, or the name is taken.
    """
    word = head.word("word")
    texts = ([head.part("label")] if "label" in head else []) + list(extra)
    labels = tuple(
        reader.amount(
            text, "mass", *units, lenient=read_name(text.value) is not None and len(text.value) == 1
        )
        for text in texts
    )
    name = next((label.name for label in labels if label.name is not None), None)
    key = name.key if name is not None else word
    if any(other.key == key for other in others):
        count = 2
        while any(other.key == f"{key} {count}" for other in others):
            count += 1
        if name is not None:
            raise FigurePhraseUnreadable(
                head.text.span, "one thing", head.text.value, f"each thing once: {key} is there already"
            )
        key = f"{key} {count}"
    return Body(key, labels, word)


class BlocksMaker:
    """Makes blocks on a surface, and over pulleys, of their lines."""

    def __init__(self, reader: AmountReader) -> None:
        self.reader = reader
        self.blocks: list[Block] = []
        self.threads: list[Thread] = []
        self.surface = ""
        self.finish = ""
        self.angle: Amount | None = None
        self.height: Amount | None = None
        self.length: Amount | None = None
        self.left = False

    def blocks_of(self, lines: Sequence[Text]) -> Blocks:
        """The scene.

        Raises:
            Problem: the first thing that is wrong.
        """
        later = []
        for text in lines:
            if fit(SURFACE, Line(text).clauses[0]) is not None:
                self._surface(text)
            elif re.match(r"(?:string|rope|cable|spring|thread|wire)\b", text.value, re.IGNORECASE):
                later.append(text)
            elif not re.fullmatch(
                r"(?:a\s+)?(?:light\s+|smooth\s+|fixed\s+)*pulley", text.value, re.IGNORECASE
            ):
                self._block(text)
        hanging = [block for block in self.blocks if block.place == "pulley"]
        standing = [block for block in self.blocks if block.place == "surface"]
        if not self.surface and standing:
            self.surface = "level"
        for text in later:
            self._thread(text)
        at_fault = lines[0].span
        if not self.blocks:
            if self.surface:
                return self._done()
            raise SituationPartMissing(
                at_fault, "a pulley", "what hangs over it", "block m hanging over a pulley"
            )
        most = 1 if self.surface == "slope" else 2
        if len(hanging) > most:
            form = f"at most {most} hanging over a pulley"
            raise FigurePhraseUnreadable(at_fault, "blocks over a pulley", hanging[most].body.key, form)
        if hanging and not standing and len(hanging) < 2:
            form = "block m_1 on the surface, or a second block hanging over a pulley"
            raise SituationPartMissing(
                at_fault, f"{hanging[0].body.key} over a pulley", "what balances it", form
            )
        return self._done()

    def _done(self) -> Blocks:
        surface = self.surface
        return Blocks(
            tuple(self.blocks),
            tuple(self.threads),
            surface,  # type: ignore[arg-type]
            self.finish,
            self.angle,
            self.height,
            self.length,
            self.left,
        )

    def _surface(self, text: Text) -> None:
        line = Line(text)
        head = line.head(SURFACE, "a surface", "surface, rough surface or incline 30°")
        self._ground(head)
        if "angle" in head:
            if self.surface != "slope":
                raise FigurePhraseUnreadable(
                    head.part("angle").span, "a surface", text.value, "incline for one with an angle"
                )
            self.angle = self.reader.angle(head.part("angle"), "angle of an incline")
        if (found := line.take(r"(?:vertical\s+)?height\s+(?P<height>.+)", "height h")) is not None:
            self.height = self.reader.length(found.part("height"), "height")
        if (found := line.take(r"length\s+(?P<length>.+)", "length L")) is not None:
            self.length = self.reader.length(found.part("length"), "length")
        if line.take(r"rising\s+to\s+the\s+left", "rising to the left") is not None:
            self.left = True
        line.take(r"rising\s+to\s+the\s+right", "rising to the right")
        line.finish("a surface")

    def _steep(self, found: Found, text: Text) -> None:
        if "angle" not in found:
            return
        angle = found.part("angle")
        if self.surface != "slope":
            raise FigurePhraseUnreadable(angle.span, "a surface", text.value, "incline for one with an angle")
        self.angle = self.reader.angle(angle, "angle of an incline")

    def _ground(self, found: Found) -> None:
        slope = found.word("kind") in ("incline", "slope", "ramp", "plane")
        kind = "slope" if slope else "level"
        if self.surface and self.surface != kind:
            raise FigurePhraseUnreadable(
                found.text.span,
                "the surface of this figure",
                found.text.value,
                "one surface: level or sloping",
            )
        self.surface = kind
        finish = found.word("finish").replace("frictionless", "smooth")
        self.finish = finish or self.finish

    def _block(self, text: Text) -> None:
        line = Line(text)
        head = line.head(_BLOCK, "a block", _BLOCK_FORM)
        above = line.take(r"(?P<far>.+?)\s+above\s+the\s+(?:ground|floor)", "h above the ground")
        height = self.reader.length(above.part("far"), "height") if above is not None else None
        place, back = "surface", False
        if "where" in head:
            where = head.part("where")
            on, pulley, top = fit(_ON, where), fit(_PULLEY, where), fit(_TOP, where)
            if on is not None:
                self._ground(on)
                self._steep(on, text)
            elif pulley is not None:
                place, back = "pulley", pulley.word("side") == "left"
            elif top is not None:
                place = self._key(top.part("other"))
            else:
                raise FigurePhraseUnreadable(
                    where.span, "where a block is", where.value, "on the surface or hanging over a pulley"
                )
        extra, line.clauses = line.clauses, []
        body = labelled(self.reader, head, extra[:2], [block.body for block in self.blocks], "kg", "N")
        line.clauses = extra[2:]
        line.finish("a block")
        if len(self.blocks) >= _PIECES:
            raise FigurePhraseUnreadable(
                text.span, "a block of this figure", text.value, f"at most {_PIECES} blocks"
            )
        if place == "pulley" and not back and any(b.place == "pulley" for b in self.blocks):
            back = False
        self.blocks.append(Block(body, place, height, back))

    def _key(self, text: Text) -> str:
        name = read_name(text.value)
        key = name.key if name is not None else text.value
        if all(block.body.key != key for block in self.blocks):
            known = tuple(block.body.key for block in self.blocks)
            raise FigureNameUnknown(text.span, text.value, known, nearest(key, known))
        return key

    def _thread(self, text: Text) -> None:
        spring = fit(
            r"spring(?:\s+(?!between\b|from\b)(?P<label>.+?))?\s+(?:between|from)\s+(?P<first>.+?)\s+(?:and|to)\s+(?P<second>.+)",
            text,
        )
        string = fit(
            r"(?:string|rope|cable|thread|wire)(?:\s+(?!between\b)(?P<label>.+?))?\s+between\s+(?P<first>.+?)\s+and\s+(?P<second>.+)",
            text,
        )
        if string is not None:
            label = self.reader.amount(string.part("label"), "tension", "N") if "label" in string else None
            self.threads.append(
                Thread(self._key(string.part("first")), self._key(string.part("second")), label)
            )
        elif spring is not None:
            label = (
                self.reader.amount(spring.part("label"), "spring constant", "N/m")
                if "label" in spring
                else None
            )
            first, second = spring.part("first"), spring.part("second")
            if re.fullmatch(r"(?:a|the)\s+wall", second.value, re.IGNORECASE):
                first, second = second, first
            wall = re.fullmatch(r"(?:a|the)\s+wall", first.value, re.IGNORECASE)
            self.threads.append(Thread("wall" if wall else self._key(first), self._key(second), label, True))
        else:
            form = "string T between m_1 and m_2, or spring k between the wall and m"
            raise FigurePhraseUnreadable(text.span, "a string or spring", text.value, form)
