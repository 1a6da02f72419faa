"""Room 5: what names mean, the exact value of a tree, dimensions, and data lines → values.

What may live here: everything that is settled before a formula is solved. Nothing here makes an unknown the
subject or rounds a result.
"""

from .given import read_given
from .scope import Datum, Layer, Quantity, Scope
from .value import evaluate

__all__ = ["Datum", "Layer", "Quantity", "Scope", "evaluate", "read_given"]
