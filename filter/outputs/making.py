"""What is written for each kind of output: the page around the tree, and the runs that make its bytes."""

from __future__ import annotations

import uuid
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from physcalc.problems import Span

from ..editions.escape import css_string, latex
from ..editions.layout import layout_for
from ..editions.layouts import HtmlLayout
from ..editions.making import DRAWINGS
from ..editions.words import Words
from . import cover, pandoc, pictures, tree, typst_run, web
from .kinds import Kind, engine_name
from .problems import OutputFailed

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

#: Languages with words that begin with an apostrophe (’n in Afrikaans, ’s and ’t in Dutch).
_APOSTROPHE_FIRST = ("af", "nl")


@dataclass(frozen=True, slots=True)
class Job:
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


def made(job: Job, meta: dict[str, Any]) -> bytes:
    """The bytes of the output.

    Args:
        job: the document and what it is to become.
        meta: its metadata, our own copy; it is added to.
    """
    for name in _OURS:
        meta.pop(name, None)
    layout = layout_for(job.kind.layout, job.words)
    drawings = bool(meta.pop(DRAWINGS, None))
    needed = [*layout.preamble(), *(layout.preamble_of_drawings() if drawings else [])]
    head = [block.to_json() for block in needed]
    if head:
        theirs = meta.get("header-includes")
        own = [] if theirs is None else (theirs["c"] if theirs.get("t") == "MetaList" else [theirs])
        meta["header-includes"] = {"t": "MetaList", "c": [{"t": "MetaBlocks", "c": head}, *own]}
    if tree.words_of(meta.get("dir")) not in ("ltr", "rtl"):
        meta.pop("dir", None)  # It stands in a tag.
    if job.language:
        meta["lang"] = tree.text(job.tag)
    job.document["meta"] = meta
    if job.kind.writer != "markdown":
        tree.thin_blanks(job.document["blocks"])
    if job.kind.writer not in ("markdown", "latex"):
        tree.join_decimals(job.document["blocks"])
    if job.kind.pictures == "embed":
        pictures.embed(job.document, job.folders, job.place)
    elif job.kind.pictures == "copy":
        pictures.copy(job.document, job.folders, job.work, job.place)
    if job.kind.ending == ".pdf" and job.kind.writer != "typst":
        return _pdf_by_engine(job, meta)
    match job.kind.writer:
        case "typst":
            typst_source = _typst(job, meta)
            if job.kind.ending != ".pdf":
                return typst_source
            return typst_run.compiled(typst_source, job.work, job.place)
        case "html5":
            return _html(job, meta)
        case "docx":
            return _docx(job, meta, drawings)
        case "epub3":
            return _epub(job, meta)
        case "latex":
            return _run(job, *_latex_arguments(job, meta))
        case _:
            _plain_head(job, meta)
            return _run(job, "--standalone")


def _run(job: Job, *arguments: str, sandbox: bool = True) -> bytes:
    # Typst's own quotation marks would open before the apostrophe that begins a word.
    as_written = job.kind.writer == "typst" and job.language in _APOSTROPHE_FIRST
    options = [
        f"--to={job.kind.writer}{'-smart' if as_written else ''}",
        "--wrap=none" if job.kind.layout == "typst" else "--wrap=auto",
        *arguments,
    ]
    return pandoc.run(job.document, options, place=job.place, folder=job.work, sandbox=sandbox)


def _page(name: str) -> str:
    return Path(__file__).with_name("pages").joinpath(name).read_text(encoding="utf-8")


def _stored(job: Job, name: str, content: str | bytes) -> str:
    """A file of the run's own folder, for pandoc's arguments."""
    path = job.work / name
    path.write_bytes(content.encode() if isinstance(content, str) else content)
    return str(path)


def _template_head(job: Job, meta: dict[str, Any]) -> None:
    meta.update(cover.as_metadata(job.cover))
    for key in ("page", "of", "instructions", "colon"):
        meta[f"word-{key}"] = tree.text(job.words[key])


def _plain_head(job: Job, meta: dict[str, Any]) -> None:
    """The head for formats with pandoc's own title: the edition is the subtitle, the rest first blocks."""
    layout = layout_for(job.kind.layout, job.words)
    if job.cover.edition and job.kind.writer not in ("latex", "docx"):
        if not job.cover.title:
            meta["title"] = tree.text(job.cover.edition)
        elif "subtitle" in meta:
            dash = [{"t": "Str", "c": "\u00a0– " + job.cover.edition}]
            meta["subtitle"] = {"t": "MetaInlines", "c": [*tree.inlines_of(meta["subtitle"]), *dash]}
        else:
            meta["subtitle"] = tree.text(job.cover.edition)
    first = cover.as_blocks(job.cover, job.words, layout)
    if job.cover.facts:
        first[0] = {"t": "Div", "c": [["", ["facts"], [["custom-style", "Facts"]]], [first[0]]]}
    if job.cover.edition and job.kind.writer == "docx":
        name = {"t": "Para", "c": [{"t": "Str", "c": job.cover.edition}]}
        first.insert(0, {"t": "Div", "c": [["", [], [["custom-style", "Edition"]]], [name]]})
    if job.kind.writer == "markdown" and first and job.cover.facts:
        first[0] = first[0]["c"][1][0]
    job.document["blocks"] = [*first, *job.document["blocks"]]


