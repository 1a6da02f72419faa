"""`physcalc explain`: what a problem means."""

from __future__ import annotations

import textwrap
from importlib import import_module
from pkgutil import iter_modules

import click

from physcalc.problems import Problem, nearest

#: Where problems are defined: a package's modules, or a module.
_HOMES = (
    "physcalc.problems",
    f"{__package__}.problems",
    "..problems",
    "..outputs.problems",
    "..pairing.problems",
    "..returned.problems",
    "..report.problems",
    "..shelf.problems",
    "..latex.problems",
)
_LEVELS = {
    "problem": "a problem: check fails with exit code 1, and nothing is built",
    "note": "a note: worth knowing, fails nothing",
    "unreadable": "cannot be read or done: exit code 2",
}
_WIDTH = 88


def _slugs(context: click.Context, parameter: click.Parameter, begun: str) -> list[str]:
    """The slugs that begin so, for a shell."""
    return [slug for slug in every_problem() if slug.startswith(begun)]


@click.command(short_help="Tell what a problem means, with an example and the mend.")
@click.argument("slugs", nargs=-1, metavar="[SLUG]...", shell_complete=_slugs)
def command(slugs: tuple[str, ...]) -> int:
    """Tell what a problem means, with a wrong example and a right one.

    SLUG is the name that stands before each problem's sentence. Without one, all are listed.

    \b
    physcalc explain answer-disagrees
    physcalc explain
    """
    kinds = every_problem()
    if not slugs:
        longest = max(map(len, kinds))
        for slug, kind in kinds.items():
            click.echo(f"{slug:<{longest}}  {kind.summary()}")
        return 0
    for slug in slugs:
        if slug not in kinds:
            close = nearest(slug, tuple(kinds))
            more = f"did you mean {close}?" if close else "physcalc explain lists all there are"
            raise click.UsageError(f'there is no problem "{slug}"; {more}')
    click.echo("\n\n".join(explanation(kinds[slug]) for slug in slugs))
    return 0


def every_problem() -> dict[str, type[Problem]]:
    """All kinds of problems by slug, sorted."""
    for home in _HOMES:
        module = import_module(home, __package__)
        for inner in iter_modules(getattr(module, "__path__", ())):
            import_module(f"{module.__name__}.{inner.name}")
    return dict(sorted((kind.slug, kind) for kind in Problem.every()))


def explanation(kind: type[Problem]) -> str:
    """A kind of problem as a person reads it."""
    parts = [f"{kind.slug}: {_LEVELS[kind.level]}"]
    parts += [textwrap.fill(paragraph, _WIDTH) for paragraph in kind.explained()]
    for heading, example in (("Wrong:", kind.wrong), ("Right:", kind.right)):
        if example:
            parts.append(f"{heading}\n{textwrap.indent(example, '    ')}")
    return "\n\n".join(parts)
