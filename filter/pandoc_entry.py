"""The Pandoc filter: JSON in, JSON out, problems on standard error.

Pandoc runs it with the output format as its first argument. The metadata `edition` and `draft` say what is
written: `pandoc test.md --filter physcalc-filter -M edition=memo -o memo.docx`.

An answer that was given before is found in the user's store: then nothing but this module and the room `cache` is
loaded. So nothing else is imported at the head of this module.
"""

from __future__ import annotations

import gc
import os
import sys

from .cache import Key, Store, Witness, opened, recall, remember, stamp

TYPE_CHECKING = False  # As in `typing`, which takes its time to import.
if TYPE_CHECKING:
    from collections.abc import Sequence
    from typing import TextIO

#: What somebody is told who runs it by hand.
_USE = """physcalc-filter is run by pandoc, which hands it a document:

  pandoc test.md --filter physcalc-filter -M edition=memo -o memo.docx

`-M edition=` paper, memo or guide; `-M draft=true` writes a document that has problems, each framed in its place.
physcalc build does the same without pandoc's options; see physcalc build --help."""

#: The kind of its answers in the store.
KIND = "filter"


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the filter on standard input and output.

    Args:
        arguments: what follows the program's name: pandoc's name of the output format.

    Returns:
        0, or 1 where the document has problems and is no draft (pandoc then stops with a code of its own).
    """
    arguments = sys.argv[1:] if arguments is None else arguments
    if sys.stdin.isatty() or any(word in ("-h", "--help", "--version") for word in arguments):
        print(_USE, file=sys.stderr)
        return 0
    # To look through the program for rubbish while it is loaded costs a tenth of the run.
    gc.disable()
    format = arguments[0] if arguments else "markdown"
    written, said = answered(sys.stdin.buffer.read(), format, opened())
    sys.stderr.write(said)
    if written is None:
        return 1
    sys.stdout.buffer.write(written)
    return 0


def answered(data: bytes, format: str, store: Store | None) -> tuple[bytes | None, str]:
    """The JSON of the edition, or None where there is none, and what is said of problems.

    Args:
        data: pandoc's JSON of the document, in UTF-8, whatever the terminal's encoding is.
        format: pandoc's name of the output format.
        store: where answers are kept; None for nowhere.
    """
    key = _key(data, format) if store is not None else None
    if store is None or key is None:
        return _worked_out(data, format)[:2]
    kept = recall(store, KIND, key)
    if kept is not None:
        return _opened(kept)
    witness = Witness()
    written, said, lasting = _worked_out(data, format, witness)
    if lasting:
        remember(store, KIND, key, _closed(written, said), witness.files())
    return written, said


def _key(data: bytes, format: str) -> bytes | None:
    """Everything that an answer depends on, but the sheet's files; None where it cannot be told."""
    try:
        # Sheets are looked for in the working folder, and messages name their paths as they are typed.
        return Key(stamp(), os.getcwd(), format, data).digest()
    except OSError:  # There is no such folder any more, or the program's own files are not to be looked at.
        return None


def run(text: str, format: str, errors: TextIO) -> str | None:
    """The JSON of the edition, or None where there is none; problems and notes are written to `errors`."""
    from .pandoc_run import answer  # Here, and below: with it comes the whole program.

    given = answer(text, format)
    errors.write(given.said)
    return given.written


def _worked_out(data: bytes, format: str, witness: Witness | None = None) -> tuple[bytes | None, str, bool]:
    """The answer without the store, and whether it may be kept."""
    from physcalc.witness import files_noted

    from .pandoc_run import answer

    if not gc.isenabled():
        # The program and a document's tree are large and live to the end.
        gc.freeze()
        gc.set_threshold(100_000, 50, 100)
        gc.enable()
    with files_noted((witness or Witness()).note):
        given = answer(data.decode("utf-8"), format)
    written = given.written.encode("utf-8") if given.written is not None else None
    return written, given.said, given.lasting


def _closed(written: bytes | None, said: str) -> bytes:
    """An answer as one content: what is said, with its length before it, then a sign and what is written."""
    told = said.encode("utf-8", "surrogatepass")
    return b"%d\n" % len(told) + told + (b"-" if written is None else b"+" + written)


def _opened(content: bytes) -> tuple[bytes | None, str]:
    length, _, rest = content.partition(b"\n")
    end = int(length)
    said = rest[:end].decode("utf-8", "surrogatepass")
    return (rest[end + 1 :] if rest[end : end + 1] == b"+" else None), said
