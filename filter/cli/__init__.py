"""Room 5 of the document side: the commands, one module each.

What may live here: what a command is asked, the order in which it calls the rooms below, and all printing.
A command's module imports the rooms below inside its function: `physcalc --version` and `--help` must not
wait for them.
"""

from .start import main

__all__ = ["main"]
