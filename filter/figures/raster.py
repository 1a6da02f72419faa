"""A picture as PNG, for Word: drawn by Typst, sharp enough for print."""

from __future__ import annotations

from .picture import Picture
from .typst import typst

#: Dots per inch: what printers of papers have.
RESOLUTION = 600

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
    # Here: only Word needs it, and the library takes 60 ms.
    import typst as compiler

    source = (_PAGE + typst(picture, "picture")).encode()
    made = compiler.compile(source, format="png", ppi=float(resolution), ignore_system_fonts=True)
    return made if isinstance(made, bytes) else made[0]
