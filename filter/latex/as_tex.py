"""Elements of pandoc's tree as TeX that any engine sets."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any

import panflute as pf

from physcalc.problems import Span

from ..document import write_json
from ..editions.layouts.base import Block, Inline, raw_block, raw_inline
from ..outputs import pandoc, tree
from .signs import plain_signs

_FORMAT = "latex"
#: A comment between what belongs to different fields; no text becomes one, because pandoc escapes "%".
_BETWEEN = "%%physcalc%%"


def as_tex(groups: Sequence[Sequence[Block]], place: Span) -> list[str]:
    """Groups of blocks as TeX, in one run of pandoc."""
    blocks: list[Block] = []
    for group in groups:
        blocks += [_underlined(block) for block in group]
        blocks.append(raw_block(_BETWEEN, _FORMAT))
    document: tree.Json = json.loads(write_json(pf.Doc(*blocks)))
    tree.thin_blanks(document["blocks"])
    written = pandoc.run(document, ["--to=latex", "--wrap=none"], place=place).decode("utf-8")
    pieces = [_closed(plain_signs(piece.strip("\n"))) for piece in written.split(_BETWEEN)]
    assert len(pieces) == len(groups) + 1
    return pieces[:-1]


def _closed(tex: str) -> str:
    """TeX behind which a brace may stand: a comment at its end would hide it."""
    return tex + "\n" if tex.endswith("%") and not tex.endswith("\\%") else tex


def _underlined(block: Block) -> Block:
    """Underlined words one by one, so that they can be broken between lines without another package."""

    def words(element: Any, _: Any) -> Any:
        if not isinstance(element, pf.Underline):
            return None
        out: list[Inline] = []
        for inline in element.content:
            if isinstance(inline, pf.Space | pf.SoftBreak):
                out.append(raw_inline("\\physcalcuspace{}", _FORMAT))
            else:
                out += [raw_inline("\\physcalculine{", _FORMAT), inline, raw_inline("}", _FORMAT)]
        return out

    return block.walk(words)