def _typst(job: Job, meta: dict[str, Any]) -> bytes:
    _template_head(job, meta)
    meta["papersize"] = tree.text(job.paper)
    meta["language"] = tree.text(job.language or "en")
    if job.region:
        meta["region"] = tree.text(job.region.lower())
    tree.raise_figures(job.document["blocks"])
    tree.raise_figures(list(meta.values()))
    tree.speak_formulas(job.document["blocks"])
    return _run(job, f"--template={_stored(job, 'page.template', _page('page.typ'))}")


def _css(job: Job) -> str:
    paper = "A4" if job.paper == "a4" else "letter"
    css = _page("page.css") + _page("screen.css").replace("@@PAPER@@", paper)
    for mark, words in (
        ("@@PAGE@@", job.words["page"]),
        ("@@OF@@", job.words["of"]),
        ("@@TITLE@@", cover.running(job.cover)[0]),
        ("@@EDITION@@", job.cover.edition),
    ):
        css = css.replace(mark, css_string(words))
    return css


def _html_arguments(job: Job, meta: dict[str, Any]) -> list[str]:
    _template_head(job, meta)
    names = [name for name in (job.cover.title, job.cover.edition) if name]
    meta["pagetitle"] = tree.text(" – ".join(names) or "–")
    # In a template "$" stands for a variable.
    page = _page("page.html").replace("@@CSS@@", _css(job).replace("$", "$$"))
    shift = web.with_ordered_headings(job.document)
    web.with_boxed_tables(job.document)
    template = _stored(job, "page.template", page)
    return [
        "--mathml",
        f"--shift-heading-level-by={shift}",
        f"--template={template}",
        *_contents(meta, shift),
    ]


def _contents(meta: dict[str, Any], shift: int) -> list[str]:
    """Options for a list of contents, where the front matter asks for one with `toc`."""
    if not meta.get("toc", {}).get("c"):
        return []
    depth = tree.words_of(meta["toc-depth"]) if "toc-depth" in meta else ""
    return ["--table-of-contents", f"--toc-depth={(int(depth) if depth.isdigit() else 3) + shift}"]


def _html(job: Job, meta: dict[str, Any]) -> bytes:
    return web.with_numbers(_run(job, *_html_arguments(job, meta)).decode()).encode()


def _docx(job: Job, meta: dict[str, Any], drawings: bool) -> bytes:
    from . import reference_docx, word  # Here: other outputs are no documents of Word.

    _plain_head(job, meta)
    reference = reference_docx.fitted(job.words, job.tag, job.paper, *cover.running(job.cover))
    stored = _stored(job, "reference.docx", reference)
    written = _run(job, "--standalone", "--output=-", f"--reference-doc={stored}")
    return word.finished(written, reference_docx.text_width(job.paper), drawings)


def _epub(job: Job, meta: dict[str, Any]) -> bytes:
    date = web.date_of_book(meta)
    _plain_head(job, meta)
    if date:
        job.document["blocks"].insert(0, {"t": "Para", "c": [{"t": "Str", "c": date}]})
    if "title" not in meta:
        meta["title"] = tree.text("–")
    if "identifier" not in meta:
        # The same document is the same book: its name comes from its content, not from chance.
        meta["identifier"] = tree.text(f"urn:uuid:{uuid.uuid5(uuid.NAMESPACE_OID, repr(job.document))}")
    web.with_boxed_tables(job.document)
    # The style of the parts stands in the book once, not at the head of each chapter.
    del meta["header-includes"]["c"][0]
    style = _page("page.css") + HtmlLayout(job.words, book=True).style()
    return web.book(_run(job, "--standalone", "--output=-", "--mathml"), style)


def _latex_arguments(job: Job, meta: dict[str, Any]) -> list[str]:
    _plain_head(job, meta)
    paper = "a4paper" if job.paper == "a4" else "letterpaper"
    head = _page("head.tex").replace("@@PAPER@@", paper).replace("@@EDITION@@", latex(job.cover.edition))
    head = head.replace("@@PAGE@@", latex(job.words["page"])).replace("@@OF@@", latex(job.words["of"]))
    head = head.replace("@@RUNNING@@", latex(cover.running(job.cover)[0]))
    before = {"t": "MetaBlocks", "c": [{"t": "RawBlock", "c": ["latex", head]}]}
    meta["header-includes"]["c"].insert(0, before)
    if not job.cover.title:
        meta["title"] = tree.text(job.cover.edition or "–")
    meta["papersize"] = tree.text("a4" if job.paper == "a4" else "letter")
    meta["fontsize"] = meta.get("fontsize", tree.text("11pt"))
    return ["--standalone"]


def _pdf_by_engine(job: Job, meta: dict[str, Any]) -> bytes:
    engine = job.pdf_engine or ""
    arguments = [f"--pdf-engine={engine}", "--output=made.pdf"]
    if job.kind.writer == "latex":
        arguments += _latex_arguments(job, meta)
        if engine_name(engine) in ("pdflatex", "xelatex", "lualatex"):
            arguments.append("--pdf-engine-opt=-no-shell-escape")
        elif engine_name(engine) == "tectonic":
            arguments.append("--pdf-engine-opt=--untrusted")
    else:
        arguments += _html_arguments(job, meta)
    try:
        # The engine has to write files: the sandbox would not let pandoc run it.
        _run(job, *arguments, sandbox=False)
    except OutputFailed as failure:
        raise OutputFailed(job.place, engine_name(engine), failure.said) from None
    return (job.work / "made.pdf").read_bytes()
