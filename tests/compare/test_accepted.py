"""Accepted ranges as they are printed."""

from __future__ import annotations

from pathlib import Path

import pytest
from physcalc_filter.cli import main

PAPER = """---
lang: en
---

# Charge {.question marks=3}

```{.calc}
marks: 3
given:
  n: 2.2e13
formula: q = n e
find: q in C
accept: %s
```
"""


@pytest.mark.parametrize(
    ("typed", "printed"),
    [
        # 2.2 × 10¹³ electrons carry 3.52 × 10⁻⁶ C.
        ("3.4e-6 to 3.6e-6 C", r"$3.4 \times 10^{-6}\,\text{C}$ to $3.6 \times 10^{-6}\,\text{C}$"),
        ("3.4e-6 to 3.65e-6 C", r"$3.40 \times 10^{-6}\,\text{C}$ to $3.65 \times 10^{-6}\,\text{C}$"),
        ("3.4 to 3.6 uC", r"$3.40\,\text{µC}$ to $3.60\,\text{µC}$"),
    ],
)
def test_ends_in_standard_form_have_the_figures_that_were_typed(
    typed: str, printed: str, tmp_path: Path
) -> None:
    (tmp_path / "a.md").write_text(PAPER % typed, encoding="utf-8")
    assert main(["build", str(tmp_path / "a.md"), "--edition", "memo", "-o", str(tmp_path / "b.md")]) == 0
    assert printed in (tmp_path / "b.md").read_text(encoding="utf-8")
