"""Where in the files of a TeX document each entry stands: TeX knows the line alone, and that of its end."""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import dataclass, replace
from os.path import realpath  # Unlike Path.resolve, it does not stop at a link that leads to itself.
from pathlib import Path

from physcalc.problems import Problem, Span, Text

from ..sources import Attributes, Source, read_source
from ..sources.tex.arguments import argument as inside
from ..sources.tex.options import typed_and_options
from .entries import Entry
from .problems import EntriesOld

#: Our commands, with what they are in the file that TeX writes.
_COMMANDS = {
    "physvalue": "value", "physdefine": "define", "physmark": "mark", "physsetup": "setup",
    "physgiven": "given", "physcalculation": "calculation", "physoptions": "options", "physdraw": "draw",
    "physquestion": "question", "physanswer": "answer", "physonly": "only", "physgrid": "grid",
    "physsection": "section",
}  # fmt: skip
_COMMAND = re.compile(
    r"\\(?:begin[ \t]*\{(phys(?:given|calculation|options|draw|question|answer|only|grid))\}"
    r"|(phys(?:value|define|mark|setup|section))(?![A-Za-z@]))"
)
_COMMENT = re.compile(r"(?<!\\)((?:\\\\)*)%[^\n]*")
#: How many commands before the line that TeX names are looked at: those of a footnote of several lines, and more.
_MOST_BACK = 200
#: No setting has others so deep in its braces.
_DEEPEST_SETTING = 4


@dataclass(frozen=True, slots=True)
class Piece:
    """A text of an entry.

    Attributes:
        value: the text.
        source: the file that it stands in; None where only the place of the whole is known.
        start: its offset there.
        whole: the place of the whole, for what has none of its own.
    """

    value: str
    source: Source | None
    start: int
    whole: Span

    def part(self, start: int, end: int) -> Text:
        """`value[start:end]` without the blanks around it, with its place."""
        raw = self.value[start:end]
        lead = len(raw) - len(raw.lstrip())
        word = raw.strip()
        if self.source is None:
            return Text(word, self.whole)
        at = self.start + start + lead
        return Text(word, self.source.span(at, at + max(1, len(word))))

    def text(self) -> Text:
        """All of it."""
        return self.part(0, len(self.value))


@dataclass(frozen=True, slots=True)
class Placed:
    """An entry with its places.

    Attributes:
        entry: the entry.
        span: where it stands.
        options: its options.
        name, typed: its name and its typed text; None where it has none.
        body: the lines of its body, indented as a block of its own.
    """

    entry: Entry
    span: Span
    options: Piece
    name: Piece | None
    typed: Piece | None
    body: tuple[Text, ...]

    @property
    def typed_text(self) -> str | None:
        """The typed text as TeX knows it, without the options behind that of a value; None where there is none."""
        text = self.entry.typed
        return text[: _behind(text)[0]] if text is not None and self.entry.kind == "value" else text


@dataclass(slots=True)
class _Found:
    """A command of ours in a file.

    Attributes:
        kind: what it is in the file that TeX writes.
        start, line: where it stands.
        option, argument: what stands in its brackets and braces, as offsets.
        texts: the same without comments and blanks, made once: many entries may ask for them.
        taken: whether an entry has it.
    """

    kind: str
    start: int
    line: int
    option: tuple[int, int] | None
    argument: tuple[int, int] | None
    texts: tuple[str, str]
    taken: bool = False


