"""Answers that are kept: with the store and without it everything comes out the same, whatever was changed between."""

from __future__ import annotations

import io
import os
import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from physcalc_filter import pandoc_entry
from physcalc_filter.cache import VARIABLE, Store, program, stamp
from physcalc_filter.cli import main
from physcalc_filter.document import read_markup, write_json

ROOT = Path(__file__).resolve().parents[2]

SHEET = """title: Ours
constants:
  g: {value: %s m/s^2, title: acceleration due to gravity}
"""

PAPER = """---
edition: memo
lang: en-ZA
physcalc:
  sheet: ours.yaml
---

# Question {.question marks=2}

```{.calc}
given:
  m: 2 kg
formula: w = m g
find: w in N to 1 dp
```
"""


@pytest.fixture
def place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A working folder, and a store beside it that the program uses."""
    (tmp_path / "work").mkdir()
    monkeypatch.chdir(tmp_path / "work")
    monkeypatch.setenv(VARIABLE, str(tmp_path / "cache"))
    return tmp_path / "work"


@pytest.fixture
def worked(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """What was worked out by the filter, and not found."""
    from physcalc_filter import pandoc_run

    found: list[str] = []
    answer = pandoc_run.answer

    def told(text: str, format: str) -> pandoc_run.Answer:
        found.append(format)
        return answer(text, format)

    monkeypatch.setattr(pandoc_run, "answer", told)
    return found


def store() -> Store:
    return Store(os.environ[VARIABLE])


def entries() -> list[Path]:
    return [Path(path) for path, _ in store().entries()]


def tree(text: str) -> bytes:
    return write_json(read_markup(text)).encode()


def filtered(text: str, format: str = "html", kept: bool = True) -> tuple[bytes | None, str]:
    return pandoc_entry.answered(tree(text), format, store() if kept else None)


# The filter


def test_a_document_is_worked_out_once(place: Path, worked: list[str]) -> None:
    (place / "ours.yaml").write_text(SHEET % "9.8", encoding="utf-8")
    first = filtered(PAPER)
    assert b"19" in (first[0] or b"")
    assert [filtered(PAPER), filtered(PAPER)] == [first, first]
    assert worked == ["html"]
    assert filtered(PAPER, kept=False) == first
    assert worked == ["html", "html"]


@pytest.mark.parametrize("change", ["changed", "gone", "new folder", "link"])
def test_a_changed_sheet_is_seen(place: Path, worked: list[str], change: str) -> None:
    sheet = place / "ours.yaml"
    sheet.write_text(SHEET % "9.8", encoding="utf-8")
    known = sheet.stat()
    first = filtered(PAPER)
    if change == "changed":
        # Of the same length and with the same time, as after a careless copy.
        sheet.write_text(SHEET % "1.6", encoding="utf-8")
        os.utime(sheet, ns=(known.st_atime_ns, known.st_mtime_ns))
    elif change == "gone":
        sheet.unlink()
    elif change == "link":
        sheet.rename(place / "other.yaml")
        sheet.symlink_to(place / "other.yaml")
    else:
        (place / "new").mkdir()
        (place / "new" / "ours.yaml").write_text(SHEET % "1.6", encoding="utf-8")
        os.chdir(place / "new")
    second = filtered(PAPER)
    assert len(worked) == 2
    assert (second == first) == (change == "link")
    assert second == filtered(PAPER, kept=False)
    assert (second[0] is None) == (change == "gone")


def test_a_sheet_that_comes_is_seen(place: Path) -> None:
    before = filtered(PAPER)
    assert before[0] is None
    assert "sheet-unknown" in before[1]
    (place / "ours.yaml").write_text(SHEET % "9.8", encoding="utf-8")
    assert filtered(PAPER)[0] is not None


def test_a_sheet_below_a_sheet_is_seen(place: Path) -> None:
    (place / "ours.yaml").write_text("title: Ours\nextends: base.yaml\n", encoding="utf-8")
    (place / "base.yaml").write_text(SHEET % "9.8", encoding="utf-8")
    first = filtered(PAPER)
    assert first[0] is not None
    (place / "base.yaml").write_text(SHEET % "1.6", encoding="utf-8")
    second = filtered(PAPER)
    assert second != first
    assert second == filtered(PAPER, kept=False)


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes")
def test_a_pipe_in_the_place_of_a_sheet_is_not_waited_for(place: Path) -> None:
    (place / "ours.yaml").write_text(SHEET % "9.8", encoding="utf-8")
    filtered(PAPER)
    (place / "ours.yaml").unlink()
    os.mkfifo(place / "ours.yaml")
    assert filtered(PAPER)[0] is None


def test_the_format_counts(place: Path, worked: list[str]) -> None:
    (place / "ours.yaml").write_text(SHEET % "9.8", encoding="utf-8")
    assert len({filtered(PAPER, form)[0] for form in ("html", "latex", "typst")}) == 3
    assert worked == ["html", "latex", "typst"]


def test_limits_count(place: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (place / "ours.yaml").write_text(SHEET % "9.8", encoding="utf-8")
    assert filtered(PAPER)[0] is not None
    monkeypatch.setenv("PHYSCALC_LIMITS", "formula-length=3")
    refused = filtered(PAPER)
    assert refused[0] is None
    assert refused == filtered(PAPER, kept=False)


def test_what_is_said_is_said_again(place: Path, worked: list[str]) -> None:
    wrong = PAPER.replace("  sheet: ours.yaml\n", "  sheet: school\n").replace(
        "find: w in N to 1 dp", "find: w in N to 1 dp\nanswer: 30 N"
    )
    first = filtered(wrong)
    assert first[0] is None
    assert "answer-disagrees" in first[1]
    assert filtered(wrong) == first
    assert worked == ["html"]


def test_another_version_is_worked_out_anew(
    place: Path, worked: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    (place / "ours.yaml").write_text(SHEET % "9.8", encoding="utf-8")
    first = filtered(PAPER)
    other = b"another program"
    monkeypatch.setattr(program, "_program", lambda: other)
    assert filtered(PAPER) == first
    assert len(worked) == 2


def test_damaged_and_foreign_entries_are_not_used(place: Path, worked: list[str]) -> None:
    (place / "ours.yaml").write_text(SHEET % "9.8", encoding="utf-8")
    first, other = filtered(PAPER), filtered(PAPER.replace("2 kg", "3 kg"))
    assert first != other
    one, two = entries()
    held = one.read_bytes(), two.read_bytes()
    one.write_bytes(held[1])
    two.write_bytes(held[0])
    assert filtered(PAPER) == first
    assert filtered(PAPER.replace("2 kg", "3 kg")) == other
    assert len(worked) == 4
    for path in entries():
        path.write_bytes(path.read_bytes()[:-1])
    assert filtered(PAPER) == first
    assert len(worked) == 5
    for path in entries():
        path.write_bytes(b"")
    assert filtered(PAPER) == first


def test_an_entry_that_was_made_on_purpose_does_no_harm(place: Path) -> None:
    """Whoever can write into the folder can write what they like; but nothing that they write is run."""
    from physcalc_filter.cache.remembered import recall

    key = b"key"
    for content in (
        b"",
        b"1",
        b"1\n",
        b"-5\n[]",
        b"9\nx",
        b"2\n[]notzlib",
        b'3\n"a"x',
        b'7\n[["a"]]x',
        b"99999999999\n[]",
    ):
        store().put("filter", key, content)
        assert recall(store(), "filter", key) is None


def test_a_store_that_cannot_be_used_changes_nothing(
    place: Path, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    (place / "ours.yaml").write_text(SHEET % "9.8", encoding="utf-8")
    (tmp_path / "file").write_text("", encoding="utf-8")
    monkeypatch.setenv(VARIABLE, str(tmp_path / "file"))
    assert filtered(PAPER) == filtered(PAPER, kept=False)


@pytest.mark.skipif(os.name != "posix", reason="a working folder cannot be taken away")
def test_a_working_folder_that_is_gone(place: Path) -> None:
    data = tree(PAPER.replace("  sheet: ours.yaml\n", "  sheet: school\n"))
    (place / "gone").mkdir()
    os.chdir(place / "gone")
    (place / "gone").rmdir()
    written, said = pandoc_entry.answered(data, "html", store())
    os.chdir(place)
    assert said == ""
    assert written == pandoc_entry.answered(data, "html", None)[0]
    assert entries() == []


def test_a_program_whose_files_cannot_be_looked_at(place: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """As in an archive of modules."""

    def refused() -> bytes:
        raise NotADirectoryError

    monkeypatch.setattr(program, "_program", refused)
    text = PAPER.replace("  sheet: ours.yaml\n", "  sheet: school\n")
    (place / "paper.md").write_text(text, encoding="utf-8")
    assert filtered(text)[0] is not None
    assert checked("paper.md")[0] == 0
    assert entries() == []


def test_what_is_no_document_is_not_kept(place: Path) -> None:
    assert pandoc_entry.answered(b"rubbish", "html", store())[0] is None
    assert entries() == []


QUESTION = """
# Question {{.question #q{number} marks={marks}}}

