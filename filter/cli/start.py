"""The program: which commands there are, and what becomes of whatever they raise."""

from __future__ import annotations

import errno
import gc
import sys
from importlib import import_module
from typing import TYPE_CHECKING

import click

from physcalc import __version__
from physcalc.problems import Problem, Span, nearest

from . import screen
from .problems import FileNotWritten

if TYPE_CHECKING:
    from ..problems import ProgramFault

#: The commands in the order of `physcalc --help`; each is a module of this folder with a `command` in it.
COMMANDS = (
    "new",
    "build",
    "latex",
    "check",
    "fix",
    "changes",
    "follow",
    "trace",
    "grid",
    "sheet",
    "schema",
    "explain",
    "cache",
    "completion",
)


class Commands(click.Group):
    """A group that imports a command only when it is asked for."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """The names of all commands."""
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """The command of that name, or None."""
        if cmd_name not in COMMANDS:
            return None
        command = import_module(f".{cmd_name}", __package__).command
        assert isinstance(command, click.Command)
        return command

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """The command that the arguments begin with; a wrong name is answered with the nearest."""
        name = args[0]
        if name not in COMMANDS and not name.startswith("-"):
            close = nearest(name, COMMANDS)
            known = f"did you mean {close}?" if close else f"commands: {', '.join(COMMANDS)}"
            ctx.fail(f'there is no command "{name}"; {known}')
        return super().resolve_command(ctx, args)


@click.group(
    cls=Commands,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
    epilog="Exit code: 0 all agrees, 1 something does not, 2 it could not run or read.",
)
@click.version_option(__version__, message="%(prog)s %(version)s")
def commands() -> None:
    """Physics papers, memos and guides whose numbers are computed and checked.

    \b
    physcalc check test.md                    what is wrong, with a picture of each place
    physcalc build test.md -o paper.pdf       the question paper
    physcalc build test.md -o memo.pdf --edition memo
    physcalc explain answer-disagrees         what a problem means

    `physcalc COMMAND --help` tells more about a command.
    """


def main(argv: list[str] | None = None) -> int:
    """Run the program.

    Args:
        argv: what follows the program's name; that of the process where it is None.

    Returns:
        The exit code: 0 fine, 1 something disagrees, 2 it could not run or read, 130 ended by Ctrl-C.
    """
    # The program and a document's tree live to the end: to look through them for rubbish as often as is usual takes a
    # twentieth of a run.
    gc.set_threshold(100_000, 50, 100)
    screen.prepare()
    _stop_tidily()
    try:
        code = commands.main(args=argv, prog_name="physcalc", standalone_mode=False)
        return code if isinstance(code, int) else 0
    except click.ClickException as error:
        error.show()
        return 2
    except click.Abort as error:
        screen.say("physcalc: stopped")
        # What a shell says of a program that Ctrl-C ended: 128 and the number of the signal.
        return 130 if isinstance(error.__cause__, KeyboardInterrupt) else 2
    except SystemExit as error:  # click's answer to a reader that went away, such as `head`
        return error.code if isinstance(error.code, int) else 2
    except Problem as problem:
        return screen.refuse(problem)
    except OSError as error:
        # The reader of a stream may be a full disk; files that a command writes have their own answers.
        if error.errno not in (errno.ENOSPC, errno.EDQUOT, errno.EIO):
            return _fault(error)
        return screen.refuse(FileNotWritten(Span(), "output", (error.strerror or "").lower()))
    except Exception as error:
        return _fault(error)


def _fault(error: Exception) -> int:
    """What becomes of an exception that nobody thought of."""
    if screen.debugging():
        import traceback

        traceback.print_exc(file=sys.stderr)
    return screen.refuse(fault_of(error))


def _stop_tidily() -> None:
    """Let a program that is told to end take its half-made files and its helpers away first."""
    import signal
    import threading

    def stop(number: int, _: object) -> None:
        raise SystemExit(128 + number)

    # Only the main thread may say what a signal does; a caller's own answer to it stays.
    ours = threading.current_thread() is threading.main_thread()
    if ours and signal.getsignal(signal.SIGTERM) is signal.SIG_DFL:
        signal.signal(signal.SIGTERM, stop)


def fault_of(error: Exception, file: str = "") -> ProgramFault:
    """An unexpected exception as a problem."""
    from ..problems import ProgramFault  # Here: with it come all problems of documents.

    return ProgramFault(Span(file), type(error).__name__, str(error))
