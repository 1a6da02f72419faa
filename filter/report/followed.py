"""What follows from a learner's values, as a table for a person and as JSON for programs."""

from __future__ import annotations

from collections.abc import Sequence

from ..document import Followed
from .wording import as_json, cells, clean

_HEADS = ("question", "result", "memo", "follows", "substitution")
_GAP = "  "


def followed_text(followed: Sequence[Followed]) -> str:
    """A row for each result, columns below one another; further lines of substitution stand below the first."""
    if not followed:
        return ""
    rows: list[tuple[str, ...]] = [_HEADS]
    for one in followed:
        last = one.substitution or ((f"({one.reason})",) if one.reason else ("",))
        rows.append((one.number or "\u2013", one.name, one.memo, one.value or "none", last[0]))
        rows += [("", "", "", "", line) for line in last[1:]]
    rows = [tuple(clean(cell) for cell in row) for row in rows]
    widths = [max(map(_width, column)) for column in zip(*rows, strict=True)]
    lines = []
    for row in rows:
        padded = (cell + " " * (width - _width(cell)) for cell, width in zip(row, widths, strict=True))
        lines.append(_GAP.join(padded).rstrip() + "\n")
    return "".join(lines)


def followed_json(followed: Sequence[Followed]) -> str:
    """A list of objects, one a result, in the order of the document.

    The keys of an object, which stay as they are:

    - `file`, `line`: the block that finds it; lines are counted from 1.
    - `question`, `id`: the number of its question and the id of the block; may be empty.
    - `name`: the result; "option" for the letter of a right option.
    - `memo`: the memo's value, as printed.
    - `follows`: the value that follows, as printed; null where none does.
    - `substitution`: a list of the lines in which the values stand that lead to it.
    - `reason`: why none follows; empty where one does.

    Everything but ASCII is escaped, as in the report of problems.
    """
    return as_json([_object(one) for one in followed]) + "\n"


def _object(one: Followed) -> dict[str, object]:
    return {
        "file": one.span.file,
        "line": one.span.line,
        "question": one.number,
        "id": one.identifier,
        "name": one.name,
        "memo": one.memo,
        "follows": one.value or None,
        "substitution": list(one.substitution),
        "reason": one.reason,
    }


def _width(text: str) -> int:
    return sum(width for _, width in cells(text))
