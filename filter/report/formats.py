"""The table of formats for other programs: one row each."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from .as_github import as_github
from .as_json import as_json
from .as_junit import as_junit
from .as_sarif import as_sarif
from .found import Found

#: Makes the whole text of a report, its last line ending included.
Format = Callable[[Sequence[Found]], str]

#: By the name that `--format` takes. Text for a person is not among them: it has colours and a width.
FORMATS: Mapping[str, Format] = {
    "json": as_json,
    "junit": as_junit,
    "sarif": as_sarif,
    "github": as_github,
}
