"""A picture as PNG, for Word: drawn by Typst beside the rest of the work, sharp in print, and kept for the next build.

Until it is drawn, and on its way through pandoc, which would take longer over its bytes than over all of the text, a
small picture stands in for it.
"""

from __future__ import annotations

import base64
import struct
import zlib
from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor

from ..cache import Key, opened
from .picture import Picture
from .typst import typst

#: Dots per inch: sharp to the eye in print; finer pictures make a file of twice the size.
RESOLUTION = 400
#: What these pictures are called in the store.
_KIND = "figure"

_PAGE = """#set page(width: auto, height: auto, margin: 0pt, fill: white)
#set text(font: ("New Computer Modern", "Libertinus Serif"))
#show regex("·"): dot => text(font: "New Computer Modern Math", dot)
#"""

#: For each picture that stands in for another, the other, or what will give it.
_WANTED: dict[bytes, Callable[[], bytes]] = {}
_POOL: list[ThreadPoolExecutor] = []


def stand_in(picture: Picture, resolution: int = RESOLUTION) -> bytes:
    """A PNG of one point that stands in for a picture, which is begun to be drawn; `finished` gives that.

    Args:
        picture: the picture.
        resolution: dots per inch.
    """
    source = _source(picture)
    small = _small(Key(source, str(resolution)).digest())
    if small not in _WANTED:
        _WANTED[small] = _begun(source, resolution)
    return small


def finished(content: bytes) -> bytes:
    """The picture that another stands in for; what stands in for none is given back."""
    wanted = _WANTED.get(content)
    return content if wanted is None else wanted()


def filled(text: str) -> str:
    """A text with `data:` addresses of pictures that stand in for others, with those of the others."""
    for small in list(_WANTED):
        text = text.replace(base64.b64encode(small).decode(), base64.b64encode(finished(small)).decode())
    return text


def forget() -> None:
    """A document is done: nothing stands in for its pictures any more."""
    _WANTED.clear()


def _source(picture: Picture) -> str:
    return _PAGE + typst(picture, "picture")


def _begun(source: str, resolution: int) -> Callable[[], bytes]:
    """What gives the picture, which is taken from the store or begun."""
    store = opened()
    if store is None:
        return _pool().submit(_drawn, source, resolution).result
    from importlib.metadata import version  # Here: only a picture for Word asks for it.

    key = Key(source, str(resolution), version("typst")).digest()
    kept = store.get(_KIND, key)
    if kept is not None:
        return lambda: kept
    begun: Future[bytes] = _pool().submit(_drawn, source, resolution)
    begun.add_done_callback(
        lambda done: store.put(_KIND, key, done.result()) if done.exception() is None else None
    )
    return begun.result


def _pool() -> ThreadPoolExecutor:
    # Two at a time: the compiler lets go of Python while it draws.
    if not _POOL:
        _POOL.append(ThreadPoolExecutor(2))
    return _POOL[0]


def _drawn(source: str, resolution: int) -> bytes:
    # Here: a picture that is kept needs no compiler, which takes 60 ms to load.
    import typst as compiler

    made = compiler.compile(source.encode(), format="png", ppi=float(resolution), ignore_system_fonts=True)
    return made if isinstance(made, bytes) else made[0]


def _small(name: bytes) -> bytes:
    """A PNG of one white point with a name as its comment (PNG specification, third edition, 5 and 11)."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    return (
        b"\x89PNG\r\n\x1a\n"
        + chunk(b"IHDR", struct.pack(">IIBBBBB", 1, 1, 8, 0, 0, 0, 0))
        + chunk(b"tEXt", b"Comment\0" + name.hex().encode())
        + chunk(b"IDAT", zlib.compress(b"\0\xff"))
        + chunk(b"IEND", b"")
    )
