"""Problems of what stands in a block."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import ClassVar, Literal

from physcalc.limits import allow
from physcalc.problems import Problem


@dataclass(eq=False, repr=False)
class BlockEmpty(Problem):
    """A block holds no key at all.

    Attributes:
        block: the class of the block ("given", "calc"); empty where it is not known.
    """

    slug: ClassVar[str] = "block-empty"
    wrong: ClassVar[str] = "```{.given}\n```"
    right: ClassVar[str] = "```{.given}\nm: 640 kg\n```"

    block: str = ""

    def sentence(self) -> str:
        return f"the {self.block} block is empty" if self.block else "the block is empty"

    def mend(self) -> str:
        return 'write a line "key: text" in it, or take it out'


@dataclass(eq=False, repr=False)
class BlockTab(Problem):
    """A tab stands in a block.

    How far a tab reaches differs from one editor to the next, and a block is read by its indentation: use
    spaces.
    """

    slug: ClassVar[str] = "block-tab"
    wrong: ClassVar[str] = "given:\n\tm: 640 kg"
    right: ClassVar[str] = "given:\n  m: 640 kg"

    def sentence(self) -> str:
        return "a tab stands in the block"

    def mend(self) -> str:
        return "put spaces in its place"


@dataclass(eq=False, repr=False)
class BlockIndentation(Problem):
    """A line of a block is indented as no line above it is, or stands below a key that has its text already.

    Lines that belong to a key are indented below it, all by the same number of spaces, and the key itself
    then ends with its colon.

    Attributes:
        reason: which of these it is.
        above: the key or item above that has its text already; empty otherwise.
    """

    slug: ClassVar[str] = "block-indentation"
    wrong: ClassVar[str] = "given:\n    m: 640 kg\n  a: 0.75 m/s^2"
    right: ClassVar[str] = "given:\n    m: 640 kg\n    a: 0.75 m/s^2"

    reason: Literal["first", "below text", "partial", "blank"]
    above: str = ""

    def sentence(self) -> str:
        match self.reason:
            case "first":
                return "the first line of the block is indented"
            case "below text":
                return f'this line is indented, but the line above it, "{self.above}", has its text already'
            case "partial":
                return "this line is indented as no line above it is"
            case "blank":
                return "this line is indented with a blank that is no ordinary space"

    def mend(self) -> str:
        match self.reason:
            case "first":
                return "begin it where the fence begins"
            case "below text" if self.above.startswith("- ") and ": " in self.above:
                return "put the hyphen on a line of its own, and the keys of the item indented below it"
            case "below text":
                return "put the whole text on the key's line, or take the indentation away"
            case "partial":
                return "indent the lines that belong together by the same number of spaces"
            case "blank":
                return "indent with ordinary spaces"


@dataclass(eq=False, repr=False)
class BlockUnreadable(Problem):
    """A line of a block is neither `key: text` nor `- text`.

    A key ends with a colon, and a space follows the colon. An item of a list begins with a hyphen and a
    space. Below one key stand either keys or items, not both. A line that begins with `#` is a comment.

    Attributes:
        line: the line as typed.
        reason: what is the matter with it.
    """

    slug: ClassVar[str] = "block-unreadable"
    wrong: ClassVar[str] = "find T in N"
    right: ClassVar[str] = "find: T in N"

    line: str
    reason: Literal["no colon", "no space", "key expected", "item expected", "long key", "not closed"] = (
        "no colon"
    )

    def sentence(self) -> str:
        match self.reason:
            case "no colon":
                return f'the line "{self.line}" is neither "key: text" nor "- text"'
            case "not closed":
                return f'the block is not closed, so the line "{self.line}" is read as part of it'
            case "no space":
                return f'no space follows the colon or hyphen in "{self.line}"'
            case "key expected":
                return f'the line "{self.line}" stands among keys, but it is no "key: text"'
            case "item expected":
                return f'the line "{self.line}" stands among the items of a list, but it is no "- text"'
            case "long key":
                return f'the line "{self.line}" begins with a colon'

    def mend(self) -> str:
        match self.reason:
            case "no colon" if found := re.fullmatch(r"([^\s=]+)\s*=\s*(\S.*)", self.line):
                return f'write a colon in the place of the equals sign: "{found[1]}: {found[2]}"'
            case "no colon" if found := re.fullmatch(r"([A-Z])[).]\s*(\S.*)", self.line):
                return f'write "{found[1]}: {found[2]}"'
            case "not closed":
                return "put a line of three backticks (```) below the last line of the block"
            case "key expected" if found := re.fullmatch(r"-\s+([^\s:]+: .*)", self.line):
                return f'take the hyphen out: "{found[1]}"'
            case "no colon" | "key expected":
                return "write the key, a colon, a space and the text"
            case "no space":
                return "put a space after it"
            case "item expected":
                return "begin the line with a hyphen and a space"
            case "long key":
                return "write the key before the colon"


@dataclass(eq=False, repr=False)
class BlockTooLong(Problem):
    """A block is longer, or nested deeper, than any calculation needs.

    Attributes:
        what: "characters" or "levels".
        limit: how many are read.
    """

    slug: ClassVar[str] = "block-too-long"

    what: Literal["characters", "levels"]
    limit: int

    def sentence(self) -> str:
        if self.what == "levels":
            return f"the block is nested deeper than {self.limit} levels"
        return f"the block is longer than {self.limit} characters"

    def mend(self) -> str:
        return "split it into several blocks" + allow(
            "block-depth" if self.what == "levels" else "block-length"
        )


#: What authors write who do not remember a key.
MEANT = {
    "ans": "answer",
    "calculate": "find",
    "data": "given",
    "equation": "formula",
    "law": "use",
    "mark": "marks",
    "reason": "why",
    "result": "answer",
    "solution": "answer",
    "solve": "find",
    "unknown": "find",
}


@dataclass(eq=False, repr=False)
class KeyUnknown(Problem):
    """A block has a key that it does not know.

    Attributes:
        key: the key as typed.
        nearest: the key that was most likely meant; None where nothing is close.
        allowed: the keys that may stand here.
    """

    slug: ClassVar[str] = "key-unknown"
    wrong: ClassVar[str] = "anwser: 8.10 kW"
    right: ClassVar[str] = "answer: 8.10 kW"

    key: str
    nearest: str | None = None
    allowed: tuple[str, ...] = ()

    def sentence(self) -> str:
        return f'there is no key "{self.key}" here'

    @property
    def meant(self) -> str | None:
        """The key that was most likely meant, by its letters or by its sense."""
        near = self.nearest or MEANT.get(self.key.lower())
        return near if near is not None and (near == self.nearest or near in self.allowed) else None

    def mend(self) -> str:
        if self.meant is not None:
            return f'if it is what was meant, write "{self.meant}"'
        if self.allowed and len(self.allowed) <= 12:
            return "keys that may stand here: " + ", ".join(self.allowed)
        return "take the line out, or see the list of keys in the language reference"


@dataclass(eq=False, repr=False)
class KeyTwice(Problem):
    """A key stands twice in one block, or twice below one key.

    Attributes:
        key: the key.
        first: the line of the file on which it stands first.
    """

    slug: ClassVar[str] = "key-twice"
    wrong: ClassVar[str] = "find: T in N\nfind: P in kW"
    right: ClassVar[str] = "find:\n  - T in N\n  - P in kW"

    key: str
    first: int

    def sentence(self) -> str:
        return f'the key "{self.key}" stands here a second time, first on line {self.first}'

    def mend(self) -> str:
        return "take one of them out, or write a list below the first"


@dataclass(eq=False, repr=False)
class KeyEmpty(Problem):
    """A key or an item of a list has nothing after it and nothing indented below it.

    Attributes:
        key: the key; empty for an item.
    """

    slug: ClassVar[str] = "key-empty"
    wrong: ClassVar[str] = "find:"
    right: ClassVar[str] = "find: T in N"

    key: str = ""

    def sentence(self) -> str:
        return f'the key "{self.key}" has no text' if self.key else "an item of the list has no text"

    def mend(self) -> str:
        return "write its text, or take the line out"


@dataclass(eq=False, repr=False)
class KeyShape(Problem):
    """A key holds one text where it needs keys or a list below it, or the other way round.

    `marks`, `given` and `slips` hold keys. `steps` and `or` hold items that each hold keys: put the hyphen
    on a line of its own and indent the item's keys below it.

    Attributes:
        key: the key.
        wanted: what it holds.
    """

    slug: ClassVar[str] = "key-shape"
    wrong: ClassVar[str] = "slips: gave the mass"
    right: ClassVar[str] = "slips:\n  gave the mass: F_g = m"

    key: str
    wanted: Literal["text", "texts", "keys", "items"]

    def sentence(self) -> str:
        match self.wanted:
            case "text":
                return f'"{self.key}" holds one text, not a list or keys'
            case "texts":
                return f'"{self.key}" holds a text or a list of texts'
            case "keys":
                return f'"{self.key}" holds keys, indented below it'
            case "items":
                return f'"{self.key}" holds a list whose items hold keys'

    def mend(self) -> str:
        match self.wanted:
            case "text":
                return "write it on the key's line"
            case "texts":
                return 'write it on the key\'s line, or as lines "- text" below it'
            case "keys":
                return 'write lines "key: text", indented, below it'
            case "items":
                return "put each hyphen on a line of its own and indent the item's keys below it"
