"""Problems as a JUnit report, which CI servers show as tests.

The elements and attributes are those on which the published schemas agree: the XSD of the Jenkins xUnit
plugin (`junit-10.xsd`) and the one in Apache Ant's documentation of its `junitreport` task.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from tempfile import SpooledTemporaryFile
from xml.etree import ElementTree as Xml

from physcalc.problems import Problem

from .found import Found
from .pieces import Format, Out, Piece
from .spool import KEPT, replayed
from .wording import REPLACEMENT
from .wording import clean as safe

# What the terminal may see and XML may not (XML 1.0, production 2).
_NO_XML = re.compile(r"[\ufffe\uffff]")


class AsJunit(Format):
    """A suite for each file and in it a test case for each problem; a file without any is one that passes.

    What could not be read is an error, any other problem a failure. Notes are text in `system-out` and fail
    nothing. Characters that XML cannot hold are replaced.
    """

    def piece(self, run: Found) -> Piece:
        """A suite."""
        root = Xml.Element("testsuites")
        counts = _suite(root, run)
        Xml.indent(root[0], level=1)
        return Piece((Xml.tostring(root[0], encoding="unicode").rstrip(),), counts=counts)

    def write(self, pieces: Iterable[Piece], out: Out) -> None:
        """The whole once all suites have come: its first line counts them, so they wait in a file."""
        root = Xml.Element("testsuites", {"name": "physcalc check"})
        totals = [0, 0, 0]
        with SpooledTemporaryFile(KEPT, "w+", encoding="utf-8", newline="") as waiting:
            for piece in pieces:
                totals = [total + count for total, count in zip(totals, piece.counts, strict=True)]
                waiting.writelines(f"  {part}\n" for part in piece.parts)
            empty = not waiting.tell()
            for name, total in zip(("tests", "failures", "errors"), totals, strict=True):
                root.set(name, str(total))
            start = Xml.tostring(root, encoding="unicode")
            out('<?xml version="1.0" encoding="UTF-8"?>\n')
            out(start + "\n" if empty else start.removesuffix(" />") + ">\n")
            replayed(waiting, out)
            out("" if empty else "</testsuites>\n")


def _suite(root: Xml.Element, run: Found) -> tuple[int, int, int]:
    """Adds a file's suite.

    Returns:
        How many tests, failures and errors it has.
    """
    faults = [problem for problem in run.problems if problem.level != "note"]
    notes = [problem for problem in run.problems if problem.level == "note"]
    errors = sum(problem.level == "unreadable" for problem in faults)
    counts = (max(1, len(faults)), len(faults) - errors, errors)
    suite = Xml.SubElement(root, "testsuite", {"name": clean(run.name)})
    for name, count in zip(("tests", "failures", "errors"), counts, strict=True):
        suite.set(name, str(count))
    suite.set("skipped", "0")
    suite.set("time", "0")
    for problem in faults:
        case = _case(suite, run, f"{problem.slug} {_place(problem)}".strip())
        kind = "error" if problem.level == "unreadable" else "failure"
        said = Xml.SubElement(case, kind, {"message": clean(problem.sentence()), "type": problem.slug})
        said.text = _told(problem)
    if not faults:
        _case(suite, run, "everything agrees")
    if notes:
        Xml.SubElement(suite, "system-out").text = "\n".join(
            f"note: {problem.slug}: {_told(problem)}" for problem in notes
        )
    return counts


def _case(suite: Xml.Element, run: Found, name: str) -> Xml.Element:
    return Xml.SubElement(suite, "testcase", {"classname": clean(run.name), "name": clean(name), "time": "0"})


def _place(problem: Problem) -> str:
    span = problem.span
    return f"{span.line}:{span.column}" if span.file else ""


def _told(problem: Problem) -> str:
    span = problem.span
    head = f"{span.file}:{span.line}:{span.column}: " if span.file else ""
    lines = [head + problem.sentence(), *problem.because()]
    if problem.mend():
        lines.append(f"mend: {problem.mend()}")
    return "\n".join(map(clean, lines))


def clean(text: str) -> str:
    """A text on one line, in characters that XML can hold."""
    return _NO_XML.sub(REPLACEMENT, safe(text))
