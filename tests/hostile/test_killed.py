"""Killed at any moment, two hundred times: every file is the old one or the new one."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

PROGRAM = Path(__file__).with_name("killed.py")
TIMES = 100


@pytest.mark.skipif(sys.platform == "win32", reason="a process cannot be copied there")
def test_fix_and_build_killed_a_hundred_times_each(tmp_path: Path) -> None:
    done = subprocess.run(
        [sys.executable, str(PROGRAM), str(TIMES)], cwd=tmp_path, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr[-2000:]
    for counted in json.loads(done.stdout.splitlines()[-1]):
        assert counted["bad"] == 0
        # Most were really ended in the middle, or the test would say nothing.
        assert counted["killed"] >= TIMES // 3, counted
