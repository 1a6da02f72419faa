"""The one root of every problem that an author can meet, and the table of all of them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from inspect import cleandoc
from typing import ClassVar, Literal

from .span import Span

Level = Literal["problem", "note", "unreadable"]

#: What a level does to a run: a note never fails it, a problem does, and what could not be read at all
#: beats both.
EXIT_CODES: dict[Level, int] = {"note": 0, "problem": 1, "unreadable": 2}


# Told apart, and shown to a programmer, as exceptions are: each method takes its time to make, for two hundred classes.
@dataclass(eq=False, repr=False)
class Problem(Exception):
    """Something that an author has to mend, or (a note) may want to know.

    A class keeps the parts and builds its own sentence: what is wrong first, lower case, no full stop, the
    author's own text quoted. Its docstring is what `physcalc explain` prints.

    Attributes:
        span: the smallest place that shows it.
    """

    slug: ClassVar[str] = ""
    level: ClassVar[Level] = "problem"
    #: A short wrong example and the same mended, for `physcalc explain`.
    wrong: ClassVar[str] = ""
    right: ClassVar[str] = ""

    span: Span

    def sentence(self) -> str:
        """What is wrong, in one line."""
        raise NotImplementedError

    def mend(self) -> str:
        """What to do about it, in one line; empty where the sentence says it already."""
        return ""

    def because(self) -> tuple[str, ...]:
        """Further lines: where the numbers come from, what else is concerned."""
        return ()

    def __str__(self) -> str:
        return f"{self.slug}: {self.sentence()}"

    @classmethod
    def explained(cls) -> tuple[str, ...]:
        """What this kind of problem means, paragraph by paragraph: its docstring as far as it is for authors."""
        told = cleandoc(cls.__doc__ or "").partition("\nAttributes:")[0]
        return tuple(" ".join(paragraph.split()) for paragraph in told.split("\n\n") if paragraph.strip())

    @classmethod
    def summary(cls) -> str:
        """The first sentence of that."""
        first = next(iter(cls.explained()), "")
        end = first.find(". ")
        return first[: end + 1] if end >= 0 else first

    @classmethod
    def every(cls) -> Iterator[type[Problem]]:
        """All problem classes that carry a slug, in the order in which they were defined."""
        for child in cls.__subclasses__():
            if child.slug:
                yield child
            yield from child.every()


def nearest(word: str, known: list[str] | tuple[str, ...] | set[str]) -> str | None:
    """The known word that `word` was most likely meant to be, or None where nothing is close."""
    from difflib import get_close_matches

    found = get_close_matches(word, sorted(known), n=1, cutoff=0.6)
    if found:
        return found[0]
    lower = {name.lower(): name for name in sorted(known)}
    return lower.get(word.lower())
