"""Command cases: Markdown documents that say what is run, on which files, and what comes out.

Blocks are fenced by four tildes, with what they are behind the first fence:

    file NAME     a file that is there before the runs
    run           one command line; what follows belongs to it:
    stdout        its standard output; nothing where the block is missing
    stderr        its standard error; nothing where the block is missing
    exit          its exit code; 0 where the block is missing
    after NAME    a file as it is after the run
    files         the names of all files after the run

Backslash escapes in a file (such as \\r) are not read: a case holds what it shows.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from pathlib import Path

FENCE = "~~~~"
_BLOCK = re.compile(
    r"^~~~~ (?P<kind>[a-z]+)(?: (?P<name>\S+))?\n(?P<body>.*?)^~~~~\n", re.MULTILINE | re.DOTALL
)
_KINDS = {"file", "run", "stdout", "stderr", "exit", "after", "files"}


@dataclass
class Run:
    """One command line with what is expected of it, by kind of block (and name, for `after`)."""

    command: str
    expected: dict[tuple[str, str], str] = field(default_factory=dict)


@dataclass
class Case:
    """A whole document: its head (everything before the first run), files and runs."""

    head: str
    files: dict[str, str]
    runs: list[Run]


def read_case(path: Path) -> Case:
    """The case in a document.

    Raises:
        ValueError: it has no title or no run, or a block that means nothing.
    """
    text = path.read_text(encoding="utf-8")
    if not text.startswith("# "):
        raise ValueError(f"{path.name} has no title")
    if text.count("\n" + FENCE) != 2 * len(_BLOCK.findall(text)):
        raise ValueError(f"a block of {path.name} is not closed")
    files: dict[str, str] = {}
    runs: list[Run] = []
    head = text
    for block in _BLOCK.finditer(text):
        kind, name, body = block["kind"], block["name"] or "", block["body"]
        if kind not in _KINDS:
            raise ValueError(f"{path.name} has a block {kind}")
        if kind == "file":
            files[name] = body
        elif kind == "run":
            if not runs:
                head = text[: block.start()]
            runs.append(Run(body.strip()))
        elif runs:
            runs[-1].expected[kind, name] = body
    if not runs:
        raise ValueError(f"{path.name} runs nothing")
    return Case(head, files, runs)


def write_case(path: Path, case: Case) -> None:
    """The case with the results of its runs."""
    parts = []
    for run in case.runs:
        blocks = [_block("run", "", run.command + "\n")]
        blocks += [_block(kind, name, body) for (kind, name), body in run.expected.items()]
        parts.append("".join(blocks))
    path.write_text(case.head + "\n".join(parts), encoding="utf-8")


def _block(kind: str, name: str, body: str) -> str:
    return f"{FENCE} {kind}{' ' + name if name else ''}\n{body}{FENCE}\n"
