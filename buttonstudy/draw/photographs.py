"""Photographs of buttons: where the button is in one, and the figure for one button's page.

A photograph has no scale of its own. Where the button stands clear of a plain ground, its edges
can be found, and the recorded diameter gives the scale. Where it does not, none is made up.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from buttonstudy.draw.drawn import Drawn, not_drawn
from buttonstudy.draw.lettering import lettering, shortened
from buttonstudy.draw.section.facts import facts_of
from buttonstudy.draw.section.painting import BAR_MM, bar_length, draw_bar, paper_axes
from buttonstudy.draw.section.tables import shape
from buttonstudy.draw.sheet import Sheet
from buttonstudy.draw.style import MM_PER_INCH, house_style, ink, print_size
from buttonstudy.schemes import limit
from buttonstudy.study.telling.words import number_of

__all__ = ["Album", "Extent", "Pictured", "button_extent", "cut_out", "photograph_figure"]

Pixels = NDArray[np.uint8]
_SMALL = 400  # pixels on the longer side are enough to find a button by
_DOTS_PER_INCH = 400
_GAP_MM = 3.0
_MOST = 4


class Pictured(Protocol):
    """A photograph: what the survey calls it, and its upright pixels."""

    @property
    def name(self) -> str:
        """The survey's name for it."""

    @property
    def pixels(self) -> Pixels:
        """Height by width by red, green, blue."""


class Album(Protocol):
    """The photographs that one record names: those to show, and the names of the others."""

    @property
    def photographs(self) -> Sequence[Pictured]:
        """Those that can be shown."""

    @property
    def not_shown(self) -> Sequence[str]:
        """The names of the others."""


@dataclass(frozen=True, slots=True)
class Extent:
    """Where a button's edges are in a photograph, in pixels; right and bottom lie outside."""

    left: int
    top: int
    right: int
    bottom: int

    @property
    def widest(self) -> int:
        """The button's widest measure in pixels."""
        return max(self.right - self.left, self.bottom - self.top)


def button_extent(pixels: Pixels, *, round: bool = True) -> Extent | None:
    """Find the button in a photograph of one button on a plain ground.

    Parameters
    ----------
    pixels
        Height by width by red, green, blue.
    round
        Whether the button is round; then what is found must be as high as wide.

    Returns
    -------
    Extent or None
        None where the ground is not plain, or the button is cut off or does not stand clear.
    """
    from scipy import ndimage

    step = max(1, round_up(max(pixels.shape[:2]) / _SMALL))
    small = pixels[::step, ::step].astype(int)
    if min(small.shape[:2]) < 8:
        return None
    border = np.concatenate([small[0], small[-1], small[:, 0], small[:, -1]])
    ground = np.median(border, axis=0)
    apart = limit("photo-outline-apart")
    if (np.abs(border - ground).max(axis=1) > apart).mean() > 0.02:
        return None
    mask = np.abs(small - ground).max(axis=2) > apart
    mask = ndimage.binary_fill_holes(ndimage.binary_opening(mask))
    labels, found = ndimage.label(mask)
    if not found:
        return None
    largest = 1 + int(np.argmax(ndimage.sum_labels(mask, labels, range(1, found + 1))))
    rows, columns = ndimage.find_objects(labels)[largest - 1]
    tall, wide = rows.stop - rows.start, columns.stop - columns.start
    filled = float((labels[rows, columns] == largest).mean())
    if max(tall, wide) < 0.1 * max(small.shape[:2]) or filled < 0.6:
        return None
    if round and abs(tall - wide) > limit("photo-roundness") * max(tall, wide):
        return None
    return Extent(
        columns.start * step,
        rows.start * step,
        min(columns.stop * step, pixels.shape[1]),
        min(rows.stop * step, pixels.shape[0]),
    )


def round_up(number: float) -> int:
    """Give the next whole number.

    Examples
    --------
    >>> round_up(2.1), round_up(2.0)
    (3, 2)
    """
    return int(np.ceil(number))


def cut_out(pixels: Pixels, wide_mm: float) -> Pixels:
    """Scale pixels down to what print can show at a width in mm."""
    from PIL import Image

    dots = wide_mm / MM_PER_INCH * _DOTS_PER_INCH
    share = dots / max(pixels.shape[:2])
    if share >= 1:
        return pixels
    size = (max(1, round(pixels.shape[1] * share)), max(1, round(pixels.shape[0] * share)))
    return np.asarray(Image.fromarray(pixels).resize(size, Image.Resampling.LANCZOS))


