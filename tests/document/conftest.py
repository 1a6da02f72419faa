"""What the tests of the document room share: a document given as text is read and worked out."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from physcalc_filter import pipeline
from physcalc_filter.document import Report
from physcalc_filter.sources import Source

Check = Callable[[str], Report]


@pytest.fixture
def check() -> Check:
    """The report on a document."""

    def run(text: str) -> Report:
        return pipeline.check(Source("test.md", text))

    return run