class Files:
    """The files of a document, each read once; none outside the folder in which TeX ran."""

    def __init__(self, root: Path, main: str, among: bool = False) -> None:
        """Begin.

        Args:
            root: the folder in which TeX ran.
            main: the name of the file that TeX was given.
            among: whether the document consists of several files.
        """
        self.among = among
        self.root = root
        self.main = main
        self._inside = Path(realpath(root))
        self._sources: dict[str, Source | None] = {}
        self._found: dict[str, list[_Found]] = {}

    def shown(self, name: str) -> str:
        """A file's name as an author reads it."""
        return str(self.root / (name or self.main))

    def source(self, name: str) -> Source | None:
        """A file's text; None where it lies outside the folder, or cannot be read."""
        if name not in self._sources:
            self._sources[name] = self._read(name)
        return self._sources[name]

    def sources(self) -> dict[str, Source]:
        """The files that were read, by the name under which problems point into them."""
        return {source.name: source for source in self._sources.values() if source is not None}

    def _read(self, name: str) -> Source | None:
        path = self.root / (name or self.main)
        try:
            if not Path(realpath(path)).is_relative_to(self._inside) or not path.is_file():
                return None
            return replace(read_source(path, self.shown(name)), among=self.among)
        except (Problem, OSError, ValueError):
            # What TeX can read and we cannot (another encoding) costs the pictures of places, nothing else.
            return None

    def place(self, entry: Entry) -> Placed:
        """An entry with the places of its parts.

        Raises:
            EntriesOld: its body is no longer what TeX saw.
        """
        source = self.source(entry.file)
        whole = self._line_span(source, entry)
        found = self._take(source, entry) if source is not None else None
        options = Piece(entry.options, None, 0, whole)
        name = Piece(entry.name, None, 0, whole) if entry.name else None
        typed = Piece(entry.typed, None, 0, whole) if entry.typed is not None else None
        if source is not None and found is not None:
            whole = source.span(found.start, (found.argument or found.option or (0, found.start + 1))[1] + 1)
            if found.option is not None and entry.kind in {"value", "define"}:
                typed = _piece(source, found.option, whole)
            elif found.option is not None:
                options = _piece(source, found.option, whole)
            if found.argument is not None:
                argument = _piece(source, found.argument, whole)
                if entry.kind == "setup":
                    options = argument
                elif entry.kind in {"mark", "section"}:
                    typed = argument
                else:
                    name = argument
        if typed is not None and entry.kind == "value":
            typed, options = _without_options(typed)
        return Placed(entry, whole, options, name, typed, self._body(source, entry))

    def _line_span(self, source: Source | None, entry: Entry) -> Span:
        shown = self.shown(entry.file)
        if source is None or entry.line > len(source.starts):
            return Span(shown, entry.line, among=self.among)
        line = source.line_text(entry.line - 1)
        lead = len(line) - len(line.lstrip())
        return Span(shown, entry.line, lead + 1, max(1, len(line.strip())), self.among)

    def _take(self, source: Source, entry: Entry) -> _Found | None:
        """The command that an entry comes from; None where a macro of the author's wrote it."""
        if source.name not in self._found:
            self._found[source.name] = list(_commands(source))
        commands = self._found[source.name]
        wanted = tuple(_bare(text) for text in _texts(entry))
        best: _Found | None = None
        # TeX names the line in which it had read all of it: the last such command up to there is meant.
        last = bisect_right(commands, entry.line, key=lambda found: found.line)
        for found in reversed(commands[max(0, last - _MOST_BACK) : last]):
            if best is not None and found.line != best.line:
                break
            if found.kind == entry.kind and not found.taken and found.texts == wanted:
                best = found
        if best is not None:
            best.taken = True
        return best

    def _body(self, source: Source | None, entry: Entry) -> tuple[Text, ...]:
        shown = self.shown(entry.file)
        filled = [line.text for line in entry.body if line.text.strip(" ") and line.line != entry.line]
        indent = min((len(text) - len(text.lstrip(" ")) for text in filled), default=0)
        lines: list[Text] = []
        for line in entry.body:
            column = 0
            if source is not None:
                raw = source.line_text(line.line - 1) if line.line <= len(source.starts) else ""
                column = raw.find(line.text)
                if column < 0:
                    raise EntriesOld(Span(shown, min(line.line, len(source.starts))), line.text)
            # What stands behind the opening of a block, in its line, has blanks of its own.
            lead = len(line.text) - len(line.text.lstrip(" ")) if line.line == entry.line else indent
            text = line.text[lead:]
            lines.append(Text(text, Span(shown, line.line, column + lead + 1, max(1, len(text)), self.among)))
        return tuple(lines)


