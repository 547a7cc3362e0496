"""Figures as files: the same figure gives the same bytes, today and next year.

Matplotlib writes the day, its version and random identifiers into what it saves. These are left
out or fixed, so that a report made twice can be compared file by file. The title and the
alternative text go into the files that have a place for them.
"""

from collections.abc import Iterator
from contextlib import contextmanager
from io import BytesIO
from typing import TYPE_CHECKING, Any, Protocol

if TYPE_CHECKING:
    from matplotlib.figure import Figure

__all__ = [
    "DOTS_PER_INCH",
    "KINDS",
    "DrawnFigure",
    "fonts_without_layout_tables",
    "picture_bytes",
    "pixel_size",
]

DOTS_PER_INCH = 300
KINDS = ("png", "pdf", "svg")

_PACKING: dict[str, Any] = {"png": {"pil_kwargs": {"compress_level": 3}}}
"""Packs figures as small as the usual level does, in two thirds of the time."""


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
    from buttonstudy.draw.style import house_style

    if drawn.figure is None:
        raise ValueError(f"{drawn.name} has no figure to save.")
    content = BytesIO()
    with house_style(), fonts_without_layout_tables():
        _settle(drawn.figure)
        drawn.figure.savefig(
            content,
            format=kind,
            dpi=DOTS_PER_INCH,
            metadata=_metadata(drawn, kind),
            **_PACKING.get(kind, {}),
        )
    return content.getvalue()


def _settle(figure: "Figure") -> None:
    """Lay a figure out once; every kind of file then shows the same layout, and is quicker."""
    if figure.get_layout_engine() is not None:
        figure.draw_without_rendering()
        figure.set_layout_engine("none")


@contextmanager
def fonts_without_layout_tables() -> Iterator[None]:
    """Leave out of PDF files the parts of fonts that serve for setting text, not for showing it.

    The text is set when it is drawn. To cut these parts down for each file takes half its time.
    """
    from fontTools.subset import Options  # type: ignore[import-untyped]

    kept = Options._drop_tables_default
    Options._drop_tables_default = [*kept, "GDEF", "GPOS", "GSUB"]
    try:
        yield
    finally:
        Options._drop_tables_default = kept


def _metadata(drawn: DrawnFigure, kind: str) -> dict[str, str | None]:
    if kind == "png":
        return {"Software": None, "Description": drawn.alt_text}
    if kind == "pdf":
        return {
            "Title": drawn.caption,
            "Subject": drawn.alt_text,
            "Creator": None,
            "Producer": None,
            "CreationDate": None,
        }
    return {"Title": drawn.caption, "Description": drawn.alt_text, "Creator": None, "Date": None}


def pixel_size(png: bytes) -> tuple[int, int]:
    """Return width and height of a PNG file in dots, from its header (ISO/IEC 15948).

    Examples
    --------
    >>> pixel_size(bytes(16) + (984).to_bytes(4) + (600).to_bytes(4))
    (984, 600)
    """
    return int.from_bytes(png[16:20]), int.from_bytes(png[20:24])
