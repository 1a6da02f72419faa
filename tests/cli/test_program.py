"""The program as a whole: what it imports, what it shows of a fault, and that everything is explained."""

from __future__ import annotations

import io
import re
import subprocess
import sys
from pathlib import Path

import click
import pytest
from physcalc_filter import pipeline
from physcalc_filter.cli import main, screen
from physcalc_filter.cli.explain import every_problem
from physcalc_filter.cli.start import COMMANDS, commands
from physcalc_filter.outputs import ENDINGS
from physcalc_filter.report import FORMATS

from physcalc.problems import Problem

ROOT = Path(__file__).parents[2]
HEAVY = {"sympy", "pint", "numpy", "panflute", "lark", "mpmath", "yaml", "nestedtext", "pypandoc", "typst"}


def out_of(capsys: pytest.CaptureFixture[str], *argv: str) -> str:
    assert main(list(argv)) == 0
    return capsys.readouterr().out


def imported(*argv: str) -> set[str]:
    """The libraries that a fresh process has imported after a command."""
    code = (
        "import sys; from physcalc_filter.cli import main; code = main(sys.argv[1:]);"
        "print(*{name.partition('.')[0] for name in sys.modules}, file=sys.stderr); sys.exit(code)"
    )
    done = subprocess.run([sys.executable, "-c", code, *argv], capture_output=True, text=True, check=True)
    return set(done.stderr.split())


@pytest.mark.parametrize("argv", [["--version"], ["--help"], ["build", "--help"], ["check", "--help"]])
def test_nobody_waits_for_libraries_to_be_told_the_version(argv: list[str]) -> None:
    modules = imported(*argv)
    assert "physcalc_filter" in modules
    assert not modules & HEAVY


def every_option() -> list[tuple[str, click.Option]]:
    context = click.Context(commands)
    found = []
    for name in COMMANDS:
        command = commands.get_command(context, name)
        assert command is not None
        found += [(name, option) for option in command.params if isinstance(option, click.Option)]
    return found


@pytest.mark.parametrize("name", COMMANDS)
def test_the_help_of_a_command_has_examples_that_name_it(
    name: str, capsys: pytest.CaptureFixture[str]
) -> None:
    text = out_of(capsys, name, "--help")
    assert len(re.findall(rf"^  physcalc {name}\b", text, re.MULTILINE)) >= 2
    assert name in out_of(capsys, "--help")


@pytest.mark.parametrize(("name", "option"), every_option(), ids=lambda value: str(value))
def test_every_option_is_explained(
    name: str, option: click.Option, capsys: pytest.CaptureFixture[str]
) -> None:
    text = out_of(capsys, name, "--help")
    assert option.help
    assert all(word in text for word in option.opts)


def test_the_help_names_every_ending_and_format(capsys: pytest.CaptureFixture[str]) -> None:
    text = out_of(capsys, "build", "--help")
    assert all(ending in text for ending in ENDINGS)
    text = out_of(capsys, "check", "--help")
    assert all(form in text for form in FORMATS)


def test_every_slug_in_the_sources_is_known() -> None:
    typed: set[str] = set()
    for folder in ("physcalc", "filter"):
        for path in (ROOT / folder).rglob("*.py"):
            typed |= set(re.findall(r'slug: ClassVar\[str\] = "([^"]+)"', path.read_text(encoding="utf-8")))
    assert typed == set(every_problem())


def test_every_slug_stands_in_the_list(capsys: pytest.CaptureFixture[str]) -> None:
    lines = out_of(capsys, "explain").splitlines()
    assert [line.split()[0] for line in lines] == sorted(every_problem())
    assert all(len(line.split()) > 3 for line in lines)


@pytest.mark.parametrize("slug", sorted(every_problem()))
def test_explain_knows_it(slug: str, capsys: pytest.CaptureFixture[str]) -> None:
    kind = every_problem()[slug]
    text = out_of(capsys, "explain", slug)
    assert text.startswith(f"{slug}: ")
    assert "Attributes:" not in text
    assert re.fullmatch("[a-z0-9]+(-[a-z0-9]+)*", slug)
    for heading, example in (("Wrong:", kind.wrong), ("Right:", kind.right)):
        assert (heading in text) == bool(example)
        assert all(line.strip() in text for line in example.splitlines())


