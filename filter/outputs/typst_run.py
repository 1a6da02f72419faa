"""Typst in a process of its own: stopped when it runs on, held to its memory, and without the network.

A document may hold raw Typst. Typst keeps it from files outside its folder; a loop without an end, a table of a
million rows and a package from the network are kept out here.
"""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

from physcalc.limits import limit
from physcalc.problems import Span

from .problems import OutputFailed

#: Seconds that Typst may take beyond `write-seconds` for each megabyte of its input; a book takes some ten.
_PATIENCE_PER_MB = 20

#: Run as `python -c`, so that none of our own modules is imported there. A PDF that keeps PDF/UA-1 says so; one with
#: a picture that nobody described is made all the same.
_CODE = """
import sys, typst
try:
    import resource
    resource.setrlimit(resource.RLIMIT_DATA, (int(sys.argv[2]), int(sys.argv[2])))
except (ImportError, OSError, ValueError):
    pass
folder = sys.argv[1]
def made_as(standards):
    return typst.compile(folder + "/main.typ", root=folder, format="pdf", ignore_system_fonts=True,
                         package_path=folder + "/packages", package_cache_path=folder + "/packages",
                         pdf_standards=standards)
try:
    try:
        made = made_as(["ua-1"])
    except (typst.TypstError, ValueError):
        made = made_as([])
except typst.TypstError as error:
    sys.stderr.buffer.write(str(error).encode("utf-8", "replace"))
    sys.exit(3)
if not isinstance(made, bytes):
    sys.exit(4)
sys.stdout.buffer.write(made)
"""

#: Nobody listens there: whatever Typst would fetch fails at once.
_NOWHERE = "http://127.0.0.1:9"
_PROXIES = ("http_proxy", "https_proxy", "all_proxy", "HTTP_PROXY", "HTTPS_PROXY", "ALL_PROXY")


def compiled(source: bytes, folder: Path, place: Span, time_limit: float | None = None) -> bytes:
    """The PDF of a Typst source.

    Args:
        source: the Typst.
        folder: the folder of the run, whose files it may read.
        place: where a problem is shown.
        time_limit: seconds; None for the usual ones.

    Raises:
        OutputFailed: Typst refused, or took too long or too much memory.
    """
    (folder / "main.typ").write_bytes(source)
    seconds = (
        limit("write-seconds") + _PATIENCE_PER_MB * len(source) / 1_000_000
        if time_limit is None
        else time_limit
    )
    memory = 1_000_000 * limit("write-memory")
    # -P: a file of the working folder is no module of ours.
    command = [sys.executable, "-P", "-c", _CODE, str(folder), str(memory)]
    try:
        done = subprocess.run(
            command,
            capture_output=True,
            timeout=seconds,
            check=False,
            env=_environment(),
            stdin=subprocess.DEVNULL,
        )
    except subprocess.TimeoutExpired:
        raise OutputFailed(
            place, "typst", f"it was stopped after {seconds:.0f} seconds", "write-seconds"
        ) from None
    except OSError as error:
        raise OutputFailed(place, "typst", str(error)) from None
    match done.returncode:
        case 0:
            return done.stdout
        case 3:
            raise OutputFailed(place, "typst", done.stderr.decode("utf-8", "replace"))
        case 4:
            raise OutputFailed(place, "typst", "it made no document")
        case _ if b"memory allocation" in done.stderr or done.returncode < 0:
            raise OutputFailed(
                place, "typst", f"it needs more than {memory // 1_000_000} MB of memory", "write-memory"
            )
        case code:
            said = done.stderr.decode("utf-8", "replace").strip().splitlines()
            raise OutputFailed(place, "typst", said[-1] if said else f"it ended with code {code}")


def _environment() -> dict[str, str]:
    kept = {name: value for name, value in os.environ.items() if name.lower() != "no_proxy"}
    return {**kept, **dict.fromkeys(_PROXIES, _NOWHERE)}
