"""`physcalc build --watch`: written again after each change, ended by Ctrl-C."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

PAPER = """---
lang: en-GB
physcalc:
  edition: memo
  sheet: ours.yaml
---

# Question {.question marks=2}

```{.calc}
given:
  m: 2 kg
formula: w = m g
find: w in N to 1 dp
```
"""

SHEET = """title: Ours
constants:
  g: {value: %s m/s^2, title: acceleration due to gravity}
"""

#: What runs in the background of a shell begins with Ctrl-C switched off, and so do its children.
RUN = """
import signal, sys
signal.signal(signal.SIGINT, signal.default_int_handler)
from physcalc_filter.cli import main
sys.exit(main())
"""


class Watch:
    """A run of the program that goes on, and what it has said so far."""

    def __init__(self, folder: Path, name: str = "paper.md") -> None:
        self.log = folder / "said.txt"
        with self.log.open("wb") as said:
            self.process = subprocess.Popen(
                [sys.executable, "-c", RUN, "build", name, "-o", "memo.html", "--watch"],
                cwd=folder,
                stderr=said,
                stdout=subprocess.DEVNULL,
                stdin=subprocess.DEVNULL,
                env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)},
            )

    def said(self) -> str:
        return self.log.read_text(encoding="utf-8")

    def until(self, holds: Callable[[], bool]) -> None:
        """Waits for something; it is there soon, or the machine is busy, or never."""
        end = time.monotonic() + 120
        while not holds():
            assert self.process.poll() is None, self.said()
            assert time.monotonic() < end, self.said()
            time.sleep(0.05)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "paper.md").write_text(PAPER, encoding="utf-8")
    (tmp_path / "ours.yaml").write_text(SHEET % "9.8", encoding="utf-8")
    return tmp_path


@pytest.fixture
def watch(folder: Path) -> Iterator[Watch]:
    started = Watch(folder)
    yield started
    started.process.kill()
    started.process.wait()


@pytest.mark.skipif(os.name != "posix", reason="Ctrl-C is sent as a signal")
def test_it_goes_on_until_it_is_ended(folder: Path, watch: Watch) -> None:
    page = folder / "memo.html"

    def shows(words: str) -> Callable[[], bool]:
        return lambda: page.exists() and words in page.read_text(encoding="utf-8")

    watch.until(lambda: "watching paper.md" in watch.said())
    assert shows("19.6")()
    # Nothing has changed, so nothing is done.
    time.sleep(1)
    assert "again" not in watch.said()
    (folder / "paper.md").write_text(PAPER.replace("2 kg", "3 kg"), encoding="utf-8")
    watch.until(shows("29.4"))
    # A sheet is as good as the document.
    (folder / "ours.yaml").write_text(SHEET % "1.6", encoding="utf-8")
    watch.until(shows("4.8"))
    # A mistake is told, and the last page stays.
    (folder / "paper.md").write_text(PAPER.replace("in N", "in kg"), encoding="utf-8")
    watch.until(lambda: "unit-dimension-wrong" in watch.said())
    assert shows("4.8")()
    # Some programs take a file away and lay down another one.
    (folder / "paper.md").unlink()
    watch.until(lambda: "file-missing" in watch.said())
    (folder / "new.md").write_text(PAPER.replace("2 kg", "5 kg"), encoding="utf-8")
    (folder / "new.md").rename(folder / "paper.md")
    watch.until(shows("8.0"))
    watch.process.send_signal(signal.SIGINT)
    assert watch.process.wait(timeout=60) == 0
    assert "Traceback" not in watch.said()


def test_what_is_not_there_is_not_waited_for(folder: Path) -> None:
    started = Watch(folder, "papr.md")
    assert started.process.wait(timeout=60) == 2
    assert "paper.md" in started.said()
    assert "watching" not in started.said()
