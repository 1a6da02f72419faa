"""Matching of pandoc's elements to the marks of a scan, by order and text."""

from __future__ import annotations

import html
import re
import unicodedata
from collections.abc import Hashable, Sequence
from dataclasses import replace

from physcalc.problems import Text

from .marks import Kind, Mark, joined, section_text
from .mathematics import MATHS
from .tex_text import tex_text

#: With more equal pairs than this, the first that comes next is taken instead of the best of all alignments.
_MOST_PAIRS = 500_000
#: One more element matched always outweighs any preference for likely marks.
_MATCHED = 1 << 32

_BLOCKS = frozenset({"given", "calc", "options", "draw"})
_SPANS = frozenset({"span-value", "define", "mark"})

_LINE_END = re.compile(r"[ \t]*\r?\n[ \t>]*")
_NOT_TEXT = re.compile(r"<!--.*?-->|</?[A-Za-z][^<>]*>|\]\([^()\s]*\)|(?<=[\]`])\{[^{}]*\}", re.DOTALL)
_DASHES = re.compile("[-‐‑‒–—−]+")
#: What Markdown takes away from a text or changes in it, so that it cannot tell two texts apart.
_DROPPED = str.maketrans("", "", " \t\n\r*_^~$\\`[]{}()\"'“”‘’„‚«»‹›")


def match(
    marks: Sequence[Mark], wanted: Sequence[tuple[Kind, str]], attributes: Sequence[str] = ()
) -> list[Mark | None]:
    """For each of pandoc's elements its mark, or None where the source shows none.

    Args:
        marks: what the scan found, in the order of the source.
        wanted: pandoc's elements in the order of the document, each with its kind and text: a code block's or
            inline code's text, a span's plain text, for a heading or div `attribute_text`.
        attributes: for each of them `attribute_text`, which tells two equal texts apart; empty for none.

    Returns:
        As many entries as `wanted`. Their marks are in order, but for notes and captions, which pandoc puts
        elsewhere than they were typed. Where a block is matched, its lines are those of pandoc's text, each
        with its place (but a line that holds a tab is as it was typed).
    """
    have = [_key(mark.kind, mark.text) for mark in marks]
    want = [_key(kind, text) for kind, text in wanted]
    if attributes:
        have = [
            _told_apart(key, section_text(mark.attributes)) for key, mark in zip(have, marks, strict=True)
        ]
        want = [_told_apart(key, typed) for key, typed in zip(want, attributes, strict=True)]
    likely = [index for index, mark in enumerate(marks) if mark.likely]
    if [have[index] for index in likely] == want:
        found: list[int | None] = list(likely)
    else:
        found = align(have, want, [mark.likely for mark in marks])
        moved = _moved(marks, have, want, found)
        kept = [element for element in range(len(want)) if element not in moved]
        in_order = [found[element] for element in kept]
        _fill(marks, frozenset(moved.values()), [wanted[element] for element in kept], in_order)
        for element, index in zip(kept, in_order, strict=True):
            found[element] = index
        for element, index in moved.items():
            found[element] = index
    return [
        None if index is None else _anchored(marks[index], text)
        for index, (_, text) in zip(found, wanted, strict=True)
    ]


def _key(kind: Kind, text: str) -> tuple[Kind, str]:
    if kind in _BLOCKS:
        lines = [" ".join(line.split()) for line in text.splitlines()]
        return kind, "\n".join(lines).strip("\n")
    if kind == "code-value":
        return kind, " ".join(_LINE_END.sub(" ", text).split())
    if kind in _SPANS:
        return kind, _plain(text)
    return kind, " ".join(text.split())


def _told_apart(key: tuple[Kind, str], attributes: str) -> tuple[Kind, str]:
    """The key of an inline element with its attributes: `of=m_1` is another value than `of=m_2`."""
    kind, text = key
    return (kind, f"{text}\0{attributes}") if kind in _SPANS or kind == "code-value" else key


def _plain(text: str) -> str:
    """A text without what Markdown changes: blanks, quotes, emphasis, kinds of dash, raised digits."""
    text = MATHS.sub(lambda found: tex_text(found["display"] or found["inline"]), text)
    text = _NOT_TEXT.sub("", _LINE_END.sub(" ", text))
    text = unicodedata.normalize("NFKC", html.unescape(text))
    return _DASHES.sub("-", text).translate(_DROPPED)


