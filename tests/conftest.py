"""What all tests share: the option that rewrites expected outputs."""

from __future__ import annotations

import pytest


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption(
        "--accept", action="store_true", help="write what came out into the case files, to be looked over"
    )
