"""Pandoc as a program: found, of the right age, run with a time limit and without access to files."""

from __future__ import annotations

import json
import os
import re
import subprocess
from collections.abc import Sequence
from functools import cache
from pathlib import Path

from physcalc.limits import limit
from physcalc.problems import Span

from ..document.pandoc import NO_DATA, find_pandoc
from . import tree
from .problems import OutputFailed, PandocMissing, PandocTooOld

#: The first version whose Typst writer passes on what the pages use.
OLDEST = (3, 2)

#: Seconds beyond `write-seconds` after which a run is given up, for each megabyte of the tree.
TIME_LIMIT_PER_MB = 10.0
#: What pandoc ends with when it may take no more memory.
_HEAP_EXHAUSTED = 251
#: What TeX is told of files: to read and write none above its own folder.
_TEX_FILES = {"openin_any": "p", "openout_any": "p"}

#: Outputs carry no time of their own, so that the same document is the same bytes: the first day that a ZIP archive can
#: name. Whoever wants another says so (https://reproducible-builds.org/specs/source-date-epoch/).
_DATED = {"SOURCE_DATE_EPOCH": "315532800", "FORCE_SOURCE_DATE": "1"}


@cache
def pandoc_path() -> str:
    """Where pandoc is.

    Raises:
        PandocMissing: it is nowhere.
        PandocTooOld: it is older than `OLDEST`.
    """
    try:
        path, installed = find_pandoc()
        if installed:  # pip chose it by its version.
            return path
        said = subprocess.run([path, "--version"], capture_output=True, timeout=30, check=False).stdout
    except (OSError, subprocess.SubprocessError):
        raise PandocMissing(Span()) from None
    found = re.search(rb"(\d+(?:\.\d+)+)", said)
    if not found:
        raise PandocMissing(Span())
    version = found[1].decode()
    if tuple(int(part) for part in version.split("."))[:2] < OLDEST:
        raise PandocTooOld(Span(), version, ".".join(str(part) for part in OLDEST))
    return path


def run(
    document: tree.Json,
    arguments: Sequence[str],
    *,
    place: Span,
    folder: Path | None = None,
    sandbox: bool = True,
    time_limit: float | None = None,
) -> bytes:
    """Pandoc's output for a tree.

    Args:
        document: pandoc's tree as JSON.
        arguments: what to write and how.
        place: where a problem is shown.
        folder: the folder it runs in.
        sandbox: keep it from every file but those that the arguments name; only a PDF engine needs more.
        time_limit: seconds; None for the usual ones.

    Raises:
        OutputFailed: pandoc refused, or took too long.
        PandocMissing, PandocTooOld: there is no pandoc to run.
    """
    command = [
        pandoc_path(),
        "+RTS",
        f"-M{limit('write-memory')}m",
        "-RTS",
        NO_DATA,
        "--from=json",
        *(["--sandbox"] if sandbox else []),
        *arguments,
    ]
    given = json.dumps(document, ensure_ascii=False).encode("utf-8", "replace")
    if time_limit is None:
        time_limit = limit("write-seconds") + TIME_LIMIT_PER_MB * len(given) / 1_000_000
    try:
        done = subprocess.run(
            command,
            input=given,
            capture_output=True,
            timeout=time_limit,
            check=False,
            cwd=folder,
            env={**_DATED, **os.environ, **_TEX_FILES},
        )
    except subprocess.TimeoutExpired:
        raise OutputFailed(
            place, "pandoc", f"it was stopped after {time_limit:.0f} seconds", "write-seconds"
        ) from None
    except OSError as error:
        raise OutputFailed(place, "pandoc", str(error)) from None
    if done.returncode == _HEAP_EXHAUSTED or b"heap exhausted" in done.stderr.lower():
        raise OutputFailed(
            place, "pandoc", f"it needs more than {limit('write-memory')} MB of memory", "write-memory"
        )
    if done.returncode != 0:
        raise OutputFailed(place, "pandoc", done.stderr.decode("utf-8", "replace"))
    return done.stdout
