"""Room 4.5 of the document side: many documents, by several processes or by a cluster.

What may live here: who checks which document and when, what becomes of a worker that dies or takes too long, and the
order of results. What is wrong with a document, and how that is told, is not known here; nothing here prints. Whatever
is asked of a worker and answered by it is text and numbers: an `Order` and a `Piece` of the report.

The library `distributed` has its door in `cluster.py`.
"""

from .order import Order, Task
from .pool import checked_by_processes, checked_here, usable_cores

__all__ = [
    "Order",
    "Task",
    "checked_by_processes",
    "checked_here",
    "usable_cores",
]
