"""A worker that dies, a document that takes too long, Ctrl-C; and what a terminal shows meanwhile."""

from __future__ import annotations

import json
import os
import re
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
from shelf_papers import command, environment, paper, run

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="signals and terminals of POSIX")


def papers(folder: Path, *names: str) -> dict[str, str]:
    """Ten papers and those with a name that workers obey; all of them wrong."""
    (folder / "papers").mkdir()
    for number, name in enumerate([*(f"plain-{number}" for number in range(10)), *names]):
        (folder / "papers" / f"{name}.md").write_text(paper(number + 1, "1.00 N"), encoding="utf-8")
    return environment(folder)


def found(output: bytes) -> dict[str, list[str]]:
    """Slugs by document."""
    slugs: dict[str, list[str]] = {}
    for problem in json.loads(output):
        slugs.setdefault(Path(problem["file"]).stem, []).append(problem["slug"])
    return slugs


@pytest.mark.parametrize("jobs", ["1", "3"])
def test_a_worker_that_dies(jobs: str, tmp_path: Path) -> None:
    env = papers(tmp_path, "a-dies-always", "m-dies-once", "q-dies-always")
    done = run("check", "papers", "--jobs", jobs, "--format", "json", cwd=tmp_path, env=env)
    slugs = found(done.stdout)
    assert done.returncode == 2
    assert slugs.pop("a-dies-always") == slugs.pop("q-dies-always") == ["worker-died"]
    assert slugs.pop("m-dies-once") == ["answer-disagrees"]
    assert slugs == {f"plain-{number}": ["answer-disagrees"] for number in range(10)}
    assert b"ended by SIGKILL" in done.stdout
    assert done.stderr == b""


def test_a_document_that_takes_too_long(tmp_path: Path) -> None:
    env = papers(tmp_path, "m-waits")
    done = run(
        "check", "papers", "--jobs", "2", "--timeout", "1.5", "--format", "json", cwd=tmp_path, env=env
    )
    slugs = found(done.stdout)
    assert done.returncode == 2
    assert slugs.pop("m-waits") == ["document-unfinished"]
    assert len(slugs) == 10
    assert b"longer than 1.5 s" in done.stdout


def alive(pid: int) -> bool:
    try:
        return "\nState:\tZ" not in Path(f"/proc/{pid}/status").read_text(encoding="ascii", errors="replace")
    except OSError:
        return False


def children(pid: int) -> list[int]:
    return [
        int(child)
        for task in Path(f"/proc/{pid}/task").glob("*/children")
        for child in task.read_text(encoding="ascii").split()
    ]


def until(what: object, seconds: float = 60.0) -> None:
    """Waits until something is so."""
    assert callable(what)
    end = time.monotonic() + seconds
    while not what():
        assert time.monotonic() < end
        time.sleep(0.02)


@pytest.mark.skipif(not Path("/proc/self/task").is_dir(), reason="children are found in /proc")
@pytest.mark.parametrize(("number", "code"), [(signal.SIGINT, 130), (signal.SIGTERM, 143)])
def test_told_to_end_it_takes_its_workers_with_it(number: signal.Signals, code: int, tmp_path: Path) -> None:
    env = papers(tmp_path, "plain-3-waits", "plain-4-waits")
    process = subprocess.Popen(
        command("check", "papers", "--jobs", "2", "--format", "github"),
        cwd=tmp_path,
        env=env,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        # A test that was itself started in the background would leave it deaf.
        preexec_fn=lambda: signal.signal(signal.SIGINT, signal.SIG_DFL) and None,
    )
    site = Path(env["OBEDIENT"])
    until(lambda: (site / "plain-3-waits.md").exists() and (site / "plain-4-waits.md").exists())
    workers = children(process.pid)
    assert len(workers) == 2
    process.send_signal(number)
    said, errors = process.communicate(timeout=30)
    assert process.returncode == code
    assert b"Traceback" not in errors
    until(lambda: not any(map(alive, workers)), 10)
    # What was known by then was written.
    assert re.findall(rb"file=papers/([^,]*)", said) == [b"plain-0.md", b"plain-1.md", b"plain-2.md"]
    if number == signal.SIGINT:
        assert errors.split() == b"physcalc: stopped".split()


def on_terminal(arguments: list[str], cwd: Path, env: dict[str, str]) -> tuple[int, str]:
    """What a run writes to standard error, where that is a terminal."""
    import pty

    ours, theirs = pty.openpty()
    process = subprocess.Popen(
        command(*arguments), cwd=cwd, env={**env, "TERM": "xterm"}, stdout=subprocess.DEVNULL, stderr=theirs
    )
    os.close(theirs)
    said = b""
    try:
        while piece := os.read(ours, 4096):
            said += piece
    except OSError:
        pass  # So Linux says that the other side was closed.
    os.close(ours)
    return process.wait(60), said.decode()


def test_a_terminal_shows_how_far_it_is(tmp_path: Path) -> None:
    env = papers(tmp_path, *(f"slow-{number}" for number in range(20)))
    code, said = on_terminal(["check", "papers", "--jobs", "2"], tmp_path, env)
    assert code == 1
    counts = [int(count) for count in re.findall(r"checking (\d+) of 30", said)]
    assert counts == sorted(counts)
    assert any(0 < count < 30 for count in counts)
    assert re.search(r"checking \d+ of 30, \d+ s left", said)
    # The line is taken away before the last word.
    counted, hint = said.split("\r\n")[-3:-1]
    assert counted.endswith("\r\x1b[K30 problems in 30 files")
    assert "physcalc explain" in hint


def test_a_pipe_gets_the_count_alone(tmp_path: Path) -> None:
    env = papers(tmp_path, "slow-1")
    done = run("check", "papers", "--jobs", "2", cwd=tmp_path, env=env)
    assert done.stderr == b"11 problems in 11 files\n"


def test_a_few_documents_show_no_line(tmp_path: Path) -> None:
    (tmp_path / "a.md").write_text(paper(1, "9.80 N"), encoding="utf-8")
    assert on_terminal(["check", "a.md"], tmp_path, dict(os.environ)) == (
        0,
        "everything agrees in 1 file\r\n",
    )
