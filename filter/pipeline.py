"""The way of a document, stage by stage: from its text to a report, or to one edition of it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import panflute as pf

from physcalc.exact.work import DOCUMENT, bounded
from physcalc.limits import limits_held
from physcalc.problems import Span, Text
from physcalc.sheets import Sheet, read_sheet

from .document import (
    QUESTION_WORDS,
    Edition,
    Engine,
    Findings,
    Report,
    Worked,
    check_attributes,
    check_balance,
    check_classes,
    check_links,
    check_misplaced,
    check_prose,
    find_questions,
    forget_consequences,
    in_order,
    places,
    read_markdown,
    read_statements,
    settle_document,
    settle_parts,
    solve,
    spread_marks,
)
from .problems import DocumentNested
from .settings import Settings
from .sources import FrontMatter, Mark, Source, front_matter, is_tex, refuse_aliases

if TYPE_CHECKING:
    from .document import PaperGrid

#: Settings of the command line: names and values.
Overrides = Sequence[tuple[Text, object]]


def check(
    source: Source,
    overrides: Overrides = (),
    folder: Path | None = None,
    engine: Engine | None = None,
    strict: bool = False,
    instead: Mapping[str, Source] | None = None,
) -> Report:
    """Everything that is wrong with a document; nothing is written.

    Args:
        source: the document.
        overrides: settings of the command line, which win over the front matter.
        folder: the folder that the sheet's path starts from; the document's own where it is None.
        engine: what calculates; the project's own where it is None.
        strict: whether numbers that are tied to nothing are problems too.
        instead: texts that stand in the place of those of files that the document reads, by name.
    """
    findings = Findings()
    engine = engine or _engine()
    worked = None
    with findings.catching(None):
        read = _read(source, _folder(source, folder), findings, Reading(instead=instead))
        if read is not None:
            worked = _work(
                read.document,
                read.source,
                overrides,
                _folder(source, folder),
                engine,
                findings,
                read.made,
                read.front,
            )
    if strict and worked is not None and read is not None:
        from .document import check_loose  # Here, and below: what few runs need.

        words = question_words(worked.settings)
        check_loose(
            worked.tree,
            read.source,
            worked.settled,
            worked.solved,
            engine,
            findings,
            worked.statements,
            words,
        )
    return findings.report(worked.tree.question_numbers() if worked is not None else None)


def build(
    source: Source,
    edition: Edition,
    format: str,
    draft: bool = False,
    overrides: Overrides = (),
    folder: Path | None = None,
    engine: Engine | None = None,
    pictures: Sequence[Path] = (),
) -> tuple[pf.Doc | None, Report]:
    """One edition of a document.

    Args:
        source, overrides, folder, engine: as for `check`.
        edition: which edition.
        format: pandoc's name of the output format, for which the parts of the page are laid out.
        draft: whether problems are framed in their places.
        pictures: more folders where pictures may lie.

    Returns:
        The edition's tree (None where the document could not be read at all, or has problems and is no draft)
        and what was found.
    """
    findings = Findings()
    engine = engine or _engine()
    worked = _read_and_work(source, overrides, folder, engine, findings, Reading(pictures=pictures))
    return _edition(worked, edition, format, draft, engine, findings)


def pair(
    paper: Source,
    memo: Source,
    overrides: Overrides = (),
    folder: Path | None = None,
    engine: Engine | None = None,
) -> tuple[Report, Report]:
    """A paper and its memo in two files: what is wrong with each, and where they differ.

    Args:
        paper, memo: the two; each may have blocks, or be written by hand.
        overrides, folder, engine: as for `check`.

    Returns:
        What was found in each; a difference stands with the one in which its place is.
    """
    from .pairing import (
        Side,
        compare_sides,
        read_by_hand,
        side_of,
    )  # Here: a check of one file pairs nothing.
    from .sources import weave

    engine = engine or _engine()
    sides: list[Side] = []
    found: list[Findings] = []
    numbers: list[dict[int, str] | None] = []
    for source in (paper, memo):
        findings = Findings()
        worked = _read_and_work(source, overrides, folder, engine, findings)
        found.append(findings)
        numbers.append(worked.tree.question_numbers() if worked is not None else None)
        if worked is None:
            continue
        words = [*QUESTION_WORDS, *question_words(worked.settings)]
        side = side_of(worked, source.name, engine)
        if side is None:
            text = weave(source, _folder(source, folder))[0] if is_tex(source.name) else source
            side = read_by_hand(text, worked.settings.decimal, words, source is paper)
        sides.append(side)
    if len(sides) == 2:
        for problem in compare_sides(*sides):
            found[problem.span.file != paper.name].add(None, [problem])
    first, second = (findings.report(known) for findings, known in zip(found, numbers, strict=True))
    return first, second


def work_out(
    source: Source,
    overrides: Overrides = (),
    folder: Path | None = None,
    engine: Engine | None = None,
) -> tuple[Worked | None, Report]:
    """A document worked out (None where it could not be read), and what is wrong with it.

    Args:
        source, overrides, folder, engine: as for `check`.
    """
    findings = Findings()
    worked = _read_and_work(source, overrides, folder, engine or _engine(), findings)
    return worked, findings.report(worked.tree.question_numbers() if worked is not None else None)


def filter_document(
    document: pf.Doc,
    edition: Edition | None,
    format: str,
    draft: bool = False,
    folder: Path | None = None,
    engine: Engine | None = None,
) -> tuple[pf.Doc | None, Report]:
    """One edition of a document that pandoc has read; places are lines inside each block.

    Args:
        document: pandoc's tree; it becomes the edition.
        edition: which edition; None for the one that the document's settings name.
        format, draft, folder, engine: as for `build`.
    """
    findings = Findings()
    engine = engine or _engine()
    worked = _work(document, None, (), folder, engine, findings)
    return _edition(worked, edition, format, draft, engine, findings)


def work_alone(document: pf.Doc, findings: Findings) -> tuple[Worked | None, Engine]:
    """A document that was put together by a program, worked out; places are lines inside each block.

    Args:
        document: pandoc's tree.
        findings: takes what is wrong.
    """
    engine = _engine()
    return _work(document, None, (), None, engine, findings), engine


def grid(source: Source, overrides: Overrides = ()) -> tuple[PaperGrid | None, Report]:
    """The marks of a document by topic and level. Nothing is calculated, so no answer is checked.

    Args:
        source, overrides: as for `check`.

    Returns:
        The grid (None where the document could not be read, or no question has marks) and what was found.
    """
    from .document import check_grid, paper_grid

    findings = Findings()
    found: PaperGrid | None = None
    numbers: dict[int, str] = {}
    with findings.catching(None):
        try:
            read = _read(source, _folder(source, None), findings)
            if read is None:
                return None, findings.report()
            front = read.front
            settings = settle_document(read.document, front, overrides, findings, source.name)
            if read.made is None:
                check_classes(list(in_order(read.document)), source, findings, question_words(settings))
            marked = read.made.marks if read.made is not None else places(read.document, source)
            tree = find_questions(read.document, marked, findings, source.name, question_words(settings))
            numbers = tree.question_numbers()
            statements = read_statements(tree, settle_parts(tree, settings, findings), findings)
            place = _place("total", front, source.name)
            marks = spread_marks(tree, statements, settings.total, place, findings)
            check_grid(tree, marks, settings.grid, settings.numbers, findings)
            found = paper_grid(tree, marks, settings)
        except RecursionError:
            findings.add(None, [DocumentNested(Span(source.name))])
    return found, findings.report(numbers)


@dataclass(frozen=True, slots=True)
class Reading:
    """How a document in LaTeX is read.

    Attributes:
        instead: texts that stand in the place of those of files that it reads, by name.
        pictures: more folders where pictures may lie.
    """

    instead: Mapping[str, Source] | None = None
    pictures: Sequence[Path] = ()


@dataclass(frozen=True, slots=True)
class _Read:
    """A document as pandoc read it.

    Attributes:
        document: pandoc's tree.
        source: its text; of LaTeX with those of the files that it reads.
        made: what is known of the tree of a LaTeX document; None for Markdown, where it is looked for.
        front: the places of its settings; None where it has none.
    """

    document: pf.Doc
    source: Source
    made: Made | None = None
    front: FrontMatter | None = None


def _folder(source: Source, folder: Path | None) -> Path:
    return folder if folder is not None else Path(source.name).parent


def _read(source: Source, folder: Path, findings: Findings, reading: Reading | None = None) -> _Read | None:
    """The tree of a document; None where it cannot be read."""
    if not is_tex(source.name):
        refuse_aliases(source)
        front = front_matter(source)  # What it refuses it tells better than pandoc.
        document, problems = read_markdown(source)
        findings.add(None, problems)
        return _Read(document, source, front=front)
    from .document import read_tex

    reading = reading or Reading()
    read, problems = read_tex(source, folder, reading.instead, reading.pictures)
    findings.add(None, problems)
    if read is None:
        return None
    made = Made(source.name, read.front, read.marks, read.kept)
    return _Read(read.document, read.source, made, read.front)


def _read_and_work(
    source: Source,
    overrides: Overrides,
    folder: Path | None,
    engine: Engine,
    findings: Findings,
    reading: Reading | None = None,
) -> Worked | None:
    with findings.catching(None):
        folder = _folder(source, folder)
        read = _read(source, folder, findings, reading)
        if read is not None:
            return _work(
                read.document, read.source, overrides, folder, engine, findings, read.made, read.front
            )
    return None


def _work(
    document: pf.Doc,
    source: Source | None,
    overrides: Overrides,
    folder: Path | None,
    engine: Engine,
    findings: Findings,
    made: Made | None = None,
    front: FrontMatter | None = None,
) -> Worked | None:
    """The stages, in their order."""
    name = source.name if source is not None else made.name if made is not None else ""
    try:
        with findings.catching(None), bounded(DOCUMENT), limits_held():
            settings = settle_document(document, front, overrides, findings, name)
            sheet = _sheet(settings, front, folder, name, findings, overrides)
            if made is None:
                elements = list(in_order(document))
                check_classes(elements, source, findings, question_words(settings))
                check_misplaced(document, elements, source, findings)
                check_attributes(elements, source, findings)
                check_links(elements, source, findings)
            marked = made.marks if made is not None else places(document, source)
            tree = find_questions(document, marked, findings, name, question_words(settings))
            settled = settle_parts(tree, settings, findings)
            statements = read_statements(tree, settled, findings)
            marks = spread_marks(tree, statements, settings.total, _place("total", front, name), findings)
            solved = solve(tree, statements, marks, sheet, engine, findings)
            prose = check_prose(tree, settled, solved, sheet, engine, findings, statements)
            check_balance(tree, statements, marks, solved, settings, source, findings, marked)
            forget_consequences(tree, findings)
            return Worked(tree, settings, settled, statements, marks, sheet, solved, prose)
    except RecursionError:
        findings.add(None, [DocumentNested(Span(name))])
    return None


@dataclass(frozen=True, slots=True)
class Made:
    """What is known of a tree that no reader of pandoc's made.

    Attributes:
        name: the document's name in messages.
        front: the places of its settings.
        marks: the place of each element of ours, by Python's identity of the element.
        kept: elements that are kept, so that no identity is used twice.
    """

    name: str
    front: FrontMatter
    marks: Mapping[int, Mark]
    kept: Sequence[pf.Element] = ()


def work_tree(
    document: pf.Doc,
    made: Made,
    overrides: Overrides,
    folder: Path,
    engine: Engine,
    findings: Findings,
) -> Worked | None:
    """A tree that no reader of pandoc's made, worked out.

    Args:
        document: the tree, with the settings in its metadata.
        made: where its elements stand.
        overrides, folder: as for `check`.
        engine: what calculates.
        findings: takes what is wrong.

    Returns:
        What it leads to; None where it could not be worked out at all.
    """
    return _work(document, None, overrides, folder, engine, findings, made, made.front)


def _edition(
    worked: Worked | None,
    edition: Edition | None,
    format: str,
    draft: bool,
    engine: Engine,
    findings: Findings,
) -> tuple[pf.Doc | None, Report]:
    from .editions.making import make_edition  # Here: a check lays out no page.

    report = findings.report(worked.tree.question_numbers() if worked is not None else None)
    if worked is None or (report.failed and not (draft or worked.settings.draft)):
        return None, report
    chosen = edition or worked.settings.edition
    return make_edition(worked, chosen, format, engine, findings if report.failed else None), report


def _sheet(
    settings: Settings,
    front: FrontMatter | None,
    folder: Path | None,
    name: str,
    findings: Findings,
    overrides: Overrides,
) -> Sheet:
    """The sheet that the settings name.

    Raises:
        SheetOutside, SheetUnknown, SheetUnreadable, SheetExtendsItself: there is none, so nothing can be
        worked out.
    """
    typed = Text(settings.sheet, _place("sheet", front, name))
    # Whoever runs the program may name any file; a document may not.
    confined = all(key.value != "sheet" for key, _ in overrides)
    sheet, faults = read_sheet(typed, folder, settings.decimal, confined)
    findings.add(None, faults)
    return sheet


def _place(setting: str, front: FrontMatter | None, name: str) -> Span:
    """Where the value of a setting of the document stands."""
    if front is None:
        return Span(name)
    placed = front.below("physcalc").get(setting)
    return placed[1].span if placed is not None else front.span


def question_words(settings: Settings) -> Sequence[str]:
    """The words of a document's own for "question", in small letters."""
    return [word.lower() for key, word in settings.labels if key == "question"]


def _engine() -> Engine:
    """The project's own engine, imported when a document is there to be worked out."""
    from .document.own_engine import OwnEngine

    return OwnEngine()
