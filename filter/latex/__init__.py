"""Room 4 of the document side: documents in TeX itself.

The package `physcalc.sty` has TeX write what stands in a document to `NAME.physin`. Here that is read, worked out
by the same stages as any other document, and written as `NAME.physout`, which TeX typesets in its next run.

What may live here: the package, the two files between TeX and the program, and the places of entries in TeX's
own files. What a calculation or an edition is, is decided elsewhere.
"""

from .install import RULE, Installed, install
from .process import Done, foreign, process

__all__ = ["RULE", "Done", "Installed", "foreign", "install", "process"]
