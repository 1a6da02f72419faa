"""The table of formats for other programs: one row each."""

from __future__ import annotations

from collections.abc import Mapping

from .as_github import AsGithub
from .as_json import AsJson
from .as_junit import AsJunit
from .as_sarif import AsSarif
from .pieces import Format

#: By the name that `--format` takes. Text for a person is not among them: it has colours and a width.
FORMATS: Mapping[str, Format] = {
    "json": AsJson(),
    "junit": AsJunit(),
    "sarif": AsSarif(),
    "github": AsGithub(),
}
