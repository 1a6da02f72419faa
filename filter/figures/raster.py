"""A picture as PNG, for Word: drawn by Typst, sharp in print, and kept for the next build."""

from __future__ import annotations

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


def png(picture: Picture, resolution: int = RESOLUTION) -> bytes:
    """The picture as the bytes of a PNG.

    Args:
        picture: the picture.
        resolution: dots per inch.
    """
    source = _PAGE + typst(picture, "picture")
    store = opened()
    if store is None:
        return _drawn(source, resolution)
    from importlib.metadata import version  # Here: only a picture for Word asks for it.

    key = Key(source, str(resolution), version("typst")).digest()
    kept = store.get(_KIND, key)
    if kept is None:
        kept = _drawn(source, resolution)
        store.put(_KIND, key, kept)
    return kept


def _drawn(source: str, resolution: int) -> bytes:
    # Here: a picture that is kept needs no compiler, which takes 60 ms to load.
    import typst as compiler

    made = compiler.compile(source.encode(), format="png", ppi=float(resolution), ignore_system_fonts=True)
    return made if isinstance(made, bytes) else made[0]
