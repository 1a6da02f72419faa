"""From text or JSON to pandoc's tree."""

from __future__ import annotations

import io
import json
import re
import subprocess
from collections.abc import Sequence
from typing import Any

import panflute as pf
import panflute.elements as raw_elements

from physcalc.limits import LIMITS, limit
from physcalc.problems import Problem, Span

from ..problems import (
    DivUnbalanced,
    DocumentNested,
    DocumentTooHeavy,
    DocumentUnreadable,
    FrontMatterUnreadable,
    PandocVersion,
)
from ..sources import Source
from .pandoc import NO_DATA, find_pandoc
from .walking import deepest

#: Versions of pandoc's tree that panflute reads; the first two numbers count.
OLDEST_TREE, NEWEST_TREE = (1, 22), (1, 23)
#: How pandoc begins a tree of the newest version, which need not be read twice.
_KNOWN_TREE = f'{{"pandoc-api-version":[{NEWEST_TREE[0]},{NEWEST_TREE[1]},'

#: How many elements may stand inside one another; the deepest pages known have some twenty.
DEEPEST = LIMITS["nesting"].usual

#: How much longer than `read-seconds` pandoc may take for each megabyte of a document. It needs about one second.
_PATIENCE_PER_MB = 5
#: How many bytes the tree may take for each of the source.
_TREE_PER_BYTE, _TREE_AT_LEAST = 40, 8_000_000

#: The exit code of a Haskell program that has used up the memory it was given.
_HEAP_EXHAUSTED = 251

#: How pandoc says that YAML cannot be read. Lines are counted from the opening one, columns from 0.
_FRONT_MATTER = re.compile(
    r"Error parsing YAML metadata at \(line (?P<block>\d+), column \d+\): "
    r"(?:YAML parse exception at line (?P<line>\d+), column (?P<column>\d+)[:,] )?(?P<reason>.+)"
)


#: How pandoc warns of a div that nothing closes. Lines are counted from 1.
_UNCLOSED = re.compile(r"Div at (?:\S+ )?line (?P<line>\d+) column \d+ unclosed at")


class _AnyFormat(set[str]):
    """A set that holds every name."""

    def __contains__(self, name: object) -> bool:
        return True


# panflute knows the names of some formats and refuses raw text of any other, Typst's among them; pandoc takes any
# name, and what no writer knows is left out.
raw_elements.RAW_FORMATS = _AnyFormat(raw_elements.RAW_FORMATS)


def read_markup(text: str, name: str = "", reader: str = "markdown") -> pf.Doc:
    """The tree of a document.

    Args:
        text: its text in the reader's markup.
        name: its name in messages.
        reader: pandoc's name of the markup, extensions included.

    Raises:
        FrontMatterUnreadable: pandoc cannot read its front matter.
        DocumentUnreadable: pandoc refuses it.
        DocumentNested: lists or quotations inside one another, beyond any use.
        DocumentTooHeavy: pandoc would take too long, or too much memory.
    """
    return read_json(run_reader(text, name, reader)[0], name)


def read_markdown(source: Source) -> tuple[pf.Doc, list[Problem]]:
    """The tree of a document in Markdown, and the divs that are not closed in it.

    Raises:
        FrontMatterUnreadable, DocumentUnreadable, DocumentNested, DocumentTooHeavy: see `read_markup`.
    """
    made, said = run_reader(source.text, source.name, "markdown")
    lines = [int(found["line"]) - 1 for found in _UNCLOSED.finditer(said)]
    starts = [(source.starts[line], source.line_end(line)) for line in lines if line < len(source.starts)]
    return read_json(made, source.name), [DivUnbalanced(source.span(*start)) for start in starts]


