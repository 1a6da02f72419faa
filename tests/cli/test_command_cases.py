"""Every document in tests/command is run and must come out as it says. `pytest --accept` rewrites them."""

from __future__ import annotations

import shlex
import sys
from pathlib import Path

import pytest
from physcalc_filter.cli import main

sys.path.insert(0, str(Path(__file__).parent))
from cases import Run, read_case, write_case

FOLDER = Path(__file__).parents[1] / "command"
CASES = sorted(FOLDER.glob("*.md"))


def test_there_are_cases() -> None:
    assert CASES


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_case(
    path: Path,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    request: pytest.FixtureRequest,
) -> None:
    case = read_case(path)
    monkeypatch.chdir(tmp_path)
    for name, content in case.files.items():
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text(content, encoding="utf-8", newline="")
    accept = request.config.getoption("--accept")
    for run in case.runs:
        found = _outcome(run, tmp_path, capsys)
        if accept:
            run.expected = found
        else:
            assert found == run.expected, run.command
    if accept:
        write_case(path, case)


def _outcome(run: Run, folder: Path, capsys: pytest.CaptureFixture[str]) -> dict[tuple[str, str], str]:
    """What a command does, as the blocks of a case; those that the case asks for beyond the streams, too."""
    program, *argv = shlex.split(run.command)
    assert program == "physcalc"
    code = main(argv)
    out, err = capsys.readouterr()
    assert "physcalc itself has a fault here" not in err, err  # Such an outcome is never accepted.
    found = {("stdout", ""): out, ("stderr", ""): err, ("exit", ""): f"{code}\n" if code else ""}
    found = {block: body for block, body in found.items() if body}
    for kind, name in run.expected:
        if kind == "after":
            found[kind, name] = (folder / name).read_bytes().decode("utf-8")
        elif kind == "files":
            names = sorted(str(path.relative_to(folder)) for path in folder.rglob("*") if path.is_file())
            found[kind, name] = "".join(f"{name}\n" for name in names)
    return found
