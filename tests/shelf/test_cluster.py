"""The same shelf by a cluster: a scheduler and two workers of the library `distributed`, on this machine."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from physcalc_filter.cli import main
from physcalc_filter.report import FORMATS
from physcalc_filter.shelf import cluster
from shelf_papers import command, environment, paper, run, shelf

from physcalc import __version__

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="workers are killed by signals of POSIX")


class Cluster:
    """A scheduler and two workers, each with one thread, started in a folder in which there is nothing."""

    def __init__(self, folder: Path, env: dict[str, str]) -> None:
        self.folder = folder
        self.env = {**env, "TMPDIR": str(folder), "DASK_DISTRIBUTED__WORKER__PROFILE__ENABLED": "False"}
        self.address = ""
        self.processes: list[subprocess.Popen[bytes]] = []
        told = folder / "scheduler.json"
        self._start("dask_scheduler", "--port", "0", "--scheduler-file", str(told))
        self.address = str(self._read(told)["address"])
        for _ in range(2):
            self.add()

    def add(self) -> subprocess.Popen[bytes]:
        """One more worker."""
        return self._start("dask_worker", self.address, "--nthreads", "1", "--no-nanny")

    def _start(self, name: str, *arguments: str) -> subprocess.Popen[bytes]:
        process = subprocess.Popen(
            [
                sys.executable,
                "-m",
                f"distributed.cli.{name}",
                *arguments,
                "--host",
                "127.0.0.1",
                "--no-dashboard",
            ],
            cwd=self.folder,
            env=self.env,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        self.processes.append(process)
        return process

    @staticmethod
    def _read(told: Path) -> dict[str, object]:
        end = time.monotonic() + 60
        while time.monotonic() < end:
            try:
                return dict(json.loads(told.read_text(encoding="utf-8")))
            except (OSError, ValueError):
                time.sleep(0.05)
        pytest.fail("the scheduler did not start")

    def end(self) -> None:
        """Ends everything that was started."""
        for process in reversed(self.processes):
            process.kill()
            process.wait()


@pytest.fixture(scope="module")
def pair(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Cluster]:
    folder = tmp_path_factory.mktemp("cluster")
    made = Cluster(folder, environment(folder))
    yield made
    made.end()


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return shelf(tmp_path_factory.mktemp("shelf") / "papers").parent


@pytest.mark.parametrize("form", ["text", *FORMATS])
def test_the_same_report(form: str, folder: Path, pair: Cluster) -> None:
    arguments = ["check", "papers", "gone.md", "--format", form]
    here = run(*arguments, "--jobs", "1", cwd=folder)
    there = run(*arguments, "--cluster", pair.address, cwd=folder)
    assert (there.stdout, there.stderr, there.returncode) == (here.stdout, here.stderr, here.returncode)
    assert here.returncode == 2


@pytest.mark.parametrize("name", ["absolute", "upwards", "below"])
def test_the_same_report_under_other_names(name: str, folder: Path, pair: Cluster) -> None:
    path = {"absolute": str(folder / "papers"), "upwards": "../../papers", "below": "."}[name]
    cwd = {"absolute": folder, "upwards": folder / "papers" / "grade 11", "below": folder / "papers"}[name]
    here = run("check", path, "--format", "sarif", "--jobs", "1", cwd=cwd)
    there = run("check", path, "--format", "sarif", "--cluster", pair.address, cwd=cwd)
    assert (there.stdout, there.returncode) == (here.stdout, here.returncode)
    assert b"sheet-key-unknown" in here.stdout


def test_what_latex_reads_goes_with_it(tmp_path: Path, pair: Cluster) -> None:
    (tmp_path / "parts").mkdir()
    (tmp_path / "pictures").mkdir()
    (tmp_path / "parts" / "one.tex").write_text(
        "\\physbegin{nothing}\nA part: \\physvalue{v}.\n", encoding="utf-8"
    )
    (tmp_path / "parts" / "bytes.tex").write_bytes(b"\xff")
    (tmp_path / "parts" / "link.tex").symlink_to(tmp_path.parent / "elsewhere.tex")
    (tmp_path / "pictures" / "lift.png").write_bytes(b"no picture, but it is there")
    (tmp_path / "test.tex").write_text(
        "\\documentclass{article}\n\\usepackage{physcalc}\n\\graphicspath{{pictures/}}\n\\begin{document}\n"
        "\\input{parts/one}\n\\input{parts/bytes.tex}\n\\input{parts/on}\n\\input{../out}\n\\input{parts/link}\n"
        "\\includegraphics[width=3cm, trim={0 0 0 1cm}]{lift}\n\\includegraphics{gone}\n\\end{document}\n",
        encoding="utf-8",
    )
    here = run("check", "test.tex", "--format", "json", "--jobs", "1", cwd=tmp_path)
    there = run("check", "test.tex", "--format", "json", "--cluster", pair.address, cwd=tmp_path)
    folder = run("check", ".", "--format", "json", "--cluster", pair.address, cwd=tmp_path)
    # Of the folder it is the only document; what it reads is checked with it.
    assert folder.stdout == here.stdout
    assert (there.stdout, there.stderr, there.returncode) == (here.stdout, here.stderr, here.returncode)
    problems = json.loads(here.stdout)
    assert {(one["file"], one["line"]) for one in problems} >= {("test.tex", line) for line in (7, 8, 9, 11)}
    assert "parts/bytes.tex" in {one["file"] for one in problems}


def test_settings_sheets_and_limits_go_with_a_document(folder: Path, pair: Cluster) -> None:
    sheet = f"sheet={folder / 'elsewhere.yaml'}"
    arguments = ["check", "papers", "--set", sheet, "--limit", "digits=1", "--strict", "--max-problems", "1"]
    here = run(*arguments, "--jobs", "1", cwd=folder)
    there = run(*arguments, "--cluster", pair.address, cwd=folder)
    assert (there.stdout, there.stderr, there.returncode) == (here.stdout, here.stderr, here.returncode)
    assert b"number-too-long" in here.stdout
    assert b"sheet-unknown" not in here.stdout


def test_what_happens_to_a_process_is_told_of_its_document(tmp_path: Path, pair: Cluster) -> None:
    (tmp_path / "papers").mkdir()
    for name in ("a", "b-dies-always", "c", "d-waits", "e"):
        (tmp_path / "papers" / f"{name}.md").write_text(paper(2, "1.00 N"), encoding="utf-8")
    done = run(
        "check", "papers", "--cluster", pair.address, "--timeout", "1.5", "--format", "json", cwd=tmp_path
    )
    assert [problem["slug"] for problem in json.loads(done.stdout)] == [
        "answer-disagrees", "worker-died", "answer-disagrees", "document-unfinished", "answer-disagrees",
    ]  # fmt: skip
    assert done.returncode == 2


def test_a_worker_killed_in_the_middle_loses_nothing(tmp_path: Path, pair: Cluster) -> None:
    (tmp_path / "papers").mkdir()
    for number in range(40):
        text = paper(number + 1, "1.00 N")
        (tmp_path / "papers" / f"slow-{number:02}.md").write_text(text, encoding="utf-8")
    here = run("check", "papers", "--format", "github", "--jobs", "2", cwd=tmp_path)
    victim = pair.processes[-1]
    process = subprocess.Popen(
        command("check", "papers", "--format", "github", "--cluster", pair.address),
        cwd=tmp_path,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    )
    assert process.stdout is not None
    first = process.stdout.readline()
    # 40 documents of a quarter of a second each, by two workers: most are still to come, and one is under way here.
    victim.send_signal(signal.SIGKILL)
    victim.wait()
    assert process.poll() is None
    rest, errors = process.communicate(timeout=120)
    pair.add()
    assert first + rest == here.stdout
    assert (errors, process.returncode) == (here.stderr or b"", here.returncode)
    assert len((first + rest).splitlines()) == 40


def test_another_version_is_told(
    folder: Path, pair: Cluster, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(cluster, "__version__", "0.0.1")
    monkeypatch.chdir(folder)
    assert main(["check", "papers", "--cluster", pair.address]) == 2
    said = capsys.readouterr().err
    assert (
        f"cluster-unlike: a worker of the cluster has physcalc {__version__}, and this is physcalc 0.0.1"
        in said
    )


def test_without_the_library(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setitem(sys.modules, "distributed", None)
    (tmp_path / "a.md").write_text("text\n", encoding="utf-8")
    assert main(["check", str(tmp_path), "--cluster", "tcp://127.0.0.1:1"]) == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert "cluster-missing" in said.err
    assert "pip install 'physcalc[cluster]'" in said.err


def test_without_a_scheduler(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(cluster, "CONNECT", 1.0)
    (tmp_path / "a.md").write_text("text\n", encoding="utf-8")
    assert main(["check", str(tmp_path), "--cluster", "tcp://127.0.0.1:1"]) == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert 'cluster-unreachable: the cluster at "tcp://127.0.0.1:1" does not answer' in said.err


def test_without_workers(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(cluster, "WORKERS", 1.0)
    (tmp_path / "a.md").write_text("text\n", encoding="utf-8")
    told = tmp_path / "scheduler.json"
    alone = subprocess.Popen(
        [sys.executable, "-m", "distributed.cli.dask_scheduler", "--port", "0", "--scheduler-file", str(told),
         "--host", "127.0.0.1", "--no-dashboard"],
        cwd=tmp_path, env=dict(os.environ), stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
    )  # fmt: skip
    try:
        address = str(Cluster._read(told)["address"])
        assert main(["check", str(tmp_path), "--cluster", address]) == 2
    finally:
        alone.kill()
        alone.wait()
    assert "had no worker within 1 s" in capsys.readouterr().err


def test_a_cluster_has_its_own_workers(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "a.md").write_text("text\n", encoding="utf-8")
    assert main(["check", str(tmp_path), "--cluster", "tcp://127.0.0.1:1", "--jobs", "2"]) == 2
    assert "leave --jobs out" in capsys.readouterr().err
