"""Photographs that a survey names: found beside it, and opened with nothing private kept.

A name comes from a spreadsheet, so it is not trusted: it may only lead to a file in the survey's
own folder or below. A photograph tells more than it shows, such as where it was taken and whose
camera it was. So only its pixels are taken over, turned upright and scaled down.
"""

import os
import re
import struct
import sys
import warnings
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path, PurePosixPath, PureWindowsPath
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from buttonstudy.readings.blanks import blank_state
from buttonstudy.schemes import limit
from buttonstudy.schemes.findings import finding_kinds
from buttonstudy.survey.files import display_names, find_files

if TYPE_CHECKING:
    import pandas as pd
    from PIL import Image

__all__ = [
    "Album",
    "Photograph",
    "PhotographError",
    "check_photograph",
    "find_photograph",
    "load_photographs",
    "name_parts",
    "photograph_names",
    "read_photograph",
    "record_photographs",
    "survey_folders",
]

_NEEDED = ("file", "photos")
_FORMATS = ("JPEG", "PNG", "TIFF", "WEBP", "GIF", "BMP")
_BETWEEN = re.compile(r"[;|,\r\n]+")
_ENDINGS = (".jpg", ".jpeg", ".png", ".tif", ".tiff", ".webp", ".gif", ".bmp")
_PICTURE = re.compile(r"\.(?:jpe?g|png|tiff?|webp|gif|bmp)\b", re.IGNORECASE)


class PhotographError(ValueError):
    """A photograph cannot be used.

    Attributes
    ----------
    kind
        Its code in ``findings.csv``, which says what to do.
    says
        What is wrong, a full sentence.
    """

    def __init__(self, kind: str, says: str) -> None:
        super().__init__(f"{says} {finding_kinds()[kind].what_to_do}")
        self.kind = kind
        self.says = says


@dataclass(frozen=True, slots=True, eq=False)
class Photograph:
    """One photograph's pixels, upright.

    Attributes
    ----------
    name
        As the survey has it.
    pixels
        Height by width by red, green, blue.
    """

    name: str
    pixels: NDArray[np.uint8]


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
        A name relative to it. Its ending, and small or capital letters, may differ.

    Raises
    ------
    PhotographError
        If the name leads out of the folder, or there is no such file.
    """
    if "://" in name:
        raise PhotographError(
            "photo-address",
            f'"{_short(name)}" is an address on the internet; the kit opens none.',
        )
    parts = name_parts(name)
    path = folder.joinpath(*parts)
    listing = _listing(path.parent)
    tries = (parts[-1], *(f"{parts[-1]}{ending}" for ending in _ENDINGS))
    found = next((one for each in tries if (one := listing.get(each.casefold()))), "")
    if not found:
        raise PhotographError(
            "photo-missing", f'There is no photograph "{_short(name)}" beside the survey.'
        )
    path = path.with_name(found)
    if _linked(path, len(parts)) and not path.resolve().is_relative_to(folder.resolve()):
        raise _outside(name)
    return path


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
        f'"{_short(name)}" does not stay within the survey\'s folder, so it was not opened.',
    )


def _short(name: str) -> str:
    flat = " ".join(name.split())
    return flat if len(flat) <= 60 else f"{flat[:59]}…"


def _listing(folder: Path) -> Mapping[str, str]:
    """List a folder's files, by their names in small letters."""
    try:
        return _listed(folder, folder.stat().st_mtime_ns)
    except OSError:
        return {}


@lru_cache(maxsize=16)
def _listed(folder: Path, changed: int) -> Mapping[str, str]:
    try:
        with os.scandir(folder) as entries:
            return {one.name.casefold(): one.name for one in entries if one.is_file()}
    except OSError:
        return {}


def read_photograph(path: Path, name: str = "") -> Photograph:
    """Read a photograph: upright, scaled down, and nothing but its pixels.

    Parameters
    ----------
    path
        Where it is.
    name
        What the survey calls it; else its file name.

    Raises
    ------
    PhotographError
        If it is no picture, damaged, or far too large.
    """
    from PIL import Image, ImageOps

    side = int(limit("photo-longest-side"))
    with _opened(path) as image:
        try:
            image.draft("RGB", (side, side))
            image.thumbnail((side, side), Image.Resampling.LANCZOS)
            upright = ImageOps.exif_transpose(image)
            pixels = np.array(_plain(upright), dtype=np.uint8)
        except _DAMAGE as error:
            raise _unreadable(path) from error
    return Photograph(name or path.name, pixels)


_DAMAGE = (
    OSError,
    SyntaxError,
    ValueError,
    EOFError,
    struct.error,
    IndexError,
    KeyError,
    TypeError,
)


def _opened(path: Path) -> "Image.Image":
    """Open a photograph without reading its pixels, or say why it cannot be."""
    from PIL import Image

    largest = limit("photo-bytes")
    try:
        if path.stat().st_size > largest:
            raise _too_large(path, f"has more than {largest / 1e6:,.0f} MB")
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # the size is held against the kit's own limit
            image = Image.open(path, formats=_FORMATS)
    except Image.DecompressionBombError as error:
        raise _too_large(path, "has far too many pixels") from error
    except PhotographError:
        raise
    except _DAMAGE as error:
        raise _unreadable(path) from error
    width, height = image.size
    if width * height > limit("photo-pixels"):
        image.close()
        raise _too_large(path, f"has {width:,} by {height:,} pixels")
    return image


def check_photograph(path: Path) -> None:
    """Look whether a photograph can be opened, without reading its pixels.

    Raises
    ------
    PhotographError
        If it is no picture, or far too large.
    """
    _opened(path).close()


def _plain(image: "Image.Image") -> "Image.Image":
    """Bring any kind of picture to red, green and blue on white paper."""
    from PIL import Image

    if image.mode.startswith(("I", "F")):  # more than 8 bits of grey
        values = np.asarray(image, dtype=np.float64)
        span = float(np.ptp(values)) or 1.0
        image = Image.fromarray(((values - values.min()) / span * 255).astype(np.uint8))
    if image.mode in ("RGBA", "LA", "PA", "P"):
        image = image.convert("RGBA")
        paper = Image.new("RGBA", image.size, "white")
        image = Image.alpha_composite(paper, image)
    return image.convert("RGB")


def _unreadable(path: Path) -> PhotographError:
    return PhotographError(
        "photo-unreadable",
        f'The photograph "{_short(path.name)}" cannot be read: it is damaged, or no picture.',
    )


def _too_large(path: Path, why: str) -> PhotographError:
    return PhotographError(
        "photo-too-large",
        f'The photograph "{_short(path.name)}" {why}, so it was not opened.',
    )


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
