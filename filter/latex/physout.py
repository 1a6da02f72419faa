"""`NAME.physout`: what TeX reads back, as calls of the package's macros with the texts in them."""

from __future__ import annotations

from collections.abc import Mapping

from .entries import Entry, Run
from .working import Typeset

#: The first words of every such file, by which another's is told from it.
SIGNATURE = "% Made by physcalc."


def physout(run: Run, made: Typeset | None, problems: int) -> str:
    """The text of the file.

    Args:
        run: what TeX wrote.
        made: what TeX sets; None where the document could not be worked out at all.
        problems: how many problems were found.
    """
    lines = [
        f"{SIGNATURE} It is written anew by each run of `physcalc latex'; do not edit.",
        f"\\physcalcstate{{{run.count}}}{{{run.sum}}}{{{run.edition}}}{{{problems}}}",
    ]
    if made is not None:
        lines.append(f"\\physcalcword{{question}}{{{made.question}}}")
        for entry in run.entries():
            fields = made.fields.get(entry.number)
            if fields is not None:
                lines.append(_entry(entry, fields, made.marks.get(entry.number, "")))
        lines += [
            f"\\physcalcnamed{{{name}}}{{{text}}}"
            for name, text in made.named.items()
            if _tame(name) and text
        ]
        if made.appendix:
            lines.append(f"\\physcalcappendix{{{made.appendix}}}")
    return "\n".join(lines) + "\n"


def _entry(entry: Entry, fields: Mapping[str, str], marks: str) -> str:
    start = f"{{{entry.number}}}{{{entry.sum}}}"
    body = fields["body"]
    match entry.kind:
        case "question":
            return f"\\physcalcquestion{start}{{{marks}}}{{{body}}}{{{fields['after']}}}{{{fields['total']}}}"
        case "answer":
            return f"\\physcalcanswer{start}{{{body}}}{{{marks}}}{{{fields['before']}}}"
        case _:
            return f"\\physcalcentry{start}{{{body}}}"


def _tame(name: str) -> bool:
    """Whether a name can stand between braces as it was typed."""
    return all(sign.isalnum() or sign in "_.,'" for sign in name)
