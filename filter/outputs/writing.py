"""A finished tree becomes a file."""

from __future__ import annotations

import copy
import re
import tempfile
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from physcalc.problems import Span

from ..editions.words import words_for
from . import cover, tree
from .kinds import Kind, kind_of
from .making import Job, made
from .target import allow, put

if TYPE_CHECKING:
    import panflute as pf

_PAPERS = {
    "a4": "a4",
    "a4paper": "a4",
    "letter": "us-letter",
    "letterpaper": "us-letter",
    "us-letter": "us-letter",
}


def write(
    doc: pf.Doc,
    target: Path,
    *,
    source: Path | None = None,
    pdf_engine: str | None = None,
    edition: str = "",
    labels: Mapping[str, str] | None = None,
    resource_path: Sequence[Path] = (),
    others: Sequence[Path] = (),
) -> None:
    """Writes a document as what its name's ending says; on any problem nothing is written.

    The parts of the page must have been laid out for `kind_of(target, pdf_engine).layout`. The file appears
    whole or not at all, and the source is never written over.

    Args:
        doc: the finished tree; it is not changed.
        target: the file to write.
        source: the file it was made from: pictures are looked for beside it.
        pdf_engine: for a PDF, a program other than Typst ("xelatex", or a path).
        edition: "paper", "memo", "guide", or empty to take the metadata's `edition`.
        labels: own words for those that the page says (`editions.words.KEYS`).
        resource_path: more folders where pictures may lie.
        others: more files that it was made from, which are not written over either.

    Raises:
        OutputEndingUnknown, OutputFolderMissing, OutputOverSource: the target is none.
        OutputFailed: pandoc, Typst, the engine or the file system refused.
        PandocMissing, PandocTooOld: there is no pandoc that will do.
        PictureUnreadable: a picture is not to be had.
    """
    allow(target, source, others)
    content = content_of(
        doc,
        kind_of(target, pdf_engine),
        source=source,
        pdf_engine=pdf_engine,
        edition=edition,
        labels=labels,
        resource_path=resource_path,
        name=target.name,
    )
    put(content, target, source)


def content_of(
    doc: pf.Doc,
    kind: Kind,
    *,
    source: Path | None = None,
    pdf_engine: str | None = None,
    edition: str = "",
    labels: Mapping[str, str] | None = None,
    resource_path: Sequence[Path] = (),
    name: str = "",
) -> bytes:
    """The bytes of an output.

    Args:
        kind: what is written.
        name: how the output is called where there is no source to show a problem in.
        doc, source, pdf_engine, edition, labels, resource_path: as for `write`.

    Raises:
        OutputFailed, PandocMissing, PandocTooOld, PictureUnreadable: as for `write`.
    """
    place = Span(file=str(source) if source else name)
    document: tree.Json = copy.deepcopy(doc.to_json())
    meta: dict[str, Any] = dict(document["meta"])
    language, region = _language(tree.words_of(meta.get("lang")))
    words = words_for(language, labels)
    paper = _PAPERS.get(tree.words_of(meta.get("papersize")).strip().lower(), "a4")
    here = source.parent if source is not None else Path()
    with tempfile.TemporaryDirectory(prefix="physcalc-") as work:
        job = Job(
            document=document,
            kind=kind,
            cover=cover.read(meta, edition, words),
            words=words,
            language=language,
            region=region,
            paper=paper,
            folders=(here, *resource_path),
            place=place,
            work=Path(work),
            pdf_engine=pdf_engine,
        )
        return made(job, meta)


def _language(tag: str) -> tuple[str, str]:
    """Language and region of a tag; what is no such tag counts as English."""
    found = re.fullmatch(r"([A-Za-z]{2,3})(?:[-_]([A-Za-z]{2}))?(?:[-_].*)?", tag.strip())
    return (found[1].lower(), (found[2] or "").upper()) if found else ("en", "")
