"""The way of a document, stage by stage: from its text to a report, or to one edition of it."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import panflute as pf

from physcalc.problems import Span, Text
from physcalc.sheets import Sheet, read_sheet

from .document import (
    Edition,
    Engine,
    Findings,
    Followed,
    Report,
    Worked,
    check_balance,
    check_classes,
    check_prose,
    find_questions,
    follow_on,
    places,
    read_markup,
    read_statements,
    read_taken,
    settle_document,
    settle_parts,
    solve,
    spread_marks,
)
from .problems import DocumentNested
from .settings import Settings
from .sources import FrontMatter, Source, front_matter

#: Settings of the command line: names and values.
Overrides = Sequence[tuple[Text, object]]


def check(
    source: Source, overrides: Overrides = (), folder: Path | None = None, engine: Engine | None = None
) -> Report:
    """Everything that is wrong with a document; nothing is written.

    Args:
        source: the document.
        overrides: settings of the command line, which win over the front matter.
        folder: the folder that the sheet's path starts from; the document's own where it is None.
        engine: what calculates; the project's own where it is None.
    """
    findings = Findings()
    worked = _read_and_work(source, overrides, folder, engine or _engine(), findings)
    return findings.report(worked.tree.question_numbers() if worked is not None else None)


def build(
    source: Source,
    edition: Edition,
    format: str,
    draft: bool = False,
    overrides: Overrides = (),
    folder: Path | None = None,
    engine: Engine | None = None,
) -> tuple[pf.Doc | None, Report]:
    """One edition of a document.

    Args:
        source, overrides, folder, engine: as for `check`.
        edition: which edition.
        format: pandoc's name of the output format, for which the parts of the page are laid out.
        draft: whether problems are framed in their places.

    Returns:
        The edition's tree (None where the document could not be read at all, or has problems and is no draft)
        and what was found.
    """
    findings = Findings()
    engine = engine or _engine()
    worked = _read_and_work(source, overrides, folder, engine, findings)
    return _edition(worked, edition, format, draft, engine, findings)


def follow(
    source: Source,
    taken: Sequence[Text],
    overrides: Overrides = (),
    folder: Path | None = None,
    engine: Engine | None = None,
) -> tuple[tuple[Followed, ...] | None, Report]:
    """What follows from a learner's values.

    Args:
        source, overrides, folder, engine: as for `check`.
        taken: results with the learner's values: "T=6725 N", "lift-tension:T=6725 N".

    Returns:
        Every result that comes out otherwise (None where the document has problems, or a value cannot be taken),
        and what was found: the problems of the document, or else those of the values.
    """
    findings = Findings()
    engine = engine or _engine()
    worked = _read_and_work(source, overrides, folder, engine, findings)
    report = findings.report(worked.tree.question_numbers() if worked is not None else None)
    if worked is None or report.failed:
        return None, report
    layers, faults = read_taken(taken, worked, engine)
    if faults:
        return None, Report(tuple(faults))
    return follow_on(worked, layers, engine), report


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


def _read_and_work(
    source: Source, overrides: Overrides, folder: Path | None, engine: Engine, findings: Findings
) -> Worked | None:
    with findings.catching(None):
        document = read_markup(source.text, source.name)
        folder = folder if folder is not None else Path(source.name).parent
        return _work(document, source, overrides, folder, engine, findings)
    return None


def _work(
    document: pf.Doc,
    source: Source | None,
    overrides: Overrides,
    folder: Path | None,
    engine: Engine,
    findings: Findings,
) -> Worked | None:
    """The stages, in their order."""
    name = source.name if source is not None else ""
    try:
        with findings.catching(None):
            front = front_matter(source) if source is not None else None
            settings = settle_document(document, front, overrides, findings, name)
            sheet = _sheet(settings, front, folder, name, findings)
            check_classes(document, source, findings)
            marked = places(document, source)
            tree = find_questions(document, marked, findings, name, _question_words(settings))
            settled = settle_parts(tree, settings, findings)
            statements = read_statements(tree, settled, findings)
            marks = spread_marks(tree, statements, settings.total, _place("total", front, name), findings)
            solved = solve(tree, statements, marks, sheet, engine, findings)
            prose = check_prose(tree, settled, solved, sheet, engine, findings, statements)
            check_balance(tree, statements, marks, solved, settings, source, findings)
            return Worked(tree, settings, settled, statements, marks, sheet, solved, prose)
    except RecursionError:
        findings.add(None, [DocumentNested(Span(name))])
    return None


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
    settings: Settings, front: FrontMatter | None, folder: Path | None, name: str, findings: Findings
) -> Sheet:
    """The sheet that the settings name.

    Raises:
        SheetUnknown, SheetUnreadable, SheetExtendsItself: there is none, so nothing can be worked out.
    """
    typed = Text(settings.sheet, _place("sheet", front, name))
    sheet, faults = read_sheet(typed, folder, settings.decimal)
    findings.add(None, faults)
    return sheet


def _place(setting: str, front: FrontMatter | None, name: str) -> Span:
    """Where the value of a setting of the document stands."""
    if front is None:
        return Span(name)
    placed = front.below("physcalc").get(setting)
    return placed[1].span if placed is not None else front.span


def _question_words(settings: Settings) -> Sequence[str]:
    return [word.lower() for key, word in settings.labels if key == "question"]


def _engine() -> Engine:
    """The project's own engine, imported when a document is there to be worked out."""
    from .document.own_engine import OwnEngine

    return OwnEngine()
