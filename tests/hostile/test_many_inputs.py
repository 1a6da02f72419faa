"""Thousands of small hostile inputs, the same on every run: none meets a fault of the program."""

from __future__ import annotations

import json
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

PROGRAM = Path(__file__).with_name("hostile_inputs.py")
#: Seeds of each process.
RANGES = [(0, 1000), (1000, 2000), (2000, 3000)]


def run(first: int, last: int) -> list[dict[str, object]]:
    done = subprocess.run(
        [sys.executable, str(PROGRAM), str(first), str(last)], capture_output=True, timeout=300, check=False
    )
    assert done.returncode == 0, done.stderr.decode("utf-8", "replace")[-2000:]
    return [json.loads(line) for line in done.stdout.decode("utf-8").splitlines()]


def test_no_input_meets_a_fault() -> None:
    with ThreadPoolExecutor(len(RANGES)) as pool:
        for (first, last), lines in zip(RANGES, pool.map(lambda seeds: run(*seeds), RANGES), strict=True):
            *faults, end = lines
            assert not faults, faults[0]
            assert end["count"] == last - first
            assert isinstance(end["memory"], int)
            assert end["memory"] < 1000
