"""What pandoc makes of a document, as the elements that are matched to the raw text."""

from __future__ import annotations

import json
import subprocess
from typing import Any

import pypandoc
from physcalc_filter.sources import Kind, attribute_text, kind_of

Wanted = list[tuple[Kind, str]]


def pandoc_elements(data: bytes) -> Wanted:
    """Elements of ours in pandoc's tree of a Markdown document, in its order."""
    run = subprocess.run(
        [pypandoc.get_pandoc_path(), "-f", "markdown", "-t", "json"],
        input=data,
        capture_output=True,
        check=True,
    )
    found: Wanted = []
    _walk(json.loads(run.stdout)["blocks"], found)
    return found


def _walk(node: Any, found: Wanted) -> None:
    if isinstance(node, list):
        for part in node:
            _walk(part, found)
        return
    if not isinstance(node, dict):
        return
    content: Any = node.get("c")
    kind: Kind | None = None
    match node.get("t"):
        case "CodeBlock":
            kind, text = kind_of("block", content[0][1]), content[1]
        case "Code":
            kind, text = kind_of("code", content[0][1]), content[1]
        case "Span":
            kind, text = kind_of("span", content[0][1]), _plain(content[1])
        case "Div":
            kind, text = kind_of("section", content[0][1]), attribute_text(content[0][1], content[0][2])
        case "Header":
            kind, text = kind_of("section", content[1][1]), attribute_text(content[1][1], content[1][2])
    if kind is not None:
        found.append((kind, text))
    _walk(content, found)


def _plain(inlines: list[Any]) -> str:
    parts: list[str] = []
    for node in inlines:
        content = node.get("c")
        match node["t"]:
            case "Str":
                parts.append(content)
            case "Space" | "SoftBreak" | "LineBreak":
                parts.append(" ")
            case "Code" | "Math" | "RawInline":
                parts.append(content[1] if node["t"] != "RawInline" else "")
            case "Quoted" | "Span" | "Link" | "Cite" | "Image":
                parts.append(_plain(content[1]))
            case "Note":
                pass
            case _:
                parts.append(_plain(content))
    return "".join(parts)
