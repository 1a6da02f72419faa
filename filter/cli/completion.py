"""`physcalc completion`: what a shell needs to complete commands, options and names."""

from __future__ import annotations

import click
from click.shell_completion import get_completion_class

_SHELLS = ("bash", "zsh", "fish")
#: The variable by which the script asks the program; click makes it from the program's name.
_VARIABLE = "_PHYSCALC_COMPLETE"


@click.command(short_help="Print the script that lets a shell complete what is typed.")
@click.argument("shell", type=click.Choice(_SHELLS), metavar="bash|zsh|fish")
@click.pass_context
def command(context: click.Context, shell: str) -> int:
    """Print the script by which bash, zsh or fish completes commands, options, sheets and slugs.

    Put the line of your shell into the file that it reads when it starts, and open a new terminal.

    \b
    physcalc completion bash    in ~/.bashrc:      eval "$(physcalc completion bash)"
    physcalc completion zsh     in ~/.zshrc:       eval "$(physcalc completion zsh)"
    physcalc completion fish    once:              physcalc completion fish >
                                                   ~/.config/fish/completions/physcalc.fish
    """
    kind = get_completion_class(shell)
    assert kind is not None, "click knows these shells"
    click.echo(kind(context.find_root().command, {}, "physcalc", _VARIABLE).source())
    return 0
