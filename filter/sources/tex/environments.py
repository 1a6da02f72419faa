"""The scan of raw LaTeX: environments of ours, and the writing of the text for pandoc."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from physcalc.problems import Problem, Text

from ...problems import (
    TexArgumentOpen,
    TexCommentInBody,
    TexEnvironmentOpen,
    TexEnvironmentUnopened,
    TexNameUnknown,
)
from ..attributes import Attributes
from ..marks import Mark, attribute_text, joined
from .arguments import argument, skip_blanks, trimmed
from .body import body_lines
from .found import Item, TexScan
from .names import BODIES, DIVS, defined_names
from .options import read_options
from .pictures import Pictures
from .tokens import Token

_ENDS_IN_WORD = re.compile(r"\\[A-Za-z@]+$")
_LONGEST_COMMAND = 40
#: Of more environments inside one another only the innermost are looked at.
_DEEPEST = 100
_COMMENT = re.compile(r"[ \t]*%")
#: Behind a datum: a percent sign before words is no unit.
_BEHIND = re.compile(r"[^\s%#]\s+%(?=\s*[A-Za-z][a-z]*(?:\s|$))")
_OPTIONS = re.compile(r"\s*[a-z][a-z-]*\s*=")
_SECTION = re.compile(r"\\(?:phys)?section(?![A-Za-z@])")
_HEADINGS = ("section", "subsection", "subsubsection", "paragraph", "subparagraph")


@dataclass(slots=True)
class Open:
    """An environment that is open: its name as typed, that of ours (or none), its place, its item."""

    name: str
    ours: str
    start: int
    end: int
    number: int = -1


class Environments:
    """Goes through a source from its beginning to its end."""

    def __init__(self, scan: TexScan, pictures: Pictures) -> None:
        self.scan = scan
        self.pictures = pictures
        self.source = scan.source
        self.text = scan.source.text
        self.defined = defined_names(self.text)
        self.at = 0
        self.stack: list[Open] = []
        # Where a stretch of ours ends, the innermost last, with what stands in its place, and where the text goes on.
        self.braces: list[tuple[int, str, int]] = []
        self.places: dict[str, tuple[Text, Text]] = {}
        self.sectioned = _SECTION.search(self.text) is not None
        #: The offset at which the definition of the author's that was met last is over.
        self.defining = 0

    # The text for pandoc.

    def copy(self, end: int) -> None:
        """Takes the source over up to an offset."""
        while self.braces and self.braces[-1][0] < end:
            at, word, onward = self.braces.pop()
            self.scan.put(self.text[self.at : at], self.at, copied=True)
            self.scan.put(word, at, copied=False)
            self.at = onward
        if end > self.at:
            self.scan.put(self.text[self.at : end], self.at, copied=True)
            self.at = end

    def replace(self, start: int, end: int, piece: str) -> None:
        """Puts a piece into the place of a stretch."""
        self.copy(start)
        if piece[:1].isalnum() and _ENDS_IN_WORD.search(self.text, max(0, start - _LONGEST_COMMAND), start):
            piece = " " + piece  # The letters would belong to the command before it.
        self.scan.put(piece, start, copied=False)
        self.at = max(self.at, end)

    def add(self, item: Item, start: int) -> int:
        self.scan.items.append(replace(item, defined=True) if start < self.defining else item)
        return len(self.scan.items) - 1

    def wrong(self, problem: Problem) -> None:
        self.scan.problems.append(problem)

    # Environments.

    def body(self, token: Token) -> None:
        kind = BODIES[token.meant]
        head = (token.start, token.option[1] + 1 if token.option else token.inner[0])
        place = self.source.span(*head)
        self.misspelt(token)
        match token.fault:
            case "open":
                self.wrong(TexEnvironmentOpen(place, token.name))
            case "option":
                self.wrong(TexArgumentOpen(place, token.name, "]", f"\\begin{{{token.meant}}}[id=tension]"))
            case "end":
                typed = self.text[slice(*token.closing)]
                name = typed[typed.index("{") + 1 : -1]
                self.wrong(TexNameUnknown(self.source.span(*token.closing), name, token.meant))
        lines = tuple(self.without_comment(token, line) for line in body_lines(self.source, *token.inner))
        attributes = read_options(self.source, token.option, head)
        span = place if token.option is None else self.source.span(*token.option)
        mark = Mark(kind, joined(lines), span, *token.inner, attributes, lines)
        number = self.add(Item("block", mark), token.start)
        word = self.scan.word(number, "v")
        self.replace(token.start, token.end, f"\n\\begin{{verbatim}}\n{word}\n\\end{{verbatim}}\n")

    def without_comment(self, token: Token, line: Text) -> Text:
        """A line of a body without what is meant for a comment, as it is in TeX; that is told."""
        found = _COMMENT.match(line.value) or (
            _BEHIND.search(line.value) if token.meant == "physgiven" else None
        )
        if found is None:
            return line
        at = found.end() - 1
        self.wrong(TexCommentInBody(line.at(at, len(line.value)), token.name))
        return Text(line.value[:at].rstrip(), line.span)

    def misspelt(self, token: Token) -> None:
        if token.name != token.meant:
            place = self.source.span(token.start, token.start + len("\\begin{}") + len(token.name))
            self.wrong(TexNameUnknown(place, token.name, token.meant))

    def begin(self, token: Token) -> None:
        self.misspelt(token)
        kind = DIVS[token.meant]
        at = skip_blanks(self.text, token.end)
        option: tuple[int, int] | None = None
        stop = token.end
        if self.text[at : at + 1] == "[":
            option = argument(self.text, at, "[]")
            if option is None:
                example = f"\\begin{{{token.meant}}}[{'in=memo' if kind == 'only' else 'marks=4'}]"
                place = self.source.span(token.start, at + 1)
                self.wrong(TexArgumentOpen(place, token.name, "]", example))
                line_end = self.text.find("\n", at)
                stop = len(self.text) if line_end < 0 else line_end
            else:
                stop = option[1] + 1
        elif self.text[at : at + 1] == "{" and (braced := self.options_in_braces(token, kind, at)):
            option, stop = braced, braced[1] + 1
        whole = (token.start, stop)
        attributes = read_options(self.source, option, whole)
        title = attributes.get("title") if kind == "question" else None
        if title is not None:
            pairs = tuple(pair for pair in attributes.pairs if pair[0].value != "title")
            attributes = Attributes(attributes.identifier, (), pairs, attributes.span, attributes.end)
        words = [(key.value, value.value) for key, value in attributes.pairs]
        span = self.source.span(*(option or (token.start, token.end)))
        mark = Mark(kind, attribute_text([kind], words), span, token.start, stop, attributes)
        number = self.add(Item("div", mark, title is not None and bool(title.value)), token.start)
        piece = f"\\begin{{{self.scan.word(number, 'd')}}}"
        if title is not None and title.value:
            # Below the headings of sections: one of their level would end them.
            depth = sum(one.ours == "physquestion" for one in self.stack[-_DEEPEST:]) + self.sectioned
            begin, end = self.title(title)
            # Its text is read on, as it may hold values.
            self.replace(token.start, begin, f"{piece}\n\\{_HEADINGS[min(depth, 4)]}*{{")
            self.braces.append((end, "}\n", stop))
        else:
            if self.text[skip_blanks(self.text, stop) :][:1] in ("[", "{", "*"):
                piece += "\n\n"  # Pandoc would take what follows for options of the environment.
            self.replace(token.start, stop, piece)
        self.stack.append(Open(token.name, token.meant, token.start, token.end, number))

    def options_in_braces(self, token: Token, kind: str, at: int) -> tuple[int, int] | None:
        """The options of an environment where braces stand around them, which is told; None where those are text."""
        inner = argument(self.text, at, "{}")
        if inner is None or not _OPTIONS.match(self.text, *inner):
            return None
        example = f"\\begin{{{token.meant}}}[{self.text[slice(*inner)][:_LONGEST_COMMAND]}]"
        self.wrong(TexArgumentOpen(self.source.span(token.start, at + 1), token.name, "[", example))
        return inner

    def title(self, title: Text) -> tuple[int, int]:
        """The stretch of the text of a title, without the braces around it."""
        begin = self.source.offset(title.span)
        inner = argument(self.text, begin - 1, "{}") if self.text[begin - 1] == "{" else None
        return trimmed(self.text, inner) if inner is not None else (begin, begin + len(title.value))

    def end(self, token: Token) -> None:
        ours = token.meant in DIVS
        wanted = next(
            (
                index
                for index in reversed(range(max(0, len(self.stack) - _DEEPEST), len(self.stack)))
                if self.stack[index].name == token.name or (ours and self.stack[index].ours == token.meant)
            ),
            -1,
        )
        if wanted < 0:
            if ours or token.meant in BODIES:
                place = self.source.span(token.start, token.end)
                self.wrong(TexEnvironmentUnopened(place, token.name))
                self.replace(token.start, token.end, "")
            return
        while len(self.stack) > wanted + 1:
            self.close(self.stack.pop(), token.start)
        opened = self.stack.pop()
        if not ours:
            return
        if token.name != token.meant and opened.name != token.name:
            self.wrong(TexNameUnknown(self.source.span(token.start, token.end), token.name, token.meant))
        self.scan.ends[opened.number] = token.start
        self.replace(token.start, token.end, f"\\end{{{self.scan.word(opened.number, 'd')}}}")

    def close(self, opened: Open, at: int) -> None:
        """Closes an environment of ours that nothing closes."""
        if opened.number < 0:
            if opened.name != "document":
                self.scan.unclosed.append((opened.start, opened.end))
            return
        place = self.source.span(opened.start, opened.end)
        self.wrong(TexEnvironmentOpen(place, opened.name))
        self.scan.ends[opened.number] = at
        self.replace(at, at, f"\n\\end{{{self.scan.word(opened.number, 'd')}}}\n")

    def close_all(self, at: int) -> None:
        while self.stack:
            self.close(self.stack.pop(), at)
