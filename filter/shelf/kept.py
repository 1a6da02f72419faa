"""Pieces of reports that were made before: a document that is as it was is not worked out again."""

from __future__ import annotations

import json
import os
from collections.abc import Callable
from pathlib import Path

from physcalc.witness import files_noted

from ..cache import Key, Witness, opened, recall, remember, stamp
from ..report import Format, Found, Piece, Tally, piece_of
from ..sources import Source
from .order import Order

#: The kind of these pieces in the store.
KIND = "check"

#: Finds everything that is wrong with a document: its source, its folder, what is asked.
Finder = Callable[[Source, Path, Order], Found]


def remembered(source: Source, folder: Path, order: Order, find: Finder) -> Piece:
    """What a document adds to a report.

    Args:
        source: the document.
        folder: the folder that its sheet's path starts from.
        order: what is asked of it.
        find: what finds everything that is wrong with it, where that is not known.
    """
    store = opened()
    key = _key(source, folder, order) if store is not None else None
    if store is None or key is None:
        return piece_of(find(source, folder, order), order.form, order.most)
    kept = recall(store, KIND, key)
    if kept is not None:
        return piece_from(kept)
    witness = Witness()
    with files_noted(witness.note):
        found = find(source, folder, order)
        # The lines that it shows are those of the files as they were read.
        piece = piece_of(found, order.form, order.most)
    # What could not be read at all, as when pandoc took too long, has to be tried again.
    if all(problem.level != "unreadable" for problem in found.problems):
        remember(store, KIND, key, as_bytes(piece), witness.files())
    return piece


def _key(source: Source, folder: Path, order: Order) -> bytes | None:
    """Everything that an answer depends on, but the files that it reads; None where it cannot be told."""
    try:
        key = Key(stamp(), os.getcwd(), os.path.realpath(folder), source.name, source.text)
        # No file in LaTeX reads itself, under whatever name.
        key.add(os.path.realpath(source.name))
    except OSError:
        return None
    key.add(repr((source.bom, order.strict, order.most, tuple(order.overrides))))
    key.add(_form(order.form))
    return key.digest()


def _form(form: Format) -> str:
    """A format as a text: its name, and what was asked of it."""
    return repr((type(form).__qualname__, sorted(vars(form).items())))


def as_bytes(piece: Piece) -> bytes:
    """A piece as it is kept."""
    tally = piece.tally
    counted = (tally.files, tally.concerned, tally.problems, tally.notes, tally.code)
    return json.dumps(
        (piece.parts, counted, piece.slugs, piece.rules, piece.files, piece.counts), ensure_ascii=True
    ).encode("ascii")


def piece_from(content: bytes) -> Piece:
    """The piece again."""
    parts, counted, slugs, rules, files, counts = json.loads(content)
    pairs = tuple((slug, told) for slug, told in rules)
    tests, failures, errors = counts
    return Piece(tuple(parts), Tally(*counted), tuple(slugs), pairs, tuple(files), (tests, failures, errors))
