"""Paths on the command line."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click


class NamedPath(click.Path):
    """A path that has to be there: an empty one, as a shell's unset variable leaves it, would mean the folder."""

    def __init__(self, *, dir_okay: bool = True) -> None:
        super().__init__(path_type=Path, dir_okay=dir_okay)

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Any:
        """The path that was typed.

        Raises:
            click.BadParameter: nothing was typed.
        """
        if value == "":
            self.fail("an empty text is no path", param, ctx)
        return super().convert(value, param, ctx)
