"""Pandoc's tree from text and from JSON."""

from __future__ import annotations

import json

import pytest
from physcalc_filter.document import read_json, read_markup, write_json
from physcalc_filter.problems import DocumentUnreadable, PandocVersion


def test_what_is_read_is_written_back() -> None:
    text = write_json(
        read_markup("# A {.question}\n\nText with `m`{.value}, *emphasis* and a note^[here].\n")
    )
    assert json.loads(write_json(read_json(text))) == json.loads(text)


@pytest.mark.parametrize("text", ["", "[]", "{}", "not json", '{"blocks": []}', "null", "3"])
def test_what_is_no_document(text: str) -> None:
    with pytest.raises(DocumentUnreadable):
        read_json(text)


@pytest.mark.parametrize("version", [[1, 20], [1, 24, 1], [2, 0]])
def test_a_pandoc_of_another_kind(version: list[int]) -> None:
    with pytest.raises(PandocVersion):
        read_json(json.dumps({"pandoc-api-version": version, "meta": {}, "blocks": []}))


def test_a_reader_that_pandoc_does_not_have() -> None:
    with pytest.raises(DocumentUnreadable):
        read_markup("x", reader="nonsense")
