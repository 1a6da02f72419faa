"""Pandoc's tree as the JSON that goes to pandoc: the little that is read from it and put into it."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import Any

Json = dict[str, Any]


def words_of(value: Any) -> str:
    """The plain text of metadata or inlines; maths and code as they were typed."""
    if isinstance(value, str):
        return value
    if isinstance(value, bool):
        return ""
    if isinstance(value, list):
        return "".join(words_of(item) for item in value)
    if isinstance(value, Mapping):
        kind, content = value.get("t"), value.get("c")
        if kind in ("Space", "SoftBreak", "LineBreak"):
            return " "
        if kind in ("Str", "MetaString"):
            return str(content)
        if kind == "MetaBool":
            return "true" if content else "false"
        if kind in (
            "MetaInlines",
            "MetaBlocks",
            "Para",
            "Plain",
            "Emph",
            "Strong",
            "Superscript",
            "Subscript",
            "SmallCaps",
        ):
            return words_of(content)
        if kind in ("Code", "Math", "Span", "Quoted", "RawInline") and isinstance(content, list):
            return words_of(content[1])
        if kind == "Link" and isinstance(content, list):
            return words_of(content[1])
    return ""


def looked_up(meta: Mapping[str, Any], key: str) -> Any:
    """A value of the metadata: at its top, else under `physcalc`; None where it is in neither."""
    if key in meta:
        return meta[key]
    ours = meta.get("physcalc")
    if isinstance(ours, Mapping) and ours.get("t") == "MetaMap":
        return ours.get("c", {}).get(key)
    return None


def text(words: str) -> Json:
    """Metadata of one line of text; pandoc escapes it for the format."""
    return {"t": "MetaInlines", "c": [{"t": "Str", "c": words}]}


def inlines_of(value: Any) -> list[Json]:
    """A value of the metadata as inlines: its own, or its plain text."""
    if isinstance(value, Mapping) and value.get("t") == "MetaInlines":
        return list(value["c"])
    return [{"t": "Str", "c": words_of(value)}]


def blocks_of(value: Any) -> list[Json]:
    """A value of the metadata as blocks: its own, a list as a list, anything else as one paragraph."""
    if isinstance(value, Mapping):
        if value.get("t") == "MetaBlocks":
            return list(value["c"])
        if value.get("t") == "MetaList":
            style = [1, {"t": "Decimal"}, {"t": "Period"}]
            return [{"t": "OrderedList", "c": [style, [blocks_of(item) for item in value["c"]]]}]
    return [{"t": "Para", "c": inlines_of(value)}]


def images(node: Any) -> Iterator[list[Any]]:
    """The content of every image, to be read or changed in place: attributes, caption, [address, title]."""
    stack = [node]
    while stack:
        item = stack.pop()
        if isinstance(item, dict):
            if item.get("t") == "Image":
                yield item["c"]
            stack.extend(item.values())
        elif isinstance(item, list):
            stack.extend(item)


def elements(node: Any, kind: str) -> Iterator[Json]:
    """Every element of a kind, in no order that is promised."""
    for items in lists(node):
        for item in items:
            if isinstance(item, dict) and item.get("t") == kind:
                yield item


def lists(node: Any) -> Iterator[list[Any]]:
    """Every list of a tree, each to be read or changed in place: those inside of it come before it is changed."""
    found: list[list[Any]] = []
    stack = [node]
    while stack:
        item = stack.pop()
        if isinstance(item, dict):
            stack.extend(item.values())
        elif isinstance(item, list):
            found.append(item)
            stack.extend(item)
    yield from found


_RAISED = re.compile(r"([⁻⁰¹²³⁴-⁹]+)")
_LEVEL = str.maketrans("⁻⁰¹²³⁴⁵⁶⁷⁸⁹", "−0123456789")


def raise_figures(node: Any) -> None:
    """Raised figures of the text as true superscripts, in place: fonts draw theirs too small for a unit."""
    stack = [node]
    while stack:
        item = stack.pop()
        if isinstance(item, dict):
            stack.extend(item.values())
        elif isinstance(item, list):
            stack.extend(item)
            if any(isinstance(part, dict) and part.get("t") == "Str" for part in item):
                item[:] = [piece for part in item for piece in _pieces(part)]


def _pieces(part: Any) -> list[Any]:
    if not (isinstance(part, dict) and part.get("t") == "Str" and _RAISED.search(part["c"])):
        return [part]
    pieces: list[Any] = []
    for at, text in enumerate(_RAISED.split(part["c"])):
        if text and at % 2:
            pieces.append({"t": "Superscript", "c": [{"t": "Str", "c": text.translate(_LEVEL)}]})
        elif text:
            pieces.append({"t": "Str", "c": text})
    return pieces


_DECIMAL = re.compile(r"(?:(?<=[{(=])-|\A-)?[0-9]+(?:\{,\}[0-9]+)+")
_IN_TEXT = re.compile(r"\\(?:text[a-z]*|mbox|hbox)\s*\{[^{}]*$")


def join_decimals(node: Any) -> None:
    """Decimal numbers of formulas, `0{,}5`, as texts, in place: outside TeX the comma keeps a blank behind it."""
    for items in lists(node):
        for item in items:
            if isinstance(item, dict) and item.get("t") == "Math" and "{,}" in item["c"][1]:
                item["c"][1] = _with_joined(item["c"][1])


def _with_joined(formula: str) -> str:
    def joined(found: re.Match[str]) -> str:
        plain = found[0].replace("{,}", ",")
        in_text = _IN_TEXT.search(formula, 0, found.start())
        return plain if in_text else "\\text{" + plain.replace("-", "\u2212") + "}"

    return _DECIMAL.sub(joined, formula)


def speak_formulas(node: Any) -> None:
    """Every formula, in place, inside a call of the function `formula` of the Typst page, which says it in words."""
    for items in lists(node):
        if any(isinstance(item, dict) and item.get("t") == "Math" for item in items):
            items[:] = [piece for item in items for piece in _spoken(item)]


def _spoken(item: Any) -> list[Any]:
    if not (isinstance(item, dict) and item.get("t") == "Math"):
        return [item]
    # A semicolon ends the call: a bracket of the text after it would be taken for another argument.
    return [_raw_typst("#formula("), item, _raw_typst(");")]


def _raw_typst(code: str) -> Json:
    return {"t": "RawInline", "c": ["typst", code]}


# Between a figure and a letter, after a power of ten, and around the sign before it.
_WIDE = re.compile(r"(?<=\d)\u00a0(?=[^\W\d_]|[%°×])|(?<=×)\u00a0(?=10)")
_AFTER_POWER = re.compile(r"(10[⁻⁰¹²³⁴-⁹]+)\u00a0")


def thin_blanks(node: Any) -> None:
    """The blank between a number and its unit made thin, in place, as it is in the maths around the text."""
    stack = [node]
    while stack:
        item = stack.pop()
        if isinstance(item, dict):
            stack.extend(item.values())
        elif isinstance(item, list):
            stack.extend(item)
            if any(isinstance(part, dict) and part.get("t") == "Str" for part in item):
                item[:] = _joined(item)
                for part in item:
                    if isinstance(part, dict) and part.get("t") == "Str":
                        part["c"] = _AFTER_POWER.sub("\\1\u202f", _WIDE.sub("\u202f", part["c"]))


def _joined(items: list[Any]) -> list[Any]:
    """The items with strings that follow each other as one."""
    joined: list[Any] = []
    for item in items:
        before = joined[-1] if joined else None
        if before is not None and _is_str(item) and _is_str(before):
            joined[-1] = {"t": "Str", "c": before["c"] + item["c"]}
        else:
            joined.append(item)
    return joined


def _is_str(item: Any) -> bool:
    return isinstance(item, dict) and item.get("t") == "Str"
