"""The scan of raw LaTeX: everything of ours with its place, and a text for pandoc in which each has a stand-in.

Pandoc's reader of LaTeX gives no places and drops what it does not know. So what is ours is taken out: what
stands in its place is a word that pandoc keeps wherever it stands, and that says which of our things it is.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from pathlib import Path
from typing import Literal

from physcalc.problems import Span, Text, nearest

from ...problems import (
    AttributeUnknown,
    AttributeUnreadable,
    TexArgumentOpen,
    TexMacroArgument,
    TexNameUnknown,
    TexPictureMissing,
    TexPreambleElsewhere,
    TexToday,
)
from ..attributes import Attributes
from ..front_matter import FrontMatter
from ..marks import Kind, Mark
from ..source import Source
from ..tex_text import tex_text
from .arguments import argument, skip_blanks, trimmed
from .environments import Environments, Open
from .found import Item, TexScan
from .inputs import subfile_of
from .names import COMMANDS, DEFINING, DIVS, ENVIRONMENTS, PACKAGE, is_quiet, nearly_command
from .options import inner_pairs, pairs_of, read_options, typed_and_options
from .pictures import Pictures
from .tokens import Token, tokens
from .woven import Part, Woven

_VALUE = re.compile(r"\$?[-+\u2212]?[0-9]")
_LONGEST_SHOWN = 40
#: Where an author says what \\today shall be.
_TODAY = re.compile(r"\\(?:(?:re)?newcommand\*?|[egx]?def)[ \t]*\{?[ \t]*\\today(?![A-Za-z@])")
_PARAMETER = re.compile(r"(?<!\\)#")
_ENDS_IN_WORD = re.compile(r"\\[A-Za-z@]+$")
#: Options of the package, and what that one may be that means something to TeX alone.
_PACKAGE_OPTIONS, _TEXT_SHOWN = ("edition", "text"), ("shown", "hidden")
#: No setting has pairs so deep in one another.
_DEEPEST_SETTING = 4
_EXAMPLES = {
    "physvalue": "\\physvalue{m}, or \\physvalue[640 kg]{m}",
    "physdefine": "\\physdefine{Newton's second law}",
    "physmark": "\\physmark{a phrase}",
    "physsetup": "\\physsetup{sheet=school, total=50}",
    "physsection": "\\physsection[marks=20]{Section A}",
}


def scan_tex(source: Woven, folders: Sequence[Path] = ()) -> TexScan:
    """Everything of ours in a LaTeX source, and the text for pandoc.

    Nothing is raised: what is wrong stands in the scan.

    Args:
        source: the source.
        folders: where pictures may lie; none where they are not looked for.
    """
    stem = "physcalcplace"
    lowered = source.text.lower()
    while stem in lowered:
        stem += "x"
    return _Scanner(TexScan(source, stem), Pictures(source.text, folders)).run()


def tex_settings(source: Source) -> FrontMatter:
    """The places of what a LaTeX source itself, without the files that it reads, sets for the document."""
    return scan_tex(Woven(source.name, source.text, source.bom, parts=(Part(0, source, 0),))).front


class _Scanner(Environments):
    """Goes through a source, token by token."""

    def run(self) -> TexScan:
        self.scan.front = FrontMatter(Span(self.source.name), self.places)
        ended = False
        for token in tokens(self.text, self.defined):
            if token.start < self.at:
                continue
            match token.sort:
                case "body":
                    self.body(token)
                case "begin" if token.meant in DIVS:
                    self.begin(token)
                case "begin" | "end" if token.start < self.defining and token.meant not in ENVIRONMENTS:
                    pass  # A definition may well hold half of an environment.
                case "begin":
                    self.stack.append(Open(token.name, "", token.start, token.end))
                case "end":
                    ended = token.name == "document"
                    if ended:
                        self.close_all(token.start)
                        break
                    self.end(token)
                case "command":
                    self.command(token)
                case _:
                    pass
        if not ended:
            self.close_all(len(self.text))
        self.copy(len(self.text))
        return self.scan

    # Commands.

    def command(self, token: Token) -> None:
        if token.name in ("usepackage", "RequirePackage"):
            self.package(token)
        elif token.name == "includegraphics":
            self.picture(token)
        elif token.name == "documentclass":
            self.preamble(token)
        elif token.name == "today" and not _TODAY.search(self.text):
            self.wrong(TexToday(self.source.span(token.start, token.end)))
            self.replace(token.start, token.end, "{}")
        elif token.name in DEFINING:
            self.defining = max(self.defining, _definition_end(self.text, token.end))
        elif token.name in COMMANDS and token.name not in self.defined:
            self.ours(token)
        elif (
            token.name.lower().startswith("phys")
            and token.name not in self.defined
            and not is_quiet(token.name)
        ):
            meant = nearly_command(token.name)
            if meant:
                place = self.source.span(token.start, token.end)
                self.wrong(TexNameUnknown(place, token.name, meant, environment=False))

    def package(self, token: Token) -> None:
        """The edition that the options of our package name."""
        at = skip_blanks(self.text, token.end)
        option = argument(self.text, at, "[]") if self.text[at : at + 1] == "[" else None
        at = skip_blanks(self.text, option[1] + 1) if option else at
        name = argument(self.text, at, "{}") if self.text[at : at + 1] == "{" else None
        if name is None or self.text[slice(*name)].strip() != PACKAGE:
            return
        for key, value in pairs_of(self.source, option) if option else ():
            if key.value == "edition":
                self.set(key, value)
            elif key.value not in _PACKAGE_OPTIONS:
                near = nearest(key.value, list(_PACKAGE_OPTIONS))
                self.wrong(AttributeUnknown(key.span, "the package physcalc", key.value, near))
            elif value.value not in _TEXT_SHOWN:
                self.wrong(AttributeUnreadable(value.span, key.value, value.value, "shown or hidden"))
        self.replace(token.start, name[1] + 1, "")

    def preamble(self, token: Token) -> None:
        """Tells of a preamble that stands in another document."""
        above = subfile_of(self.text, token)
        if above is not None:
            self.wrong(TexPreambleElsewhere(self.source.span(*above), self.text[slice(*above)]))

    def picture(self, token: Token) -> None:
        """A picture by the name of its file, its ending included."""
        at = skip_blanks(self.text, token.end)
        option = argument(self.text, at, "[]") if self.text[at : at + 1] == "[" else None
        at = skip_blanks(self.text, option[1] + 1) if option else at
        inner = argument(self.text, at, "{}") if self.text[at : at + 1] == "{" else None
        name = self.text[slice(*inner)].strip() if inner else ""
        if inner is None or not name or "#" in name or "\\" in name or not self.pictures.folders:
            return
        found = self.pictures.find(name, self.source.part_at(token.start).paths)
        if found is None:
            self.wrong(TexPictureMissing(self.source.span(*trimmed(self.text, inner)), name))
        elif found != name:
            self.replace(*inner, found)

    def ours(self, token: Token) -> None:
        at = skip_blanks(self.text, token.end)
        option: tuple[int, int] | None = None
        missing = ""
        if self.text[at : at + 1] == "[" and token.name in ("physvalue", "physdefine", "physsection"):
            option = argument(self.text, at, "[]")
            if option is None:
                missing = "]"
            else:
                at = skip_blanks(self.text, option[1] + 1)
        inner: tuple[int, int] | None = None
        if not missing:
            if self.text[at : at + 1] != "{":
                missing = "{"
            else:
                inner = argument(self.text, at, "{}", paragraphs=token.name == "physsetup")
                missing = "" if inner else "}"
        if inner is None:
            opened = option[1] + 1 if option and missing == "{" else token.end
            stop = at + 1 if missing in ("]", "}") else opened
            place = self.source.span(token.start, max(stop, token.end))
            self.wrong(TexArgumentOpen(place, f"\\{token.name}", missing, _EXAMPLES[token.name]))
            self.replace(token.start, max(stop, token.end), "{}")
            return
        swapped = self.swapped(token, option, inner)
        if swapped is not None:
            self.wrong(swapped)
            self.replace(token.start, inner[1] + 1, "{}")
        elif token.name == "physsetup":
            for key, value in pairs_of(self.source, inner):
                self.set(key, value)
            self.replace(token.start, inner[1] + 1, "")
        elif token.name not in ("physmark", "physsection") and _PARAMETER.search(
            self.text, token.start, inner[1]
        ):
            place = self.source.span(token.start, token.end)
            self.wrong(TexMacroArgument(place, token.name))
            self.replace(token.start, inner[1] + 1, "{}")
        elif token.name == "physmark":
            self.mark(token, inner)
        elif token.name == "physsection":
            self.section(token, option, inner)
        else:
            self.value(token, option, inner)

    def swapped(
        self, token: Token, option: tuple[int, int] | None, inner: tuple[int, int]
    ) -> TexArgumentOpen | None:
        """The problem that a typed value stands in braces, as its name does."""
        at = inner[1] + 1
        name = argument(self.text, at, "{}") if self.text[at : at + 1] == "{" else None
        typed = self.text[slice(*trimmed(self.text, inner))]
        if token.name != "physvalue" or option is not None or name is None or not _VALUE.match(typed):
            return None
        example = f"\\physvalue[{typed[:_LONGEST_SHOWN]}]{{{self.text[slice(*name)][:_LONGEST_SHOWN]}}}"
        return TexArgumentOpen(self.source.span(token.start, inner[1] + 1), "\\physvalue", "[", example)

    def set(self, key: Text, value: Text) -> None:
        self.scan.settings[key.value] = self.read_value(f"physcalc.{key.value}", key, value)

    def read_value(self, path: str, key: Text, value: Text, depth: int = 0) -> object:
        """The value of a setting, or the pairs that it holds; their places are kept under their paths."""
        pairs = inner_pairs(self.source, value) if depth < _DEEPEST_SETTING else []
        if value.value.endswith("\\%"):
            value = Text(value.value[:-2] + "%", value.span)
        self.places[path] = (key, value)
        if not pairs:
            return value.value
        return {
            name.value: self.read_value(f"{path}.{name.value}", name, inner, depth + 1)
            for name, inner in pairs
        }

    def mark(self, token: Token, inner: tuple[int, int]) -> None:
        start, end = trimmed(self.text, inner)
        attributes = Attributes(None, (), (), self.source.span(start, max(end, start + 1)), inner[1] + 1)
        mark = Mark("mark", self.text[start:end], attributes.span, start, end, attributes)
        number = self.add(Item("stretch", mark), token.start)
        self.replace(token.start, inner[0], self.scan.word(number, "b"))
        self.braces.append((inner[1], self._closed(inner, number), inner[1] + 1))

    def section(self, token: Token, option: tuple[int, int] | None, inner: tuple[int, int]) -> None:
        start, end = trimmed(self.text, inner)
        attributes = read_options(self.source, option, (token.start, inner[1] + 1))
        mark = Mark("heading", self.text[start:end], self.source.span(start, end), start, end, attributes)
        number = self.add(Item("heading", mark), token.start)
        self.replace(token.start, inner[0], "\\section*{")
        self.braces.append((inner[1], self._closed(inner, number, "h") + "}", inner[1] + 1))

    def value(self, token: Token, option: tuple[int, int] | None, inner: tuple[int, int]) -> None:
        value = token.name == "physvalue"
        kind: Kind = ("span-value" if option else "code-value") if value else "define"
        name = self.name(inner)
        whole = (token.start, inner[1] + 1)
        if option is None:
            attributes = Attributes(None, (), (), self.source.span(*whole), whole[1])
            mark = Mark(kind, name.value, name.span, *inner, attributes)
            number = self.add(Item("point", mark), token.start)
            self.replace(*whole, self.scan.word(number, "p"))
            return
        typed, behind = typed_and_options(self.text, option)
        typed = trimmed(self.text, typed)
        read = read_options(self.source, behind, whole)
        pairs = ((Text("of", name.span), name), *read.pairs)
        attributes = Attributes(read.identifier, (), pairs, read.span, read.end)
        span = self.source.span(typed[0], max(typed[1], typed[0] + 1))
        # A tie is a blank that does not break; so the columns of what is read are those that were typed.
        mark = Mark(kind, self.text[slice(*typed)].replace("~", "\u00a0"), span, *typed, attributes)
        number = self.add(Item("stretch", mark), token.start)
        self.replace(token.start, typed[0], self.scan.word(number, "b"))
        self.copy(typed[1])
        self.replace(typed[1], whole[1], self._closed(typed, number))

    def _closed(self, stretch: tuple[int, int], number: int, end: Literal["e", "h"] = "e") -> str:
        """The word that ends a stretch, kept apart from a command before it."""
        apart = "{}" if _ENDS_IN_WORD.search(self.text, *stretch) else ""
        return apart + self.scan.word(number, end)

    def name(self, inner: tuple[int, int]) -> Text:
        """The name of a value or a definition; TeX's own signs in it become plain ones."""
        start, end = trimmed(self.text, inner)
        raw = self.text[start:end]
        plain = tex_text(raw) if "\\" in raw else raw
        plain = " ".join(plain.replace("~", " ").replace("$", "").split())
        return Text(plain, self.source.span(start, max(end, start + 1)))


def _definition_end(text: str, at: int) -> int:
    """The offset behind a definition: the name, and all brackets and braces that follow it."""
    at = skip_blanks(text, at)
    if text[at : at + 1] == "\\":
        at += 1
        while at < len(text) and (text[at].isalpha() or text[at] == "@"):
            at += 1
    while True:
        at = skip_blanks(text, at)
        while text[at : at + 1] == "#":  # Parameters of \def.
            at += 2
        sign = text[at : at + 1]
        inner = (
            argument(text, at, sign + {"[": "]", "{": "}"}[sign], paragraphs=True)
            if sign in "[{" and sign
            else None
        )
        if inner is None:
            return at
        at = inner[1] + 1
