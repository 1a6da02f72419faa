"""A finished tree becomes a file."""

from __future__ import annotations

import copy
import os
import re
import tempfile
import uuid
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from importlib import resources
from pathlib import Path
from typing import TYPE_CHECKING, Any

from physcalc.problems import Span

from ..editions.escape import css_string, latex
from ..editions.layout import layout_for
from ..editions.words import Words, words_for
from . import cover, pandoc, pictures, reference_docx, tree
from .kinds import Kind, engine_name, kind_of
from .problems import OutputFailed, OutputOverSource

if TYPE_CHECKING:
    import panflute as pf

_PAPERS = {
    "a4": "a4",
    "a4paper": "a4",
    "letter": "us-letter",
    "letterpaper": "us-letter",
    "us-letter": "us-letter",
}

#: Front matter that the pages have read already and that no writer should print.
_OURS = (
    "physcalc",
    "total",
    "time",
    "instructions",
    "edition",
    "labels",
    "papersize",
    "draft",
    "header-includes",
)


@dataclass(frozen=True, slots=True)
class _Job:
    """One document on its way to a file.

    Attributes:
        document: pandoc's tree as JSON, our own copy.
        kind: what is written.
        cover: the head of the document.
        words: the words of the page.
        language: first part of the language tag, checked.
        region: second part, in capitals; may be empty.
        paper: "a4" or "us-letter".
        folders: where pictures are looked for.
        place: where a problem is shown.
        work: a folder of the run's own.
        pdf_engine: the engine asked for; None for Typst.
    """

    document: tree.Json
    kind: Kind
    cover: cover.Cover
    words: Words
    language: str
    region: str
    paper: str
    folders: tuple[Path, ...]
    place: Span
    work: Path
    pdf_engine: str | None

    @property
    def tag(self) -> str:
        """The language tag."""
        return f"{self.language}-{self.region}" if self.region else self.language


