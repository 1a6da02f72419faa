"""What `physcalc build` does: editions laid out and written, or found as they were made before."""

from __future__ import annotations

import sys
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any, cast

from physcalc.problems import Problem, Span, Text

from . import screen
from .settings import Overrides

if TYPE_CHECKING:
    from ..document import Edition
    from ..outputs import Built
    from ..sources import FrontMatter, Source

EDITIONS = ("paper", "memo", "guide")


@dataclass(frozen=True, slots=True)
class Wish:
    """What is to be written.

    Attributes:
        source: the document.
        wanted: the files, each with the edition that is asked for; None for what the document says.
        every: whether they go into a folder that is made where it is not there.
        draft: whether a document with problems is written, too.
        pdf_engine: what makes a PDF; None for Typst.
        folders: more folders where pictures may lie.
        overrides: settings of the command line.
    """

    source: Path
    wanted: tuple[tuple[Path, str | None], ...]
    every: bool
    draft: bool
    pdf_engine: str | None
    folders: tuple[Path, ...]
    overrides: Overrides

    def engine(self, target: Path) -> str | None:
        """The engine for one of the files."""
        return self.pdf_engine if target.suffix.lower() == ".pdf" else None


def write_all(wish: Wish) -> tuple[int, tuple[Path, ...]]:
    """Writes everything that is wanted, and tells of it.

    Returns:
        The exit code, and the files that were read.
    """
    from ..outputs import allow, kind_of, put
    from ..sources import read_source

    text: Source | None = None
    read: dict[Path, None] = {wish.source: None}
    try:
        text = read_source(wish.source)
        others = _others(text)
        read.update(dict.fromkeys(others))
        for target, _ in wish.wanted:
            kind_of(target)  # Of several files none is written where an ending is none.
        for at, (target, asked) in enumerate(wish.wanted):
            if not wish.every:
                allow(target, wish.source, others)
            built = _built(wish, text, target, asked)
            read.update(dict.fromkeys(map(Path, built.read)))
            if not at:
                screen.tell(built.said, err=True)
            if built.content is None:
                if not wish.draft:
                    screen.say("nothing was written; --draft writes it with each problem framed in its place")
                return built.code, tuple(read)
            if wish.every:
                if not at:
                    _make_folder(target.parent)
                allow(target, wish.source, others)
            put(built.content, target, wish.source)
            screen.say(f"wrote {screen.named(target)} ({built.edition})")
    except Problem as problem:
        return screen.refuse(problem, text), tuple(read)
    return 0, tuple(read)


def _built(wish: Wish, text: Source, target: Path, asked: str | None) -> Built:
    """One output: made, or found as it was made before."""
    from ..outputs import kind_of, remembered

    kind = kind_of(target, wish.engine(target))
    told = (screen.coloured(sys.stderr), screen.width(sys.stderr))
    folders = [str(folder) for folder in wish.folders]
    return remembered(
        text,
        (kind, asked, wish.draft, folders, tuple(wish.overrides), told),
        lambda: _made(wish, text, target, asked),
        keep=wish.engine(target) is None,
    )


def _made(wish: Wish, text: Source, target: Path, asked: str | None) -> Built:
    """One output, made."""
    from .. import pipeline
    from ..outputs import Built, content_of, kind_of
    from ..report import Found

    kind = kind_of(target, wish.engine(target))
    chosen = _edition(text, asked, wish.overrides)
    document, report = pipeline.build(
        text, chosen, kind.layout, wish.draft, wish.overrides, pictures=wish.folders
    )
    found = [Found(str(wish.source), report.problems, text)]
    told = screen.told(found, err=True) if report.problems else ("", "")
    if document is None:
        return Built(None, chosen, told, screen.exit_code(found))
    content = content_of(
        document,
        kind,
        source=wish.source,
        pdf_engine=wish.engine(target),
        edition=chosen,
        labels=labels_of(document, wish.overrides),
        resource_path=wish.folders,
    )
    return Built(content, chosen, told)


def _others(text: Source) -> list[Path]:
    """The files besides its own that the text of a document stands in."""
    from ..sources import is_tex

    if not is_tex(text.name):
        return []
    from ..sources import weave  # Here: most documents are no LaTeX.

    return [Path(one.name) for one in weave(text, Path(text.name).parent)[0].others()]


def _make_folder(folder: Path) -> None:
    """The folder of the output, where it is not there; not those around it, whose names may be a slip.

    Raises:
        OutputFolderMissing: the folder around it is not there, or it cannot be made.
    """
    from ..outputs.problems import OutputFolderMissing

    try:
        folder.mkdir(exist_ok=True)
    except OSError:
        raise OutputFolderMissing(Span(file=str(folder)), str(folder)) from None


def _edition(source: Source, asked: str | None, overrides: Overrides) -> Edition:
    """The edition that is asked for: by the option, by `--set`, by the front matter; else the paper.

    A paper is what may lie about: nobody should get a memo who did not ask for it.
    """
    from ..sources import front_matter, is_tex

    typed = [asked] if asked else []
    typed += [value.value for key, value in overrides if key.value == "edition" and isinstance(value, Text)]
    front = front_matter(source) if not is_tex(source.name) else _tex_settings(source)
    if front is not None and (placed := front.below("physcalc").get("edition")) is not None:
        typed.append(placed[1].value)
    # A word that is no edition is a problem that the settings' own reader finds.
    return cast("Edition", next((word for word in typed if word in EDITIONS), "paper"))


def _tex_settings(source: Source) -> FrontMatter | None:
    from ..sources import tex_settings  # Here, as above.

    return tex_settings(source)


def labels_of(document: Any, overrides: Overrides) -> dict[str, str]:
    """The words that the document puts in the place of the page's own."""
    from ..document import Findings, settle_document

    # What is wrong with the settings was found when the document was worked out.
    return dict(settle_document(document, None, overrides, Findings()).labels)
