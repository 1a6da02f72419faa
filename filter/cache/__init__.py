"""Room 0 of the document side: what was made once and may be wanted again, kept in a folder of the user's.

What may live here: the store of contents by their keys, and what a key has to hold so that a stored content is
never wrong. What is stored, and what it means, is not known here. It imports nothing of ours and no library: a run
that finds its whole answer here has loaded nothing else.

Nothing of a store is trusted or run: an entry that is not whole, or not the one that was asked for, is not there.
"""

from .folder import VARIABLE, folder, opened, switched_off
from .keys import Key, digest
from .program import stamp
from .remembered import Witness, recall, remember
from .store import LIMIT, Store

__all__ = [
    "LIMIT",
    "VARIABLE",
    "Key",
    "Store",
    "Witness",
    "digest",
    "folder",
    "opened",
    "recall",
    "remember",
    "stamp",
    "switched_off",
]
