"""A paper, Word files that come back of it, and the command that compares them."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from physcalc_filter.cli import main
from physcalc_filter.outputs.archive import unzipped, zipped

PAPER = """---
title: Hoists
lang: en-ZA
physcalc:
  sheet: school
---

Answer both questions.

# Question 1 {.question #hoist marks=7}

A hoist lifts a crate of mass [320 kg]{.value of=m} from rest. Ignore friction in the pulley. It accelerates upwards at
`a`{.value}.

```{.given}
m: 320 kg
a: 0.45 m/s^2
```

::: {.question #hoist-tension marks=4}
Calculate the tension in the cable.

```{.calc}
use: newton-2
formula: T - m g = m a
find: T in N to 2 dp
answer: 3280.00 N
```
:::

::: {.question #hoist-why marks=3}
Give a reason why the tension is larger than the weight.

::: {.answer}
The net force [is upwards]{.mark}, so the tension [must be]{.mark} larger [than the weight]{.mark}.
:::
:::

# Question 2 {.question #range marks=2}

A stone of mass `m`{.value} falls.

```{.calc}
given:
  m: 2 kg
use: weight
find: w in N to 1 dp
```
"""

#: The blank between a number and its unit on a page.
THIN = "\u202f"

Changed = Callable[..., Path]


@pytest.fixture
def paper(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The folder of the paper, which is the working folder."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "test.md").write_text(PAPER, encoding="utf-8")
    return tmp_path


@pytest.fixture
def back(paper: Path) -> Changed:
    """Makes the Word file that comes back of an edition, some texts of it replaced by others."""

    def make(*changes: tuple[str, str], edition: str = "paper", source: str = "test.md") -> Path:
        made = paper / "back.docx"
        assert main(["build", source, "--edition", edition, "-o", str(made)]) == 0
        parts = unzipped(made.read_bytes())
        text = parts["word/document.xml"].decode()
        for old, new in changes:
            assert old in text, old
            text = text.replace(old, new, 1)
        parts["word/document.xml"] = text.encode()
        made.write_bytes(zipped(parts))
        return made

    return make
