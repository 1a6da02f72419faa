"""The head of a document: its name, which edition it is, what it counts, how long it takes, what is told."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from ..editions.layouts import Layout
from ..editions.words import Words
from . import tree

#: A title of more letters than this is cut above a page.
_SHORT = 60


@dataclass(frozen=True, slots=True)
class Cover:
    """What stands at the head of a document.

    Attributes:
        title: the title as plain text; empty where there is none.
        edition: the edition's name in the document's language; empty for none.
        facts: label, inlines and side ("left", "right") of the time allowed and the total.
        instructions: blocks of what candidates are told; empty for none.
    """

    title: str
    edition: str
    facts: tuple[tuple[str, list[tree.Json], str], ...]
    instructions: tuple[tree.Json, ...]


def read(meta: Mapping[str, Any], edition: str, words: Words) -> Cover:
    """The head of a document from its metadata: `title`, `time`, `total`, `instructions`, `edition`.

    Args:
        meta: pandoc's metadata as JSON; keys are looked for at its top and under `physcalc`.
        edition: paper, memo or guide; empty to take the metadata's.
        words: the words of the page.
    """
    edition = edition or tree.words_of(meta.get("edition"))
    facts = []
    time, total = tree.looked_up(meta, "time"), tree.looked_up(meta, "total")
    # A guide is not sat: time and total would say nothing there.
    if edition != "guide":
        if time is not None:
            facts.append((words["time"], tree.inlines_of(time), "left"))
        if total is not None:
            inlines = tree.inlines_of(total)
            if tree.words_of(total).strip().isdecimal():
                unit = words["mark"] if tree.words_of(total).strip() == "1" else words["marks"]
                inlines = [*inlines, {"t": "Str", "c": f"\u00a0{unit}"}]
            facts.append((words["total"], inlines, "right"))
    told = tree.looked_up(meta, "instructions") if edition in ("", "paper") else None
    return Cover(
        title=tree.words_of(meta.get("title")),
        edition=words[edition] if edition in ("paper", "memo", "guide") else "",
        facts=tuple(facts),
        instructions=() if told is None else tuple(tree.blocks_of(told)),
    )


def running(cover: Cover) -> tuple[str, str]:
    """What stands above each page but the first, so that loose pages can be told apart: a short title, the edition."""
    title = cover.title if len(cover.title) <= _SHORT else cover.title[:_SHORT].rsplit(" ", 1)[0] + "\u00a0…"
    return title, cover.edition


def as_metadata(cover: Cover) -> dict[str, tree.Json]:
    """The head as variables for a template of ours."""
    variables: dict[str, tree.Json] = {"running": tree.text(running(cover)[0])}
    if cover.edition:
        variables["edition"] = tree.text(cover.edition)
    if cover.facts:
        entries = [
            {
                "t": "MetaMap",
                "c": {
                    "label": tree.text(label),
                    "value": {"t": "MetaInlines", "c": value},
                    "side": tree.text(side),
                },
            }
            for label, value, side in cover.facts
        ]
        variables["facts"] = {"t": "MetaList", "c": entries}
    if cover.instructions:
        variables["instructions"] = {"t": "MetaBlocks", "c": list(cover.instructions)}
    return variables


def as_blocks(cover: Cover, words: Words, layout: Layout) -> list[tree.Json]:
    """Facts and instructions as the first blocks of the document, for formats without a template of ours."""
    blocks: list[tree.Json] = []
    if cover.facts:
        inlines: list[tree.Json] = []
        for label, value, side in cover.facts:
            spoken = [{"t": "Str", "c": f"{label}{words['colon']}"}, {"t": "Space"}, *value]
            if side == "right":
                # The layout's own way to the right margin, around inlines instead of its text.
                inlines += [
                    part.to_json()
                    for part in layout.marks_margin(f"{label}{words['colon']} {tree.words_of(value)}")
                ]
            else:
                inlines += spoken
        blocks.append({"t": "Para", "c": inlines})
    if cover.instructions:
        blocks += [part.to_json() for part in layout.heading_word(words["instructions"])]
        blocks += cover.instructions
    return blocks
