"""One document, checked: by whoever has its file, or by a worker to which it was sent."""

from __future__ import annotations

import os
import tempfile
from dataclasses import replace
from pathlib import Path, PurePath

from physcalc.limits import VARIABLE
from physcalc.problems import Problem, Span
from physcalc.problems.sheets import SheetUnknown

from ..problems import ProgramFault
from ..report import Found, Piece, piece_of
from ..sources import Source, read_source
from .kept import remembered
from .order import Needs, Order, Sent


def piece_in(path: Path, order: Order) -> Piece:
    """What a document adds to the report; a file that cannot be read is a problem, too.

    Raises:
        Exception: the program has a fault.
    """
    try:
        source = read_source(path)
    except Problem as problem:
        return piece_of(Found(str(path), (problem,)), order.form, order.most)
    return remembered(source, path.parent, order, _found)


def _found(source: Source, folder: Path, order: Order) -> Found:
    from .. import pipeline  # Here: with it comes the whole program, which what is remembered does not need.

    try:
        report = pipeline.check(source, order.overrides, folder=folder, strict=order.strict)
    except Problem as problem:
        return Found(source.name, (problem,), source)
    return Found(source.name, report.problems, source)


def fault_in(name: str, error: Exception) -> Found:
    """A fault of the program as a problem of the document in which it showed."""
    return Found(name, (ProgramFault(Span(name), type(error).__name__, str(error)),))


def answered(order: Order, task: str | Sent) -> Piece | Needs:
    """What a worker answers: a fault of the program is a problem of that document.

    The process must be the worker's own: it may change its folder and its environment.
    """
    name = task.name if isinstance(task, Sent) else task
    os.environ[VARIABLE] = order.limits
    try:
        if isinstance(task, Sent):
            return _sent(order, task)
        return piece_in(Path(task), order)
    except Exception as error:
        if os.environ.get("PHYSCALC_DEBUG", "") not in ("", "0"):
            import traceback

            traceback.print_exc()
        return piece_of(fault_in(name, error), order.form, order.most)


def _sent(order: Order, sent: Sent) -> Piece | Needs:
    """A document that was sent, checked in a folder that holds it and what it needs, and nothing else."""
    before = Path.cwd()
    with tempfile.TemporaryDirectory(prefix="physcalc-") as made:
        root = Path(os.path.realpath(made))
        paths = [PurePath(path) for path in (sent.name, *sent.files)]
        # Paths that lead upwards must not lead out of the folder.
        depth = max(path.parts.count("..") for path in paths)
        inside = root.joinpath(*("up" for _ in range(depth)))
        inside.mkdir(parents=True, exist_ok=True)
        os.chdir(inside)
        try:
            for path, held in sent.files.items():
                laid = _below(root, path)
                # What a document names above the root has no place here, and none that is to be written to.
                if Path(os.path.abspath(laid)).is_relative_to(root):
                    _laid(laid, held)
            source = Source(sent.name, sent.text, sent.bom)
            found = _found(source, _below(root, sent.name).parent, order)
            for problem in found.problems:
                missing = problem.path if isinstance(problem, SheetUnknown) else ""
                if missing and (path := _told(root, missing)) not in sent.files:
                    return Needs(path)
            piece = piece_of(found, order.form, order.most)
        finally:
            os.chdir(before)
    return replace(
        piece,
        parts=tuple(_told(root, part) for part in piece.parts),
        files=tuple(_told(root, name) for name in piece.files),
    )


def _below(root: Path, path: str) -> Path:
    """Where a file of the document's machine lies here: absolute paths begin at the root, others stay as they are."""
    return Path(f"{root}{path}") if os.path.isabs(path) else Path(path)


def _told(root: Path, text: str) -> str:
    """A text as the document's machine would have it."""
    return text.replace(str(root), "")


def _laid(path: Path, held: bytes | tuple[()] | None) -> None:
    """Lays down a file that was sent."""
    if held is None:
        return
    path.parent.mkdir(parents=True, exist_ok=True)
    if isinstance(held, bytes):
        path.write_bytes(held)
    else:
        # There it is a link that leads out of the folder, and so it does here.
        path.symlink_to(os.devnull)
