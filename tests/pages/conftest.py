"""The example documents in all editions, each built once for all tests that look at it."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest
from physcalc_filter.cli import main

from .built import EDITIONS, EXAMPLES, Editions


@pytest.fixture(scope="session")
def editions(tmp_path_factory: pytest.TempPathFactory) -> Editions:
    """What builds a document, or has built it."""
    folder = tmp_path_factory.mktemp("editions")

    @cache
    def built(name: str, format: str) -> dict[str, Path]:
        source = str(EXAMPLES / f"{name}.md")
        assert main(["build", source, "--all", "-o", str(folder), "--formats", format]) == 0
        return {edition: folder / f"{name}-{edition}.{format}" for edition in EDITIONS}

    return built
