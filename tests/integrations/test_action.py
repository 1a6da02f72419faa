"""The action for CI jobs: its form, against the published schema, and its commands, run in a shell."""

from __future__ import annotations

import os
import subprocess
import sys
import venv
from pathlib import Path
from typing import Any

import pytest
import yaml

ACTION = Path(__file__).parents[2] / "action.yml"


@pytest.fixture(scope="module")
def steps() -> list[dict[str, Any]]:
    return list(yaml.safe_load(ACTION.read_text(encoding="utf-8"))["runs"]["steps"])


def test_it_has_the_form_of_an_action() -> None:
    """The schema of schemastore.org, which the package check-jsonschema carries."""
    command = [sys.executable, "-m", "check_jsonschema", "--builtin-schema", "vendor.github-actions"]
    done = subprocess.run([*command, str(ACTION)], capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr


def test_no_input_is_part_of_a_script(steps: list[dict[str, Any]]) -> None:
    """GitHub's documentation, "Security hardening for GitHub Actions": inputs go through variables."""
    assert not any("${{" in step.get("run", "") for step in steps)


@pytest.fixture(scope="module")
def job(
    checkout: Path, tmp_path_factory: pytest.TempPathFactory, steps: list[dict[str, Any]]
) -> dict[str, str]:
    """The variables of a job in which the action has installed the program."""
    temporary = tmp_path_factory.mktemp("runner")
    # Of the packages that it needs, those of the tests are taken; a job of its own gets them from PyPI.
    venv.create(temporary / "physcalc", system_site_packages=False, with_pip=True)
    (site,) = (temporary / "physcalc").glob("lib/python*/site-packages")
    (site / "packages_of_the_tests.pth").write_text(
        "\n".join(path for path in sys.path if "site-packages" in path)
    )
    variables = os.environ | {
        "RUNNER_TEMP": str(temporary),
        "GITHUB_ACTION_PATH": str(checkout),
        "PIP_NO_DEPS": "1",
        "PATH": f"{Path(sys.executable).parent}:{os.environ['PATH']}",
    }
    (install,) = (step["run"] for step in steps if step["name"] == "Install physcalc")
    # The environment is there already: making it anew would lose the packages.
    install = install.replace('python -m venv "$RUNNER_TEMP/physcalc"', ":")
    done = subprocess.run(
        ["bash", "-e", "-c", install], env=variables, capture_output=True, text=True, timeout=300
    )
    assert done.returncode == 0, done.stdout + done.stderr
    return variables


def check(
    job: dict[str, str], steps: list[dict[str, Any]], folder: Path, paths: str
) -> subprocess.CompletedProcess[str]:
    (step,) = (step for step in steps if step["name"] == "Check")
    assert list(step["env"]) == ["PATHS"]
    # As the runner calls it: `shell: bash` means this.
    command = ["bash", "--noprofile", "--norc", "-e", "-o", "pipefail", "-c", step["run"]]
    return subprocess.run(command, cwd=folder, env=job | {"PATHS": paths}, capture_output=True, text=True)


def test_a_job_fails_where_something_disagrees(
    job: dict[str, str], steps: list[dict[str, Any]], wrong: str, tmp_path: Path
) -> None:
    folder = tmp_path / "my papers"
    folder.mkdir()
    (folder / "a.md").write_text(wrong, encoding="utf-8")
    (tmp_path / "b.md").write_text(wrong.replace("174.00", "147.00"), encoding="utf-8")
    done = check(job, steps, tmp_path, "my papers\nb.md\n")
    assert done.returncode == 1, done.stderr
    (line,) = done.stdout.splitlines()
    assert line.startswith("::error file=my papers/a.md,line=11,")
    assert check(job, steps, tmp_path, "b.md").returncode == 0


def test_a_path_is_never_a_command(job: dict[str, str], steps: list[dict[str, Any]], tmp_path: Path) -> None:
    done = check(job, steps, tmp_path, "$(touch gone)\n`touch gone`; touch gone\n--help\n")
    assert done.returncode == 2
    assert done.stdout.count("file-missing") == 3
    assert not (tmp_path / "gone").exists()
