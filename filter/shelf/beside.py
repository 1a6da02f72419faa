"""What lies beside a document and goes with it when it is sent: sheets that it asks for, files that LaTeX reads.

Of pictures only their names are sent: a check asks whether they are there, and does not look into them.
"""

from __future__ import annotations

import re
from os.path import realpath  # Unlike Path.resolve, it does not stop at a link that leads to itself.
from pathlib import Path

from ..problems import TexInputUnreadable
from ..sources import Source, is_tex, weave
from ..sources.tex.pictures import Pictures

#: A file longer than this is cut: it is too long for any reader.
_LONGEST = 100_000_000

_PICTURE = re.compile(
    r"\\includegraphics\*?\s*(?:\[(?:[^][{}]|\{[^{}]{0,200}\}){0,500}\])?\s*\{([^{}]{1,300})\}"
)

#: What is known of a file: see `order.Sent.files`.
Held = bytes | tuple[()] | None


def held(path: Path, folder: Path, confined: bool) -> Held:
    """A file as it is sent.

    Args:
        path: the file.
        folder: the document's folder.
        confined: whether the file must lie there or below, links followed.
    """
    if confined and not Path(realpath(path)).is_relative_to(realpath(folder)):
        return ()
    try:
        with path.open("rb") as file:
            return file.read(_LONGEST)
    except OSError:
        return None


def inputs(source: Source) -> dict[str, Held]:
    """The files that a LaTeX document reads, and those without which a problem of them would be told otherwise."""
    if not is_tex(source.name):
        return {}
    folder = Path(source.name).parent
    woven, problems = weave(source, folder)
    files: dict[str, Held] = {}
    # Of these no more is said than that they are there.
    pictures = Pictures(woven.text, (folder,))
    for picture in _PICTURE.finditer(woven.text):
        found = pictures.find(picture[1].strip(), woven.part_at(picture.start()).paths)
        if found is not None:
            files[str(folder / found)] = b""
    unread = [problem for problem in problems if isinstance(problem, TexInputUnreadable)]
    files.update(
        {
            str(folder / problem.beside / f"{problem.nearest}.tex"): b""
            for problem in unread
            if problem.nearest
        }
    )
    for path in (Path(tried) for problem in unread for tried in problem.tried):
        if path.is_symlink():
            files[str(path)] = held(path, folder, True)
    # A file that cannot be read has a problem of its own.
    names = [other.name for other in woven.sources()] + [problem.span.file for problem in problems]
    for name in dict.fromkeys(names):
        if name not in ("", source.name):
            files[name] = held(Path(name), folder, True)
    return files
