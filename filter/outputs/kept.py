"""Outputs that were made before: a document that is as it was is not laid out and written again."""

from __future__ import annotations

import json
import os
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

from physcalc.witness import files_noted

from ..cache import Key, Witness, opened, recall, remember, stamp
from ..sources import Source

#: The kind of these outputs in the store.
KIND = "output"


@dataclass(frozen=True, slots=True)
class Built:
    """An output, or why there is none.

    Attributes:
        content: its bytes; None where the document has problems, and is no draft.
        edition: the edition that it is.
        said: what is told of its problems: their pictures, and their count; empty where there are none.
        code: the exit code that the problems ask for.
        read: the files that it was made from, besides the source.
    """

    content: bytes | None
    edition: str
    said: tuple[str, str] = ("", "")
    code: int = 0
    read: tuple[str, ...] = ()


def remembered(
    source: Source, asked: Sequence[object], make: Callable[[], Built], keep: bool = True
) -> Built:
    """What comes of a document.

    Args:
        source: the document.
        asked: everything else that the output depends on, as values whose `repr` tells them apart.
        make: what makes it, where it is not known.
        keep: whether everything that it depends on can be told; what an engine such as TeX reads cannot: it lists the
            files that it opened, but not those that it looked for, nor the fonts and settings of the machine.

    Raises:
        Problem: what `make` raises.
    """
    store = opened() if keep else None
    key = _key(source, asked) if store is not None else None
    if store is not None and key is not None:
        kept = recall(store, KIND, key)
        if kept is not None and (built := built_from(kept)) is not None:
            return built
    witness = Witness()
    with files_noted(witness.note):
        built = make()
    files = witness.files()
    built = Built(built.content, built.edition, built.said, built.code, tuple(name for name, *_ in files))
    if store is not None and key is not None and built.content is not None:
        remember(store, KIND, key, as_bytes(built), files)
    return built


def _key(source: Source, asked: Sequence[object]) -> bytes | None:
    """Everything that an output depends on, but the files that it reads; None where it cannot be told."""
    try:
        folder = os.path.realpath(Path(source.name).parent)
        key = Key(stamp(), os.getcwd(), folder, source.name, source.text, repr(source.bom))
        # No file in LaTeX reads itself, under whatever name.
        key.add(os.path.realpath(source.name))
    except OSError:
        return None
    key.add(repr(tuple(asked)))
    return key.digest()


def as_bytes(built: Built) -> bytes:
    """An output as it is kept: what is known of it on one line, and its bytes."""
    head = json.dumps((built.edition, built.said, built.code, built.read), ensure_ascii=True)
    return head.encode("ascii") + b"\n" + (built.content or b"")


def built_from(kept: bytes) -> Built | None:
    """The output again; None for what is none."""
    head, _, content = kept.partition(b"\n")
    try:
        edition, (text, count), code, read = json.loads(head)
    except (ValueError, TypeError):
        return None
    return Built(content, edition, (text, count), code, tuple(read))
