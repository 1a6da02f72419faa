"""Room 4.5 of the document side: many documents, by several processes or by a cluster.

What may live here: who checks which document and when, what becomes of a worker that dies or takes too long, and the
order of results. What is wrong with a document, and how that is told, is not known here; nothing here prints. Whatever
is asked of a worker and answered by it is text and numbers: an `Order` and a `Piece` of the report.

The library `distributed` has its door in `cluster.py`.
"""

from importlib import import_module
from typing import TYPE_CHECKING

from .order import Order, Task

if TYPE_CHECKING:
    from .here import checked_here
    from .pool import checked_by_processes, usable_cores

#: Who checks, by the module that has it: a run needs one of them.
_LATER = {"here": ("checked_here",), "pool": ("checked_by_processes", "usable_cores")}
_MODULES = {name: module for module, names in _LATER.items() for name in names}

__all__ = [
    "Order",
    "Task",
    "checked_by_processes",
    "checked_here",
    "usable_cores",
]


def __getattr__(name: str) -> object:
    # Imported when it is asked for.
    if name not in _MODULES:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(import_module(f".{_MODULES[name]}", __name__), name)
