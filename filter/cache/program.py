"""What of the program a content depends on: our own files, the libraries, Python, the variables that we read."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from functools import cache

from .keys import Key

#: The prefix of the environment variables that the program reads, and those of them that change no result.
_OURS = "PHYSCALC_"
_HARMLESS = frozenset({"PHYSCALC_CACHE", "PHYSCALC_DEBUG"})

#: The folders with our own code: this package's, and the engine's.
_PACKAGES = ("physcalc_filter", "physcalc")

#: A program outside Python's folders, whose answers a result may hold, and the variable that names another one.
_PANDOC, _NAMED_PANDOC = ("pandoc", "pandoc.exe"), "PYPANDOC_PANDOC"


def stamp() -> bytes:
    """32 bytes that are others whenever another program, or the same in another environment, might answer otherwise.

    Files are told apart by size and time of change, as Python tells whether its own compiled files still hold; of
    libraries every installed distribution counts, with its version. Nothing is imported for it.
    """
    key = Key(_program())
    for name in sorted(os.environ):
        if name.startswith(_OURS) and name not in _HARMLESS:
            key.add(name)
            key.add(os.environ[name])
    for program in _pandocs():
        key.add(program)
    return key.digest()


@cache
def _program() -> bytes:
    # Once in a process: it goes on with the code that it has loaded.
    key = Key(sys.version, sys.platform, str(sys.flags.optimize))
    for package in _PACKAGES:
        for folder in _package_folders(package):
            for name in _sources(folder):
                key.add(name)
    for folder in sys.path:
        for name in sorted(_distributions(folder)):
            key.add(name)
    return key.digest()


def _package_folders(package: str) -> list[str]:
    if package == _PACKAGES[0]:
        return [os.path.dirname(os.path.dirname(os.path.abspath(__file__)))]
    module = sys.modules.get(package)
    if module is not None and module.__spec__ is not None:
        return sorted(module.__spec__.submodule_search_locations or ())
    from importlib.util import (
        find_spec,
    )  # Here: mostly the package is loaded, as the front of everything of ours.

    spec = find_spec(package)
    return sorted(spec.submodule_search_locations or ()) if spec is not None else []


def _sources(folder: str) -> Iterator[str]:
    """Every file below a folder but Python's compiled ones, as a text that changes with it, in a fixed order."""
    with os.scandir(folder) as found:
        entries = sorted(found, key=lambda entry: entry.name)
    for entry in entries:
        if entry.name == "__pycache__":
            continue
        if entry.is_dir():
            yield f"{entry.name}/"
            yield from _sources(entry.path)
        else:
            known = entry.stat()
            yield f"{entry.name} {known.st_size} {known.st_mtime_ns}"


def _distributions(folder: str) -> Iterator[str]:
    """The installed distributions of a folder of modules, by name and version; of linked ones the link."""
    try:
        with os.scandir(folder or ".") as found:
            for entry in found:
                if entry.name.endswith((".dist-info", ".egg-info", ".egg-link", ".pth")):
                    yield f"{entry.name} {entry.stat().st_mtime_ns}"
    except OSError:
        return


def _pandocs() -> Iterator[str]:
    """The programs named pandoc that would be found, as texts that change with them."""
    yield os.environ.get(_NAMED_PANDOC, "")
    for folder in os.environ.get("PATH", "").split(os.pathsep):
        for name in _PANDOC:
            try:
                known = os.stat(os.path.join(folder, name))
            except (OSError, ValueError):
                continue
            yield f"{folder} {known.st_size} {known.st_mtime_ns}"
