"""Where the store lies, and whether it is used at all."""

from __future__ import annotations

import os
import sys

from .store import Store

#: The environment variable that names another folder, or switches the store off.
VARIABLE = "PHYSCALC_CACHE"
_OFF = ("off", "no", "0", "false")
_NAME = "physcalc"


def switched_off() -> bool:
    """Whether the user wants no store."""
    return os.environ.get(VARIABLE, "").strip().lower() in _OFF


def folder() -> str | None:
    """The folder of the store; None where it is switched off, or the user has no folder for such things.

    `PHYSCALC_CACHE` names it. Else it is `physcalc` in the folder that the system has for it: `XDG_CACHE_HOME` or
    `~/.cache` (XDG Base Directory Specification), `~/Library/Caches` on macOS, `%LOCALAPPDATA%` on Windows.
    """
    if switched_off():
        return None
    try:
        if named := os.environ.get(VARIABLE, "").strip():
            return os.path.abspath(named)
    except (OSError, ValueError):  # There is no working folder.
        return None
    base = _base()
    return os.path.join(base, _NAME) if base else None


def _base() -> str:
    """The system's folder for such things; empty where there is none."""
    if sys.platform == "win32":
        return os.environ.get("LOCALAPPDATA", "")
    home = os.path.expanduser("~")
    home = home if os.path.isabs(home) else ""
    if sys.platform == "darwin":
        return os.path.join(home, "Library", "Caches") if home else ""
    named = os.environ.get("XDG_CACHE_HOME", "")
    # The specification has relative paths ignored.
    if os.path.isabs(named):
        return named
    return os.path.join(home, ".cache") if home else ""


def opened() -> Store | None:
    """The user's store; None where there is none."""
    path = folder()
    return Store(path) if path is not None else None
