"""Figures as files: the same figure gives the same bytes, today and next year.

Matplotlib writes the day, its version and random identifiers into what it saves. These are left
out or fixed, so that a report made twice can be compared file by file. The title and the
alternative text go into the files that have a place for them. A figure is laid out once for all
its files, and its PNG is made from its PDF.
"""

from collections.abc import Sequence
from io import BytesIO, StringIO
from typing import TYPE_CHECKING, Protocol

from buttonstudy.publish.dots import png_of

if TYPE_CHECKING:
    from matplotlib.figure import Figure

__all__ = [
    "DOTS_PER_INCH",
    "KINDS",
    "DrawnFigure",
    "picture_bytes",
    "picture_files",
    "pixel_size",
]

DOTS_PER_INCH = 300
KINDS = ("png", "pdf", "svg")


class DrawnFigure(Protocol):
    """What `Page.figure` takes: a figure with its words, or words alone where none was drawn."""

    @property
    def figure(self) -> "Figure | None":
        """The drawing, or None if the numbers allow none."""

    @property
    def caption(self) -> str:
        """One or more sentences that stand under the figure."""

    @property
    def alt_text(self) -> str:
        """What the figure shows, for a reader who cannot see it."""

    @property
    def name(self) -> str:
        """A short name for its files."""


def picture_bytes(drawn: DrawnFigure, kind: str) -> bytes:
    """Return one figure as the content of a file.

    Parameters
    ----------
    drawn
        A figure with its words; its `figure` must not be None.
    kind
        ``"png"`` (at 300 dots per inch), ``"pdf"`` or ``"svg"``.
    """
    return picture_files(drawn, (kind,))[kind]


def picture_files(drawn: DrawnFigure, kinds: Sequence[str] = KINDS) -> dict[str, bytes]:
    """Return one figure as the contents of several files, by their kinds.

    Parameters
    ----------
    drawn
        A figure with its words; its `figure` must not be None.
    kinds
        Some of ``"png"`` (at 300 dots per inch), ``"pdf"`` and ``"svg"``.
    """
    from buttonstudy.draw.style import house_style

    if drawn.figure is None:
        raise ValueError(f"{drawn.name} has no figure to save.")
    with house_style():
        _settle(drawn.figure)
        pdf = _pdf(drawn.figure, drawn) if set(kinds) - {"svg"} else b""
        made = {"pdf": pdf}
        if "png" in kinds:
            made["png"] = png_of(pdf, DOTS_PER_INCH, {"Description": drawn.alt_text})
        if "svg" in kinds:
            made["svg"] = _svg(drawn.figure, drawn)
    return {kind: made[kind] for kind in kinds}


def _settle(figure: "Figure") -> None:
    """Lay a figure out once; every kind of file then shows the same layout, and is quicker."""
    if figure.get_layout_engine() is not None:
        figure.draw_without_rendering()
        figure.set_layout_engine("none")


def _pdf(figure: "Figure", drawn: DrawnFigure) -> bytes:
    content = BytesIO()
    left_out = ("Creator", "Producer", "CreationDate")
    words = {"Title": drawn.caption, "Subject": drawn.alt_text} | dict.fromkeys(left_out)
    figure.savefig(content, format="pdf", dpi=DOTS_PER_INCH, metadata=words)
    return content.getvalue()


def _svg(figure: "Figure", drawn: DrawnFigure) -> bytes:
    content = StringIO()  # taken as it is, where bytes would be encoded word by word
    left_out = ("Creator", "Date")
    words = {"Title": drawn.caption, "Description": drawn.alt_text} | dict.fromkeys(left_out)
    figure.savefig(content, format="svg", dpi=DOTS_PER_INCH, metadata=words)
    return content.getvalue().encode()


def pixel_size(png: bytes) -> tuple[int, int]:
    """Return width and height of a PNG file in dots, from its header (ISO/IEC 15948).

    Examples
    --------
    >>> pixel_size(bytes(16) + (984).to_bytes(4) + (600).to_bytes(4))
    (984, 600)
    """
    return int.from_bytes(png[16:20]), int.from_bytes(png[20:24])