def align(
    have: Sequence[Hashable], want: Sequence[Hashable], likely: Sequence[bool] | None = None
) -> list[int | None]:
    """For each of `want` the index of an equal one in `have`, in order, so that as many as may be have one.

    Args:
        have, want: two sequences that are much alike.
        likely: which of `have` are preferred where several ways are as good; all of them where it is None.

    This is the heaviest increasing subsequence of the equal pairs, by a tree of prefix maxima.
    """
    places: dict[Hashable, list[int]] = {}
    for index, key in enumerate(have):
        places.setdefault(key, []).append(index)
    if sum(len(places.get(key, ())) for key in want) > _MOST_PAIRS:
        return _next_equal(places, want)
    # Each node holds the heaviest chain among the marks it covers, as (weight, pair); pairs link backwards.
    tree: list[tuple[int, int]] = [(0, -1)] * (len(have) + 1)
    pairs: list[tuple[int, int, int]] = []
    for element, key in enumerate(want):
        # From the right, so that a pair of this element never builds on another of it.
        for index in reversed(places.get(key, [])):
            weight, before = _heaviest(tree, index)
            pairs.append((element, index, before))
            _raise(tree, index + 1, (weight + _MATCHED + (likely is None or likely[index]), len(pairs) - 1))
    found: list[int | None] = [None] * len(want)
    _, at = _heaviest(tree, len(have))
    while at >= 0:
        element, index, at = pairs[at]
        found[element] = index
    return found


def _heaviest(tree: list[tuple[int, int]], count: int) -> tuple[int, int]:
    best = (0, -1)
    while count > 0:
        if tree[count][0] > best[0]:
            best = tree[count]
        count -= count & -count
    return best


def _raise(tree: list[tuple[int, int]], at: int, value: tuple[int, int]) -> None:
    while at < len(tree):
        if value[0] > tree[at][0]:
            tree[at] = value
        at += at & -at


def _next_equal(places: dict[Hashable, list[int]], want: Sequence[Hashable]) -> list[int | None]:
    found: list[int | None] = []
    used: dict[Hashable, int] = {}
    last = -1
    for key in want:
        there = places.get(key, [])
        at = used.get(key, 0)
        while at < len(there) and there[at] <= last:
            at += 1
        used[key] = at
        if at < len(there):
            last = there[at]
            found.append(last)
        else:
            found.append(None)
    return found


def _moved(
    marks: Sequence[Mark],
    have: list[tuple[Kind, str]],
    want: list[tuple[Kind, str]],
    found: list[int | None],
) -> dict[int, int]:
    """Elements without a mark that are typed elsewhere: in a note further down, in a caption above its table."""
    used = {index for index in found if index is not None}
    free: dict[tuple[Kind, str], list[int]] = {}
    for index in reversed(range(len(marks))):
        if index not in used and marks[index].likely:
            free.setdefault(have[index], []).append(index)
    return {
        element: free[key].pop()
        for element, key in enumerate(want)
        if found[element] is None and free.get(key)
    }


def _fill(
    marks: Sequence[Mark],
    taken: frozenset[int],
    wanted: Sequence[tuple[Kind, str]],
    found: list[int | None],
) -> None:
    """Between two matched neighbours, pair what is left of one kind by order where the numbers agree.

    Blocks are left out: the lines of another block would show wrong places.
    """
    start = 0
    low = -1
    while start < len(found):
        if found[start] is not None:
            low = found[start] or 0
            start += 1
            continue
        end = start
        while end < len(found) and found[end] is None:
            end += 1
        high = len(marks) if end == len(found) else (found[end] or 0)
        free = [
            i
            for i in range(low + 1, high)
            if i not in taken and marks[i].likely and marks[i].kind not in _BLOCKS
        ]
        open_ = [i for i in range(start, end) if wanted[i][0] not in _BLOCKS]
        if [marks[i].kind for i in free] == [wanted[i][0] for i in open_]:
            for element, index in zip(open_, free, strict=True):
                found[element] = index
        start = end


def _anchored(mark: Mark, text: str) -> Mark:
    """A block's mark with pandoc's own lines, each placed at the end of its raw line."""
    if mark.kind not in _BLOCKS:
        return mark
    mine = mark.lines
    theirs = text.split("\n")
    while len(theirs) < len(mine):
        theirs.append("")
    lines: list[Text] = []
    for typed, read in zip(mine, theirs, strict=False):
        # The raw line's end is the same for both, so the shorter beginning tells the column.
        column = typed.span.column + len(typed.value) - len(read)
        if "\t" in typed.value or column < 1:
            lines.append(typed)
        else:
            lines.append(Text(read, replace(typed.span, column=column, length=max(1, len(read)))))
    shift = lines[0].span.column - mine[0].span.column if lines else 0
    return replace(mark, lines=tuple(lines), text=joined(lines), start=mark.start + shift)
