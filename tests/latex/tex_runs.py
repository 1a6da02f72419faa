"""Runs of TeX over the paper of this folder, and of the command between them."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

from physcalc_filter.cli import main
from physcalc_filter.latex import install
from programs import program

HERE = Path(__file__).parent
#: The command as a program, for latexmk.
_SCRIPT = "import sys; from physcalc_filter.cli import main; sys.exit(main(sys.argv[1:]))"


def lay_out(folder: Path) -> None:
    """The paper, its chapters, the package and latexmk's rule in a folder."""
    shutil.copytree(HERE / "paper", folder, dirs_exist_ok=True)
    install(folder)


def environment(folder: Path) -> dict[str, str]:
    """The environment of a run: the command is found, and no program that TeX would start."""
    programs = folder / "programs"
    programs.mkdir(exist_ok=True)
    command = programs / "physcalc"
    command.write_text(f'#!/bin/sh\nexec "{sys.executable}" -c \'{_SCRIPT}\' "$@"\n', encoding="utf-8")
    command.chmod(0o755)
    return {**os.environ, "PATH": f"{programs}{os.pathsep}{os.environ['PATH']}", "max_print_line": "1000"}


def run_tex(folder: Path, engine: str, edition: str, document: str = "main") -> str:
    """A run of TeX, of an edition; what its log says."""
    words = f"\\PassOptionsToPackage{{edition={edition}}}{{physcalc}}\\input{{{document}}}"
    command = [program(engine), "-no-shell-escape", "-interaction=nonstopmode", "-halt-on-error"]
    done = subprocess.run(
        [*command, f"-jobname={document}", words],
        cwd=folder,
        env=environment(folder),
        capture_output=True,
        timeout=240,
        check=False,
    )
    said = done.stdout.decode("utf-8", "replace")
    assert done.returncode == 0, said[-3000:]
    return (folder / f"{document}.log").read_text(encoding="utf-8", errors="replace")


def built(folder: Path, engine: str, edition: str, document: str = "main") -> str:
    """The document typeset with its workings; what the log of the last run says."""
    run_tex(folder, engine, edition, document)
    assert main(["latex", str(folder / document)]) == 0
    return run_tex(folder, engine, edition, document)


def text_of(pdf: Path) -> str:
    """The text of a PDF."""
    command = [program("pdftotext"), "-layout", str(pdf), "-"]
    done = subprocess.run(command, capture_output=True, timeout=60, check=True)
    return done.stdout.decode("utf-8")
