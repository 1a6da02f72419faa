"""The comments of a Word file as it keeps them: pandoc drops one that is tied to no words, or to a formula's part."""

from __future__ import annotations

import io
import zipfile
from contextlib import suppress
from xml.etree import ElementTree

_NAMES = "{http://schemas.openxmlformats.org/wordprocessingml/2006/main}"
#: Bytes of comments that are read; a page of remarks has some ten thousand.
_MOST = 5_000_000


def comments_in(content: bytes) -> dict[str, str]:
    """What each comment of a Word file says, by its id; none where the file keeps them in no way known here."""
    with suppress(zipfile.BadZipFile, KeyError, OSError, NotImplementedError, RuntimeError, ValueError):
        with (
            zipfile.ZipFile(io.BytesIO(content)) as archive,
            archive.open("word/comments.xml") as part,
        ):
            text = part.read(_MOST + 1)
        if len(text) <= _MOST:
            return _comments(text)
    return {}


def _comments(text: bytes) -> dict[str, str]:
    try:
        root = ElementTree.fromstring(text)
    except ElementTree.ParseError:
        return {}
    found = {}
    for comment in root.iter(f"{_NAMES}comment"):
        lines = (
            "".join(piece.text or "" for piece in line.iter(f"{_NAMES}t"))
            for line in comment.iter(f"{_NAMES}p")
        )
        said = " ".join(" ".join(lines).split())
        if said:
            found[comment.get(f"{_NAMES}id", "")] = said
    return found
