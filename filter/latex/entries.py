"""What a run of TeX wrote: `NAME.physin`, read strictly.

Each line is one sign, a blank and a text. The package `physcalc.sty` writes it, and nothing else reads it:

    P 1 signs main           head: version; how signs are counted (signs, or bytes of UTF-8); TeX's name of the job
    F chapters/one.tex       the file in which what follows stands; empty for the one that TeX was given
    E 3 calculation 21       an entry: its number, what it is, its line
    O id=lift                its options as typed
    N T_1                    the name of a value or a definition
    T 6752 N                 the text that is typed for it
    Q 1.1                    the number that TeX gave a question
    B 22 find: T in N        a line of a body: its line in the file, then the line itself
    X 3                      the end of the question, answer or stretch for some editions of that number
    Z 42 memo                end: how many entries, the edition, and "partial" with \\includeonly

TeX writes control signs as two carets and a letter, and doubles "#" in what is no body.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal, get_args

from physcalc.limits import allow, limit
from physcalc.problems import Span

from ..document import EDITIONS, Edition
from ..sources import Source
from .problems import EntriesDamaged, EntriesUnfinished

EntryKind = Literal[
    "setup",
    "given",
    "calculation",
    "options",
    "draw",
    "question",
    "answer",
    "only",
    "mark",
    "value",
    "define",
]
#: What has an end of its own.
OPENING: frozenset[str] = frozenset({"question", "answer", "only"})
#: What has a body.
BODIES: frozenset[str] = frozenset({"given", "calculation", "options", "draw"})

_KINDS: tuple[EntryKind, ...] = get_args(EntryKind)
_VERSION = "1"
#: The package stops at four questions in one another; answers and stretches for some editions stand inside.
_DEEPEST = 12
_MODULUS = 65521

_CONTROL = re.compile(r"\^\^([?-_])")


@dataclass(frozen=True, slots=True)
class BodyLine:
    """A line of a body.

    Attributes:
        line: its line in the file.
        text: the line.
    """

    line: int
    text: str


@dataclass(frozen=True, slots=True)
class Entry:
    """One thing of ours in a TeX document.

    Attributes:
        number: its number, counted by TeX from 1; chapters that were left out leave gaps.
        kind: what it is.
        file: the file that it stands in, as TeX names it; empty for the one that TeX was given.
        line: its line there: the one in which TeX had read all of it.
        options, name, typed: see the format; empty, and None for a value that is written in.
        question: the number that TeX gave a question; empty for anything else.
        body: the lines of its body.
        sum: what TeX counts together over it, "low.high".
        place: its place in the file that TeX wrote.
    """

    number: int
    kind: EntryKind
    file: str
    line: int
    options: str
    name: str
    typed: str | None
    question: str
    body: tuple[BodyLine, ...]
    sum: str
    place: Span


@dataclass(frozen=True, slots=True)
class Run:
    """What a run of TeX over a document wrote.

    Attributes:
        job: TeX's name of the job.
        events: entries in their order; a number stands for the end of the entry that has it.
        count: how many entries TeX counted.
        sum: what TeX counts together over all of them.
        edition: the edition that TeX sets.
        partial: whether some chapters were left out.
    """

    job: str
    events: tuple[Entry | int, ...]
    count: int
    sum: int
    edition: Edition
    partial: bool

    def entries(self) -> Iterator[Entry]:
        """The entries alone."""
        return (event for event in self.events if isinstance(event, Entry))


def read_run(source: Source) -> Run:
    """What TeX wrote.

    Args:
        source: the text of the file.

    Raises:
        EntriesDamaged: with the line that cannot be read.
        EntriesUnfinished: TeX did not come to the end.
    """
    return _Reader(source).run()


@dataclass(slots=True)
class _Open:
    """An entry in the making."""

    number: int
    kind: EntryKind
    file: str
    line: int
    place: Span
    fields: dict[str, str]
    body: list[BodyLine]
    summed: list[str]


class _Reader:
    def __init__(self, source: Source) -> None:
        self.source = source
        self.file = ""
        self.events: list[Entry | int] = []
        self.known: dict[int, Entry] = {}
        self.open: _Open | None = None
        self.stack: list[int] = []
        self.sums: dict[int, int] = {}
        self.bytes = False
        self.at = 0

    def run(self) -> Run:
        lines = self.source.text.split("\n")
        head = lines[0].rstrip("\r").split(" ", 3)
        if len(head) < 4 or head[0] != "P" or head[2] not in ("signs", "bytes"):
            raise self.damaged("it does not begin as the package begins it")
        if head[1] != _VERSION:
            raise self.damaged(f"it is of version {head[1][:20]}, and this program reads version {_VERSION}")
        self.bytes = head[2] == "bytes"
        for at, raw in enumerate(lines[1:], start=1):
            self.at = at
            line = raw.rstrip("\r")
            if not line and at == len(lines) - 1:
                break
            sign, blank, text = line[:1], line[1:2], line[2:]
            if blank not in ("", " "):
                raise self.damaged("a line is one sign, a blank and a text")
            text = _CONTROL.sub(lambda found: chr(ord(found[1]) ^ 64), text)
            if sign == "Z":
                return self.end(text, head[3].strip('"'), rest=lines[at + 1 :])
            self.line(sign, text)
        raise EntriesUnfinished(Span(self.source.name, self.at + 1))

    def line(self, sign: str, text: str) -> None:
        match sign:
            case "F":
                self.close()
                self.file = text
            case "E":
                self.close()
                self.entry(text)
            case "O" | "N" | "T" | "Q" if self.open is not None:
                if sign in self.open.fields:
                    raise self.damaged(f"an entry has two lines {sign}")
                self.open.fields[sign] = text
                if sign != "Q":
                    self.open.summed.append(f"{sign} {text}")
            case "B" if self.open is not None and self.open.kind in BODIES:
                number, _, body = text.partition(" ")
                self.open.body.append(BodyLine(self.whole(number, 1), body))
                self.open.summed.append(f"B {body}")
            case "X":
                self.close()
                ended = self.whole(text)
                if not self.stack or self.stack.pop() != ended:
                    raise self.damaged(f"entry {ended} ends here, and is not the one that is open")
                self.events.append(ended)
            case _:
                raise self.damaged(f'no line "{sign}" can stand here')

    def entry(self, text: str) -> None:
        number, _, rest = text.partition(" ")
        kind, _, line = rest.partition(" ")
        if kind not in _KINDS:
            raise self.damaged(f'there are no entries "{kind[:40]}"')
        place = Span(self.source.name, self.at + 1)
        self.open = _Open(
            self.whole(number), kind, self.file, self.whole(line, 1), place, {}, [], [f"E {kind}"]
        )

    def close(self) -> None:
        """The entry that is open is complete."""
        opened, self.open = self.open, None
        if opened is None:
            return
        fields = {sign: text.replace("##", "#") for sign, text in opened.fields.items()}
        low, high = self.summed(opened.summed)
        entry = Entry(
            opened.number,
            opened.kind,
            opened.file,
            opened.line,
            fields.get("O", ""),
            fields.get("N", ""),
            fields.get("T"),
            fields.get("Q", ""),
            tuple(opened.body),
            f"{low}.{high}",
            opened.place,
        )
        twin = self.known.get(entry.number)
        if twin is not None:
            # LaTeX sets some texts twice to measure them, and puts its counters back in between.
            if (twin.kind, twin.sum) != (entry.kind, entry.sum) or entry.kind in OPENING:
                raise self.damaged(f"two entries have the number {entry.number}")
            return
        if len(self.known) >= (most := limit("tex-entries")):
            raise self.damaged(f"it has more than {most} entries{allow('tex-entries')}")
        self.known[entry.number] = entry
        self.sums[entry.number] = low + high
        self.events.append(entry)
        if entry.kind in OPENING:
            self.stack.append(entry.number)
            if len(self.stack) > _DEEPEST:
                raise self.damaged(f"more than {_DEEPEST} environments stand in one another")

    def summed(self, lines: list[str]) -> tuple[int, int]:
        """The two sums over an entry, as TeX makes them (after RFC 1950, section 8.2)."""
        low, high = 1, 0
        for line in lines:
            codes = line.encode("utf-8") if self.bytes else [ord(sign) for sign in line]
            for code in (*codes, 10):
                low = (low + code) % _MODULUS
                high = (high + low) % _MODULUS
        return low, high

    def end(self, text: str, job: str, rest: list[str]) -> Run:
        self.close()
        words = text.split(" ")
        if any(rest) or len(words) not in (2, 3) or words[1] not in EDITIONS:
            raise self.damaged("it does not end as the package ends it")
        if self.stack:
            raise self.damaged(f"entry {self.stack[-1]} has no end")
        total = 0
        for number in sorted(self.sums):
            total = (total * 31 + self.sums[number]) % _MODULUS
        return Run(job, tuple(self.events), self.whole(words[0]), total, words[1], len(words) == 3)

    def whole(self, text: str, least: int = 0) -> int:
        if not re.fullmatch(r"[0-9]{1,7}", text) or int(text) < least:
            raise self.damaged(f'"{text[:40]}" is no whole number here')
        return int(text)

    def damaged(self, reason: str) -> EntriesDamaged:
        return EntriesDamaged(Span(self.source.name, self.at + 1), reason)
