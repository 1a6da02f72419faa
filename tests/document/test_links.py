"""Links inside a document: none leads nowhere, and those without words say a number."""

from __future__ import annotations

import subprocess
from collections.abc import Callable
from pathlib import Path

import pypandoc
import pytest
from physcalc_filter import pipeline
from physcalc_filter.cli import main
from physcalc_filter.document import EDITIONS, Edition, Report, write_json
from physcalc_filter.sources import Source

Check = Callable[[str], Report]

TEXT = """# Rafts {#rafts}

# Float {.question #float marks=1}

See [](#sink), [](#deep), [that part](#deep), [](#rafts), [the reason](#reason).

::: {.answer marks=1}
As in [](#deep).
:::

# Sink {.question #sink}

::: {.question #deep marks=1}
Why?
:::

::: {.only in="guide"}
[Because.]{#reason}
:::
"""


def plain(text: str, edition: Edition) -> str:
    document, report = pipeline.build(Source("test.md", text), edition, "markdown")
    assert document is not None, [str(problem) for problem in report.problems]
    command = [pypandoc.get_pandoc_path(), "-f", "json", "-t", "plain", "--wrap=none"]
    done = subprocess.run(command, input=write_json(document), capture_output=True, text=True, check=True)
    return done.stdout.replace("\u00a0", " ")


def test_a_link_without_words_says_a_number_or_a_heading() -> None:
    assert "See Question 2, 2.1, that part, Rafts, the reason." in plain(TEXT, "paper")
    assert "As in 2.1." in plain(TEXT, "memo")
    labelled = "---\nphyscalc:\n  labels: {question: Example}\n---\n\n" + TEXT
    assert "See Example 2, 2.1" in plain(labelled, "guide")


@pytest.mark.parametrize("edition", EDITIONS)
def test_no_edition_fails_over_what_it_does_not_show(edition: Edition, tmp_path: Path) -> None:
    """Typst sets nothing where a link leads nowhere."""
    source = tmp_path / "a.md"
    source.write_text(TEXT, encoding="utf-8")
    made = tmp_path / "a.pdf"
    assert main(["build", str(source), "-o", str(made), "--edition", edition]) == 0
    assert made.read_bytes().startswith(b"%PDF")


def test_a_link_that_leads_nowhere_is_told_at_its_place(check: Check) -> None:
    (problem,) = check(TEXT.replace("[that part](#deep)", "[that part](#depe)")).problems
    assert (problem.slug, problem.span.line, problem.span.column) == ("link-unknown", 5, 39)
    assert '"#deep"' in problem.mend()
    (problem,) = check(TEXT.replace("[the reason](#reason)", "[](#reason)")).problems
    assert problem.slug == "link-unknown"
    assert "between its brackets" in problem.mend()


def test_places_in_raw_markup_are_places(check: Check) -> None:
    assert (
        check('# A {#a}\n\n<a id="here"></a> [there](#here), [up](#a), [out](other.md#x).\n').problems == ()
    )
