"""Pictures opened safely: upright, scaled down, and nothing but their pixels.

A photograph tells more than it shows, such as where it was taken and whose camera it was. And a
small file can unpack to a picture that fills a computer's memory. So a picture's size is asked
before its pixels are read, and only its pixels are taken over.
"""

import struct
import warnings
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from buttonstudy.schemes import limit
from buttonstudy.schemes.findings import finding_kinds

if TYPE_CHECKING:
    from PIL import Image

__all__ = ["Photograph", "PhotographError", "brief", "check_photograph", "read_photograph"]

_FORMATS = ("JPEG", "PNG", "TIFF", "WEBP", "GIF", "BMP")
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
        f'The photograph "{brief(path.name)}" cannot be read: it is damaged, or no picture.',
    )


def _too_large(path: Path, why: str) -> PhotographError:
    return PhotographError(
        "photo-too-large",
        f'The photograph "{brief(path.name)}" {why}, so it was not opened.',
    )


def brief(name: str) -> str:
    """Put a name on one line, not too long, for a message."""
    flat = " ".join(name.split())
    return flat if len(flat) <= 60 else f"{flat[:59]}…"
