"""A worker: a process of its own that checks one document after the other.

The process is started as a program (`__main__.py`), so that it holds nothing but what it needs, and imports it once. It
hears and answers through its standard streams; each message is its length and then a pickle, written by this program
and read by this program. Nothing of a document is ever unpickled.
"""

from __future__ import annotations

import os
import pickle
import signal
import struct
import subprocess
import sys
from contextlib import suppress
from threading import Lock, Timer
from typing import IO, TYPE_CHECKING, Any

if TYPE_CHECKING:
    from ..report import Piece
    from .order import Needs, Order, Sent

_LENGTH = struct.Struct(">Q")
#: After so many documents a worker makes room for a new one: libraries remember, and memory comes in pieces.
MOST_DOCUMENTS = 2_000


class MemberDied(Exception):
    """A worker ended without an answer; its words say how."""


class MemberLate(Exception):
    """A worker took too long, and was ended."""


class Member:
    """A worker as its employer knows it; its process begins with the first document."""

    def __init__(self) -> None:
        self._process: subprocess.Popen[bytes] | None = None
        self._asked = 0
        self._ended = False
        self._lock = Lock()

    def ask(self, order: Order, task: str | Sent, seconds: float) -> Piece | Needs:
        """What a worker finds in a document.

        Args:
            order: what is asked.
            task: the document's path, or what was sent of it.
            seconds: how long it may take.

        Raises:
            MemberDied, MemberLate: there is no answer; the next document is answered by a new process.
        """
        if self._asked >= MOST_DOCUMENTS:
            self._stop()
        process = self._running()
        late = False

        def end() -> None:
            nonlocal late
            late = True
            _kill(process)

        timer = Timer(seconds, end)
        timer.daemon = True
        timer.start()
        try:
            assert process.stdin is not None
            assert process.stdout is not None
            write_message(process.stdin, (order, task))
            answer: Piece | Needs = read_message(process.stdout)
        except (OSError, EOFError):
            self._stop()
            if late:
                raise MemberLate from None
            raise MemberDied(_how(process.returncode)) from None
        finally:
            timer.cancel()
        if late:
            self._stop()  # It came just in time, and its worker was ended all the same.
        self._asked += 1
        return answer

    def end(self) -> None:
        """Ends the process, whatever it is doing; no other one is started."""
        with self._lock:
            self._ended = True
        self._stop()

    def _running(self) -> subprocess.Popen[bytes]:
        with self._lock:
            if self._ended:
                raise MemberDied("it was told to end")
            if self._process is None:
                try:
                    self._process, self._asked = _started(), 0
                except OSError as error:
                    raise MemberDied(f"it could not be started: {error.strerror}") from None
            return self._process

    def _stop(self) -> None:
        with self._lock:
            process, self._process = self._process, None
        if process is not None:
            _kill(process)
            process.wait()
            for stream in (process.stdin, process.stdout):
                if stream is not None:
                    with suppress(OSError):
                        stream.close()


def _started() -> subprocess.Popen[bytes]:
    # Without -P a file in the folder that is being checked could stand for one of Python's own modules.
    alone = "-I" if sys.flags.isolated else "-P"
    said = None if os.environ.get("PHYSCALC_DEBUG", "") not in ("", "0") else subprocess.DEVNULL
    return subprocess.Popen(
        [sys.executable, alone, "-m", __package__],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=said,
        # A group of its own: Ctrl-C reaches the employer alone, and what a worker started ends with it.
        start_new_session=True,
    )


def _kill(process: subprocess.Popen[bytes]) -> None:
    # A process that was waited for has no group any more, and its number may be another's.
    if process.returncode is not None:
        return
    with suppress(OSError):
        if sys.platform == "win32":
            process.kill()
        else:
            os.killpg(process.pid, signal.SIGKILL)


def _how(code: int | None) -> str:
    if code is None or code >= 0:
        return f"exit code {code}"
    with suppress(ValueError):
        return f"ended by {signal.Signals(-code).name}"
    return f"ended by signal {-code}"


def write_message(stream: IO[bytes], message: Any) -> None:
    """Writes a message.

    Raises:
        OSError: nobody reads.
    """
    data = pickle.dumps(message, protocol=pickle.HIGHEST_PROTOCOL)
    stream.write(_LENGTH.pack(len(data)) + data)
    stream.flush()


def read_message(stream: IO[bytes]) -> Any:
    """The next message.

    Raises:
        EOFError: there is none, or no whole one.
    """
    head = stream.read(_LENGTH.size)
    if len(head) < _LENGTH.size:
        raise EOFError
    (length,) = _LENGTH.unpack(head)
    data = stream.read(length)
    if len(data) < length:
        raise EOFError
    return pickle.loads(data)
