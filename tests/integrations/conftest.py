"""A copy of what is installed from a checkout, so that building it leaves nothing in the checkout itself."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
_FILES = ("pyproject.toml", "README.md", "LICENSE", ".pre-commit-hooks.yaml", "action.yml")
_FOLDERS = ("physcalc", "filter")

#: A document that agrees once `fix` was at it.
WRONG = """\
::: {.question}
A crate has a mass of `m`{.value}. Calculate its weight.

```{.given}
m: 15 kg
```

```{.calc}
use: weight
find: F_g in N to 2 dp
answer: 174.00 N
```
:::
"""


@pytest.fixture(scope="session")
def checkout(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("checkout")
    for name in _FILES:
        shutil.copy(ROOT / name, folder / name)
    for name in _FOLDERS:
        shutil.copytree(ROOT / name, folder / name, ignore=shutil.ignore_patterns("__pycache__"))
    return folder


@pytest.fixture
def wrong() -> str:
    return WRONG
