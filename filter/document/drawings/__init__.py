"""Reading of blocks of class `draw`: the keys of each kind of figure, and those that all share."""

from .drawing import FINDING, KINDS, SHARED_KEYS, Drawing, PaperChoice
from .reading import BodyReader, read_drawing

__all__ = ["FINDING", "KINDS", "SHARED_KEYS", "BodyReader", "Drawing", "PaperChoice", "read_drawing"]
