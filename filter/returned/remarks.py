"""What pandoc drops of a Word file: text boxes, and comments that are tied to no words, or to a part of a formula."""

from __future__ import annotations

import io
import zipfile
import zlib
from contextlib import suppress
from xml.etree import ElementTree

_NAMES = "{http://schemas.openxmlformats.org/wordprocessingml/2006/main}"
#: Bytes of a part that is read; a page of text has some ten thousand.
_MOST = 20_000_000


def comments_in(content: bytes) -> dict[str, str]:
    """What each comment of a Word file says, by its id; none where the file keeps them in no way known here."""
    root = _part(content, "word/comments.xml", b"comment")
    found: dict[str, str] = {}
    for comment in root.iter(f"{_NAMES}comment") if root is not None else ():
        said = _text(comment)
        if said:
            found[comment.get(f"{_NAMES}id", "")] = said
    return found


def boxes_in(content: bytes) -> list[str]:
    """The text of each text box, in order; one that is kept in two ways, for old programs as well, is told once."""
    root = _part(content, "word/document.xml", b"txbxContent")
    boxes = root.iter(f"{_NAMES}txbxContent") if root is not None else ()
    return [text for text in dict.fromkeys(map(_text, boxes)) if text]


def _part(content: bytes, name: str, word: bytes) -> ElementTree.Element | None:
    """A part of a Word file that has some word in it; None where it has not, or cannot be read."""
    with suppress(
        zipfile.BadZipFile,
        zlib.error,
        EOFError,
        KeyError,
        OSError,
        NotImplementedError,
        RuntimeError,
        ValueError,
    ):
        with zipfile.ZipFile(io.BytesIO(content)) as archive, archive.open(name) as part:
            text = part.read(_MOST + 1)
        if len(text) <= _MOST and word in text:
            with suppress(ElementTree.ParseError):
                return ElementTree.fromstring(text)
    return None


def _text(element: ElementTree.Element) -> str:
    """The text of an element's paragraphs on one line, without what Word has tracked as taken out."""
    lines = (
        "".join(piece.text or "" for piece in line.iter(f"{_NAMES}t")) for line in element.iter(f"{_NAMES}p")
    )
    return " ".join(" ".join(lines).split())
