"""From what TeX wrote to what it reads back, with everything that is wrong in between."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from physcalc.problems import Span, Text

from ..document import Engine, Findings, Report
from ..document.own_engine import OwnEngine
from ..pipeline import Made, work_tree
from ..problems import FileMissing
from ..sources import Source, read_source
from .entries import read_run
from .physout import SIGNATURE, physout
from .places import Files
from .problems import ChaptersLeftOut, EntriesMissing
from .tree import tree_of
from .working import typeset

#: Endings with which a document may be named.
_ENDINGS = frozenset({".tex", ".ltx", ".physin", ".physout"})
_TEX_ENDINGS = frozenset({".tex", ".ltx"})


@dataclass(frozen=True, slots=True)
class Done:
    """What a run led to.

    Attributes:
        target: the file for TeX.
        text: what is to stand in it.
        report: what was found.
        sources: the files of the document, by the name under which problems point into them.
    """

    target: Path
    text: str
    report: Report
    sources: dict[str, Source]


def process(
    path: Path,
    root: Path | None,
    overrides: Sequence[tuple[Text, object]] = (),
    engine: Engine | None = None,
) -> Done:
    """What TeX reads back for a document; nothing is written.

    Args:
        path: the document, with or without its ending; it may lie in the folder that TeX writes to.
        root: the folder in which TeX ran; None for that of the document.
        overrides: settings of the command line, which win.
        engine: what calculates; the project's own where it is None.

    Raises:
        EntriesMissing, EntriesDamaged, EntriesUnfinished, EntriesOld: TeX has to run first, or again.
        FileMissing, FileTooLarge, FileNotUtf8: what it wrote cannot be read.
        OutputFailed, PandocMissing, PandocTooOld: pandoc refuses.
    """
    base = path.with_suffix("") if path.suffix in _ENDINGS else path
    folder = root if root is not None else path.parent
    entries = base.with_name(base.name + ".physin")
    if path.is_dir():
        raise FileMissing(Span(str(path)), str(path), "is a folder")
    if not entries.is_file():
        document = base.with_name(base.name + ".tex")
        raise EntriesMissing(Span(str(entries)), str(entries), str(document) if document.is_file() else "")
    run = read_run(read_source(entries))
    main = path.name if path.suffix in _TEX_ENDINGS else f"{Path(run.job).name}.tex"
    files = Files(folder, main, len({entry.file for entry in run.entries()}) > 1)
    findings = Findings()
    engine = engine or OwnEngine()
    tree = tree_of(run, files)
    if run.partial:
        findings.add(None, [ChaptersLeftOut(Span(files.shown("")))])
    made = Made(files.shown(""), tree.front, tree.marks)
    worked = work_tree(tree.document, made, overrides, folder, engine, findings)
    text = None
    if worked is not None:
        numbers = {
            part.key: tree.entries[id(part.element)].entry.question or number
            for part in worked.tree.root.walk()
            if (number := worked.tree.numbers.get(part.key)) is not None
        }
        # TeX counts the questions: their numbers stand on its pages.
        worked = replace(worked, tree=replace(worked.tree, numbers=numbers))
        text = typeset(worked, tree.entries, run.edition, engine, findings, Span(str(entries)))
    report = findings.report(worked.tree.question_numbers() if worked is not None else None)
    count = sum(problem.level != "note" for problem in report.problems)
    target = base.with_name(base.name + ".physout")
    return Done(target, physout(run, text, count), report, files.sources())


def foreign(target: Path) -> bool:
    """Whether a file of that name is there that this program has not written."""
    if not target.exists() and not target.is_symlink():
        return False
    if not target.is_file():
        return True  # Whoever opens a pipe waits for it.
    try:
        with target.open(encoding="utf-8", errors="replace") as file:
            return not file.read(len(SIGNATURE)).startswith(SIGNATURE)
    except OSError:
        return True
