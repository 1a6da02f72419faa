"""Problems in the Static Analysis Results Interchange Format, which code hosts and editors read.

The format is the OASIS standard SARIF 2.1.0 (2020, errata 01 of 2023); sections below are its sections.
"""

from __future__ import annotations

from collections.abc import Iterable
from tempfile import SpooledTemporaryFile
from typing import Any
from urllib.parse import quote

from physcalc import __version__
from physcalc.problems import Level, Problem

from .as_json import indented, listed
from .found import Found
from .pieces import Format, Out, Piece
from .places import absolute, whole_file
from .spool import KEPT, lines_of, replayed
from .wording import clean, whole

#: The schema that the standard publishes with itself (section 3.13.3).
SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
_LEVELS: dict[Level, str] = {"note": "note", "problem": "error", "unreadable": "error"}


#: How deep rules, files and results stand in the log, in columns.
_RULES, _FILES, _RESULTS = 10, 6, 6
#: Stands in a result until the place of its rule in the list of rules is known.
_NO_INDEX = '"ruleIndex": null'
_UNQUOTED = "/-._~!$&'()*+,;=@"


class AsSarif(Format):
    """One log with one run, a result for each problem or note, a rule for each kind that was found.

    Lines and columns are counted from 1, columns in characters (`columnKind`, section 3.14.17). What was read
    is listed in `artifacts`, files in which nothing was found among them. Everything but ASCII is escaped.
    """

    def piece(self, run: Found) -> Piece:
        """A result for each problem, and what they need: rules and files."""
        kinds: dict[str, type[Problem]] = {}
        for problem in run.problems:
            kinds.setdefault(problem.slug, type(problem))
        names = [run.name, *(problem.span.file for problem in run.problems)]
        return Piece(
            tuple(indented(_result(problem), _RESULTS + 2) for problem in run.problems),
            slugs=tuple(problem.slug for problem in run.problems),
            rules=tuple((slug, indented(_rule(slug, kind), _RULES + 2)) for slug, kind in kinds.items()),
            # Each once: the schema wants `artifacts` without repetition.
            files=tuple(dict.fromkeys(_uri(name) for name in names if name)),
        )

    def write(self, pieces: Iterable[Piece], out: Out) -> None:
        """The whole once all results have come: rules stand before them, so they wait in a file."""
        rules: dict[str, str] = {}
        # The one thing here that grows with the number of documents, by some hundred bytes for each.
        listed_files: set[str] = set()
        with (
            SpooledTemporaryFile(KEPT, "w+", encoding="ascii", newline="") as results,
            SpooledTemporaryFile(KEPT, "w+", encoding="ascii", newline="") as files,
        ):
            for piece in pieces:
                for slug, rule in piece.rules:
                    rules.setdefault(slug, rule)
                places = {slug: str(place) for place, slug in enumerate(rules)}
                for slug, part in zip(piece.slugs, piece.parts, strict=True):
                    numbered = part.replace(_NO_INDEX, f'"ruleIndex": {places[slug]}', 1)
                    results.write((",\n" if results.tell() else "\n") + f"{' ' * (_RESULTS + 2)}{numbered}")
                for uri in piece.files:
                    if uri not in listed_files:
                        files.write(uri + "\n")
                listed_files.update(piece.files)
            driver = {
                "name": "physcalc",
                "version": __version__,
                "semanticVersion": __version__,
            }
            out('{\n  "$schema": ' + indented(SCHEMA, 0) + ',\n  "version": "2.1.0",\n  "runs": [\n    {\n')
            out('      "tool": {\n        "driver": ')
            out(indented(driver, 8).removesuffix("\n        }") + ',\n          "rules": ')
            listed(rules.values(), out, _RULES)
            out('\n        }\n      },\n      "columnKind": "unicodeCodePoints",\n      "artifacts": ')
            artifacts = ({"location": {"uri": uri}} for uri in lines_of(files))
            listed((indented(one, _FILES + 2) for one in artifacts), out, _FILES)
            out(',\n      "results": ')
            if results.tell():
                out("[")
                replayed(results, out)
                out("\n      ]")
            else:
                out("[]")
            out("\n    }\n  ]\n}\n")


def _rule(slug: str, kind: type[Problem]) -> dict[str, Any]:
    rule: dict[str, Any] = {"id": slug}
    if summary := kind.summary():
        rule["shortDescription"] = {"text": summary}
        rule["fullDescription"] = {"text": "\n\n".join(kind.explained())}
    examples = [f"{word}:\n\n{text}" for word, text in (("Wrong", kind.wrong), ("Right", kind.right)) if text]
    rule["help"] = {"text": "\n\n".join([*examples, f"physcalc explain {slug}"])}
    rule["defaultConfiguration"] = {"level": _LEVELS[kind.level]}
    return rule


def _result(problem: Problem) -> dict[str, Any]:
    lines = [problem.sentence(), *problem.because()]
    if problem.mend():
        lines.append(f"mend: {problem.mend()}")
    result: dict[str, Any] = {
        "ruleId": problem.slug,
        "ruleIndex": None,
        "level": _LEVELS[problem.level],
        "message": {"text": "\n".join(map(clean, lines))},
    }
    span = problem.span
    if span.file:
        place: dict[str, Any] = {"artifactLocation": {"uri": _uri(span.file)}}
        if not whole_file(span):
            place["region"] = {
                "startLine": span.line,
                "startColumn": span.column,
                # The column behind the last character (section 3.30.8).
                "endColumn": span.column + max(1, span.length),
            }
        result["locations"] = [{"physicalLocation": place}]
    return result


def _uri(name: str) -> str:
    """A file's name as a URI: relative ones stay relative (section 3.4.3, RFC 3986)."""
    path = name.replace("\\", "/")
    try:
        # A byte of a name that is no UTF-8 is escaped as it is, so that the file can be found.
        quoted = quote(path, safe=_UNQUOTED, errors="surrogateescape")
    except UnicodeEncodeError:  # A name of Windows may hold halves of characters, which are no bytes at all.
        quoted = quote(whole(path), safe=_UNQUOTED)
    if absolute(path):
        return "file://" + ("" if quoted.startswith("/") else "/") + quoted
    # A colon in the first part of a relative path would make a scheme of it; `quote` escapes colons anyway.
    return quoted
