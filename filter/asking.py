"""What may be asked of a document that is worked out: where a value comes from, and what follows from a learner's."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from physcalc.problems import Text

from .document import Engine, Followed, Report, Trace, follow_on, read_taken, trace
from .document.own_engine import OwnEngine
from .pipeline import Overrides, work_out
from .sources import Source


def trace_value(
    source: Source,
    asked: Text,
    overrides: Overrides = (),
    folder: Path | None = None,
    engine: Engine | None = None,
) -> tuple[Trace | None, Report]:
    """What a value rests on, and what rests on it.

    Args:
        source, overrides, folder, engine: as for `pipeline.check`.
        asked: its name, perhaps with the question before it: "q_B", "sphere:q_B".

    Returns:
        The trace (None where the document could not be read) and what was found in the document. A document with
        problems is traced as far as it could be worked out.

    Raises:
        TraceUnknown, TraceSeveral: the name means nothing, or several things.
    """
    engine = engine or OwnEngine()
    worked, report = work_out(source, overrides, folder, engine)
    return (trace(asked, worked, engine) if worked is not None else None), report


def follow(
    source: Source,
    taken: Sequence[Text],
    overrides: Overrides = (),
    folder: Path | None = None,
    engine: Engine | None = None,
) -> tuple[tuple[Followed, ...] | None, Report]:
    """What follows from a learner's values.

    Args:
        source, overrides, folder, engine: as for `pipeline.check`.
        taken: results with the learner's values: "T=6725 N", "lift-tension:T=6725 N".

    Returns:
        Every result that comes out otherwise (None where the document has problems, or a value cannot be taken),
        and what was found: the problems of the document, or else those of the values.
    """
    engine = engine or OwnEngine()
    worked, report = work_out(source, overrides, folder, engine)
    if worked is None or report.failed:
        return None, report
    layers, faults = read_taken(taken, worked, engine)
    if faults:
        return None, Report(tuple(faults))
    return follow_on(worked, layers, engine), report
