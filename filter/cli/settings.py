"""The option `--set KEY=VALUE`, which every command that reads a document has."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any, TypeVar

import click

from physcalc.problems import Span, Text

#: Settings of the command line: names and values, as the pipeline takes them.
Overrides = Sequence[tuple[Text, object]]

_Command = TypeVar("_Command", bound=Callable[..., Any])
#: The name under which problems point at the command line.
PLACE = "command line"
_OPTION = "--set "


def settings_option(command: _Command) -> _Command:
    """Adds `--set` to a command, as its argument `overrides`, and `--limit`, which needs no argument."""
    command = click.option(
        "--limit",
        metavar="NAME=VALUE",
        multiple=True,
        expose_value=False,
        callback=_limit,
        help="Read or do more than is usual of something, such as formula-length=1200; NAME alone lists them.",
    )(command)
    return click.option(
        "--set",
        "overrides",
        metavar="KEY=VALUE",
        multiple=True,
        callback=_read,
        help="A setting that wins over the front matter: --set decimal=comma. May be given several times.",
    )(command)


def cache_option(command: _Command) -> _Command:
    """Adds `--no-cache` to a command, which needs no argument."""
    return click.option(
        "--no-cache",
        is_flag=True,
        expose_value=False,
        callback=_no_cache,
        help="Work everything out anew, and keep nothing of it. See physcalc cache --help.",
    )(command)


def _no_cache(context: click.Context, parameter: click.Parameter, asked: bool) -> None:
    """Switches the store off for this run and the processes that it starts."""
    if asked:
        from ..cache import VARIABLE

        _set_for_run(context, VARIABLE, "off")


def _set_for_run(context: click.Context, variable: str, value: str) -> None:
    """Sets a variable of the environment; a run from a test or another program leaves no trace."""
    import os

    before = os.environ.get(variable)
    os.environ[variable] = value
    context.call_on_close(
        lambda: os.environ.pop(variable, None) if before is None else os.environ.update({variable: before})
    )


def _limit(context: click.Context, parameter: click.Parameter, values: tuple[str, ...]) -> None:
    """Sets limits for this run and the processes that it starts.

    Raises:
        click.BadParameter: one of them is no limit, or cannot have that value.
    """
    if not values:
        return
    import os

    from physcalc.limits import LIMITS, VARIABLE, LimitUnreadable, read_limit

    try:
        read = [read_limit(value) for value in values]
    except LimitUnreadable as error:
        table = "".join(f"\n  {name}={limit.usual}  {limit.what}" for name, limit in LIMITS.items())
        raise click.BadParameter(f"{error}{table}", context, parameter) from None
    before = os.environ.get(VARIABLE)
    whole = [*([before] if before else []), *(f"{name}={value}" for name, value in read)]
    _set_for_run(context, VARIABLE, ",".join(whole))


def _read(context: click.Context, parameter: click.Parameter, values: tuple[str, ...]) -> Overrides:
    """The settings that were given.

    Raises:
        click.BadParameter: one of them has no "=", or is one that no document could have.
    """
    if not values:
        return ()
    from ..report import Found, as_text
    from ..settings import Settings
    from ..sources import Source

    pairs: list[tuple[Text, object]] = []
    for line, typed in enumerate(values, start=1):
        key, equals, value = typed.partition("=")
        if not equals or not key.strip():
            raise click.BadParameter(f'"{typed}" is no KEY=VALUE', context, parameter)
        column = len(_OPTION) + 1
        key_place = Span(PLACE, line, column, len(key))
        value_place = Span(PLACE, line, column + len(key) + 1, max(1, len(value)))
        pairs.append((Text(key, key_place).part(0), Text(value, value_place).part(0)))
    _, problems = Settings().with_overrides(pairs)
    if problems:
        # The command line is a text like any other: the picture shows what is wrong with it.
        source = Source(PLACE, "\n".join(_OPTION + typed.replace("\n", " ") for typed in values))
        click.echo(as_text([Found(PLACE, problems, source)]), nl=False, err=True)
        context.exit(2)
    return pairs
