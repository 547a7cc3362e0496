"""Telling how far a run has come.

On a terminal the last line changes as cells run; in a file or a pipe only lines that stay are
written, so that a log stays short.
"""

from dataclasses import dataclass, field
from threading import Lock
from typing import TextIO

__all__ = ["Progress"]

_WIDEST = 78


@dataclass(slots=True)
class Progress:
    """Writes lines that stay and, on a terminal, one that changes.

    Parameters
    ----------
    stream
        Where to write, or None to stay silent.
    """

    stream: TextIO | None = None
    _passing: int = 0
    _lock: Lock = field(default_factory=Lock)

    def line(self, text: str) -> None:
        """Write a line that stays."""
        with self._lock:
            self._write(self._wipe() + text + "\n")

    def now(self, text: str) -> None:
        """Show what is happening now; the next line takes its place."""
        if self.stream is None or not self.stream.isatty():
            return
        with self._lock:
            wipe = self._wipe()
            self._passing = len(text[:_WIDEST])
            self._write(wipe + text[:_WIDEST])

    def _wipe(self) -> str:
        passing, self._passing = self._passing, 0
        return "\r" + " " * passing + "\r" if passing else ""

    def _write(self, text: str) -> None:
        if self.stream is not None:
            self.stream.write(text)
            self.stream.flush()
