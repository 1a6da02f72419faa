"""The hooks, run by pre-commit itself in a repository of papers; it makes an environment of its own from PyPI."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[2]


def run(*argv: str, folder: Path, home: Path, check: bool = True) -> subprocess.CompletedProcess[str]:
    environment = {name: value for name, value in os.environ.items() if not name.startswith("GIT_")}
    environment |= {
        "PRE_COMMIT_HOME": str(home),
        "GIT_AUTHOR_NAME": "Author",
        "GIT_AUTHOR_EMAIL": "author@example.org",
        "GIT_COMMITTER_NAME": "Author",
        "GIT_COMMITTER_EMAIL": "author@example.org",
        "GIT_CONFIG_GLOBAL": os.devnull,
        "NO_COLOR": "1",
    }
    done = subprocess.run(argv, cwd=folder, env=environment, capture_output=True, text=True, timeout=550)
    assert not check or done.returncode == 0, done.stdout + done.stderr
    return done


def pre_commit(*argv: str) -> tuple[str, ...]:
    return (sys.executable, "-m", "pre_commit", *argv)


def test_the_manifest_is_one() -> None:
    done = subprocess.run(
        pre_commit("validate-manifest", str(ROOT / ".pre-commit-hooks.yaml")), capture_output=True, text=True
    )
    assert done.returncode == 0, done.stdout + done.stderr


def test_the_hooks_check_and_mend_what_is_committed(checkout: Path, wrong: str, tmp_path: Path) -> None:
    home = tmp_path / "home"

    def git(folder: Path, *argv: str) -> None:
        run("git", *argv, folder=folder, home=home)

    git(checkout, "init", "-q")
    git(checkout, "add", "-A")
    git(checkout, "commit", "-q", "-m", "The program")
    revision = run("git", "rev-parse", "HEAD", folder=checkout, home=home).stdout.strip()

    papers = tmp_path / "papers"
    papers.mkdir()
    git(papers, "init", "-q")
    (papers / ".pre-commit-config.yaml").write_text(
        f"repos:\n  - repo: {checkout}\n    rev: {revision}\n    hooks:\n"
        "      - id: physcalc-fix\n        stages: [manual]\n      - id: physcalc-check\n",
        encoding="utf-8",
    )
    test = papers / "test.md"
    test.write_text(wrong, encoding="utf-8")
    (papers / "notes.txt").write_text("answer: 174.00 N\n", encoding="utf-8")
    git(papers, "add", "-A")

    checked = run(*pre_commit("run", "--all-files"), folder=papers, home=home, check=False)
    assert checked.returncode == 1, checked.stdout + checked.stderr
    assert "test.md:11:9: answer-disagrees: F_g is 147" in checked.stdout, checked.stdout
    assert "notes.txt" not in checked.stdout
    assert test.read_text(encoding="utf-8") == wrong

    arguments = ("run", "physcalc-fix", "--all-files", "--hook-stage", "manual")
    mended = run(*pre_commit(*arguments), folder=papers, home=home, check=False)
    # A hook that changes files stops the commit, so that somebody looks at the change.
    assert mended.returncode == 1
    assert "files were modified by this hook" in mended.stdout
    assert test.read_text(encoding="utf-8") == wrong.replace("174.00", "147.00")

    git(papers, "add", "-A")
    assert "Passed" in run(*pre_commit("run", "--all-files"), folder=papers, home=home).stdout
