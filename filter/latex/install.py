"""The package and latexmk's rule, put beside a document."""

from __future__ import annotations

from dataclasses import dataclass
from importlib import resources
from pathlib import Path
from typing import Literal

from ..editions.layouts.base import part_file
from ..sources.whole import write_whole

PACKAGE = "physcalc.sty"
RULES = ".latexmkrc"
#: Names under which latexmk looks for rules in the folder of a document.
_OTHER_RULES = ("latexmkrc",)

#: The first words of every package of ours, by which another's is told from it.
_SIGNATURE = "% physcalc.sty: calculations of physics papers"
_PARTS = "%%PARTS%%"

RULE = """\
# physcalc: works the calculations of a document out, when TeX has written other ones.
add_cus_dep('physin', 'physout', 0, 'physcalc_latex');
sub physcalc_latex { return system('physcalc', 'latex', '--root', '.', '--', $_[0]); }
push @generated_exts, 'physin', 'physout';
"""


@dataclass(frozen=True, slots=True)
class Installed:
    """What became of a file.

    Attributes:
        path: the file.
        done: "written", "brought up to date", "there already", or "foreign": somebody else's, left alone.
    """

    path: Path
    done: Literal["written", "brought up to date", "there already", "foreign"]


def package_text() -> str:
    """The package, with the parts of a page that the layout calls."""
    text = (resources.files(__package__) / PACKAGE).read_text(encoding="utf-8")
    parts = part_file("parts.tex").replace("\\makeatletter\n", "").replace("\\makeatother\n", "")
    return text.replace(_PARTS + "\n", parts)


def install(folder: Path) -> tuple[Installed, Installed]:
    """Puts the package and the rule into a folder; what another has written there is left alone.

    Raises:
        OSError: the file system refuses.
    """
    package = folder / PACKAGE
    text = package_text()
    there = _text_of(package)
    if there is None:
        _write_new(package, text)
        first = Installed(package, "written")
    elif there == text:
        first = Installed(package, "there already")
    elif there.startswith(_SIGNATURE) and not package.is_symlink():
        write_whole(package, text.encode("utf-8"))
        first = Installed(package, "brought up to date")
    else:
        first = Installed(package, "foreign")
    return first, _rule(folder)


def _rule(folder: Path) -> Installed:
    for name in (*_OTHER_RULES, RULES):
        path = folder / name
        there = _text_of(path)
        if there is not None:
            return Installed(path, "there already" if "'physcalc_latex'" in there else "foreign")
    _write_new(folder / RULES, RULE)
    return Installed(folder / RULES, "written")


def _text_of(path: Path) -> str | None:
    """A file's text; None where there is none of that name, not even a link that leads nowhere."""
    if not path.exists() and not path.is_symlink():
        return None
    if not path.is_file():
        return ""  # Whoever opens a pipe waits for it.
    try:
        return path.read_text(encoding="utf-8", errors="replace")
    except OSError:
        return ""


def _write_new(path: Path, text: str) -> None:
    with path.open("x", encoding="utf-8", newline="\n") as file:
        file.write(text)
