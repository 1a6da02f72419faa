"""From a LaTeX source to pandoc's tree with places."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

import panflute as pf

from physcalc.problems import Problem

from ...problems import DocumentUnreadable, TexTextLeftOut
from ...sources import FrontMatter, Mark, Source, TexScan, Woven, scan_tex, weave
from ..reading import read_json, run_reader
from .balance import unclosed_in
from .items import set_items
from .references import set_references
from .standins import Standins, words_of

#: Ids are those that the author gives.
_READER = "latex-auto_identifiers"
_ERROR = re.compile(r"Error at (?:\"[^\"]*\" )?\(line (\d+), column (\d+)\):\s*(.*)", re.DOTALL)
_SKIPPED = re.compile(
    r"\[INFO\]\s+Skipped\s+'(?P<text>\\.*?)'\s+at\s+(?:[^\s']+\s+)?line\s+(?P<line>\d+)\s+column\s+(?P<column>\d+)",
    re.DOTALL,
)
_DOCUMENT = re.compile(r"(?m)^[^%\n]*(\\documentclass)(?![A-Za-z])")
_EDGE = re.compile(r"\\(?:begin|end)\s*\{[^{}]*\}\s*(?:\[[^\]]*\]\s*)*")
_WORDS = re.compile(r"[{\s].*[^\W\d_]{2}", re.DOTALL)
#: Commands whose arguments are no text.
_LAYOUT = re.compile(
    r"\\(?:[vh]space|[a-z]*skip|set[a-z]*|addto[a-z]*|pagestyle|thispagestyle|pagenumbering|geometry|newgeometry|"
    r"fancy[a-z]*|[lcr](?:head|foot)|hypersetup|sisetup|captionsetup|tikzset|lstset|usetikzlibrary|definecolor|"
    r"color|colorlet|bibliographystyle|titleformat|titlespacing|selectlanguage|font[a-z]*|thispagestyle|"
    r"addcontentsline|markboth|markright|(?:sub)?(?:input|include|import|file)[a-z]*|let|def|newcounter|stepcounter|refstepcounter|"
    r"vfill|hfill|dotfill|newpage|clearpage|centering|raggedright|noindent|maketitle|columnbreak|end[a-z]*)"
    r"(?![A-Za-z])"
)
_MOST_NOTES = 40
#: For so many environments that were left out is asked why.
_MOST_TORN = 5
_LONGEST_SHOWN = 40
#: Pandoc names the place behind a command, and may have read blanks and comments with it.
_SPARE = 400


@dataclass(frozen=True, slots=True)
class Read:
    """A LaTeX document as it was read.

    Attributes:
        document: pandoc's tree, with the settings in its metadata.
        source: its text, with those of the files that it reads.
        front: the places of the settings.
        marks: the mark of each element of ours, by Python's identity of the element.
        problems: what was wrong with the LaTeX.
        kept: the elements of `marks`, so that no identity is used twice.
    """

    document: pf.Doc
    source: Woven
    front: FrontMatter
    marks: Mapping[int, Mark]
    problems: tuple[Problem, ...]
    kept: tuple[pf.Element, ...]


def read_tex(
    source: Source,
    folder: Path,
    instead: Mapping[str, Source] | None = None,
    pictures: Sequence[Path] = (),
) -> tuple[Read | None, list[Problem]]:
    """The tree of a LaTeX document.

    Args:
        source: the document.
        folder: its folder; files that it reads lie there or below.
        instead: texts that stand in the place of those of files, by name.
        pictures: more folders where pictures may lie.

    Returns:
        The tree (None where pandoc refuses the document), and what is wrong.
    """
    woven, problems = weave(source, folder, instead)
    if (begin := _DOCUMENT.search(woven.text)) and "\\begin{document}" not in woven.text:
        place = woven.span(*begin.span(1))
        reason = "it has \\documentclass, and no \\begin{document} below it"
        how = "write \\begin{document} below the preamble, and \\end{document} at the end"
        return None, [*problems, DocumentUnreadable(place, reason, how)]
    scan = scan_tex(woven, (folder, *pictures))
    problems += scan.problems
    try:
        given, said = run_reader(scan.text, source.name, _READER, ["--verbose"])
        document = read_json(given, source.name)
    except DocumentUnreadable as problem:
        start = max(0, scan.text.find("\\begin{document}"))
        return None, [*problems, _placed(problem, scan, start, len(scan.text))]
    except Problem as problem:
        return None, [*problems, problem]
    standins = Standins(scan)
    standins.put_in(document)
    problems += set_items(document, standins.marks)
    set_references(document)
    _set_metadata(document, scan.settings)
    problems += standins.problems
    problems += _lost(standins, scan, source.name)
    problems += _left_out(said, scan)
    read = Read(document, woven, scan.front, standins.marks, tuple(problems), tuple(standins.kept))
    return read, problems


def _lost(standins: Standins, scan: TexScan, name: str) -> Iterator[Problem]:
    """What is ours and did not come back."""
    lost = standins.lost()
    torn = [number for number in lost if scan.items[number].sort == "div"]
    for number in torn[:_MOST_TORN]:
        problem = _inside(number, scan, name)
        if problem is not None:
            yield problem
            lost.remove(number)
    yield from map(standins.told, lost)


def _inside(number: int, scan: TexScan, name: str) -> Problem | None:
    """Why an environment was left out: pandoc does so, without a word, where it cannot read what stands in it.

    Read alone, its content is refused at the very place.
    """
    word = scan.word(number, "d")
    text = scan.text
    start = text.find(f"\\begin{{{word}}}") + len(f"\\begin{{{word}}}")
    end = text.find(f"\\end{{{word}}}", start)
    end = len(text) if end < 0 else end
    try:
        run_reader(text[start:end], name, _READER)
    except DocumentUnreadable as problem:
        return _placed(problem, scan, start, end, start)
    except Problem as problem:
        return problem
    return None


def _placed(
    problem: DocumentUnreadable, scan: TexScan, start: int, end: int, origin: int = 0
) -> DocumentUnreadable:
    """What pandoc refuses, where the cause of it stands, or else where pandoc gave up.

    Args:
        problem: what pandoc says.
        scan: what was found in the source.
        start, end: the stretch of the text for pandoc in which the cause is looked for.
        origin: the offset of what pandoc was given.
    """
    sign = unclosed_in(scan.text, start, end)
    if sign is not None:
        at = scan.origin(sign)
        reason = f'no other sign answers this "{scan.text[sign]}" in its paragraph'
        how = "write it, or a backslash before this one where the sign itself is meant"
        return DocumentUnreadable(scan.source.span(at, at + 1), reason, how)
    for opening in scan.unclosed:
        if scan.origin(start) <= opening[0] < scan.origin(end):
            name = scan.source.text[slice(*opening)].partition("{")[2]
            how = f"write \\end{{{name} behind it"
            return DocumentUnreadable(scan.source.span(*opening), "this environment is never closed", how)
    found = _ERROR.search(problem.reason)
    if found is None:
        return problem
    given = scan.text[origin:]
    at = scan.origin(origin + _offset(_line_starts(given), len(given), int(found[1]), int(found[2])))
    if "expecting \\end{document}" in found[3]:
        return DocumentUnreadable(
            scan.source.span(at, at + 1), "nothing ends it", "write \\end{document} at its end"
        )
    reason = " ".join(scan.hide(found[3]).split())[:200] or "it is no LaTeX that is known here"
    return DocumentUnreadable(scan.source.span(at, at + 1), reason.rstrip(" ^"))


def _line_starts(text: str) -> list[int]:
    """The offset of the first character of each line."""
    return [0, *(found.end() for found in re.finditer("\n", text))]


def _offset(starts: Sequence[int], length: int, line: int, column: int) -> int:
    """The offset of a place that pandoc names in the text that it was given."""
    return min(length, starts[min(line, len(starts)) - 1] + max(0, column - 1))


def _left_out(said: str, scan: TexScan) -> Iterator[Problem]:
    """A note for each command with text in it that pandoc does not know."""
    told: set[str] = set()
    made = scan.text
    starts = _line_starts(made)
    body = made.find("\\begin{document}")
    for found in _SKIPPED.finditer(said):
        text = found["text"]
        if _EDGE.fullmatch(text) or _LAYOUT.match(text) or not _WORDS.search(text):
            continue
        if scan.stem in text.lower():
            continue  # What is lost with it is told as a problem.
        if text in told or len(told) >= _MOST_NOTES:
            continue
        end = _offset(starts, len(made), int(found["line"]), int(found["column"]))
        begins = re.match(r"\\begin\s*\{[^{}]*\}|\\.[A-Za-z]*", text)
        name = begins[0] if begins is not None else text[:1]
        start = made.rfind(name, max(0, end - len(text) - _SPARE), end)
        if start < body:
            continue
        told.add(text)
        at = scan.origin(max(0, start))
        shown = " ".join(scan.hide(text).split())
        shown = shown if len(shown) <= _LONGEST_SHOWN else shown[: _LONGEST_SHOWN - 1] + "…"
        yield TexTextLeftOut(scan.source.span(at, at + len(name)), shown)


def _set_metadata(document: pf.Doc, settings: Mapping[str, object]) -> None:
    """The settings as they would stand in front matter."""
    if not settings:
        return
    document.metadata["physcalc"] = pf.MetaMap(**{key: _meta(value) for key, value in settings.items()})
    lang = settings.get("lang")
    if isinstance(lang, str):
        document.metadata["lang"] = pf.MetaInlines(*words_of(lang))


def _meta(value: object) -> pf.MetaValue:
    if isinstance(value, Mapping):
        return pf.MetaMap(**{str(key): _meta(inner) for key, inner in value.items()})
    return pf.MetaString(str(value))
