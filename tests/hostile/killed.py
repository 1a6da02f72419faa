"""Run as a program: `fix` and `build` are killed at random moments, again and again, and the files looked at each time.

It prints one line for each file that is neither the old one nor the new one, and a last line with what it counted.
The program is loaded once and copied for each run, so that moments fall into its work and not into its loading.
"""

from __future__ import annotations

import json
import os
import random
import signal
import sys
import time
from collections.abc import Callable
from pathlib import Path

from physcalc_filter.cli import main

TIMES = int(sys.argv[1])
SOURCE = """---
physcalc:
  sheet: school
---

# Question 1 {.question marks=2}

```{.given}
m: 2 kg
```

```{.calc}
formula: F_g = m g
find: F_g in N
answer: 1.00 N
```
"""
MENDED = SOURCE.replace("1.00 N", "19.60 N")


def started(*argv: str) -> int:
    """The process that runs a command, with those that it starts in a group of its own."""
    child = os.fork()
    if child:
        return child
    os.setsid()
    nothing = os.open(os.devnull, os.O_RDWR)
    for stream in (0, 1, 2):
        os.dup2(nothing, stream)
    os._exit(main(list(argv)))


def duration(run: Callable[[], int]) -> float:
    """How long a command takes when nobody ends it."""
    begin = time.perf_counter()
    os.waitpid(run(), 0)
    return time.perf_counter() - begin


def fixing() -> int:
    Path("a.md").write_text(SOURCE, encoding="utf-8")
    return started("fix", "a.md")


def building() -> int:
    return started("build", "b.md", "-o", "b.html", "--edition", "memo")


def loop(
    times: int, run: Callable[[], int], sound: Callable[[], bool], chance: random.Random
) -> dict[str, int]:
    os.waitpid(run(), 0)
    # The longest of three: the first is slower, and what else the machine does counts as well.
    longest = max(duration(run) for _ in range(3))
    counted = {"killed": 0, "done": 0, "bad": 0}
    for _ in range(times):
        child = run()
        time.sleep(chance.uniform(0, 1.1 * longest))
        try:
            os.killpg(child, signal.SIGKILL)
        except ProcessLookupError:
            os.kill(child, signal.SIGKILL)
        _, status = os.waitpid(child, 0)
        counted["killed" if os.WIFSIGNALED(status) else "done"] += 1
        counted["bad"] += not sound()
    return counted


Path("b.md").write_text(MENDED, encoding="utf-8")
os.waitpid(building(), 0)
NEW = Path("b.html").read_bytes()
OLD = NEW.replace(b"<html", b"<!-- old -->\n<html", 1)


def fixed() -> bool:
    return Path("a.md").read_text(encoding="utf-8") in (SOURCE, MENDED)


def written() -> bool:
    whole = Path("b.html").read_bytes() in (OLD, NEW) and Path("b.md").read_text(encoding="utf-8") == MENDED
    Path("b.html").write_bytes(OLD)
    return whole


chance = random.Random(20261125)
print(json.dumps([loop(TIMES, fixing, fixed, chance), loop(TIMES, building, written, chance)]))
