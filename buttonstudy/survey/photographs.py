"""Photographs that a survey names, found beside it.

A name comes from a spreadsheet, so it is not trusted: it may only lead to a file in the survey's
own folder or below.
"""

import os
import re
import sys
from collections import deque
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path, PurePosixPath, PureWindowsPath
from typing import TYPE_CHECKING

from buttonstudy.readings.blanks import blank_state
from buttonstudy.schemes import limit
from buttonstudy.survey.files import display_names, find_files
from buttonstudy.survey.pictures import (
    Photograph,
    PhotographError,
    brief,
    read_photograph,
)

if TYPE_CHECKING:
    import pandas as pd

__all__ = [
    "Album",
    "find_photograph",
    "load_photographs",
    "name_parts",
    "photograph_names",
    "record_photographs",
    "survey_folders",
]

_NEEDED = ("file", "photos")
_BETWEEN = re.compile(r"[;|,\r\n]+")
_ENDINGS = (".jpg", ".jpeg", ".png", ".tif", ".tiff", ".webp", ".gif", ".bmp")
_PICTURE = re.compile(r"\.(?:jpe?g|png|tiff?|webp|gif|bmp)\b", re.IGNORECASE)


def photograph_names(text: str) -> list[str]:
    """Take apart a cell that names photographs.

    Examples
    --------
    >>> photograph_names("front.jpg; back.jpg"), photograph_names("n/a")
    (['front.jpg', 'back.jpg'], [])
    """
    if not _PICTURE.search(text) and blank_state(text):  # looking for a blank's words is slow
        return []
    return [name for part in _BETWEEN.split(text) if (name := part.strip().strip("\"'"))]


def survey_folders(paths: Sequence[str | Path]) -> dict[str, Path]:
    """Tell in which folder each survey file lies, by the name that records have for it."""
    files = find_files(paths)
    return {name: path.parent for path, name in zip(files, display_names(files))}


def find_photograph(folder: Path, name: str) -> Path:
    """Find a photograph by its name.

    Parameters
    ----------
    folder
        The survey's folder.
    name
        A name relative to it, or to a folder below. Its ending, and small or capital letters, may
        differ.

    Raises
    ------
    PhotographError
        If the name leads out of the folder, there is no such file, or several below have the name.
    """
    if "://" in name:
        raise PhotographError(
            "photo-address",
            f'"{brief(name)}" is an address on the internet; the kit opens none.',
        )
    parts = name_parts(name)
    path = _at(folder.joinpath(*parts[:-1]), parts[-1]) or _below(folder, parts, name)
    depth = len(path.parts) - len(folder.parts)
    if _linked(path, depth) and not path.resolve().is_relative_to(folder.resolve()):
        raise _outside(name)
    return path


def _at(folder: Path, name: str) -> Path | None:
    """Look for a file in one folder, also under a name without its ending."""
    listing = _listing(folder).files
    tries = (name, *(f"{name}{ending}" for ending in _ENDINGS))
    found = next((one for each in tries if (one := listing.get(each.casefold()))), "")
    return folder / found if found else None


def _below(folder: Path, parts: tuple[str, ...], name: str) -> Path:
    """Look for a file in all folders below the survey's."""
    within = tuple(part.casefold() for part in parts[:-1])
    found = [
        path
        for place in _folders_below(folder)
        if not within or tuple(map(str.casefold, place.parts[-len(within) :])) == within
        if (path := _at(place, parts[-1]))
    ]
    if not found:
        raise PhotographError(
            "photo-missing", f'There is no photograph "{brief(name)}" beside the survey.'
        )
    if len(found) > 1:
        first, second = (brief(one.relative_to(folder).as_posix()) for one in found[:2])
        raise PhotographError(
            "photo-twice",
            f'The name "{brief(name)}" stands {len(found)} times below the survey\'s folder, as '
            f'"{first}" and as "{second}".',
        )
    return found[0]