def write(
    doc: pf.Doc,
    target: Path,
    *,
    source: Path | None = None,
    pdf_engine: str | None = None,
    edition: str = "",
    labels: Mapping[str, str] | None = None,
    resource_path: Sequence[Path] = (),
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

    Raises:
        OutputEndingUnknown, OutputOverSource: the target is none.
        OutputFailed: pandoc, Typst, the engine or the file system refused.
        PandocMissing, PandocTooOld: there is no pandoc that will do.
        PictureUnreadable: a picture is not to be had.
    """
    kind = kind_of(target, pdf_engine)
    place = Span(file=str(source) if source else target.name)
    if source is not None and _same(source, target):
        raise OutputOverSource(place, target.name)
    document: tree.Json = copy.deepcopy(doc.to_json())
    meta: dict[str, Any] = dict(document["meta"])
    language, region = _language(tree.words_of(meta.get("lang")))
    words = words_for(language, labels)
    paper = _PAPERS.get(tree.words_of(meta.get("papersize")).strip().lower(), "a4")
    here = source.parent if source is not None else Path()
    with tempfile.TemporaryDirectory(prefix="physcalc-") as work:
        job = _Job(
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
        _place(_made(job, meta), target, place)


def _made(job: _Job, meta: dict[str, Any]) -> bytes:
    """The bytes of the output."""
    for name in _OURS:
        meta.pop(name, None)
    layout = layout_for(job.kind.layout, job.words)
    head = [block.to_json() for block in layout.preamble()]
    if head:
        theirs = meta.get("header-includes")
        own = [] if theirs is None else (theirs["c"] if theirs.get("t") == "MetaList" else [theirs])
        meta["header-includes"] = {"t": "MetaList", "c": [{"t": "MetaBlocks", "c": head}, *own]}
    if job.language:
        meta["lang"] = tree.text(job.tag)
    job.document["meta"] = meta
    if job.kind.pictures == "embed":
        pictures.embed(job.document, job.folders, job.place)
    elif job.kind.pictures == "copy":
        pictures.copy(job.document, job.folders, job.work, job.place)
    if job.kind.ending == ".pdf" and job.kind.writer != "typst":
        return _pdf_by_engine(job, meta)
    match job.kind.writer:
        case "typst":
            typst_source = _typst(job, meta)
            return _pdf(typst_source, job) if job.kind.ending == ".pdf" else typst_source
        case "html5":
            return _html(job, meta)
        case "docx":
            return _docx(job, meta)
        case "epub3":
            return _epub(job, meta)
        case "latex":
            return _run(job, *_latex_arguments(job, meta))
        case _:
            _plain_head(job, meta)
            return _run(job, "--standalone")


def _run(job: _Job, *arguments: str, sandbox: bool = True) -> bytes:
    options = [
        f"--to={job.kind.writer}",
        "--wrap=none" if job.kind.layout == "typst" else "--wrap=auto",
        *arguments,
    ]
    return pandoc.run(job.document, options, place=job.place, folder=job.work, sandbox=sandbox)


def _page(name: str) -> str:
    return (resources.files(__package__) / "pages" / name).read_text(encoding="utf-8")


def _stored(job: _Job, name: str, content: str | bytes) -> str:
    """A file of the run's own folder, for pandoc's arguments."""
    path = job.work / name
    path.write_bytes(content.encode() if isinstance(content, str) else content)
    return str(path)


def _template_head(job: _Job, meta: dict[str, Any]) -> None:
    meta.update(cover.as_metadata(job.cover))
    for key in ("page", "of", "instructions"):
        meta[f"word-{key}"] = tree.text(job.words[key])


def _plain_head(job: _Job, meta: dict[str, Any]) -> None:
    """The head for formats with pandoc's own title: the edition is the subtitle, the rest first blocks."""
    layout = layout_for(job.kind.layout, job.words)
    if job.cover.edition and job.kind.writer != "latex":
        if not job.cover.title:
            meta["title"] = tree.text(job.cover.edition)
        elif "subtitle" in meta:
            dash = [{"t": "Str", "c": "\u00a0– " + job.cover.edition}]
            meta["subtitle"] = {"t": "MetaInlines", "c": [*tree.inlines_of(meta["subtitle"]), *dash]}
        else:
            meta["subtitle"] = tree.text(job.cover.edition)
    first = cover.as_blocks(job.cover, job.words, layout)
    if first and job.cover.facts:
        first[0] = {"t": "Div", "c": [["", ["facts"], [["custom-style", "Facts"]]], [first[0]]]}
    if job.kind.writer == "markdown" and first and job.cover.facts:
        first[0] = first[0]["c"][1][0]
    job.document["blocks"] = [*first, *job.document["blocks"]]


def _typst(job: _Job, meta: dict[str, Any]) -> bytes:
    _template_head(job, meta)
    meta["papersize"] = tree.text(job.paper)
    meta["language"] = tree.text(job.language or "en")
    if job.region:
        meta["region"] = tree.text(job.region.lower())
    tree.raise_figures(job.document["blocks"])
    tree.raise_figures(list(meta.values()))
    return _run(job, f"--template={_stored(job, 'page.template', _page('page.typ'))}")


def _pdf(typst_source: bytes, job: _Job) -> bytes:
    # Typst is a large library, and only a PDF needs it.
    import typst

    main = job.work / "main.typ"
    main.write_bytes(typst_source)
    try:
        made = typst.compile(
            str(main),
            root=str(job.work),
            format="pdf",
            ignore_system_fonts=True,
            package_path=str(job.work / "packages"),
            package_cache_path=str(job.work / "packages"),
        )
    except typst.TypstError as error:
        raise OutputFailed(job.place, "typst", str(error)) from None
    if not isinstance(made, bytes):
        raise OutputFailed(job.place, "typst", "it made no document")
    return made


def _css(job: _Job) -> str:
    paper = "A4" if job.paper == "a4" else "letter"
    css = _page("page.css").replace("@@PAPER@@", paper)
    return css.replace("@@PAGE@@", css_string(job.words["page"])).replace(
        "@@OF@@", css_string(job.words["of"])
    )


def _html(job: _Job, meta: dict[str, Any]) -> bytes:
    _template_head(job, meta)
    names = [name for name in (job.cover.title, job.cover.edition) if name]
    meta["pagetitle"] = tree.text(" – ".join(names) or "–")
    # In a template "$" stands for a variable.
    page = _page("page.html").replace("@@CSS@@", _css(job).replace("$", "$$"))
    return _run(job, "--mathml", f"--template={_stored(job, 'page.template', page)}")


def _docx(job: _Job, meta: dict[str, Any]) -> bytes:
    _plain_head(job, meta)
    reference = reference_docx.fitted(job.words, job.tag, job.paper)
    return _run(
        job, "--standalone", "--output=-", f"--reference-doc={_stored(job, 'reference.docx', reference)}"
    )


def _epub(job: _Job, meta: dict[str, Any]) -> bytes:
    _plain_head(job, meta)
    if "title" not in meta:
        meta["title"] = tree.text("–")
    if "identifier" not in meta:
        # The same document is the same book: its name comes from its content, not from chance.
        meta["identifier"] = tree.text(f"urn:uuid:{uuid.uuid5(uuid.NAMESPACE_OID, repr(job.document))}")
    # In its sandbox pandoc reads no style sheet for a book, so each chapter carries it in its head.
    style = {"t": "RawBlock", "c": ["html", f"<style>\n{_css(job)}</style>"]}
    meta["header-includes"]["c"].insert(0, {"t": "MetaBlocks", "c": [style]})
    return _run(job, "--standalone", "--output=-", "--mathml")


def _latex_arguments(job: _Job, meta: dict[str, Any]) -> list[str]:
    _plain_head(job, meta)
    paper = "a4paper" if job.paper == "a4" else "letterpaper"
    head = _page("head.tex").replace("@@PAPER@@", paper).replace("@@EDITION@@", latex(job.cover.edition))
    head = head.replace("@@PAGE@@", latex(job.words["page"])).replace("@@OF@@", latex(job.words["of"]))
    before = {"t": "MetaBlocks", "c": [{"t": "RawBlock", "c": ["latex", head]}]}
    meta["header-includes"]["c"].insert(0, before)
    if not job.cover.title:
        meta["title"] = tree.text(job.cover.edition or "–")
    meta["papersize"] = tree.text("a4" if job.paper == "a4" else "letter")
    meta["fontsize"] = meta.get("fontsize", tree.text("11pt"))
    return ["--standalone"]


def _pdf_by_engine(job: _Job, meta: dict[str, Any]) -> bytes:
    engine = job.pdf_engine or ""
    arguments = [f"--pdf-engine={engine}", "--output=made.pdf"]
    if job.kind.writer == "latex":
        arguments += _latex_arguments(job, meta)
        if engine_name(engine) in ("pdflatex", "xelatex", "lualatex"):
            arguments.append("--pdf-engine-opt=-no-shell-escape")
        elif engine_name(engine) == "tectonic":
            arguments.append("--pdf-engine-opt=--untrusted")
    else:
        _template_head(job, meta)
        meta["pagetitle"] = tree.text(job.cover.title or "–")
        page = _page("page.html").replace("@@CSS@@", _css(job).replace("$", "$$"))
        arguments += ["--mathml", f"--template={_stored(job, 'page.template', page)}"]
    try:
        # The engine has to write files: the sandbox would not let pandoc run it.
        _run(job, *arguments, sandbox=False)
    except OutputFailed as failure:
        raise OutputFailed(job.place, engine_name(engine), failure.said) from None
    return (job.work / "made.pdf").read_bytes()


def _language(tag: str) -> tuple[str, str]:
    """Language and region of a tag; what is no such tag counts as English."""
    found = re.fullmatch(r"([A-Za-z]{2,3})(?:[-_]([A-Za-z]{2}))?(?:[-_].*)?", tag.strip())
    return (found[1].lower(), (found[2] or "").upper()) if found else ("en", "")


def _same(source: Path, target: Path) -> bool:
    try:
        return os.path.samefile(source, target)
    except OSError:
        return source.absolute() == target.absolute()


def _place(content: bytes, target: Path, place: Span) -> None:
    """Puts the file where it belongs, in one step."""
    try:
        handle, name = tempfile.mkstemp(prefix=f".{target.name}.", dir=target.absolute().parent)
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(content)
            # mkstemp makes a private file; an output has the rights of any other new file.
            mask = os.umask(0)
            os.umask(mask)
            os.chmod(name, 0o666 & ~mask)
            os.replace(name, target)
        except BaseException:
            Path(name).unlink(missing_ok=True)
            raise
    except OSError as error:
        raise OutputFailed(place, "the file system", error.strerror or str(error)) from None