def attributes_of(placed: Placed) -> Attributes:
    """The options of an entry as attributes."""
    identifier: Text | None = None
    pairs: list[tuple[Text, Text]] = []
    for key, value in pairs_of(placed.options):
        if key.value == "id":
            identifier = value
        elif key.value == "title" and placed.entry.kind == "question":
            pass  # TeX sets it, as it sets the text.
        else:
            pairs.append((key, value))
    return Attributes(identifier, (), tuple(pairs), placed.span, 0)


def pairs_of(options: Piece) -> Iterator[tuple[Text, Text]]:
    """The options of a text such as "marks=4, axis={up is positive}"."""
    text = options.value
    start = 0
    for end in (*_commas(text), len(text)):
        equals = text.find("=", start, end)
        key = options.part(start, end if equals < 0 else equals)
        if key.value:
            value = options.part(equals + 1, end) if equals >= 0 else Text("", key.span)
            if value.value.startswith("{") and value.value.endswith("}"):
                value = value.part(1, len(value.value) - 1)
            yield key, value
        start = end + 1


def value_of(options: Piece, key: Text, value: Text, depth: int = 0) -> Iterator[tuple[str, Text, Text]]:
    """A setting with the settings in its braces, `topics={forces=60}`: the path of each, its name and its value.

    Args:
        options: the text that they stand in.
        key, value: the setting.
        depth: in how many others it stands.
    """
    plain = Text(value.value[:-2] + "%", value.span) if value.value.endswith("\\%") else value
    yield key.value, key, plain
    start = options.value.find("{" + value.value + "}") + 1
    if "=" in value.value and start and depth < _DEEPEST_SETTING:
        inner = replace(options, value=value.value, start=options.start + start)
        for name, below in pairs_of(inner):
            for path, *rest in value_of(inner, name, below, depth + 1):
                yield f"{key.value}.{path}", rest[0], rest[1]


def _commas(text: str) -> Iterator[int]:
    depth = 0
    for at, sign in enumerate(text):
        depth += (sign == "{") - (sign == "}")
        if sign == "," and depth == 0:
            yield at


def _behind(text: str) -> tuple[int, int]:
    """Where the text of a typed value ends, and where the options behind it begin."""
    (_, end), options = typed_and_options(text, (0, len(text)))
    return end, options[0] if options is not None else len(text)


def _without_options(typed: Piece) -> tuple[Piece, Piece]:
    end, begin = _behind(typed.value)
    return replace(typed, value=typed.value[:end]), replace(
        typed, value=typed.value[begin:], start=typed.start + begin
    )


def _piece(source: Source, stretch: tuple[int, int], whole: Span) -> Piece:
    return Piece(source.text[slice(*stretch)], source, stretch[0], whole)


def _texts(entry: Entry) -> tuple[str, ...]:
    match entry.kind:
        case "value" | "define":
            return (entry.typed or "", entry.name)
        case "mark" | "section":
            return (entry.options, entry.typed or "")
        case "setup":
            return ("", entry.options)
        case _:
            return (entry.options, "")


def _bare(text: str) -> str:
    """A text without comments and blanks, of which TeX keeps others than were typed."""
    return "".join(_COMMENT.sub(r"\1", text).split())


def _commands(source: Source) -> Iterator[_Found]:
    # Comments become blanks, so that offsets stay.
    text = _COMMENT.sub(lambda found: found[1] + " " * (len(found[0]) - len(found[1])), source.text)
    for match in _COMMAND.finditer(text):
        kind = _COMMANDS[match[1] or match[2]]
        at = match.end()
        option = _bracketed(text, at, "[]")
        argument = None
        if match[2]:
            argument = _bracketed(text, option[1] + 1 if option else at, "{}")
            if argument is None:
                continue
        option_text, argument_text = (
            _bare(source.text[slice(*stretch)]) if stretch else "" for stretch in (option, argument)
        )
        line = source.line_at(match.start()) + 1
        yield _Found(kind, match.start(), line, option, argument, (option_text, argument_text))


def _bracketed(text: str, at: int, signs: str) -> tuple[int, int] | None:
    """The stretch inside the brackets that open at an offset, blanks skipped; None where none do."""
    while text[at : at + 1] in {" ", "\t", "\n", "\r"} and text[at : at + 1]:
        at += 1
    return inside(text, at, signs, paragraphs=True) if text[at : at + 1] == signs[0] else None