A body of `m`{{.value}} and [{typed}]{{.value of=a}}.

```{{.calc}}
given:
  m: {mass} kg
  a: {acceleration} m/s^2
formula: F = m a
find: F in N to {places} dp
{answer}
```
"""

questions = st.builds(
    QUESTION.format,
    number=st.integers(1, 3),
    marks=st.integers(2, 4),
    mass=st.integers(1, 5),
    acceleration=st.integers(1, 5),
    typed=st.sampled_from(["2 m/s^2", "3 m/s^2", "3 m"]),
    places=st.integers(0, 2),
    answer=st.sampled_from(["", "answer: 6 N", "answer: 6,00 N", "accept: choices"]),
)
fronts = st.builds(
    "---\nlang: {}\nedition: {}\ndraft: {}\nphyscalc:\n  rounding: {}\n  sheet: {}\n---\n".format,
    st.sampled_from(["en-ZA", "en-GB"]),
    st.sampled_from(["paper", "memo", "guide", "frog"]),
    st.sampled_from(["true", "false"]),
    st.sampled_from(["half-up", "half-even", "down"]),
    st.sampled_from(["school", "ours.yaml"]),
)
documents = st.builds("{}{}".format, fronts, st.lists(questions, min_size=1, max_size=2).map("".join))
sheets = st.sampled_from([SHEET % "9.8", SHEET % "9.81", "title: x\n", "rubbish", None])


@settings(
    max_examples=25,
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
@given(steps=st.lists(st.tuples(documents, sheets), min_size=2, max_size=4))
def test_with_the_store_and_without_it_all_is_the_same(
    place: Path, steps: list[tuple[str, str | None]]
) -> None:
    """Documents one after the other, each twice, and the first again, the sheet changed between."""
    for text, sheet in (*steps, *steps[:1]):
        path = place / "ours.yaml"
        path.unlink(missing_ok=True)
        if sheet is not None:
            path.write_text(sheet, encoding="utf-8")
        data = tree(text)
        plain = pandoc_entry.answered(data, "html", None)
        assert pandoc_entry.answered(data, "html", store()) == plain
        assert pandoc_entry.answered(data, "html", store()) == plain
        (place / "paper.md").write_text(text, encoding="utf-8")
        assert checked("paper.md", "--no-cache") == checked("paper.md") == checked("paper.md")


# What a run depends on


OPENED = """
import sys
from pathlib import Path
opened = []
watching = False

