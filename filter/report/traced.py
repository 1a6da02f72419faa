"""What a value rests on and what rests on it, as a tree for a person and as JSON for programs."""

from __future__ import annotations

from collections.abc import Iterator

from physcalc.problems import Span

from ..document import Trace, Traced
from .wording import as_json, clean

_KINDS = {"given": "given", "result": "found", "constant": "sheet"}


def traced_text(trace: Trace) -> str:
    """The tree of what the value rests on; below it what rests on it, and where it stands."""
    lines = [_told(trace.value), *_below(trace.value, "")]
    if trace.places:
        lines += ["", "It stands:"]
        for place in trace.places:
            where = ", ".join(
                [*([f"question {place.question}"] if place.question else []), _line(place.span)]
            )
            lines.append(f"   {place.what}, {where}" + (f": {place.text}" if place.text else ""))
    lines += ["", "What rests on it:" if trace.dependents else "Nothing rests on it."]
    for one, direct in zip(trace.dependents, trace.direct, strict=True):
        lines.append(f"   {_told(one)}" + ("" if direct else ", through others"))
    return "".join(clean(line).rstrip() + "\n" for line in lines)


def _below(value: Traced, indent: str) -> Iterator[str]:
    rows: list[tuple[str, Traced | None]] = [
        (
            f"by {formula.text}   "
            + ", ".join([*([formula.slug] if formula.slug else []), _line(formula.span)]),
            None,
        )
        for formula in value.formulas
    ]
    rows += [(_told(one), one) for one in value.rests_on]
    for number, (text, one) in enumerate(rows):
        last = number == len(rows) - 1
        yield f"{indent}{'└─' if last else '├─'} {text}"
        if one is not None:
            yield from _below(one, indent + ("   " if last else "│  "))


def _told(value: Traced) -> str:
    where = [_KINDS[value.kind] + (f": {value.title}" if value.title else "")]
    where += [f"question {value.question}"] if value.question else []
    where += [_line(value.span)] if value.span is not None else []
    where += ["see above"] if value.told else []
    return f"{value.name} = {value.value or 'unknown'}   {', '.join(where)}"


def _line(span: Span) -> str:
    return span.line_in_words


def traced_json(trace: Trace) -> str:
    """One object.

    The keys, which stay as they are:

    - `value`: the value, an object with `name`, `value` (as printed), `kind` ("given", "result" or "constant"),
      `question` (its number; may be empty), `file` and `line` (null for the sheet's), `title` (the sheet's words
      for a constant), `formulas` (objects with `text`, `slug`, `file`, `line`), `told` (whether it is told elsewhere in
      the tree) and `rests_on`: a list of such objects.
    - `places`: where it stands, objects with `file`, `line`, `column`, `length`, `question`, `what`, `text`.
    - `dependents`: every value that rests on it, objects as `value`, without `formulas` and `rests_on`, and with
      `direct`: whether it goes straight into it.

    Everything but ASCII is escaped, as in the report of problems.
    """
    found = {
        "value": _object(trace.value),
        "places": [
            {
                "file": place.span.file,
                "line": place.span.line,
                "column": place.span.column,
                "length": place.span.length,
                "question": place.question,
                "what": place.what,
                "text": place.text,
            }
            for place in trace.places
        ],
        "dependents": [
            {**_head(one), "direct": direct}
            for one, direct in zip(trace.dependents, trace.direct, strict=True)
        ],
    }
    return as_json(found) + "\n"


def _head(value: Traced) -> dict[str, object]:
    return {
        "name": value.name,
        "value": value.value,
        "kind": value.kind,
        "question": value.question,
        "file": value.span.file if value.span is not None else None,
        "line": value.span.line if value.span is not None else None,
        "title": value.title,
    }


def _object(value: Traced) -> dict[str, object]:
    formulas = [
        {"text": formula.text, "slug": formula.slug, "file": formula.span.file, "line": formula.span.line}
        for formula in value.formulas
    ]
    below = [_object(one) for one in value.rests_on]
    return {**_head(value), "formulas": formulas, "told": value.told, "rests_on": below}