def run_reader(text: str | bytes, name: str, reader: str, options: Sequence[str] = ()) -> tuple[str, str]:
    """The JSON of a document's tree, and what pandoc said on the way.

    Args:
        text, name, reader: as for `read_markup`; the bytes of a file that is no text.
        options: more options of pandoc's.

    Raises:
        FrontMatterUnreadable, DocumentUnreadable, DocumentTooHeavy: see `read_markup`.
    """
    # In the sandbox a document cannot make pandoc read other files.
    memory = limit("read-memory")
    command = [find_pandoc()[0], "+RTS", f"-M{memory}m", "-RTS"]
    command += ["--sandbox", NO_DATA, "--from", reader, "--to", "json", *options]
    given = text.encode("utf-8") if isinstance(text, str) else text
    patience = limit("read-seconds") + _PATIENCE_PER_MB * len(given) // 1_000_000
    try:
        done = subprocess.run(command, input=given, capture_output=True, timeout=patience, check=False)
    except subprocess.TimeoutExpired:
        raise DocumentTooHeavy(Span(name), f"{patience} seconds", "read-seconds") from None
    if done.returncode == _HEAP_EXHAUSTED or b"heap exhausted" in done.stderr.lower():
        raise DocumentTooHeavy(Span(name), f"{memory} MB of memory", "read-memory")
    if len(done.stdout) > _TREE_AT_LEAST + _TREE_PER_BYTE * len(given):
        raise DocumentTooHeavy(Span(name), f"{memory} MB of memory", "read-memory")
    said = done.stderr.decode("utf-8", "replace").strip()
    if done.returncode:
        markup = text if isinstance(text, str) else ""
        raise _refused(" ".join(said.split()) or f"exit code {done.returncode}", markup, name)
    return done.stdout.decode("utf-8"), said


#: A text with a colon and a blank in it, which YAML takes for a key in a key; quotes in it are the author's affair.
_COLON_WITHIN = re.compile(r"(?P<key>[\w-]+):\s+(?P<text>[^\"'\s][^\"]*:\s[^\"]*?)\s*")


def _refused(said: str, text: str, name: str) -> Problem:
    """What pandoc refuses, at the line of the front matter that it names, if it does."""
    found = _FRONT_MATTER.match(said)
    if found is None:
        return DocumentUnreadable(Span(name), said)
    place = Span(name, int(found["block"]))
    if found["line"] is not None:
        line, column = place.line + int(found["line"]), int(found["column"])
        lines = text.splitlines()
        if column == 0 and line <= len(lines) + 1:
            # What is left open is noticed at the beginning of the line below it.
            typed = lines[line - 2]
            place = Span(name, line - 1, len(typed) - len(typed.lstrip()) + 1, max(1, len(typed.strip())))
        else:
            place = Span(name, line, column + 1)
            typed = lines[line - 1] if line <= len(lines) else ""
            if found["reason"].startswith("mapping values") and (pair := _COLON_WITHIN.fullmatch(typed)):
                return FrontMatterUnreadable(
                    place,
                    f"a text of the front matter that holds a colon stands without quotes: {pair['text']}",
                    f"""quote it: {pair["key"]}: "{pair["text"]}\"""",
                )
    return FrontMatterUnreadable(place, f"the front matter cannot be read here ({found['reason']})")


def read_json(text: str, name: str = "") -> pf.Doc:
    """The tree that pandoc hands to a filter.

    Raises:
        DocumentUnreadable: it is no JSON of a document.
        PandocVersion: it comes from a pandoc whose tree is another.
        DocumentNested: see `read_markup`.
    """
    try:
        if not text.startswith(_KNOWN_TREE):
            _refuse_version(json.loads(text), name)
        document = pf.load(io.StringIO(text))
    except RecursionError:
        raise DocumentNested(Span(name)) from None
    except (ValueError, AssertionError, KeyError, TypeError, AttributeError) as error:
        raise DocumentUnreadable(Span(name), f"no document of pandoc's was handed over ({error})") from None
    if deepest(document) > limit("nesting"):
        raise DocumentNested(Span(name))
    return document


def write_json(document: pf.Doc) -> str:
    """The tree as the JSON that pandoc takes back."""
    stream = io.StringIO()
    pf.dump(document, stream)
    # Half a surrogate pair, which JSON can hold, is no character: pandoc would refuse all of it.
    return stream.getvalue().encode("utf-8", "replace").decode("utf-8")


def _refuse_version(data: Any, name: str) -> None:
    version = data.get("pandoc-api-version") if isinstance(data, dict) else None
    if not isinstance(version, list) or len(version) < 2:
        raise ValueError("it names no version")
    if not OLDEST_TREE <= tuple(version[:2]) <= NEWEST_TREE:
        raise PandocVersion(Span(name), ".".join(map(str, version)))
