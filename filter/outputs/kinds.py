"""What is written for each ending of an output's name."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from physcalc.problems import Span

from .problems import OutputEndingUnknown


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of output.

    Attributes:
        ending: the ending that asks for it.
        writer: pandoc's name of the format that it writes.
        pictures: what becomes of pictures: "embed" in the tree, "copy" beside the compiler's input, "leave".
    """

    ending: str
    writer: str
    pictures: str

    @property
    def layout(self) -> str:
        """The format name for which the editions lay their parts out."""
        return self.writer.split("+")[0].split("-")[0]


_KINDS = (
    Kind(".pdf", "typst", "copy"),
    Kind(".html", "html5", "embed"),
    Kind(".docx", "docx", "embed"),
    Kind(".epub", "epub3", "embed"),
    Kind(".tex", "latex", "leave"),
    Kind(".typ", "typst", "leave"),
    Kind(".md", "markdown", "leave"),
)

ENDINGS: tuple[str, ...] = tuple(kind.ending for kind in _KINDS)

#: Programs that make a PDF of HTML; every other engine than Typst is a TeX.
_HTML_ENGINES = frozenset({"weasyprint", "wkhtmltopdf", "pagedjs-cli", "prince"})


def kind_of(target: Path, pdf_engine: str | None = None) -> Kind:
    """What is to be written, by the ending of the target's name and the PDF engine asked for.

    Raises:
        OutputEndingUnknown: no output has that ending.
    """
    ending = target.suffix.lower()
    if ending == ".htm":
        ending = ".html"
    for kind in _KINDS:
        if kind.ending == ending:
            if ending == ".pdf" and pdf_engine and engine_name(pdf_engine) != "typst":
                writer = "html5" if engine_name(pdf_engine) in _HTML_ENGINES else "latex"
                return Kind(ending, writer, "copy" if writer == "latex" else "embed")
            return kind
    raise OutputEndingUnknown(Span(file=target.name), target.name, ENDINGS)


def engine_name(pdf_engine: str) -> str:
    """The bare name of a PDF engine that may be given with its path."""
    return Path(pdf_engine).stem.lower()
