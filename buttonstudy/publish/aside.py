"""Writing aside and moving into place.

Nothing that the kit writes is ever half there. A file is written under a hidden name beside its
place and renamed when it is whole. A whole folder is made in a hidden folder beside its place,
and the two folders then change names in one step. Whatever happens before that step, the power
failing included, leaves the earlier folder as it was.

What is being made has a lock file beside it that its run holds for as long as it lives. A lock
that nobody holds tells that its run died: the next run takes such leftovers away.
"""

import errno
import os
import re
import secrets
import shutil
import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path
from typing import IO

from buttonstudy.publish.errors import CallError, PublishError
from buttonstudy.publish.exchange import exchange
from buttonstudy.publish.places import already_there

__all__ = ["Working", "clear_leftovers", "move_into_place", "working_folder", "write_aside"]

_MARK = ".buttonstudy-"
_WORKING = re.compile(rf"\.(.+){re.escape(_MARK)}[0-9a-f]+\.new")
_TRIES = 5
_NO_ROOM = {errno.ENOSPC, errno.EFBIG, getattr(errno, "EDQUOT", errno.ENOSPC)}


@dataclass(frozen=True, slots=True)
class Working:
    """A hidden folder, or file, in which one run builds what will be at ``place``."""

    place: Path
    token: str

    @property
    def folder(self) -> Path:
        """Where to write."""
        return self._named("new")

    @property
    def lock(self) -> Path:
        """The file that the run holds locked while it lives."""
        return self._named("lock")

    @property
    def earlier(self) -> Path:
        """Where the earlier folder waits where two folders cannot change names in one step."""
        return self._named("old")

    def _named(self, ending: str) -> Path:
        return self.place.with_name(f".{self.place.name}{_MARK}{self.token}.{ending}")


def write_aside(path: Path, content: bytes, *, fresh: bool = False) -> None:
    """Write a file so that it is there whole or not at all.

    Parameters
    ----------
    path, content
        Where, and what.
    fresh
        Never take the place of a file that is there, even one that came there a moment ago.

    Raises
    ------
    CallError
        If a file is there that must stay.
    PublishError
        If it cannot be written.
    """
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        if any(_MARK in folder.name for folder in path.parents):
            _write(path.with_name(f".{secrets.token_hex(8)}.part"), path, content)
            return
        clear_leftovers(path.parent)
        with _claimed(path) as working:
            _write(working.folder, path, content, fresh=fresh, keep=True)
    except OSError as error:
        raise PublishError(_cannot_write(path, error)) from error


def _write(
    aside: Path, path: Path, content: bytes, *, fresh: bool = False, keep: bool = False
) -> None:
    """Write under another name first; to keep it means that it outlives a power failure."""
    try:
        with aside.open("xb") as file:
            file.write(content)
            if keep:
                file.flush()
                os.fsync(file.fileno())
        if not fresh:
            aside.replace(path)
        elif not _put(aside, path):
            raise CallError(already_there(path))
    finally:
        aside.unlink(missing_ok=True)


def _put(aside: Path, path: Path) -> bool:
    """Give a file its name, unless another has it; this is one step where links can be made."""
    try:
        path.hardlink_to(aside)
    except FileExistsError:
        return False
    except OSError:  # as on a memory stick
        if path.exists():
            return False
        aside.rename(path)
    return True


@contextmanager
def working_folder(place: Path) -> Iterator[Working]:
    """Give a new hidden folder beside ``place``; it is gone again when the block ends.

    What is in it is kept only if ``move_into_place`` was called. Leftovers of runs that died
    are taken away first, and two runs for the same place do not see each other.

    Raises
    ------
    PublishError
        If nothing can be written there.
    """
    begun = False
    try:
        place.parent.mkdir(parents=True, exist_ok=True)
        clear_leftovers(place.parent)
        with _claimed(place) as working:
            working.folder.mkdir()
            begun = True
            yield working
    except OSError as error:
        if begun:
            raise
        raise PublishError(_cannot_write(place, error)) from error


