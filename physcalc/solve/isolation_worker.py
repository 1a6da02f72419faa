"""The program of the process that isolates roots: sympy with a bound on its memory, which others can stop.

It is run as a script, not imported. It says that it is ready; then one line of JSON is asked and one is answered, until
its standard input ends. Only whole numbers, in hexadecimal (of which Python reads any length), reach it:

    {"memory": 500, "seconds": 20, "coefficients": ["-7/3", "1/1"]}     megabytes, seconds; constant first
    {"plain": ["-7/3", "1/1"], "roots": [["7/3", "7/3"]]}  without repeated factors, and an interval about each root
    {"failed": "memory"}

Who asks is `isolation`.
"""

from __future__ import annotations

import json
import math
import os
import sys
import threading
from contextlib import suppress
from fractions import Fraction
from queue import SimpleQueue
from typing import IO

_READY = b'{"ready": true}\n'
_FULL = b'{"failed": "memory"}\n'


def number(text: str) -> Fraction:
    """A fraction as it is sent: two whole numbers in hexadecimal."""
    top, _, bottom = text.partition("/")
    return Fraction(int(top, 16), int(bottom, 16))


def written(value: Fraction) -> str:
    """A fraction as it is sent."""
    return f"{value.numerator:x}/{value.denominator:x}"


def isolated(coefficients: list[Fraction]) -> tuple[list[Fraction], list[tuple[Fraction, Fraction]]]:
    """A polynomial without its repeated factors, constant first, and the ends about each of its real roots.

    Without repeated factors it has the same roots, and changes its sign at each.
    """
    import sympy

    terms = [sympy.Rational(c.numerator, c.denominator) for c in reversed(coefficients)]
    plain = sympy.Poly(terms, sympy.Symbol("x0")).sqf_part()
    roots = [
        (Fraction(int(low.p), int(low.q)), Fraction(int(high.p), int(high.q)))
        for (low, high), _ in plain.intervals()
    ]
    return [Fraction(int(c.p), int(c.q)) for c in reversed(plain.all_coeffs())], roots


def answered(line: bytes) -> bytes:
    """The line that answers a line."""
    try:
        asked = json.loads(line)
        _bound(int(asked["memory"]), int(asked["seconds"]))
        plain, roots = isolated([number(text) for text in asked["coefficients"]])
        ends = [[written(low), written(high)] for low, high in roots]
        return json.dumps({"plain": [written(c) for c in plain], "roots": ends}).encode("ascii") + b"\n"
    except MemoryError:
        return _FULL


def _bound(megabytes: int, seconds: int) -> None:
    """Let this process hold no more than so much, and end after so many seconds of a processor's time from now.

    Where the system has such a thing; a process that others leave little time to is not ended for it.
    """
    if sys.platform == "win32":
        return
    import resource

    used = resource.getrusage(resource.RUSAGE_SELF)
    until = math.ceil(used.ru_utime + used.ru_stime) + seconds
    for what, most in ((resource.RLIMIT_DATA, megabytes * 1_000_000), (resource.RLIMIT_CPU, until)):
        # Some systems know no such bound, or refuse it below what is held already.
        with suppress(OSError, ValueError):
            hard = resource.getrlimit(what)[1]
            resource.setrlimit(what, (most if hard == resource.RLIM_INFINITY else min(most, hard), hard))


def _heard(asked: IO[bytes], lines: SimpleQueue[bytes]) -> None:
    for line in asked:
        lines.put(line)
    # Who asked is gone: nobody wants what is being worked out.
    os._exit(0)


def main() -> None:
    """Answers one line after the other."""
    with os.fdopen(os.dup(0), "rb") as asked, os.fdopen(os.dup(1), "wb", buffering=0) as answers:
        # Whatever else is printed must not come between the answers.
        os.dup2(2, 1)
        import sympy  # noqa: F401 - loaded before the first question, whose time is measured

        lines: SimpleQueue[bytes] = SimpleQueue()
        threading.Thread(target=_heard, args=(asked, lines), daemon=True).start()
        with suppress(BrokenPipeError):
            answers.write(_READY)
            while True:
                rest = memoryview(answered(lines.get()))
                while rest:
                    rest = rest[answers.write(rest) or 0 :]


if __name__ == "__main__":
    main()
