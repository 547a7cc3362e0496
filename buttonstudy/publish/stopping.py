"""Being stopped, from the keyboard or by the system, is kept in mind.

Python tells of it by an exception, wherever the program is just then. While large libraries are
imported it may get lost in them; a long run then went on as if nothing had been said. So it is
noted as well, and asked for before each long piece of work.
"""

import signal
from contextlib import suppress
from types import FrameType

__all__ = ["go_on", "stop_when_asked"]

_asked: list[int] = []


def stop_when_asked() -> None:
    """Let a request to end, or a window that is closed, stop a run as the keyboard does."""
    _asked.clear()
    for name in ("SIGINT", "SIGTERM", "SIGHUP"):
        number = getattr(signal, name, None)  # not every system has them
        if number is not None and signal.getsignal(number) in (
            signal.SIG_DFL,
            signal.default_int_handler,
        ):
            with suppress(ValueError):  # not in every thread
                signal.signal(number, _stop)


def go_on() -> None:
    """Return if nobody asked to stop.

    Raises
    ------
    KeyboardInterrupt
        If somebody did, and the exception then got lost.
    """
    if _asked:
        raise KeyboardInterrupt


def _stop(number: int, _: FrameType | None) -> None:
    _asked.append(number)
    raise KeyboardInterrupt
