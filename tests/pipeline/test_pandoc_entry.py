"""The Pandoc filter: JSON in, JSON out, problems on standard error."""

from __future__ import annotations

import io
import json
import subprocess
import sys

import pypandoc
import pytest
from physcalc_filter.document import read_markup, write_json
from physcalc_filter.pandoc_entry import run

TEXT = """---
edition: %s
draft: %s
---

# Question {.question marks=2}

Of `m`{.value}.

```{.calc}
given:
  m: 2 kg
  a: 3 m/s^2
formula: F = m a
find: F in N to 0 dp
answer: %s
```
"""


def filtered(text: str, format: str = "markdown") -> tuple[str | None, str]:
    errors = io.StringIO()
    return run(write_json(read_markup(text)), format, errors), errors.getvalue()


def test_the_edition_is_the_metadatas() -> None:
    paper, errors = filtered(TEXT % ("paper", "false", "6 N"))
    memo, _ = filtered(TEXT % ("memo", "false", "6 N"))
    assert errors == ""
    assert paper is not None
    assert memo is not None
    assert "✓" not in paper
    assert "✓" in memo


def test_a_problem_is_said_and_nothing_is_written() -> None:
    written, errors = filtered(TEXT % ("memo", "false", "7 N"))
    assert written is None
    assert errors.startswith(
        "physcalc: question 1, line 6: answer-disagrees: F is 6\u00a0N, the document says 7\u00a0N"
    )


def test_a_draft_is_written_with_its_problems() -> None:
    written, errors = filtered(TEXT % ("memo", "true", "7 N"))
    assert "answer-disagrees" in errors
    assert written is not None
    assert "Problem" in written


@pytest.mark.parametrize("pair", [("frog", "false"), ("memo", "perhaps")])
def test_metadata_that_cannot_be_read(pair: tuple[str, str]) -> None:
    written, errors = filtered(TEXT % (*pair, "6 N"))
    assert written is None
    assert "attribute-unreadable" in errors


def test_what_is_no_document() -> None:
    errors = io.StringIO()
    assert run("rubbish", "html", errors) is None
    assert errors.getvalue().startswith("physcalc: document-unreadable:")


@pytest.mark.parametrize("format", ["html", "latex", "typst", "docx", "epub", "markdown"])
def test_every_format_gets_what_its_layout_needs_in_the_head(format: str) -> None:
    from physcalc_filter.editions.layout import layout_for

    written, _ = filtered(TEXT % ("memo", "false", "6 N"), format)
    assert written is not None
    assert ("header-includes" in json.loads(written)["meta"]) == bool(layout_for(format).preamble())


def test_pandoc_runs_it(tmp_path_factory: pytest.TempPathFactory) -> None:
    folder = tmp_path_factory.mktemp("filter")
    program = folder / "filter.py"
    program.write_text(
        f"import sys\nsys.path[:0] = {sys.path!r}\n"
        "from physcalc_filter.pandoc_entry import main\nsys.exit(main())\n",
        encoding="utf-8",
    )
    command = [pypandoc.get_pandoc_path(), "-t", "plain", "--filter", str(program), "-M", "edition=paper"]
    text = (TEXT % ("memo", "false", "6 N")).encode()
    done = subprocess.run(command, input=text, capture_output=True, check=False)
    assert done.returncode == 0, done.stderr.decode()
    assert "Of 2\u00a0kg. [2]" in done.stdout.decode()
