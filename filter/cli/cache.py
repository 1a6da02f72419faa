"""`physcalc cache`: the folder where answers are kept, and what lies in it."""

from __future__ import annotations

import click


@click.command(short_help="Show the folder where answers are kept, or clear it.")
@click.option("--clear", is_flag=True, help="Take everything out of it.")
def command(clear: bool) -> int:
    """Show where answers are kept, how many there are, and how much of the disk they take.

    A document that was checked, built, or that went through the filter, is not worked out again as long as it, its
    sheet, its pictures, its settings and the program are the same. Whatever is kept can be taken away at any time;
    the oldest goes by itself before the folder holds more than 256 MB. An entry that is damaged is not used.

    `--no-cache` of physcalc check and build keeps and uses nothing. The variable PHYSCALC_CACHE names another
    folder, and PHYSCALC_CACHE=off switches all of this off, for the filter too.

    \b
    physcalc cache
    physcalc cache --clear
    """
    from ..cache import LIMIT, opened

    store = opened()
    if store is None:
        click.echo("nothing is kept: the cache is switched off, or there is no folder for it")
        return 0
    click.echo(store.folder)
    refused = store.refused()
    if refused:
        click.echo(f"not used: {refused}")
        return 0
    if clear:
        click.echo(f"{_several(store.clear())} taken out")
        return 0
    sizes = [known.st_size for _, known in store.entries()]
    click.echo(f"{_several(len(sizes))}, {sum(sizes) / 1e6:.1f} MB of {LIMIT // 1_000_000} MB")
    return 0


def _several(count: int) -> str:
    return f"{count} {'entry' if count == 1 else 'entries'}"