def watch(event, arguments):
    if watching and event in ("open", "os.listdir", "os.scandir", "subprocess.Popen", "socket.connect", "os.system"):
        opened.append((event, str(arguments[0])))

sys.addaudithook(watch)
from physcalc_filter import pandoc_entry, pandoc_run
from physcalc_filter.cache import Witness
data = Path(sys.argv[1]).read_bytes()
witness = Witness()
watching = True
pandoc_entry._worked_out(data, sys.argv[2], witness)
watching = False
known = {name for name, *_ in witness.files()}
roots = tuple(str(Path(root).resolve()) for root in {*sys.path, sys.prefix, sys.base_prefix, sys.argv[3]} if root)
for event, name in opened:
    inside = str(Path(name).resolve()).startswith(roots)
    if not inside and name not in known:
        print(event, name)
"""


@pytest.mark.parametrize("format", ["html", "latex"])
def test_a_run_reads_no_file_that_its_answer_does_not_remember(tmp_path: Path, format: str) -> None:
    """Every file that is opened, folder that is listed or program that is run while documents are worked out.

    Python's audit events (Python documentation, "Audit events table") tell of them.
    """
    texts = [path.read_text(encoding="utf-8") for path in sorted(ROOT.glob("example_docs/*.md"))]
    texts = [text for text in texts if "{.calc}" in text][:6]
    assert len(texts) > 3
    (tmp_path / "ours.yaml").write_text(SHEET % "9.8", encoding="utf-8")
    for text in (PAPER, *texts):
        (tmp_path / "tree.json").write_bytes(tree(text))
        done = subprocess.run(
            [sys.executable, "-c", OPENED, str(tmp_path / "tree.json"), format, str(ROOT)],
            cwd=tmp_path,
            env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)},
            capture_output=True,
            text=True,
            check=False,
        )
        assert (done.returncode, done.stdout) == (0, ""), done.stderr


def test_a_kept_answer_loads_nothing(place: Path, tmp_path: Path) -> None:
    """Neither panflute nor the engine, nor what reads blocks and sheets."""
    (place / "ours.yaml").write_text(SHEET % "9.8", encoding="utf-8")
    script = tmp_path / "ours.py"
    script.write_text(
        "import sys\nfrom physcalc_filter.pandoc_entry import main\ncode = main(['html'])\n"
        "print(sorted(name for name in sys.modules if name.split('.')[0] in\n"
        "    ('panflute', 'lark', 'yaml', 'sympy', 'physcalc', 'pint', 'dataclasses')), file=sys.stderr)\n"
        "sys.exit(code)\n",
        encoding="utf-8",
    )

    def run() -> tuple[bytes, str]:
        done = subprocess.run(
            [sys.executable, str(script)],
            input=tree(PAPER),
            capture_output=True,
            env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)},
            check=True,
        )
        return done.stdout, done.stderr.decode().strip()

    (first, _), (second, loaded) = run(), run()
    assert first == second
    assert first
    assert loaded == "[]"


def test_the_stamp_is_the_programs(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    before = stamp()
    assert stamp() == before
    for name, same in (("PHYSCALC_CACHE", True), ("PHYSCALC_LIMITS", False), ("HARMLESS", True)):
        with monkeypatch.context() as patched:
            patched.setenv(name, "digits=7")
            assert (stamp() == before) == same
    with monkeypatch.context() as patched:
        (tmp_path / "pandoc").write_text("", encoding="utf-8")
        patched.setenv("PATH", f"{tmp_path}{os.pathsep}{os.environ['PATH']}")
        assert stamp() != before


def test_a_changed_source_of_the_program_is_seen(tmp_path: Path) -> None:
    (tmp_path / "below" / "__pycache__").mkdir(parents=True)
    (tmp_path / "below" / "one.py").write_text("a", encoding="utf-8")
    before = list(program._sources(str(tmp_path)))
    (tmp_path / "below" / "__pycache__" / "one.pyc").write_text("a", encoding="utf-8")
    assert list(program._sources(str(tmp_path))) == before
    (tmp_path / "below" / "one.py").write_text("bc", encoding="utf-8")
    assert list(program._sources(str(tmp_path))) != before
    (tmp_path / "below" / "one.py").write_text("a", encoding="utf-8")
    (tmp_path / "two.py").write_text("", encoding="utf-8")
    assert list(program._sources(str(tmp_path))) != before


# check


def checked(*words: str) -> tuple[int, str, str]:
    """The exit code of a check, and what it printed."""
    out, err = sys.stdout, sys.stderr
    sys.stdout, sys.stderr = io.StringIO(), io.StringIO()
    try:
        code = main(["check", *words])
        return code, sys.stdout.getvalue(), sys.stderr.getvalue()
    finally:
        sys.stdout, sys.stderr = out, err


def test_a_document_is_checked_once(place: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from physcalc_filter import pipeline

    runs: list[str] = []
    check = pipeline.check

    def told(source: object, *rest: object, **named: object) -> object:
        runs.append(source.name)  # type: ignore[attr-defined]
        return check(source, *rest, **named)  # type: ignore[arg-type]

    monkeypatch.setattr(pipeline, "check", told)
    (place / "ours.yaml").write_text(SHEET % "9.8", encoding="utf-8")
    (place / "paper.md").write_text(PAPER.replace("to 1 dp", "to 1 dp\nanswer: 7 N"), encoding="utf-8")
    first = checked("paper.md")
    assert first[0] == 1
    assert "answer-disagrees" in first[1]
    assert checked("paper.md") == first
    assert len(runs) == 1
    # Each of these is another question.
    for words in (["--strict"], ["--format", "json"], ["--set", "decimal=comma"], ["--max-problems", "5"]):
        told_now = checked("paper.md", *words)
        assert checked("paper.md", *words) == told_now
        assert checked("paper.md", "--no-cache", *words) == told_now
    assert len(runs) == 1 + 4 * 2
    (place / "ours.yaml").write_text(SHEET % "3.5", encoding="utf-8")
    assert checked("paper.md")[0] == 0
    (place / "again.md").write_text((place / "paper.md").read_text(encoding="utf-8"), encoding="utf-8")
    assert checked("again.md")[0] == 0
    assert runs[-1] == "again.md"


@pytest.mark.parametrize("form", ["text", "json", "junit", "sarif", "github"])
def test_every_format_is_kept_whole(place: Path, form: str) -> None:
    (place / "ours.yaml").write_text("title: x\nconstant:\n  g: 9\n", encoding="utf-8")
    (place / "paper.md").write_text(
        PAPER.replace("to 1 dp", "to 1 dp\nanswer: 7 N\nhint: é \u2028 \U0001f600 ]]>"), encoding="utf-8"
    )
    plain = checked("paper.md", "--no-cache", "--format", form)
    assert plain[0]
    for _ in range(3):
        assert checked("paper.md", "--format", form) == plain
    assert len(entries()) == 1


def test_what_cannot_be_read_is_tried_again(place: Path) -> None:
    (place / "paper.md").write_text("---\nlang: [\n---\n", encoding="utf-8")
    assert checked("paper.md")[0] == 2
    assert checked("missing.md")[0] == 2
    assert entries() == []


def test_several_processes_use_one_store(place: Path) -> None:
    (place / "ours.yaml").write_text(SHEET % "9.8", encoding="utf-8")
    for number in range(6):
        text = PAPER.replace("m: 2 kg", f"m: {number + 1} kg").replace("to 1 dp", "to 1 dp\nanswer: 19.6 N")
        (place / f"paper{number}.md").write_text(text, encoding="utf-8")
    plain = checked(".", "--no-cache", "--jobs", "2")
    assert plain[0] == 1
    assert checked(".", "--jobs", "2") == plain
    assert len(entries()) == 6
    assert checked(".", "--jobs", "2") == plain


# The command


def test_the_command_shows_and_clears(place: Path, capsys: pytest.CaptureFixture[str]) -> None:
    def said(*words: str) -> list[str]:
        assert main(["cache", *words]) == 0
        return capsys.readouterr().out.splitlines()

    assert said() == [os.environ[VARIABLE], "0 entries, 0.0 MB of 256 MB"]
    store().put("figure", b"key", bytes(2_000_000))
    assert said() == [os.environ[VARIABLE], "1 entry, 2.0 MB of 256 MB"]
    assert said("--clear") == [os.environ[VARIABLE], "1 entry taken out"]
    assert said() == [os.environ[VARIABLE], "0 entries, 0.0 MB of 256 MB"]
    assert entries() == []


@pytest.mark.skipif(os.name != "posix", reason="owners and rights are kept otherwise")
def test_the_command_says_why_a_folder_is_not_used(place: Path, capsys: pytest.CaptureFixture[str]) -> None:
    Path(os.environ[VARIABLE]).mkdir(mode=0o700)
    Path(os.environ[VARIABLE]).chmod(0o777)
    assert main(["cache", "--clear"]) == 0
    assert "not used: others may write into it" in capsys.readouterr().out


def test_no_cache_is_for_one_run(place: Path) -> None:
    (place / "paper.md").write_text("Text.\n", encoding="utf-8")
    before = os.environ[VARIABLE]
    assert checked("paper.md", "--no-cache")[0] == 0
    assert os.environ[VARIABLE] == before
    assert entries() == []
    assert checked("paper.md")[0] == 0
    assert len(entries()) == 1
