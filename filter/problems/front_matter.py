"""Problems of the front matter and of settings."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from physcalc.problems import Level, Problem


@dataclass(eq=False, repr=False)
class FrontMatterUnreadable(Problem):
    """The front matter cannot be read as YAML.

    Front matter stands at the very top of a document between two lines of three hyphens. Below `physcalc:`
    each setting stands on a line of its own, indented by spaces. A value that holds a colon followed by a
    space, or that begins with a sign such as `[`, `{`, `*`, `&` or `%`, needs quotes.

    Attributes:
        reason: what is wrong, as a sentence without full stop.
        advice: how to mend it.
    """

    slug: ClassVar[str] = "front-matter-unreadable"
    level: ClassVar[Level] = "unreadable"
    wrong: ClassVar[str] = "---\nphyscalc:\n\tsheet: school\n---"
    right: ClassVar[str] = "---\nphyscalc:\n  sheet: school\n---"

    reason: str
    advice: str = (
        "put each setting on a line of its own, indented by spaces, and quote values that hold signs"
    )

    def sentence(self) -> str:
        return self.reason

    def mend(self) -> str:
        return self.advice


@dataclass(eq=False, repr=False)
class SettingUnknown(Problem):
    """A setting is named that does not exist.

    Settings stand below `physcalc:` in the front matter, as attributes of a question, as keys of a block, or
    after `--set` on the command line. Their names are written with hyphens and small letters.

    Attributes:
        key: the name as typed.
        nearest: the name that was most likely meant; None where nothing is close.
    """

    slug: ClassVar[str] = "setting-unknown"
    wrong: ClassVar[str] = "physcalc:\n  decimals: comma"
    right: ClassVar[str] = "physcalc:\n  decimal: comma"

    key: str
    nearest: str | None = None

    def sentence(self) -> str:
        if self.key == "physcalc":
            return "physcalc: holds no settings"
        return f'there is no setting "{self.key}"'

    def mend(self) -> str:
        if self.key == "physcalc":
            return "below physcalc: write each setting on a line of its own, indented by two spaces: sheet: school"
        if self.nearest is None:
            return "take it out, or see the list of settings in the language reference"
        return f'if it is what was meant, write "{self.nearest}"'


@dataclass(eq=False, repr=False)
class SettingUnreadable(Problem):
    """A setting has a value that it cannot take.

    Attributes:
        key: the setting.
        value: its value as typed.
        allowed: what it may be, as words: "comma or point".
        nearest: the allowed word that was most likely meant; None where nothing is close.
    """

    slug: ClassVar[str] = "setting-unreadable"
    wrong: ClassVar[str] = "rounding: up"
    right: ClassVar[str] = "rounding: half-up"

    key: str
    value: str
    allowed: str
    nearest: str | None = None

    def sentence(self) -> str:
        if not self.value:
            return f'the setting "{self.key}" has no value'
        return f'the setting "{self.key}" cannot be "{self.value}"'

    def mend(self) -> str:
        if self.nearest is not None:
            return f'if it is what was meant, write "{self.nearest}"; it may be {self.allowed}'
        return f"write {self.allowed}"


@dataclass(eq=False, repr=False)
class SettingTwice(Problem):
    """One setting is given two values in one place, under two of its names or by repeating it.

    Attributes:
        key: the setting.
        first: the value that was read first, as typed.
        second: the other value, as typed.
    """

    slug: ClassVar[str] = "setting-twice"
    wrong: ClassVar[str] = "numbers:\n  decimal: comma\ndecimal: point"
    right: ClassVar[str] = "numbers:\n  decimal: comma"

    key: str
    first: str
    second: str

    def sentence(self) -> str:
        return f'the setting "{self.key}" is both "{self.first}" and "{self.second}" here'

    def mend(self) -> str:
        return "take one of them out"


@dataclass(eq=False, repr=False)
class SettingMisplaced(Problem):
    """A setting of the whole document stands on a question or in a block.

    The sheet, the total, the language and the edition are one for a document: they belong in its front matter
    or on the command line.

    Attributes:
        key: the setting.
    """

    slug: ClassVar[str] = "setting-misplaced"
    wrong: ClassVar[str] = "# Question 1 {.question total=20}\n\nWhy?"
    right: ClassVar[str] = "---\nphyscalc:\n  total: 20\n---\n\n# Question 1 {.question marks=20}\n\nWhy?"

    key: str

    def sentence(self) -> str:
        return f'"{self.key}" is a setting of the whole document'

    def mend(self) -> str:
        return "move it below physcalc in the front matter"