def test_slugs_are_unique() -> None:
    slugs = [kind.slug for kind in Problem.every() if "physcalc" in kind.__module__]
    assert len(slugs) == len(set(slugs))


def _fault(*_: object, **__: object) -> None:
    raise ZeroDivisionError("one by\nnought")


@pytest.mark.parametrize("argv", [["build", "a.md", "-o", "a.html"], ["check", "a.md"], ["fix", "a.md"]])
def test_a_fault_is_one_line_and_how_to_report_it(
    argv: list[str],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("PHYSCALC_DEBUG", raising=False)
    (tmp_path / "a.md").write_text("Text\n", encoding="utf-8")
    for stage in ("check", "build"):
        monkeypatch.setattr(pipeline, stage, _fault)
    assert main(argv) == 2
    streams = "".join(capsys.readouterr())
    assert "program-fault: physcalc itself has a fault here (ZeroDivisionError: one by nought)" in streams
    assert "report" in streams
    assert "Traceback" not in streams


def test_a_fault_is_shown_whole_when_asked(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("PHYSCALC_DEBUG", "1")
    monkeypatch.setattr(pipeline, "check", _fault)
    (tmp_path / "a.md").write_text("Text\n", encoding="utf-8")
    assert main(["check", str(tmp_path / "a.md")]) == 2
    assert "Traceback" in capsys.readouterr().err


def test_a_fault_in_one_document_hides_no_other(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("PHYSCALC_DEBUG", raising=False)
    sound = pipeline.check

    def check(source, overrides=(), **more):  # type: ignore[no-untyped-def]
        return _fault() if source.name == "a.md" else sound(source, overrides, **more)

    monkeypatch.setattr(pipeline, "check", check)
    (tmp_path / "a.md").write_text("Text\n", encoding="utf-8")
    (tmp_path / "b.md").write_text("```{.given}\n```\n", encoding="utf-8")
    assert main(["check", "a.md", "b.md"]) == 2
    out = capsys.readouterr().out
    assert re.search(r"^a\.md:.*program-fault", out, re.MULTILINE)
    assert re.search(r"^b\.md:.*block-empty", out, re.MULTILINE)


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


def test_colours_only_for_a_person_who_wants_them(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TERM", "xterm")
    monkeypatch.delenv("NO_COLOR", raising=False)
    assert screen.coloured(Terminal())
    assert not screen.coloured(io.StringIO())
    # https://no-color.org: "when present and not an empty string".
    monkeypatch.setenv("NO_COLOR", "")
    assert screen.coloured(Terminal())
    monkeypatch.setenv("NO_COLOR", "1")
    assert not screen.coloured(Terminal())


def test_a_person_is_told_where_more_is_said(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "a.md").write_text("```{.given}\n```\n", encoding="utf-8")
    main(["check", str(tmp_path / "a.md")])
    assert "physcalc explain" not in capsys.readouterr().err
    monkeypatch.setattr(screen, "is_terminal", lambda stream: True)
    main(["check", str(tmp_path / "a.md")])
    assert "physcalc explain" in capsys.readouterr().err


def test_any_text_can_be_shown_in_any_encoding(tmp_path: Path) -> None:
    (tmp_path / "a.md").write_text("# A {.question}\n\n[5 m·s⁻²]{.value of=Δv}\n", encoding="utf-8")
    code = "import sys; from physcalc_filter.cli import main; sys.exit(main(['check', 'a.md']))"
    done = subprocess.run(
        [sys.executable, "-X", "utf8=0", "-c", code],
        capture_output=True,
        cwd=tmp_path,
        env={"PYTHONIOENCODING": "ascii", "PATH": "/usr/bin:/bin", "PYTHONPATH": ":".join(sys.path)},
        check=False,
    )
    assert done.returncode == 1
    assert b"name-without-value" in done.stdout


def test_documents_of_a_folder_come_in_order(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    for name in ("b/2.md", "b/10.md", "a.md", "b/.hidden.md", ".git/x.md", "b/c/3.md", "notes.txt"):
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text("```{.given}\n```\n", encoding="utf-8")
    assert main(["check", ".", "a.md"]) == 1
    places = re.findall(r"^(\S+?):\d+:", capsys.readouterr().out, re.MULTILINE)
    assert places == ["a.md", "b/10.md", "b/2.md", "b/c/3.md"]
