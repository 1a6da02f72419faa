"""A shelf of small papers with something of everything, and Python that makes workers die or wait."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

COUNT = 40
_PROGRAM = "import sys; from physcalc_filter.cli import main; sys.exit(main(sys.argv[1:]))"

#: Read by every Python that starts with its folder in PYTHONPATH: what a document's name says is done where it is
#: checked. Only so a worker can be killed, or made to wait, at a moment that does not depend on the machine.
_OBEDIENT = """
import os, signal, time
from pathlib import Path
from physcalc_filter import pipeline

plain = pipeline.check

def check(source, *arguments, **named):
    name = Path(source.name).name
    marks = Path(os.environ["OBEDIENT"])
    if "dies-once" in name and not (marks / name).exists():
        (marks / name).touch()
        os.kill(os.getpid(), signal.SIGKILL)
    if "dies-always" in name:
        os.kill(os.getpid(), signal.SIGKILL)
    if "waits" in name:
        (marks / name).touch()
        time.sleep(600)
    if "slow" in name:
        time.sleep(0.25)
    return plain(source, *arguments, **named)

pipeline.check = check
"""


def paper(mass: int, answer: str, sheet: str = "school", constant: str = "g") -> str:
    """A paper of one calculation: the weight of a mass."""
    return (
        f"---\nphyscalc:\n  sheet: {sheet}\n---\n\n# Question 1 {{.question marks=2}}\n\n```{{.given}}\n"
        f"m: {mass} kg\n```\n\n```{{.calc}}\nformula: F_g = m {constant}\nfind: F_g in N\nanswer: {answer}\n```\n"
    )


def shelf(folder: Path) -> Path:
    """Forty papers: right ones, wrong ones, with sheets that are there or are not to be had, an empty one."""
    for below in (folder, folder / "grade 11"):
        below.mkdir(parents=True)
        (below / "own.yaml").write_text(
            "title: Own\nextends: base.yaml\nconstants:\n  Q_0: {value: 3 m/s^2, title: a pull, source: invented}\n",
            encoding="utf-8",
        )
        (below / "base.yaml").write_text("title: Base\nextends: school\n", encoding="utf-8")
        (below / "faulty.yaml").write_text("title: Faulty\nextends: school\nconstats: 3\n", encoding="utf-8")
        (below / "link.yaml").symlink_to(folder.parent / "elsewhere.yaml")
    (folder.parent / "elsewhere.yaml").write_text("title: Elsewhere\nextends: school\n", encoding="utf-8")
    for number in range(COUNT):
        mass = number + 1
        text = {
            0: paper(mass, "1.00 N"),
            1: paper(mass, "1.00 N", "own.yaml", "Q_0"),
            2: paper(mass, "1.00 N", "gone.yaml"),
            3: paper(mass, "1.00 N", "../elsewhere.yaml"),
            4: paper(mass, "1.00 N", "link.yaml"),
            5: paper(mass, "1.00 N", "faulty.yaml"),
            6: "\n" if number < 10 else paper(mass, "1.00 N").replace("find", "fnid"),
        }.get(number % 8, paper(mass, f"{mass * 9.8:.2f} N"))
        place = folder if number % 3 else folder / "grade 11"
        (place / f"paper {number:02}.md").write_text(text, encoding="utf-8")
    (folder / "zz bytes.md").write_bytes(b"m: 2 kg\n\xff\xfe")
    return folder


def environment(folder: Path) -> dict[str, str]:
    """The environment of a program whose workers obey."""
    site = folder / "site"
    site.mkdir(exist_ok=True)
    (site / "sitecustomize.py").write_text(_OBEDIENT, encoding="utf-8")
    paths = [str(site), *filter(None, [os.environ.get("PYTHONPATH")])]
    return {**os.environ, "PYTHONPATH": os.pathsep.join(paths), "OBEDIENT": str(site)}


def command(*arguments: str) -> list[str]:
    """The command line of the program."""
    return [sys.executable, "-c", _PROGRAM, *arguments]


def run(*arguments: str, cwd: Path, env: dict[str, str] | None = None) -> subprocess.CompletedProcess[bytes]:
    """A run of the program, to its end."""
    return subprocess.run(
        command(*arguments), cwd=cwd, env=env, capture_output=True, timeout=120, check=False
    )
