"""Figures in the forms that printers ask for beside the page's own: grey, and TIFF.

The grey copy weighs colours as the eye does (ITU-R BT.601), as a photocopier about does, so that it
shows whether a figure survives one. Both keep the resolution, so that they print at their width.
"""

from io import BytesIO
from typing import TYPE_CHECKING

from buttonstudy.publish.pictures import DOTS_PER_INCH

if TYPE_CHECKING:
    from PIL.Image import Image

__all__ = ["grey_png", "tiff"]

_RESOLUTION = (DOTS_PER_INCH, DOTS_PER_INCH)


def grey_png(png: bytes) -> bytes:
    """Return a picture in shades of grey, one channel, on white."""
    return _saved(_on_white(png).convert("L"), "PNG", optimize=False)


def tiff(png: bytes) -> bytes:
    """Return a picture as TIFF in colour, packed without loss, on white."""
    return _saved(_on_white(png), "TIFF", compression="tiff_lzw")


def _on_white(png: bytes) -> "Image":
    from PIL import Image

    with Image.open(BytesIO(png)) as picture:
        clear = picture.convert("RGBA")
    ground = Image.new("RGBA", clear.size, "white")
    return Image.alpha_composite(ground, clear).convert("RGB")


def _saved(picture: "Image", form: str, **options: object) -> bytes:
    content = BytesIO()
    picture.save(content, form, dpi=_RESOLUTION, **options)
    return content.getvalue()
