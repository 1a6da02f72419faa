"""`physcalc fix`: computed values over typed results that disagree."""

from __future__ import annotations

import difflib
import os
import tempfile
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import click

from physcalc.problems import Problem, Span

from . import screen
from .documents import expand
from .paths import NamedPath
from .problems import FileChanged, FileNotWritten, FolderEmpty
from .settings import Overrides, settings_option
from .start import fault_of

if TYPE_CHECKING:
    from ..fixing import Fixed
    from ..report import Found
    from ..sources import Source


@click.command(short_help="Write computed values over typed results that disagree.")
@click.argument("paths", nargs=-1, required=True, metavar="PATH...", type=NamedPath())
@click.option("--dry-run", is_flag=True, help="Show the difference on standard output and write nothing.")
@settings_option
def command(paths: tuple[Path, ...], dry_run: bool, overrides: Overrides) -> int:
    """Put typed results right.

    The computed value is written over each typed answer, `value of=` and `show` that disagrees with it, in
    the author's own number style. Data are never changed, nor is any other character of the file. What cannot
    be mended so is told as `physcalc check` tells it.

    \b
    physcalc fix test.md --dry-run     look at the difference first
    physcalc fix papers/               every document of a folder

    Exit code: 0 nothing is wrong any more, 1 something is (with --dry-run: or would be mended), 2 something
    could not be read or written.
    """
    from ..report import clean

    runs: list[Found] = []
    differs = False
    for one in expand(paths):
        found, fixed = _fixed(one, overrides, dry_run)
        runs.append(found)
        if fixed is None or not fixed.mends:
            continue
        differs = True
        if dry_run:
            continue
        for mend in fixed.mends:
            span = mend.problem.span
            place = f"{span.file}:{span.line}:{span.column}:"
            screen.say(clean(f"{place} {mend.old} is now {mend.edit.new}"))
    screen.show(runs, err=True)
    return max(screen.exit_code(runs), int(dry_run and differs))


def _fixed(one: Path | FolderEmpty, overrides: Overrides, dry_run: bool) -> tuple[Found, Fixed | None]:
    """One document put right and written (or, on a dry run, shown); what is left to mend in it."""
    from .. import pipeline
    from ..fixing import fix
    from ..report import Found
    from ..sources import read_source

    if isinstance(one, FolderEmpty):
        return Found(one.path, (one,)), None
    name = str(one)
    source: Source | None = None
    try:
        source = read_source(one)
        fixed = fix(source, lambda text: pipeline.check(text, overrides).problems)
        if fixed.mends and dry_run:
            click.echo("".join(_difference(source, fixed.source)), nl=False)
        elif fixed.mends:
            _replace(one, source.encode(source.text), source.encode(fixed.source.text))
        return Found(name, fixed.problems, fixed.source), fixed
    except Problem as problem:
        return Found(name, (problem,), source), None
    except Exception as error:
        if screen.debugging():
            raise
        return Found(name, (fault_of(error, name),), source), None


def _difference(old: Source, new: Source) -> Sequence[str]:
    """The lines of a unified difference, as tools that apply one read them."""
    lines = difflib.unified_diff(_lines(old.text), _lines(new.text), f"a/{old.name}", f"b/{new.name}")
    return [line if line.endswith("\n") else f"{line}\n\\ No newline at end of file\n" for line in lines]


def _lines(text: str) -> list[str]:
    """Lines with their endings. Only a line feed ends one: `splitlines` would also cut at rarer signs."""
    pieces = text.split("\n")
    return [piece + "\n" for piece in pieces[:-1]] + ([pieces[-1]] if pieces[-1] else [])


def _replace(path: Path, before: bytes, after: bytes) -> None:
    """The file with new bytes, in one step.

    Raises:
        FileChanged: it no longer holds the bytes that were read.
        FileNotWritten: the file system refuses.
    """
    # The file behind a link is the one to write, so that the link stays one.
    target = Path(os.path.realpath(path))
    place = Span(str(path))
    try:
        handle, name = tempfile.mkstemp(prefix=f".{target.name}.", dir=target.parent)
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(after)
                file.flush()
                os.fsync(file.fileno())
            os.chmod(name, target.stat().st_mode & 0o7777)
            if target.read_bytes() != before:
                raise FileChanged(place, str(path))
            os.replace(name, target)
        except BaseException:
            Path(name).unlink(missing_ok=True)
            raise
    except OSError as error:
        raise FileNotWritten(place, str(path), (error.strerror or "no reason given").lower()) from None
