"""Shell completion: the scripts, run by their shells where these are there, and what they are told."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys

import pytest
from physcalc_filter.cli import main

PROGRAM = "import sys; from physcalc_filter.cli import main; sys.exit(main())"


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_the_script_asks_the_program(shell: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["completion", shell]) == 0
    script = capsys.readouterr().out
    assert f"_PHYSCALC_COMPLETE={shell}_complete" in script
    assert "physcalc" in script
    if there := shutil.which(shell):
        # -n: read it, and run nothing.
        done = subprocess.run([there, "-n"], input=script, capture_output=True, text=True)
        assert done.returncode == 0, done.stderr


def completed(*words: str) -> set[str]:
    """What the program proposes for the last of these words, asked as bash's script asks it."""
    variables = {
        "_PHYSCALC_COMPLETE": "bash_complete",
        "COMP_WORDS": " ".join(("physcalc", *words)),
        "COMP_CWORD": str(len(words)),
    }
    done = subprocess.run(
        [sys.executable, "-c", PROGRAM], env=os.environ | variables, capture_output=True, text=True
    )
    # Each line is a type and a word.
    return {line.partition(",")[2] for line in done.stdout.splitlines()}


def test_commands_options_and_names_are_proposed() -> None:
    assert {"check", "completion"} <= completed("c")
    assert "--format" in completed("check", "--fo")
    assert completed("check", "--format", "") >= {"text", "json", "junit", "sarif", "github"}
    assert completed("schema", "") == {"front-matter", "sheet"}
    assert completed("explain", "grid-") == {"grid-off-target", "grid-target-unused", "grid-targets-sum"}
    assert completed("sheet", "sch") == {"school"}
