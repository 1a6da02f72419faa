"""Problems in the Static Analysis Results Interchange Format, which code hosts and editors read.

The format is the OASIS standard SARIF 2.1.0 (2020, errata 01 of 2023); sections below are its sections.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any
from urllib.parse import quote

from physcalc import __version__
from physcalc.problems import Level, Problem

from .found import Found
from .places import absolute, whole_file
from .wording import clean

#: The schema that the standard publishes with itself (section 3.13.3).
SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
_LEVELS: dict[Level, str] = {"note": "note", "problem": "error", "unreadable": "error"}


def as_sarif(runs: Sequence[Found]) -> str:
    """One log with one run, a result for each problem or note, a rule for each kind that was found.

    Lines and columns are counted from 1, columns in characters (`columnKind`, section 3.14.17). What was read
    is listed in `artifacts`, files in which nothing was found among them. Everything but ASCII is escaped.
    """
    kinds: dict[str, type[Problem]] = {}
    for run in runs:
        for problem in run.problems:
            kinds.setdefault(problem.slug, type(problem))
    slugs = list(kinds)
    named = [name for run in runs for name in (run.name, *(problem.span.file for problem in run.problems))]
    # Each once: the schema wants `artifacts` without repetition.
    files = dict.fromkeys(_uri(name) for name in named if name)
    log = {
        "$schema": SCHEMA,
        "version": "2.1.0",
        "runs": [
            {
                "tool": {
                    "driver": {
                        "name": "physcalc",
                        "version": __version__,
                        "semanticVersion": __version__,
                        "rules": [_rule(slug, kind) for slug, kind in kinds.items()],
                    }
                },
                "columnKind": "unicodeCodePoints",
                "artifacts": [{"location": {"uri": uri}} for uri in files],
                "results": [_result(problem, slugs) for run in runs for problem in run.problems],
            }
        ],
    }
    return json.dumps(log, indent=2) + "\n"


def _rule(slug: str, kind: type[Problem]) -> dict[str, Any]:
    rule: dict[str, Any] = {"id": slug}
    if summary := kind.summary():
        rule["shortDescription"] = {"text": summary}
        rule["fullDescription"] = {"text": "\n\n".join(kind.explained())}
    examples = [f"{word}:\n\n{text}" for word, text in (("Wrong", kind.wrong), ("Right", kind.right)) if text]
    rule["help"] = {"text": "\n\n".join([*examples, f"physcalc explain {slug}"])}
    rule["defaultConfiguration"] = {"level": _LEVELS[kind.level]}
    return rule


def _result(problem: Problem, slugs: Sequence[str]) -> dict[str, Any]:
    lines = [problem.sentence(), *problem.because()]
    if problem.mend():
        lines.append(f"mend: {problem.mend()}")
    result: dict[str, Any] = {
        "ruleId": problem.slug,
        "ruleIndex": slugs.index(problem.slug),
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
    quoted = quote(path, safe="/-._~!$&'()*+,;=@", errors="surrogateescape")
    if absolute(path):
        return "file://" + ("" if quoted.startswith("/") else "/") + quoted
    # A colon in the first part of a relative path would make a scheme of it; `quote` escapes colons anyway.
    return quoted
