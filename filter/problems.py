"""Room 0 of the document side: the problems of files, blocks, settings and documents, one class each."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar, Literal

from physcalc.problems import Level, Problem, Span, nearest

#: So many names are listed where none is near to what was typed.
_MOST_LISTED = 12

# ---------------------------------------------------------------------------------------------------------
# Files


@dataclass(eq=False)
class FileMissing(Problem):
    """A file that was asked for is not there, or may not be read.

    Paths are taken from the folder in which the command runs. A folder may be named too: then every Markdown
    file below it is read.

    Attributes:
        path: the path as it was given.
        reason: what the operating system says, as the rest of a sentence that begins with the path.
    """

    slug: ClassVar[str] = "file-missing"
    level: ClassVar[Level] = "unreadable"

    path: str
    reason: str = "is not there"

    def sentence(self) -> str:
        return f'the file "{self.path}" {self.reason}'

    def mend(self) -> str:
        return "check the path and the folder in which the command runs"


@dataclass(eq=False)
class FileEmpty(Problem):
    """A file holds nothing but blank lines, so there is nothing to build or check.

    Attributes:
        path: the path as it was given.
    """

    slug: ClassVar[str] = "file-empty"
    level: ClassVar[Level] = "unreadable"

    path: str

    def sentence(self) -> str:
        return f'the file "{self.path}" is empty'

    def mend(self) -> str:
        return "check that the right file was named and that the editor saved it"


@dataclass(eq=False)
class FileNotUtf8(Problem):
    """A file is not text in UTF-8.

    Documents are read as UTF-8, with or without a byte order mark, and with either kind of line ending. A
    word processor's own file, or text saved in an old encoding, stops at the first byte that is none. Save
    the file as plain text in UTF-8.

    Attributes:
        byte: the value of the first byte that cannot be read.
    """

    slug: ClassVar[str] = "file-not-utf8"
    level: ClassVar[Level] = "unreadable"

    byte: int

    def sentence(self) -> str:
        if self.byte == 0:
            return "the file holds a zero byte, so it is not plain text"
        return f"the file is not UTF-8: the byte {self.byte:02X} cannot be read here"

    def mend(self) -> str:
        return "save the file as plain text in UTF-8"


@dataclass(eq=False)
class FileTooLarge(Problem):
    """A file is larger than any paper or guide; it is not read.

    Attributes:
        size: its size in bytes.
        limit: the largest size that is read, in bytes.
    """

    slug: ClassVar[str] = "file-too-large"
    level: ClassVar[Level] = "unreadable"

    size: int
    limit: int

    def sentence(self) -> str:
        return f"the file has {self.size} bytes, more than the {self.limit} that are read"

    def mend(self) -> str:
        return "split the document into several files"


# ---------------------------------------------------------------------------------------------------------
# Front matter and settings


@dataclass(eq=False)
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


@dataclass(eq=False)
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
        return f'there is no setting "{self.key}"'

    def mend(self) -> str:
        if self.nearest is None:
            return "take it out, or see the list of settings in the language reference"
        return f'if it is what was meant, write "{self.nearest}"'


@dataclass(eq=False)
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


@dataclass(eq=False)
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


@dataclass(eq=False)
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


# ---------------------------------------------------------------------------------------------------------
# Bodies of blocks


@dataclass(eq=False)
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


@dataclass(eq=False)
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


@dataclass(eq=False)
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
            case "below text":
                return "put the whole text on the key's line, or take the indentation away"
            case "partial":
                return "indent the lines that belong together by the same number of spaces"
            case "blank":
                return "indent with ordinary spaces"


@dataclass(eq=False)
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
    reason: Literal["no colon", "no space", "key expected", "item expected", "long key"] = "no colon"

    def sentence(self) -> str:
        match self.reason:
            case "no colon":
                return f'the line "{self.line}" is neither "key: text" nor "- text"'
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
            case "no colon" | "key expected":
                return "write the key, a colon, a space and the text"
            case "no space":
                return "put a space after it"
            case "item expected":
                return "begin the line with a hyphen and a space"
            case "long key":
                return "write the key before the colon"


@dataclass(eq=False)
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
        return "split it into several blocks"


@dataclass(eq=False)
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

    def mend(self) -> str:
        if self.nearest is not None:
            return f'if it is what was meant, write "{self.nearest}"'
        if self.allowed and len(self.allowed) <= 12:
            return "keys that may stand here: " + ", ".join(self.allowed)
        return "take the line out, or see the list of keys in the language reference"


@dataclass(eq=False)
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


@dataclass(eq=False)
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


@dataclass(eq=False)
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


# ---------------------------------------------------------------------------------------------------------
# Documents: the tree, questions and marks


@dataclass(eq=False)
class DocumentUnreadable(Problem):
    """Pandoc cannot read the document.

    Attributes:
        reason: what pandoc says about it.
    """

    slug: ClassVar[str] = "document-unreadable"
    level: ClassVar[Level] = "unreadable"

    reason: str

    def sentence(self) -> str:
        return f"the document cannot be read: {self.reason}"

    def mend(self) -> str:
        return "see whether pandoc alone reads it"


@dataclass(eq=False)
class DocumentNested(Problem):
    """Lists, quotations or divs stand inside one another, deeper than any page can show.

    Most often a run of `>` or of brackets was pasted in by mistake.
    """

    slug: ClassVar[str] = "document-nested"
    level: ClassVar[Level] = "unreadable"

    def sentence(self) -> str:
        return "parts of the document are nested too deep to be read"

    def mend(self) -> str:
        return "look for a long run of quotation signs or brackets"


@dataclass(eq=False)
class DocumentTooHeavy(Problem):
    """Reading the document takes pandoc more time or memory than any document that a person has written.

    A document of a few hundred pages takes a few seconds. What takes this long is most often a long run of
    brackets, backticks or quotation signs that was pasted in by mistake, or an anchor in the front matter that
    is repeated inside others.

    Attributes:
        limit: what was used up, such as "10 seconds".
    """

    slug: ClassVar[str] = "document-too-heavy"
    level: ClassVar[Level] = "unreadable"

    limit: str

    def sentence(self) -> str:
        return f"the document cannot be read within {self.limit}"

    def mend(self) -> str:
        return "look for a long run of one sign, such as brackets or backticks, or split the document"


@dataclass(eq=False)
class PandocVersion(Problem):
    """The pandoc that runs the filter is too old or too new for it.

    Attributes:
        version: the version of pandoc's tree that was handed over.
    """

    slug: ClassVar[str] = "pandoc-version"
    level: ClassVar[Level] = "unreadable"

    version: str

    def sentence(self) -> str:
        return f"this pandoc hands over a tree of version {self.version}, which the filter does not know"

    def mend(self) -> str:
        return "use pandoc 2.17 or later, or the command physcalc build, which brings its own"


@dataclass(eq=False)
class AttributeUnknown(Problem):
    """An element of ours has an attribute that it does not know.

    A question takes `marks`, `topic`, `level`, an id and every setting. Attributes that begin with `data-` are
    left alone.

    Attributes:
        element: what has it: "question", "answer".
        key: the attribute as typed.
        nearest: the attribute that was most likely meant; None where nothing is close.
    """

    slug: ClassVar[str] = "attribute-unknown"
    wrong: ClassVar[str] = "# Question 1 {.question mark=9}"
    right: ClassVar[str] = "# Question 1 {.question marks=9}"

    element: str
    key: str
    nearest: str | None = None

    def sentence(self) -> str:
        return f'{self.element} has no attribute "{self.key}"'

    def mend(self) -> str:
        if self.nearest is None:
            return "take it out, or begin its name with data- if another program needs it"
        return f'if it is what was meant, write "{self.nearest}"'


@dataclass(eq=False)
class AttributeMissing(Problem):
    """An element of ours needs an attribute that is not there.

    A typed value says of which quantity it is, `[640 kg]{.value of=m}`; a div with class `only` says in which
    editions it stands.

    Attributes:
        element: what needs it.
        key: the attribute.
        example: how it is written.
    """

    slug: ClassVar[str] = "attribute-missing"
    wrong: ClassVar[str] = "[640 kg]{.value}"
    right: ClassVar[str] = "[640 kg]{.value of=m}"

    element: str
    key: str
    example: str

    def sentence(self) -> str:
        return f'{self.element} needs the attribute "{self.key}"'

    def mend(self) -> str:
        return f"write it as in {self.example}"


@dataclass(eq=False)
class AttributeUnreadable(Problem):
    """An attribute has a value that it cannot take.

    Attributes:
        key: the attribute.
        value: its value as typed.
        allowed: what it may be, as words.
        nearest: the allowed word that was most likely meant; None where nothing is close.
    """

    slug: ClassVar[str] = "attribute-unreadable"
    wrong: ClassVar[str] = "# Question 1 {.question marks=four}"
    right: ClassVar[str] = "# Question 1 {.question marks=4}"

    key: str
    value: str
    allowed: str
    nearest: str | None = None

    def sentence(self) -> str:
        return f'the attribute "{self.key}" cannot be "{self.value}"'

    def mend(self) -> str:
        if self.nearest is not None:
            return f'if it is what was meant, write "{self.nearest}"'
        return f"write {self.allowed}"


@dataclass(eq=False)
class ClassMisspelt(Problem):
    """A class is one letter away from one of ours, so that what carries it would be printed as it stands.

    A calculation in a block with class `clac` is no calculation, and the paper would print it.

    Attributes:
        typed: the class as typed.
        meant: the class that was most likely meant.
    """

    slug: ClassVar[str] = "class-misspelt"
    wrong: ClassVar[str] = "```{.clac}"
    right: ClassVar[str] = "```{.calc}"

    typed: str
    meant: str

    def sentence(self) -> str:
        return f'there is no class "{self.typed}", so this is printed as it stands'

    def mend(self) -> str:
        return f'write "{self.meant}", or choose a class that is less like it'


@dataclass(eq=False)
class IdTwice(Problem):
    """Two questions or blocks have one id, so that `from` could mean either.

    Attributes:
        identifier: the id.
        first: where it stands first.
    """

    slug: ClassVar[str] = "id-twice"
    wrong: ClassVar[str] = "# Question 1 {.question #lift}\n\n# Question 2 {.question #lift}"
    right: ClassVar[str] = "# Question 1 {.question #lift}\n\n# Question 2 {.question #crane}"

    identifier: str
    first: Span

    def sentence(self) -> str:
        line = f", first on line {self.first.line}" if self.first.file else ""
        return f'the id "{self.identifier}" is used a second time{line}'

    def mend(self) -> str:
        return "give one of them another id"


@dataclass(eq=False)
class NumberOutOfOrder(Problem):
    """The number typed in a question's heading is not the one that comes next.

    Questions are counted 1, 1.1, 1.1.1. A heading that carries no number is given the next one.

    Attributes:
        number: the number as typed.
        expected: the number that comes next.
    """

    slug: ClassVar[str] = "number-out-of-order"
    wrong: ClassVar[str] = "# Question 1 {.question}\n\n# Question 3 {.question}"
    right: ClassVar[str] = "# Question 1 {.question}\n\n# Question 2 {.question}"

    number: str
    expected: str

    def sentence(self) -> str:
        return f"the question is numbered {self.number}, but {self.expected} comes next"

    def mend(self) -> str:
        return f"write {self.expected}, or leave the number out: it is counted"


@dataclass(eq=False)
class ReferenceLater(Problem):
    """A value is taken from a question or block that has not been worked out where it is needed.

    Questions are worked out from top to bottom, so `from` reaches upwards only. A reference to the block itself,
    or to a question that is still open around it, goes in a circle.

    Attributes:
        identifier: the id that is referred to.
        circle: whether the reference is to the block itself or to what holds it.
    """

    slug: ClassVar[str] = "reference-later"
    wrong: ClassVar[str] = (
        "::: {.question}\n"
        "```{.calc}\n"
        "given:\n"
        "  v: 2 m/s\n"
        "  T: from lift-tension\n"
        "formula: P = T v\n"
        "find: P in W\n"
        "```\n"
        ":::\n"
        "\n"
        "::: {.question #lift-tension}\n"
        "```{.calc}\n"
        "formula: T = 3 F\n"
        "given:\n"
        "  F: 3 N\n"
        "find: T in N\n"
        "```\n"
        ":::"
    )
    right: ClassVar[str] = (
        "::: {.question #lift-tension}\n"
        "```{.calc}\n"
        "formula: T = 3 F\n"
        "given:\n"
        "  F: 3 N\n"
        "find: T in N\n"
        "```\n"
        ":::\n"
        "\n"
        "::: {.question}\n"
        "```{.calc}\n"
        "given:\n"
        "  v: 2 m/s\n"
        "  T: from lift-tension\n"
        "formula: P = T v\n"
        "find: P in W\n"
        "```\n"
        ":::"
    )

    identifier: str
    circle: bool = False

    def sentence(self) -> str:
        if self.circle:
            return f'"from {self.identifier}" goes in a circle: the value is asked for where it is worked out'
        return f'"{self.identifier}" stands further down, so it has no result yet'

    def mend(self) -> str:
        return (
            "move this question below the one that it needs" if not self.circle else "type the value instead"
        )


@dataclass(eq=False)
class MarksUnequal(Problem):
    """The marks of a question's parts do not add up to the marks that the question says.

    Attributes:
        number: the question's number.
        said: the marks that it says.
        parts: what each of its parts is and how many marks it has.
    """

    slug: ClassVar[str] = "marks-unequal"
    wrong: ClassVar[str] = "# Question 1 {.question marks=9}"
    right: ClassVar[str] = "# Question 1 {.question marks=6}"

    number: str
    said: int
    parts: tuple[tuple[str, int], ...]

    def sentence(self) -> str:
        total = sum(marks for _, marks in self.parts)
        return f"question {self.number} says {self.said} marks, its parts have {total}"

    def mend(self) -> str:
        return "write the sum, or correct the marks of a part"

    def because(self) -> tuple[str, ...]:
        return (", ".join(f"{what}: {marks}" for what, marks in self.parts),)


@dataclass(eq=False)
class MarksMissing(Problem):
    """It is not said how a question's marks are shared among its parts.

    Where a question holds several calculations, definitions and answers, each says its `marks`; one alone may
    leave them out and gets what is left.

    Attributes:
        number: the question's number.
        said: the marks of the question; None where it says none.
        parts: what its parts without marks are.
    """

    slug: ClassVar[str] = "marks-missing"
    wrong: ClassVar[str] = "[weight]{.define}"
    right: ClassVar[str] = "[momentum]{.define marks=2}"

    number: str
    said: int | None
    parts: tuple[str, ...]

    def sentence(self) -> str:
        what = ", ".join(self.parts)
        if self.said is None:
            return f"question {self.number} does not say how many marks it has, and these say none: {what}"
        return f"the {self.said} marks of question {self.number} cannot be shared: {what} say none"

    def mend(self) -> str:
        return "write marks at each part; one alone may go without where the question says its own"


@dataclass(eq=False)
class TicksUnequal(Problem):
    """The ticked phrases of a written answer are more or fewer than its marks.

    Each `[phrase]{.mark}` earns one mark.

    Attributes:
        said: the marks of the answer.
        ticks: how many phrases are ticked.
    """

    slug: ClassVar[str] = "ticks-unequal"
    wrong: ClassVar[str] = "::: {.answer marks=2}\n[It stays at rest]{.mark}.\n:::"
    right: ClassVar[str] = (
        "::: {.answer marks=2}\n[It stays at rest]{.mark} [relative to the lift]{.mark}.\n:::"
    )

    said: int
    ticks: int

    def sentence(self) -> str:
        phrases = "phrase is" if self.ticks == 1 else "phrases are"
        return f"the answer says {self.said} marks, but {self.ticks} {phrases} ticked"

    def mend(self) -> str:
        return "tick as many phrases as it has marks, or correct the marks"


@dataclass(eq=False)
class TotalUnequal(Problem):
    """The marks of the questions do not add up to the total that the front matter says.

    Attributes:
        said: the total of the front matter.
        found: the sum of the questions' marks.
        questions: each question's number and marks.
    """

    slug: ClassVar[str] = "total-unequal"
    wrong: ClassVar[str] = "physcalc:\n  total: 10"
    right: ClassVar[str] = "physcalc:\n  total: 9"

    said: int
    found: int
    questions: tuple[tuple[str, int], ...]

    def sentence(self) -> str:
        return f"the total is said to be {self.said} marks, the questions have {self.found}"

    def mend(self) -> str:
        return "correct the total, or the marks of a question"

    def because(self) -> tuple[str, ...]:
        return (", ".join(f"question {number}: {marks}" for number, marks in self.questions),)


# ---------------------------------------------------------------------------------------------------------
# Values of a learner, from which later parts follow


@dataclass(eq=False)
class TakenUnreadable(Problem):
    """A learner's value, from which later parts are to follow, cannot be read.

    It is the name of a result, an equals sign, and a number with its unit and perhaps a direction. Where several
    questions find that name, the id or the number of the question, or the id of the block, stands before it with a
    colon.

    Attributes:
        typed: what was typed.
    """

    slug: ClassVar[str] = "taken-unreadable"
    level: ClassVar[Level] = "unreadable"
    wrong: ClassVar[str] = '--took "T 6725 N"'
    right: ClassVar[str] = '--took "T=6725 N", --took "lift-tension:T=6725 N"'

    typed: str

    def sentence(self) -> str:
        return f'"{self.typed}" is no name of a result with a value'

    def mend(self) -> str:
        return (
            "write NAME=VALUE, as in T=6725 N; the id of its question may stand before the name: ID:T=6725 N"
        )


@dataclass(eq=False)
class TakenUnknown(Problem):
    """No calculation finds the name for which a learner's value is to be taken.

    Attributes:
        name: the name as typed.
        target: the question or block in which it was looked for; empty for the whole document.
        known: what could have been meant.
        target_found: whether that question or block exists.
    """

    slug: ClassVar[str] = "taken-unknown"
    level: ClassVar[Level] = "unreadable"
    wrong: ClassVar[str] = '--took "T_1=6725 N"   (no calculation finds T_1)'
    right: ClassVar[str] = '--took "T=6725 N"'

    name: str
    target: str = ""
    known: tuple[str, ...] = ()
    target_found: bool = True

    def sentence(self) -> str:
        if not self.target_found:
            return f'no question or block has the id or number "{self.target}"'
        where = f'nothing in "{self.target}"' if self.target else "no calculation"
        return f"{where} finds {self.name}"

    def mend(self) -> str:
        near = nearest(self.name if self.target_found else self.target, self.known)
        if near is not None:
            return f"is {near} meant?"
        if not self.known:
            return ""
        return f"it may be {', '.join(self.known)}" if len(self.known) <= _MOST_LISTED else ""


@dataclass(eq=False)
class TakenSeveral(Problem):
    """A name is found in more than one place, and only one of these results is the learner's.

    Attributes:
        name: the name.
        choices: how each of them can be named.
    """

    slug: ClassVar[str] = "taken-several"
    level: ClassVar[Level] = "unreadable"
    wrong: ClassVar[str] = '--took "v=3 m/s"   (two questions find v)'
    right: ClassVar[str] = '--took "trolley-speed:v=3 m/s"'

    name: str
    choices: tuple[str, ...]

    def sentence(self) -> str:
        return f"{self.name} is found in {len(self.choices)} places"

    def mend(self) -> str:
        return f"write {' or '.join(self.choices)}"


@dataclass(eq=False)
class TakenGiven(Problem):
    """A learner's value is to be taken for a datum. Data are read from the question; only results can be wrong.

    Attributes:
        name: the name.
        value: its value as printed.
        where: where it is given.
    """

    slug: ClassVar[str] = "taken-given"
    level: ClassVar[Level] = "unreadable"
    wrong: ClassVar[str] = '--took "m=650 kg"   (m is given)'
    right: ClassVar[str] = '--took "T=6725 N"   (T is found)'

    name: str
    value: str
    where: str

    def sentence(self) -> str:
        return f"{self.name} is no result: it is {self.value} ({self.where})"

    def mend(self) -> str:
        return "name the result in which the learner's value first stands"


@dataclass(eq=False)
class TakenTwice(Problem):
    """Two values of a learner are to be taken for one result.

    Attributes:
        name: the result.
    """

    slug: ClassVar[str] = "taken-twice"
    level: ClassVar[Level] = "unreadable"
    wrong: ClassVar[str] = '--took "T=6725 N" --took "T=6700 N"'
    right: ClassVar[str] = '--took "T=6725 N"'

    name: str

    def sentence(self) -> str:
        return f"{self.name} is taken twice"

    def mend(self) -> str:
        return "keep the value that the learner went on with"


@dataclass(eq=False)
class TraceUnknown(Problem):
    """`physcalc trace` was asked for a value that the document does not hold.

    A value is asked for by its name, as in `q_B`. Where several have that name, the id or the number of the question,
    or the id of the block, stands before it with a colon, as in `sphere:q_B`.

    Attributes:
        name: the name as typed; empty where the question is what is unknown.
        target: the question or block in which it was looked for; empty for the whole document.
        known: what could have been meant.
    """

    slug: ClassVar[str] = "trace-unknown"
    level: ClassVar[Level] = "unreadable"
    wrong: ClassVar[str] = "physcalc trace test.md q_b   (the document has q_B)"
    right: ClassVar[str] = "physcalc trace test.md q_B"

    name: str
    target: str = ""
    known: tuple[str, ...] = ()

    def sentence(self) -> str:
        if not self.name:
            return f'no question or block has the id or number "{self.target}"'
        where = f'nothing in "{self.target}"' if self.target else "nothing"
        return f'{where} has the name "{self.name}"'

    def mend(self) -> str:
        near = nearest(self.name or self.target, self.known)
        if near is not None:
            return f"is {near} meant?"
        return f"it may be {', '.join(self.known)}" if 0 < len(self.known) <= _MOST_LISTED else ""


@dataclass(eq=False)
class TraceSeveral(Problem):
    """`physcalc trace` was asked for a name that several values of the document have.

    Attributes:
        name: the name.
        choices: for each of them how it can be asked for, its value, and where it stands.
    """

    slug: ClassVar[str] = "trace-several"
    level: ClassVar[Level] = "unreadable"
    wrong: ClassVar[str] = "physcalc trace test.md v   (two questions have a v)"
    right: ClassVar[str] = "physcalc trace test.md trolley-speed:v"

    name: str
    choices: tuple[tuple[str, str, Span | None], ...]

    def sentence(self) -> str:
        return f"{self.name} means {len(self.choices)} things in this document"

    def because(self) -> tuple[str, ...]:
        return tuple(
            f"{asked} is {value}" + (f" (line {span.line})" if span is not None else "")
            for asked, value, span in self.choices
        )

    def mend(self) -> str:
        asked = [choice[0] for choice in self.choices]
        if len(set(asked)) < len(asked):
            return "give the questions or blocks ids, and write ID:" + self.name
        return f"write {' or '.join(asked)}"


# ---------------------------------------------------------------------------------------------------------
# Documents: what stands in the text


@dataclass(eq=False)
class NumberLoose(Problem):
    """A number with a unit in the text of a question is tied to no quantity, so that nothing notices when it drifts.

    This is looked for by `physcalc check --strict` alone. Tie the number with a span that names its quantity, or
    have the value written in. `physcalc fix --tie` writes the span around each number that equals exactly one
    quantity. A number that belongs to no quantity stands in a span with the class `untied`.

    Attributes:
        typed: the number with its unit.
        names: the quantities that it equals.
        near: where it equals none, the data of its kind, each as a sentence.
        raw: the characters of the source that the span would hold; empty where no span can stand there.
        end: offset of the end of these characters in the source.
    """

    slug: ClassVar[str] = "number-loose"
    wrong: ClassVar[str] = "The lift speeds up at 0,75 m·s⁻²."
    right: ClassVar[str] = "The lift speeds up at [0,75 m·s⁻²]{.value of=a}."

    typed: str
    names: tuple[str, ...] = ()
    near: tuple[str, ...] = ()
    raw: str = ""
    end: int = 0

    def sentence(self) -> str:
        return f'the number "{self.typed}" is tied to no quantity'

    def because(self) -> tuple[str, ...]:
        return self.near

    @property
    def tie(self) -> str:
        """The span to be written; empty where the number is not that of one quantity, or cannot be tied."""
        return value_span(self.raw, self.names[0]) if self.raw and len(self.names) == 1 else ""

    def mend(self) -> str:
        shown = " ".join((self.raw or self.typed).split())
        if not self.names:
            return f"give it a name in a given block, or write [{shown}]{{.untied}}"
        if not self.raw:
            return (
                f"it is {' or '.join(self.names)}: write it with its symbol, outside mathematics, to tie it"
            )
        return "write " + " or ".join(value_span(shown, name) for name in self.names)


def value_span(typed: str, name: str) -> str:
    """The Markdown of a typed value that is tied to a quantity."""
    of = name if name.isascii() and name.replace("_", "a").isalnum() else f'"{name}"'
    return f"[{typed}]{{.value of={of}}}"


@dataclass(eq=False)
class ValueMisplaced(Problem):
    """A typed value stands where Markdown reads no spans, so that nothing would ever check it.

    Between dollar signs, in raw TeX or HTML and in the front matter the brackets are ordinary characters. A span
    may hold mathematics, but not the other way round: let the mathematics end before the value, or put all of
    the value's own mathematics into the span.

    Attributes:
        where: in what it stands, with its preposition.
        typed: the value as typed.
    """

    slug: ClassVar[str] = "value-misplaced"
    wrong: ClassVar[str] = "$v = [4,0 m·s⁻¹]{.value of=v}$"
    right: ClassVar[str] = "$v =$ [4,0 m·s⁻¹]{.value of=v}"

    where: str
    typed: str

    def sentence(self) -> str:
        return f'the value "{self.typed}" stands {self.where}, where it is not checked'

    def mend(self) -> str:
        if self.where == "in mathematics":
            return "end the mathematics before the value: $v =$ [4 m/s]{.value of=v}"
        return "write it in the text of the document"


@dataclass(eq=False)
class AnswerPrinted(Problem):
    """A value in the text of a question is a result, so that the paper would give the answer away.

    In the text of the paper only data may stand, and results that a "show that" states (key `show`).

    Attributes:
        name: the quantity.
        where: where it is worked out.
    """

    slug: ClassVar[str] = "answer-printed"
    wrong: ClassVar[str] = "The weight is `F_g`{.value}."
    right: ClassVar[str] = '::: {.only in="memo guide"}\nThe weight is `F_g`{.value}.\n:::'

    name: str
    where: str

    def sentence(self) -> str:
        return f"{self.name} is a result ({self.where}): here the paper would print an answer"

    def mend(self) -> str:
        return 'take it out, put it into a div {.only in="memo guide"}, or state it with the key "show"'


@dataclass(eq=False)
class NameAmbiguous(Problem):
    """A name in the text of a question has two values in that question's blocks.

    Attributes:
        name: the name.
        values: each value as printed, and where it stands.
    """

    slug: ClassVar[str] = "name-ambiguous"
    wrong: ClassVar[str] = "`v`{.value}"
    right: ClassVar[str] = "`v_1`{.value}"

    name: str
    values: tuple[tuple[str, str], ...]

    def sentence(self) -> str:
        listed = " and ".join(f"{value} ({where})" for value, where in self.values)
        return f"{self.name} means two things in this question: {listed}"

    def mend(self) -> str:
        return "give the two quantities names of their own"


@dataclass(eq=False)
class DefinitionIncomplete(Problem):
    """A typed definition lacks a key phrase of the sheet's wording, for which a marker would look.

    Attributes:
        name: what is defined.
        missing: the key phrases that do not occur in it.
        wording: the sheet's own wording.
    """

    slug: ClassVar[str] = "definition-incomplete"
    wrong: ClassVar[str] = '[It comes to rest.]{.define of="Newton\'s first law"}'
    right: ClassVar[str] = "[Newton's first law]{.define}"

    name: str
    missing: tuple[str, ...]
    wording: str

    def sentence(self) -> str:
        listed = ", ".join(f'"{phrase}"' for phrase in self.missing)
        return f'the definition of "{self.name}" lacks {listed}'

    def mend(self) -> str:
        return "use the words of the sheet, or change its key phrases"

    def because(self) -> tuple[str, ...]:
        return (f"the sheet says: {self.wording}",)


# ---------------------------------------------------------------------------------------------------------
# Documents: the weighting grid, sections, keys of options


@dataclass(eq=False)
class GridTargetsSum(Problem):
    """The shares that a grid sets as targets for all topics, or for all levels, do not add up to 100 %.

    Attributes:
        kind: "topics" or "levels".
        found: their sum as printed, such as "90 %".
    """

    slug: ClassVar[str] = "grid-targets-sum"
    wrong: ClassVar[str] = "grid:\n  topics: {forces: 60 %, energy: 30 %}"
    right: ClassVar[str] = "grid:\n  topics: {forces: 60 %, energy: 40 %}"

    kind: str
    found: str

    def sentence(self) -> str:
        return f"the targets of the {self.kind} add up to {self.found}"

    def mend(self) -> str:
        return "set shares that make 100 % together"


@dataclass(eq=False)
class GridTargetUnused(Problem):
    """A grid sets a target for a topic or a level that no question of the paper has.

    A question says its own: `{.question marks=4 topic=forces level=2}`. What it does not say it has from the
    question around it. Capitals make no difference.

    Attributes:
        kind: "topic" or "level".
        name: the topic or level as typed.
        nearest: the one of the paper that was most likely meant; None where nothing is close.
    """

    slug: ClassVar[str] = "grid-target-unused"
    wrong: ClassVar[str] = "grid:\n  topics: {force: 60 %, energy: 40 %}"
    right: ClassVar[str] = "grid:\n  topics: {forces: 60 %, energy: 40 %}"

    kind: str
    name: str
    nearest: str | None = None

    def sentence(self) -> str:
        return f'no question has the {self.kind} "{self.name}", for which the grid sets a target'

    def mend(self) -> str:
        if self.nearest is not None:
            return f'if it is what was meant, write "{self.nearest}"'
        return f"write {self.kind}= at the questions that belong to it, or take the target out"


@dataclass(eq=False)
class GridOffTarget(Problem):
    """A topic or a level has more or fewer of the paper's marks than its target and the tolerance allow.

    A topic of the paper that has no target, where others have one, is to have none of the marks.

    Attributes:
        kind: "topic" or "level".
        name: the topic or level.
        share: its share of the marks, as printed.
        target: what it is to be, as printed, with the tolerance.
    """

    slug: ClassVar[str] = "grid-off-target"
    level: ClassVar[Level] = "note"
    wrong: ClassVar[str] = "grid:\n  topics: {forces: 20 %, energy: 80 %}"
    right: ClassVar[str] = "grid:\n  topics: {forces: 60 %, energy: 40 %}"

    kind: str
    name: str
    share: str
    target: str

    def sentence(self) -> str:
        return f'the {self.kind} "{self.name}" has {self.share} of the marks, the target is {self.target}'

    def mend(self) -> str:
        return "see physcalc grid for the whole table"


@dataclass(eq=False)
class SectionUnequal(Problem):
    """A heading without a question says marks, and the questions of its section have others.

    Attributes:
        title: the heading.
        said: the marks that it says.
        found: the sum of its questions' marks.
        questions: each question's number and marks.
    """

    slug: ClassVar[str] = "section-unequal"
    wrong: ClassVar[str] = "# Section A {marks=8}"
    right: ClassVar[str] = "# Section A {marks=9}"

    title: str
    said: int
    found: int
    questions: tuple[tuple[str, int], ...]

    def sentence(self) -> str:
        return f'the section "{self.title}" says {self.said} marks, its questions have {self.found}'

    def mend(self) -> str:
        return "write the sum, or correct the marks of a question"

    def because(self) -> tuple[str, ...]:
        return (", ".join(f"question {number}: {marks}" for number, marks in self.questions),)


@dataclass(eq=False)
class MethodsMarksDiffer(Problem):
    """Another method of a calculation says other marks than the first one.

    Whichever method a learner chooses, the marks are the same.

    Attributes:
        said: the marks of the calculation.
        found: the marks that this method says.
    """

    slug: ClassVar[str] = "methods-marks-differ"
    wrong: ClassVar[str] = "or:\n  -\n    formula: v = sqrt(v_0^2 + 2 a (v_0 t + 1/2 a t^2))\n    marks: 3"
    right: ClassVar[str] = "or:\n  -\n    formula: v = sqrt(v_0^2 + 2 a (v_0 t + 1/2 a t^2))\n    marks: 4"

    said: int
    found: int

    def sentence(self) -> str:
        return f"this method says {self.found} marks, the calculation has {self.said}"

    def mend(self) -> str:
        return "let both methods earn the same, or leave the marks of this one out"


@dataclass(eq=False)
class OptionsUnbalanced(Problem):
    """The right options of a section's multiple-choice questions have one letter more than half of the time.

    Whoever notices gains marks without physics. It is looked at from four questions on.

    Attributes:
        letter: the letter.
        count: how many questions have it as their answer.
        total: how many questions there are.
        keys: the right letters in the order of the questions.
    """

    slug: ClassVar[str] = "options-unbalanced"
    level: ClassVar[Level] = "note"
    wrong: ClassVar[str] = (
        "```{.options}\n"
        "A: one\n"
        "B: two\n"
        "C: three\n"
        "answer: B\n"
        "```\n"
        "\n"
        "```{.options}\n"
        "A: one\n"
        "B: two\n"
        "C: three\n"
        "answer: B\n"
        "```\n"
        "\n"
        "```{.options}\n"
        "A: one\n"
        "B: two\n"
        "C: three\n"
        "answer: C\n"
        "```\n"
        "\n"
        "```{.options}\n"
        "A: one\n"
        "B: two\n"
        "C: three\n"
        "answer: B\n"
        "```"
    )
    right: ClassVar[str] = (
        "```{.options}\n"
        "A: one\n"
        "B: two\n"
        "C: three\n"
        "answer: B\n"
        "```\n"
        "\n"
        "```{.options}\n"
        "A: one\n"
        "B: two\n"
        "C: three\n"
        "answer: A\n"
        "```\n"
        "\n"
        "```{.options}\n"
        "A: one\n"
        "B: two\n"
        "C: three\n"
        "answer: C\n"
        "```\n"
        "\n"
        "```{.options}\n"
        "A: one\n"
        "B: two\n"
        "C: three\n"
        "answer: B\n"
        "```"
    )

    letter: str
    count: int
    total: int
    keys: tuple[str, ...]

    def sentence(self) -> str:
        return f"{self.letter} is the right option of {self.count} of {self.total} multiple-choice questions"

    def mend(self) -> str:
        return "change the order of options in some of them"

    def because(self) -> tuple[str, ...]:
        return (f"the right options in order: {' '.join(self.keys)}",)
