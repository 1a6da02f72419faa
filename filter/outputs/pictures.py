"""Pictures of a document, brought along: inside the output, or beside what a compiler reads.

Pandoc runs in its sandbox and Typst in an empty folder, so neither can read anything that is not handed over
here; and only pictures are.
"""

from __future__ import annotations

import base64
from collections.abc import Sequence
from pathlib import Path
from urllib.parse import unquote, urlsplit

from physcalc.limits import limit
from physcalc.problems import Span
from physcalc.witness import looked_at

from . import tree
from .problems import PictureUnreadable

_KINDS = {
    ".png": "image/png",
    ".jpg": "image/jpeg",
    ".jpeg": "image/jpeg",
    ".gif": "image/gif",
    ".svg": "image/svg+xml",
    ".webp": "image/webp",
    ".pdf": "application/pdf",
    ".eps": "application/postscript",
}


def _found(address: str, folders: Sequence[Path], place: Span) -> Path:
    parts = urlsplit(address)
    # A one-letter scheme is a drive of Windows.
    if (len(parts.scheme) > 1 and parts.scheme != "file") or parts.netloc:
        raise PictureUnreadable(place, address, "is not a file of this computer")
    name = unquote(parts.path) if parts.scheme == "file" else unquote(address)
    if Path(name).suffix.lower() not in _KINDS:
        raise PictureUnreadable(place, address, "has no ending of a picture")
    for folder in folders:
        path = folder / name
        try:
            if path.is_file():
                # Links followed: a document that somebody sent must not bring other files of its reader along.
                if not any(path.resolve().is_relative_to(near.resolve()) for near in folders):
                    raise PictureUnreadable(place, address, "lies outside the document's folder")
                if path.stat().st_size > (most := limit("picture-size")):
                    raise PictureUnreadable(
                        place, address, f"is larger than {most / 1e6:g} MB", "picture-size"
                    )
                return path
            looked_at(path, None)
        except (OSError, ValueError):
            continue
    raise PictureUnreadable(place, address, "is not there")


def embed(document: tree.Json, folders: Sequence[Path], place: Span) -> None:
    """Puts every picture into the tree itself, as a `data:` address.

    Raises:
        PictureUnreadable: a picture is not there, or is none, or lies on the network.
    """
    # Each is counted as often as it stands there: they go through memory.
    most = left = limit("pictures-size")
    for image in tree.images(document):
        target = image[2]
        if target[0].startswith("data:image/"):
            continue
        path = _found(target[0], folders, place)
        left -= path.stat().st_size
        if left < 0:
            reason = f"makes more than {most / 1e6:g} MB, with the pictures before it"
            raise PictureUnreadable(place, target[0], reason, "pictures-size")
        kind = _KINDS[path.suffix.lower()]
        target[0] = f"data:{kind};base64," + base64.b64encode(_bytes(path, target[0], place)).decode()


def copy(document: tree.Json, folders: Sequence[Path], into: Path, place: Span) -> None:
    """Copies every picture into a folder under a name of our own, and lets the tree say that name.

    Raises:
        PictureUnreadable: a picture is not there, or is none, or lies on the network.
    """
    names: dict[Path, str] = {}
    for image in tree.images(document):
        target = image[2]
        if target[0].startswith("data:image/"):
            continue
        path = _found(target[0], folders, place)
        if path not in names:
            names[path] = f"picture-{len(names) + 1}{path.suffix.lower()}"
            (into / names[path]).write_bytes(_bytes(path, target[0], place))
        target[0] = names[path]


def _bytes(path: Path, address: str, place: Span) -> bytes:
    try:
        data = path.read_bytes()
    except OSError as error:
        raise PictureUnreadable(place, address, f"cannot be read ({error.strerror})") from None
    looked_at(path, data)
    return data
