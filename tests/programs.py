"""Programs that some tests need beside Python: where one is missing a test is skipped, but never in CI."""

from __future__ import annotations

import os
import shutil

import pytest


def program(name: str) -> str:
    """The path of a program; the test is skipped where there is none, and fails in CI, which installs them all."""
    found = shutil.which(name)
    if found is None:
        if os.environ.get("CI"):
            pytest.fail(f"{name} is not installed, and CI is to have it")
        pytest.skip(f"{name} is not installed")
    return found