def photograph_figure(
    album: Album, buttons: pd.DataFrame, record: int, size: str = "a5-page", *, source: str = ""
) -> Drawn:
    """Show one button's photographs, each with a scale bar where its scale can be known.

    Parameters
    ----------
    album
        Its photographs, of which the first four are shown.
    buttons
        One row per button.
    record
        The button's place, counted from 0.
    size
        The name of a print size.
    source
        For the figure's foot, as :func:`buttonstudy.study.telling.words.source_line` words it.
    """
    facts = facts_of(buttons.iloc[[record]])
    name = f"photographs-{facts.name}"
    missing = f" Not shown: {', '.join(album.not_shown)}." if album.not_shown else ""
    if not album.photographs:
        named = "can be shown" if missing else "is named in its record"
        words = not_drawn(name, f"no photograph of button {facts.name} {named}").caption + missing
        return Drawn(None, words, words, name)
    shown = list(album.photographs[:_MOST])
    is_round = shape(facts.first("mould_shape")).round
    extents = [button_extent(one.pixels, round=is_round) for one in shown]
    diameter = facts.lengths["diameter"].best if "diameter" in facts.lengths else None
    with house_style():
        sheet = _sheet(shown, extents, facts.name, diameter, size, source)
    more = len(album.photographs) - len(shown)
    caption, alt = _words(shown, extents, more, facts.name, diameter)
    return Drawn(sheet.figure, caption + missing, alt, name)


def _sheet(
    shown: Sequence[Pictured],
    extents: Sequence[Extent | None],
    button_id: str,
    diameter_mm: float | None,
    size: str,
    source: str,
) -> Sheet:
    place = print_size(size)
    sheet = Sheet(place, f"Button {shortened(button_id)}: photographs", "", source)
    columns = 2 if len(shown) > 1 and sheet.width_mm > 80 else 1
    wide = (sheet.width_mm - (columns - 1) * _GAP_MM) / columns
    labels = [lettering(shortened(one.name), wide) for one in shown]
    count = -(-len(shown) // columns)
    room = sheet.room_mm / count - BAR_MM - max(one.height_mm for one in labels) - _GAP_MM - 1
    widths = [min(wide, room * one.pixels.shape[1] / one.pixels.shape[0]) for one in shown]
    talls = [width * one.pixels.shape[0] / one.pixels.shape[1] for one, width in zip(shown, widths)]
    rows = [
        max(talls[start : start + columns]) + BAR_MM + 1 + labels[start].height_mm + _GAP_MM
        for start in range(0, len(shown), columns)
    ]
    sheet.open(sum(rows))
    axes = paper_axes(sheet, sum(rows))
    for number, one in enumerate(shown):
        x = (number % columns) * (wide + _GAP_MM)
        y = sum(rows[: number // columns])
        _place_photograph(sheet, x, y, one.pixels, widths[number], talls[number])
        y += talls[number]
        scale = _scale(extents[number], diameter_mm, one.pixels.shape[1], widths[number])
        if scale:
            draw_bar(sheet, axes, x + 2, y + 0.5, scale, bar_length(scale, widths[number] - 16))
        else:
            sheet.text(x, y + 1, lettering("scale not known", wide), colour=ink("quiet").colour)
        sheet.text(x, y + BAR_MM + 0.5, labels[number])
    return sheet


def _place_photograph(
    sheet: Sheet, x: float, y: float, pixels: Pixels, wide: float, tall: float
) -> None:
    axes = sheet.axes(x, y, wide, tall)
    axes.imshow(cut_out(pixels, max(wide, tall)), interpolation="none", aspect="auto")
    axes.set_axis_off()


def _scale(
    extent: Extent | None, diameter_mm: float | None, pixels_wide: int, wide: float
) -> float | None:
    """Give how many mm on paper one mm of the button takes, if that can be known."""
    if extent is None or not diameter_mm:
        return None
    return extent.widest / pixels_wide * wide / diameter_mm


def _words(
    shown: Sequence[Pictured],
    extents: Sequence[Extent | None],
    more: int,
    button_id: str,
    diameter_mm: float | None,
) -> tuple[str, str]:
    parts = [f"{number_of(len(shown), 'photograph')} of button {button_id}."]
    scaled = sum(extent is not None for extent in extents) if diameter_mm else 0
    if scaled:
        parts.append(
            f"The scale comes from the recorded diameter, {diameter_mm:.3g} mm, and the button's "
            f"edges as found in the photograph; shadows can shift them."
        )
    if not diameter_mm:
        parts.append("No diameter is recorded, so there is no scale.")
    elif scaled < len(shown):
        parts.append("Where the button does not stand clear of a plain ground there is no scale.")
    if more:
        parts.append(f"{number_of(more, 'more photograph')} not shown.")
    names = ", ".join(one.name for one in shown)
    return " ".join(parts), f"Photographs of button {button_id}: {names}."