def _folders_below(folder: Path) -> Iterator[Path]:
    """Give the folders below one, the nearest first; hidden ones and links are passed over."""
    waiting, left = deque([(folder, 0)]), int(limit("photo-folders"))
    while waiting:
        place, depth = waiting.popleft()
        below = _listing(place).folders if depth < limit("photo-levels") else ()
        for one in below[:left]:
            yield place / one
            waiting.append((place / one, depth + 1))
        left -= len(below[:left])


def _linked(path: Path, depth: int) -> bool:
    """Say whether any of a path's last parts may be a link, which could lead anywhere."""
    if sys.platform == "win32":  # junctions are not told from folders before Python 3.12
        return True
    return any(one.is_symlink() for one in (path, *path.parents[: depth - 1]))


def name_parts(name: str) -> tuple[str, ...]:
    """Give the parts of a plain relative path.

    Raises
    ------
    PhotographError
        If the name is none: if it leads elsewhere, or holds what no file name should.
    """
    windows = PureWindowsPath(name)
    posix = PurePosixPath(name.replace("\\", "/"))
    plain = name.isprintable() and not windows.drive and not windows.root and ":" not in name
    if not plain or posix.is_absolute() or ".." in posix.parts or not posix.parts:
        raise _outside(name)
    return posix.parts


def _outside(name: str) -> PhotographError:
    return PhotographError(
        "photo-outside",
        f'"{brief(name)}" does not stay within the survey\'s folder, so it was not opened.',
    )


@dataclass(frozen=True, slots=True)
class _Listing:
    """A folder's files by their names in small letters, and the folders in it."""

    files: Mapping[str, str]
    folders: tuple[str, ...]


def _listing(folder: Path) -> _Listing:
    try:
        return _listed(folder, folder.stat().st_mtime_ns)
    except OSError:
        return _Listing({}, ())


@lru_cache(maxsize=512)
def _listed(folder: Path, changed: int) -> _Listing:
    try:
        with os.scandir(folder) as entries:
            found = sorted(entries, key=lambda one: one.name)
            return _Listing(
                {one.name.casefold(): one.name for one in found if one.is_file()},
                tuple(one.name for one in found if _is_open_folder(one)),
            )
    except OSError:
        return _Listing({}, ())


def _is_open_folder(one: "os.DirEntry[str]") -> bool:
    return not one.name.startswith(".") and one.is_dir(follow_symlinks=False)


def load_photographs(
    text: str, folder: Path
) -> tuple[tuple[Photograph, ...], tuple[PhotographError, ...]]:
    """Read the photographs that one record names.

    Parameters
    ----------
    text
        The record's cell.
    folder
        The survey's folder.

    Returns
    -------
    photographs : tuple of Photograph
        Those that can be shown.
    errors : tuple of PhotographError
        Why the others cannot.
    """
    found, errors = [], []
    for name in photograph_names(text):
        try:
            found.append(read_photograph(find_photograph(folder, name), name))
        except PhotographError as error:
            errors.append(error)
    return tuple(found), tuple(errors)


@dataclass(frozen=True, slots=True, eq=False)
class Album:
    """The photographs that one record names.

    Attributes
    ----------
    photographs
        Those that can be shown.
    not_shown
        The names of the others.
    """

    photographs: tuple[Photograph, ...]
    not_shown: tuple[str, ...]


def record_photographs(
    buttons: "pd.DataFrame", record: int, surveys: Sequence[str | Path], folder: str | Path = ""
) -> Album:
    """Read the photographs of one button.

    Parameters
    ----------
    buttons
        One row per button.
    record
        The button's place, counted from 0.
    surveys
        The survey files or folders, as they were loaded.
    folder
        Where the photographs lie, if not beside the survey's file.

    Returns
    -------
    Album
        What of them can be shown.
    """
    file, text = ("" if name not in buttons else buttons[name].iloc[record] for name in _NEEDED)
    text = text if isinstance(text, str) else ""
    place = Path(folder) if str(folder) else survey_folders(surveys).get(str(file))
    names = photograph_names(text)
    if place is None:
        return Album((), tuple(names))
    found, _ = load_photographs(text, place)
    shown = {one.name for one in found}
    return Album(found, tuple(name for name in names if name not in shown))
