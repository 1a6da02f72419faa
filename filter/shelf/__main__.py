"""The program of a worker; it ends when nobody asks any more."""

from __future__ import annotations

import os
import sys

from .member import read_message, write_message
from .one import answered


def main() -> int:
    """Answers one document after the other."""
    with os.fdopen(os.dup(0), "rb") as asked, os.fdopen(os.dup(1), "wb") as answers:
        # Whatever else is read or written must not come between the messages.
        nothing = os.open(os.devnull, os.O_RDONLY)
        os.dup2(nothing, 0)
        os.dup2(2, 1)
        while True:
            try:
                order, task = read_message(asked)
                write_message(answers, answered(order, task))
            except EOFError:
                return 0
            except OSError:
                return 1


if __name__ == "__main__":
    sys.exit(main())