@contextmanager
def _claimed(place: Path) -> Iterator[Working]:
    """Hold a lock beside a place; what was made under its name is gone when the block ends."""
    for _ in range(_TRIES):
        working = Working(place, secrets.token_hex(4))
        held = _hold(working.lock, create=True)
        if held and working.lock.exists():
            break
        _let_go(working.lock, held)  # another run took it for a dead one's just now
    try:
        yield working
    finally:
        _take_away(working)
        _let_go(working.lock, held)


def move_into_place(working: Working, *, fresh: bool = False) -> bool:
    """Let the finished working folder be the folder at its place, in one step.

    An earlier folder there changes names with it, and is deleted when the run ends.

    Parameters
    ----------
    working
        As given by `working_folder`.
    fresh
        Never take the place of a folder that holds something.

    Returns
    -------
    bool
        False if such a folder was left alone.

    Raises
    ------
    PublishError
        If the folder at the place cannot be moved, as when a program holds one of its files.
    """
    place = working.place
    try:
        if _moved(working.folder, place):
            return True
        if fresh:
            return False
        if not exchange(working.folder, place):
            place.rename(working.earlier)
            try:
                working.folder.rename(place)
            except OSError:
                working.earlier.rename(place)
                raise
    except OSError as error:
        says = f"The new folder could not take the place of {place}: {_reason(error)}."
        raise PublishError(f"{says} Close programs that use files in it and try again.") from error
    return True


def _moved(folder: Path, place: Path) -> bool:
    """Give a folder its name, unless a folder that holds something has it."""
    with suppress(OSError):
        place.rmdir()  # takes only an empty one
    try:
        folder.rename(place)
    except OSError:
        if place.exists():
            return False
        raise
    return True


def clear_leftovers(parent: Path) -> None:
    """Take away what runs that died left in a folder, and put back what they had moved."""
    for lock in parent.glob(f".*{_MARK}*.lock"):
        name, _, token = lock.name.removesuffix(".lock").rpartition(_MARK)
        held = _hold(lock, create=False)
        if held is None:
            continue
        working = Working(parent / name.removeprefix("."), token)
        try:
            if working.earlier.exists() and not working.place.exists():
                working.earlier.rename(working.place)
            _take_away(working)
        except OSError:  # the next run tries again
            held.close()
        else:
            _let_go(lock, held)


def _take_away(working: Working) -> None:
    for made in (working.folder, working.earlier):
        if made.is_file():
            made.unlink(missing_ok=True)
        else:
            shutil.rmtree(made, ignore_errors=True)


def _hold(lock: Path, *, create: bool) -> IO[bytes] | None:
    """Open and lock a file, or return None if another run holds it or has just removed it."""
    try:
        file = lock.open("xb" if create else "r+b")
    except OSError:
        if create:
            raise
        return None  # it is gone, or another user's
    try:
        if sys.platform == "win32":
            import msvcrt

            msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)
        else:
            import fcntl

            fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        file.close()
        return None
    return file


def _let_go(lock: Path, held: IO[bytes] | None) -> None:
    """Take a lock's file away and let go of it.

    It is taken away while it is held, so that nobody else can hold it in between. Windows does
    not let go of the name of a file that is open, and there it is taken away afterwards.
    """
    with suppress(OSError):
        lock.unlink(missing_ok=True)
    if held is not None:
        held.close()
    with suppress(OSError):
        lock.unlink(missing_ok=True)


def _cannot_write(path: Path, error: OSError) -> str:
    remedy = "Choose a place that you may write to."
    if error.errno in _NO_ROOM:
        remedy = "Make room there, or choose another place."
    return f"{_as_known(path)} could not be written: {_reason(error)}. {remedy}"


def _as_known(path: Path) -> Path:
    """Return a path in which a working folder is called by the name that it is to have."""
    return Path(*(_WORKING.sub(r"\1", part) for part in path.parts))


def _reason(error: OSError) -> str:
    return (error.strerror or str(error)).lower()
