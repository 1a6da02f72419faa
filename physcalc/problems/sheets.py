"""Problems in a data and formula sheet, and in what a document asks of one."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import ClassVar

from .base import Level, Problem


def _listed(words: tuple[str, ...]) -> str:
    return ", ".join(f'"{word}"' for word in words)


@dataclass(eq=False, repr=False)
class SheetUnknown(Problem):
    """The document names a data and formula sheet that does not exist.

    A sheet is a built-in one (`school`, `codata`) or a YAML file of your own, named by its path from the
    document's folder and ending in `.yaml` or `.yml`.

    Attributes:
        name: the name or path as typed.
        known: the built-in sheets.
        nearest: the built-in sheet that was most likely meant; None where nothing is close.
        path: where a file was looked for; empty where `name` is no path.
    """

    slug: ClassVar[str] = "sheet-unknown"
    level: ClassVar[Level] = "unreadable"
    wrong: ClassVar[str] = "sheet: scool"
    right: ClassVar[str] = "sheet: school"

    name: str
    known: tuple[str, ...] = ()
    nearest: str | None = None
    path: str = ""

    def sentence(self) -> str:
        if self.path:
            return f'there is no sheet file "{self.path}"'
        return f'there is no built-in sheet "{self.name}"'

    def mend(self) -> str:
        if self.nearest is not None:
            return f'if it is what was meant, write "{self.nearest}"'
        if self.path:
            return "give the file's path from the document's folder"
        return f"write one of {_listed(self.known)}, or the path of a file that ends in .yaml"


@dataclass(eq=False, repr=False)
class SheetOutside(Problem):
    """A document names a sheet that lies outside the document's own folder.

    A document that somebody sent could have other files of yours read that way. So a sheet that a document
    names lies in the document's folder or below it, links followed, and so does what that sheet extends. A
    sheet that you name yourself, on the command line, may lie anywhere.

    Attributes:
        name: the path as typed.
    """

    slug: ClassVar[str] = "sheet-outside"
    level: ClassVar[Level] = "unreadable"
    wrong: ClassVar[str] = "sheet: ../board.yaml"
    right: ClassVar[str] = "sheet: board.yaml"

    name: str

    def sentence(self) -> str:
        return f'the sheet "{self.name}" lies outside the document\'s folder'

    def mend(self) -> str:
        return f"copy it into that folder, or name it yourself: --set sheet={self.name}"


@dataclass(eq=False, repr=False)
class SheetUnreadable(Problem):
    """A sheet's file cannot be read as YAML, or uses more of YAML than a sheet needs.

    A sheet is made of `key: text` lines, nested by indentation with spaces, and lists of `- text`. A text
    that begins with one of `[ { | > & * ! % @ " '` or holds `: ` or ` #` must stand in quotes. Anchors,
    aliases, tags and several documents in one file are refused.

    Attributes:
        reason: what is wrong, a whole sentence without its full stop.
        advice: what to do; may be empty.
    """

    slug: ClassVar[str] = "sheet-unreadable"
    level: ClassVar[Level] = "unreadable"
    wrong: ClassVar[str] = "form: |Q| = n e"
    right: ClassVar[str] = 'form: "|Q| = n e"'

    reason: str
    advice: str = ""

    def sentence(self) -> str:
        return self.reason

    def mend(self) -> str:
        return self.advice


@dataclass(eq=False, repr=False)
class SheetKeyUnknown(Problem):
    """A sheet holds a key that means nothing there.

    Nothing is skipped silently: a misspelt key would lose what stands under it.

    Attributes:
        key: the key as typed.
        place: what it stands in: "the sheet", "the constant g".
        known: the keys that may stand there.
        nearest: the key that was most likely meant; None where nothing is close.
    """

    slug: ClassVar[str] = "sheet-key-unknown"
    wrong: ClassVar[str] = "g: {value: 9.8 m·s⁻², title: acceleration due to gravity, sauce: two figures}"
    right: ClassVar[str] = "g: {value: 9.8 m·s⁻², title: acceleration due to gravity, source: two figures}"

    key: str
    place: str
    known: tuple[str, ...]
    nearest: str | None = None

    def sentence(self) -> str:
        return f'{self.place} has no key "{self.key}"'

    def mend(self) -> str:
        if self.nearest is not None:
            return f'if it is what was meant, write "{self.nearest}"'
        return f"the keys are {_listed(self.known)}"


@dataclass(eq=False, repr=False)
class SheetKeyMissing(Problem):
    """An entry of a sheet lacks a key that it cannot do without.

    A constant needs `value` and `title`, a formula `title` and `form`, a definition `title` and `wording`.

    Attributes:
        place: what lacks it: "the constant g".
        key: the missing key.
    """

    slug: ClassVar[str] = "sheet-key-missing"
    wrong: ClassVar[str] = "g: {value: 9.8 m·s⁻²}"
    right: ClassVar[str] = "g: {value: 9.8 m·s⁻², title: acceleration due to gravity}"

    place: str
    key: str

    def sentence(self) -> str:
        return f'{self.place} has no "{self.key}"'

    def mend(self) -> str:
        return f'write a line "{self.key}: …" in it'


@dataclass(eq=False, repr=False)
class SheetEntryTwice(Problem):
    """A sheet says one thing twice: a key, a constant, a formula's or a definition's name.

    Which of the two would count is not clear, so neither does. Two spellings of one name (`mu_0`, `μ₀`) are
    the same name. To change what a sheet named under `extends` says, repeat the entry in your own file.

    Attributes:
        key: the key as typed the second time.
        first: the line of the first.
    """

    slug: ClassVar[str] = "sheet-entry-twice"
    wrong: ClassVar[str] = (
        "g: {value: 9.8 m·s⁻², title: acceleration due to gravity}\n"
        "g: {value: 10 m·s⁻², title: acceleration due to gravity}"
    )
    right: ClassVar[str] = "g: {value: 9.8 m·s⁻², title: acceleration due to gravity}"

    key: str
    first: int

    def sentence(self) -> str:
        return f'"{self.key}" stands here again; it is said already in line {self.first}'

    def mend(self) -> str:
        return "keep one of the two"


@dataclass(eq=False, repr=False)
class SheetEntryMisshapen(Problem):
    """A sheet holds a text where a table of keys is needed, a list where a text is needed, or the like.

    Attributes:
        place: the key that it stands under.
        needed: what is needed: "a text", "a table of keys", "a text or a list of texts".
    """

    slug: ClassVar[str] = "sheet-entry-misshapen"
    wrong: ClassVar[str] = "g: 9.8 m·s⁻²"
    right: ClassVar[str] = "g: {value: 9.8 m·s⁻², title: acceleration due to gravity}"

    place: str
    needed: str

    def sentence(self) -> str:
        return f'"{self.place}" needs {self.needed}'

    def mend(self) -> str:
        if self.needed == "a text":
            return "write it behind the colon; put it in quotes where it begins with a bracket"
        return ""


@dataclass(eq=False, repr=False)
class SheetNameUnreadable(Problem):
    """The key of an entry is not written as such a key is.

    A constant and a symbol are called by the name that formulas give them: a letter or a run of letters, with
    one subscript: `g`, `m_e`, `ε_0`, `R_{∞}`. Formulas and definitions are called by words in small letters
    joined by hyphens, with digits where needed: `newton-2`.

    Attributes:
        key: the key as typed.
        kind: what it should be: "a name of a quantity", "a name in small letters and hyphens".
    """

    slug: ClassVar[str] = "sheet-name-unreadable"
    wrong: ClassVar[str] = "Newton 2:"
    right: ClassVar[str] = "newton-2:"

    key: str
    kind: str

    def sentence(self) -> str:
        return f'"{self.key}" is not {self.kind}'

    def mend(self) -> str:
        if "hyphens" not in self.kind:
            return "a name is letters with at most one subscript, such as m, F_net, E_{k(max)}, Δx, θ_1"
        words = re.sub(r"[^a-z0-9]+", "-", self.key.lower()).strip("-")
        return (
            f'write "{words}"; its title may be any words'
            if words[:1].isalpha()
            else "begin it with a letter"
        )


@dataclass(eq=False, repr=False)
class ConstantUnreadable(Problem):
    """A constant's value is not a number followed by its unit.

    Attributes:
        text: the value as typed.
    """

    slug: ClassVar[str] = "constant-unreadable"
    wrong: ClassVar[str] = "value: about 9.8 m·s⁻²"
    right: ClassVar[str] = "value: 9.8 m·s⁻²"

    text: str

    def sentence(self) -> str:
        return f'"{self.text}" does not begin with a number'

    def mend(self) -> str:
        return "write the number as printed, then its unit"


@dataclass(eq=False, repr=False)
class LimitUnreadable(Problem):
    """What a formula's symbol can be is said in words that a sheet does not know.

    Behind the unit, separated by commas, may stand: `not negative`, `positive`, `at least X`, `at most X`,
    `above X`, `below X`, `X to Y`, and `vector`. X and Y are numbers in the symbol's unit, or constants of
    the sheet (`below c`).

    Attributes:
        text: the words as typed.
        reason: what is wrong with them, as the rest of a sentence that begins with them.
        nearest: the words that were most likely meant; None where nothing is close.
    """

    slug: ClassVar[str] = "limit-unreadable"
    wrong: ClassVar[str] = "m: mass in kg, non negative"
    right: ClassVar[str] = "m: mass in kg, not negative"

    text: str
    reason: str = "is not a limit"
    nearest: str | None = None

    def sentence(self) -> str:
        return f'"{self.text}" {self.reason}'

    def mend(self) -> str:
        if self.nearest is not None:
            return f'if it is what was meant, write "{self.nearest}"'
        return "write not negative, positive, at least X, at most X, above X, below X, X to Y, or vector"


@dataclass(eq=False, repr=False)
class SymbolUnexplained(Problem):
    """A formula of a sheet holds a name that nothing explains.

    Every name of a formula is explained by the formula's own `symbols`, by the `symbols` of its topic, or
    is a constant of the sheet. Without its unit the formula's dimensions could not be checked.

    Attributes:
        name: the name.
        law: the formula's name.
        nearest: an explained name that was most likely meant; None where nothing is close.
    """

    slug: ClassVar[str] = "symbol-unexplained"
    wrong: ClassVar[str] = "force: {title: force, form: F = m a, symbols: {F: force in N, m: mass in kg}}"
    right: ClassVar[str] = (
        "force: {title: force, form: F = m a, symbols: {F: force in N, m: mass in kg, a: acceleration in m·s⁻²}}"
    )

    name: str
    law: str
    nearest: str | None = None

    def sentence(self) -> str:
        return f'nothing explains the "{self.name}" of the formula "{self.law}"'

    def mend(self) -> str:
        if self.nearest is not None:
            return (
                f'if "{self.nearest}" is not what was meant, write "{self.name}: TITLE in UNIT" under symbols'
            )
        return f'write "{self.name}: TITLE in UNIT" under symbols'


@dataclass(eq=False, repr=False)
class SymbolUnused(Problem):
    """A formula of a sheet explains a name that it does not hold: most likely one of the two is misspelt.

    Attributes:
        name: the name.
        law: the formula's name.
        nearest: the formula's name that was most likely meant; None where nothing is close.
    """

    slug: ClassVar[str] = "symbol-unused"
    wrong: ClassVar[str] = (
        "force: {title: force, form: F = m g, symbols: {F: force in N, m: mass in kg, g: field in N/kg, B: field in T}}"
    )
    right: ClassVar[str] = (
        "force: {title: force, form: F = m g, symbols: {F: force in N, m: mass in kg, g: field in N/kg}}"
    )

    name: str
    law: str
    nearest: str | None = None

    def sentence(self) -> str:
        return f'the formula "{self.law}" explains "{self.name}" and does not hold it'

    def mend(self) -> str:
        if self.nearest is not None:
            return f'if it is what was meant, write "{self.nearest}"'
        return "take the line out"


@dataclass(eq=False, repr=False)
class PhraseUnclosed(Problem):
    """The square brackets round the key phrases of a definition do not pair.

    Each key phrase stands between `[` and `]`; phrases do not nest, and none is empty.

    Attributes:
        definition: the definition's name.
        around: the words at the place.
    """

    slug: ClassVar[str] = "phrase-unclosed"
    wrong: ClassVar[str] = "wording: The [rate of change of velocity."
    right: ClassVar[str] = "wording: The [rate of change of velocity]."

    definition: str
    around: str

    def sentence(self) -> str:
        return f'the brackets of key phrases do not pair at "{self.around}" in "{self.definition}"'

    def mend(self) -> str:
        return "write [ before and ] after each key phrase, one at a time"


@dataclass(eq=False, repr=False)
class SheetExtendsItself(Problem):
    """A sheet extends itself, directly or through others.

    Attributes:
        chain: the sheets, in the order in which each names the next.
    """

    slug: ClassVar[str] = "sheet-extends-itself"
    level: ClassVar[Level] = "unreadable"
    wrong: ClassVar[str] = "extends: own.yaml"
    right: ClassVar[str] = "extends: school"

    chain: tuple[str, ...]

    def sentence(self) -> str:
        return "the sheet extends itself: " + " → ".join(self.chain)

    def mend(self) -> str:
        return "let one of them stand alone"


@dataclass(eq=False, repr=False)
class LawUnknown(Problem):
    """`use` names a formula that the sheet does not have.

    `physcalc sheet` prints the sheet with the names of its formulas. A formula that the sheet lacks is
    typed under `formula`.

    Attributes:
        name: the name as typed.
        sheet: the sheet's name.
        nearest: the formula that was most likely meant; None where nothing is close.
    """

    slug: ClassVar[str] = "law-unknown"
    wrong: ClassVar[str] = "use: newton2"
    right: ClassVar[str] = "use: newton-2"

    name: str
    sheet: str
    nearest: str | None = None

    def sentence(self) -> str:
        return f'the sheet {self.sheet} has no formula "{self.name}"'

    def mend(self) -> str:
        if self.nearest is not None:
            return f'if it is what was meant, write "{self.nearest}"'
        return f'"physcalc sheet {self.sheet}" lists them; a formula of your own stands under "formula"'


@dataclass(eq=False, repr=False)
class DefinitionUnknown(Problem):
    """A `define` span asks for a definition that the sheet does not have.

    A definition is asked for by its title, one of its other names, or its short name; capitals do not matter.

    Attributes:
        name: the words as typed.
        sheet: the sheet's name.
        nearest: the definition that was most likely meant; None where nothing is close.
    """

    slug: ClassVar[str] = "definition-unknown"
    wrong: ClassVar[str] = "[Newtons second law]{.define}"
    right: ClassVar[str] = "[Newton's second law]{.define}"

    name: str
    sheet: str
    nearest: str | None = None

    def sentence(self) -> str:
        return f'the sheet {self.sheet} does not define "{self.name}"'

    def mend(self) -> str:
        if self.nearest is not None:
            return f'if it is what was meant, write "{self.nearest}"'
        return f'"physcalc sheet {self.sheet}" lists what it defines; add your own to a sheet that extends it'
