"""The filter after readers of pandoc other than its Markdown: what each carries through, by real runs of pandoc."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

import pypandoc
import pytest

MARKDOWN = """---
title: Lift
lang: en-ZA
physcalc:
  sheet: school
---

# Question 1 {.question #lift marks=5}

A lift has a mass of `m`{.value}. Its weight is [6 272 N]{.value of=W}.

``` {.given}
m: 640 kg
W: m g
```

::: {.question #law marks=2}
State the law.

[Newton's second law]{.define}
:::

::: {.question #tension marks=3}
Calculate the tension while the lift speeds up at 0,75 m·s⁻².

``` {.calc}
given:
  a: 0.75 m/s^2
formula: T - m g = m a
find: T in N
```
:::
"""

ORG = """#+title: Lift
#+language: en-ZA

* Question 1
:PROPERTIES:
:CUSTOM_ID: lift
:CLASS: question
:marks: 5
:END:

A lift has a mass of src_value{m}.

#+begin_src given
m: 640 kg
#+end_src

#+attr_html: :marks 2
#+begin_question
State the law.

#+attr_html: :marks 2
#+begin_answer
The net force is the mass times the acceleration.
#+end_answer
#+end_question

#+attr_html: :marks 3
#+begin_question
Calculate the tension while the lift speeds up at 0,75 m·s⁻².

#+begin_src calc
given:
  a: 0.75 m/s^2
formula: T - m g = m a
find: T in N
#+end_src
#+end_question
"""

RST = """Lift
====

.. role:: value(code)
.. role:: define

.. container:: question

   A lift has a mass of :value:`m`.

   .. code-block:: given

      m: 640 kg

   .. container:: question

      Calculate the tension while the lift speeds up at 0,75 m·s⁻².

      .. code-block:: calc

         given:
           a: 0.75 m/s^2
         formula: T - m g = m a
         find: T in N
         marks: 3
"""

READERS = [
    ("markdown", MARKDOWN),
    ("commonmark_x", MARKDOWN),
    ("gfm+attributes+fenced_divs+bracketed_spans", MARKDOWN),
    ("org", ORG),
    ("rst", RST),
]


def run(reader: str, text: str, edition: str, folder: Path) -> tuple[str, str, int]:
    """What pandoc writes, what the filter says, and the exit code."""
    program = folder / "filter.py"
    program.write_text("import sys\nfrom physcalc_filter.pandoc_entry import main\nsys.exit(main())\n")
    command = [pypandoc.get_pandoc_path(), "--from", reader, "--to", "plain", "--wrap=none"]
    command += ["--filter", str(program), "-M", f"edition={edition}", "-M", "lang=en-ZA"]
    environment = {
        "PATH": str(Path(sys.executable).parent) + ":/usr/bin:/bin",
        "PYTHONPATH": ":".join(sys.path),
    }
    done = subprocess.run(
        command, input=text, capture_output=True, encoding="utf-8", env=environment, cwd=folder, check=False
    )
    return done.stdout, done.stderr, done.returncode


def words(text: str) -> str:
    """Without what differs between readers: blanks, dashes of tables, and the thin spaces of numbers."""
    return re.sub(r"[\s\u202f\u2009-]+", " ", text)


@pytest.mark.parametrize(("reader", "text"), READERS, ids=[reader for reader, _ in READERS])
def test_a_memo_has_the_same_working(reader: str, text: str, tmp_path: Path) -> None:
    """640 kg · (9,8 + 0,75) m·s⁻² = 6 752 N by hand."""
    made, said, code = run(reader, text, "memo", tmp_path)
    assert code == 0, said
    assert "(640)(9,8)" in made
    assert "6 752,00 N" in words(made)
    assert made.count("✓") == (3 if reader == "rst" else 5)


@pytest.mark.parametrize(("reader", "text"), READERS, ids=[reader for reader, _ in READERS])
def test_a_paper_has_the_value_and_no_answer(reader: str, text: str, tmp_path: Path) -> None:
    made, said, code = run(reader, text, "paper", tmp_path)
    assert code == 0, said
    assert "mass of 640 kg" in words(made)
    assert "6 752" not in words(made)
    assert "net force is" not in made


@pytest.mark.parametrize(("reader", "text"), READERS, ids=[reader for reader, _ in READERS])
def test_a_typed_answer_that_disagrees_stops_pandoc(reader: str, text: str, tmp_path: Path) -> None:
    indent = "         " if reader == "rst" else ""
    wrong = text.replace(f"{indent}find: T in N", f"{indent}find: T in N\n{indent}answer: 6725 N")
    _, said, code = run(reader, wrong, "memo", tmp_path)
    assert code != 0
    assert "answer-disagrees" in said
