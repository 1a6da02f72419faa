"""Finding a sheet by its name or path, and reading it with the ones that it extends."""

from __future__ import annotations

from functools import cache, lru_cache
from os.path import realpath  # Unlike Path.resolve, it does not stop at a link that leads to itself.
from pathlib import Path

from ..limits import allow, limit
from ..problems import Problem, Span, Text, nearest
from ..problems.sheets import SheetExtendsItself, SheetOutside, SheetUnknown, SheetUnreadable
from ..witness import looked_at
from .contents import Contents, contents_of
from .entries import sheet_of
from .faults import faults_of
from .nodes import read_nodes
from .sheet import Sheet
from .stored import BUILTIN, stored_contents

_ENDINGS = (".yaml", ".yml")
#: More sheets one above the other than anybody has; a cycle is found before that.
_MAX_CHAIN = 8


@cache
def builtin_sheets() -> tuple[str, ...]:
    """The names of the sheets that come with the program, sorted."""
    return tuple(sorted(path.stem for path in BUILTIN.glob("*.yaml")))


def load_sheet(name: str | Text, folder: Path | None = None, decimal: str = ".") -> Sheet:
    """The sheet of that name or path, when nothing in it is wrong.

    Args:
        name: a built-in sheet's name, or the path of a YAML file; with its place where a document names it.
        folder: the folder that a relative path starts from; the working folder where it is None.
        decimal: the decimal sign, "." or ",", that decides how `1,000` in a file of an author's own is read.

    Raises:
        SheetUnknown, SheetUnreadable, SheetExtendsItself: there is no such sheet, or it cannot be read at
        all.
        ExceptionGroup: of all the problems that the file holds.
    """
    sheet, faults = read_sheet(name, folder, decimal)
    if faults:
        raise ExceptionGroup(f"problems in the sheet {sheet.name}", list(faults))
    return sheet


def read_sheet(
    name: str | Text, folder: Path | None = None, decimal: str = ".", confined: bool = False
) -> tuple[Sheet, tuple[Problem, ...]]:
    """The sheet of that name or path, with every problem of its file in the order of its lines.

    Entries that cannot be read are left out of the sheet. A built-in sheet is taken to be right; its
    entries are read when they are asked for.

    Args:
        name, folder, decimal: as for `load_sheet`.
        confined: whether its files must lie in the folder or below, as for a sheet that a document names.

    Raises:
        SheetOutside: one of its files lies elsewhere; other problems as for `load_sheet`.
    """
    typed = name if isinstance(name, Text) else Text(name, Span(length=max(1, len(name))))
    if typed.value in builtin_sheets():
        return _builtin(typed.value), ()
    faults: list[Problem] = []
    within = Path(realpath(folder or Path())) if confined else None
    path = _path(typed, folder, within)
    own = contents_of(read_nodes(_source(path, typed), str(path)), faults.append)
    base = Contents()
    if own.extends is not None:
        base = _chain(own.extends, path.parent, [path], faults, within)
    whole = own.over(base)
    return faults_of(own, whole, path.stem, decimal, faults)


@lru_cache(maxsize=8)
def _builtin(name: str) -> Sheet:
    return sheet_of(_builtin_contents(name), name, ".")


@lru_cache(maxsize=8)
def _builtin_contents(name: str) -> Contents:
    own = stored_contents(name)
    return own if own.extends is None else own.over(_builtin_contents(own.extends.value))


def _chain(
    named: Text, folder: Path, above: list[Path], faults: list[Problem], within: Path | None
) -> Contents:
    """What the sheet named under `extends` holds, with what that one extends."""
    if named.value in builtin_sheets():
        return _builtin_contents(named.value)
    path = _path(named, folder, within)
    if len(above) > _MAX_CHAIN or realpath(path) in [realpath(step) for step in above]:
        raise SheetExtendsItself(named.span, tuple(step.name for step in [*above, path]))
    own = contents_of(read_nodes(_source(path, named), str(path)), faults.append)
    if own.extends is None:
        return own
    return own.over(_chain(own.extends, path.parent, [*above, path], faults, within))


def _path(typed: Text, folder: Path | None, within: Path | None) -> Path:
    """The file that a path means.

    Only files that end as a sheet does are opened, and only inside `within`, links followed: a document that
    somebody sent must not have other files of its reader's read, and quoted in messages.
    """
    name = typed.value
    if not name.endswith(_ENDINGS):
        raise SheetUnknown(typed.span, name, builtin_sheets(), nearest(name, builtin_sheets()))
    path = (folder or Path()) / name
    if within is not None and not Path(realpath(path)).is_relative_to(within):
        looked_at(path, None)
        raise SheetOutside(typed.span, name)
    return path


def _source(path: Path, typed: Text) -> str:
    if not path.is_file():
        looked_at(path, None)
        raise SheetUnknown(typed.span, typed.value, builtin_sheets(), None, str(path))
    if path.stat().st_size > 4 * (most := limit("sheet-length")):
        looked_at(path, None)
        advice = f"take out what no document uses{allow('sheet-length')}"
        raise SheetUnreadable(Span(str(path)), f"the sheet is longer than {most} characters", advice)
    data: bytes | None = None
    try:
        data = path.read_bytes()
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise SheetUnreadable(
            Span(str(path)), f"the sheet is not UTF-8 text (at byte {error.start + 1})", "save it as UTF-8"
        ) from None
    except OSError as error:
        raise SheetUnreadable(Span(str(path)), f"the sheet cannot be opened: {error.strerror}") from None
    finally:
        looked_at(path, data)
