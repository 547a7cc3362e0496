"""One button's section with its dimensions and words, planned to fit a width, then drawn.

Where there is room the words stand beside the drawing. In a narrow column they stand below it as
a list, and numbers in circles point to the parts.
"""

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from buttonstudy.draw.lettering import Lettering, lettering, shortened, width_mm
from buttonstudy.draw.section.anatomy import Anatomy
from buttonstudy.draw.section.assembly import assemble
from buttonstudy.draw.section.callouts import PlacedCallout, column_height, place_callouts
from buttonstudy.draw.section.facts import Facts
from buttonstudy.draw.section.painting import (
    TIER_MM,
    Dimension,
    Placed,
    draw_dimensions,
    draw_pieces,
)
from buttonstudy.draw.section.pieces import Pieces
from buttonstudy.draw.section.tables import drawing_size, materials
from buttonstudy.draw.sheet import Sheet
from buttonstudy.draw.style import ink

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["View", "draw_view", "fitting_scales", "view_of"]

SCALES = (20, 15, 12, 10, 8, 6, 5, 4, 3, 2.5, 2, 1.5, 1, 0.75, 0.5, 0.25, 0.1)
_WIDE_MM = 100.0
_LEADER = 5.0
_BALLOON = 2.0
_MARGIN = 1.5


@dataclass(frozen=True, slots=True)
class View:
    """A planned drawing of one button.

    Attributes
    ----------
    scale
        Paper to button.
    height
        What it takes on paper, in mm.
    numbered
        Whether the words stand below, by number.
    """

    pieces: Pieces
    dimensions: list[Dimension]
    scale: float
    width: float
    height: float
    drawing_top: float
    drawing_bottom: float
    placed: Placed
    numbered: bool
    callouts: list[PlacedCallout]
    listed: list[Lettering]

    @property
    def materials(self) -> list[str]:
        """The materials that are drawn, in the key's order."""
        used = {piece.material for piece in self.pieces.surfaces}
        return [name for name in materials() if name in used]


def fitting_scales(facts: Facts, body: Anatomy, width: float, tall: float) -> list[float]:
    """List the round scales at which a drawing fits a width and a height, the largest first.

    Parameters
    ----------
    width
        The width on paper for the drawing and its words.
    tall
        The height on paper for the drawing alone.
    """
    left, bottom, right, top = assemble(facts, body, 0.0).box()
    across = width - 4 * _BALLOON - 6 if width < _WIDE_MM else 0.47 * width
    fits = [
        one for one in SCALES if (right - left) * one <= across and (top - bottom) * one <= tall
    ]
    return fits or [SCALES[-1]]


def view_of(facts: Facts, body: Anatomy, width: float, scale: float) -> View:
    """Plan one button for a width on paper, in mm, and a scale."""
    numbered = width < _WIDE_MM
    pieces = assemble(facts, body, drawing_size("layer-drawn-least") / scale)
    pieces.callouts.sort(key=lambda one: (-one.y, one.x))
    left, bottom, right, top = pieces.box()
    dimensions = _dimensions(facts, body, scale, numbered)
    tiers = len(dimensions) * TIER_MM + 1.5
    tall = (top - bottom) * scale
    column = (width - (right - left) * scale) / 2 - _LEADER
    words = [
        str(number + 1) if numbered else shortened(one.says)
        for number, one in enumerate(pieces.callouts)
    ]
    needed = (len(words) / 2 + 1) * (2 * _BALLOON + 1.2)
    drawing = max(
        tiers + tall, needed if numbered else column_height(pieces.callouts, words, column)
    )
    start = (drawing - tiers - tall) / 2
    origin = Placed(width / 2, start + tiers + top * scale, scale)
    callouts = _placed(pieces, words, 2 * _BALLOON if numbered else column, origin, drawing)
    told = [shortened(one.says) for one in pieces.callouts] if numbered else []
    listed = [lettering(says, width - width_mm("00 ")) for says in told]
    height = drawing + _MARGIN + sum(line.height_mm for line in listed) + (1.0 if listed else 0)
    return View(
        pieces,
        dimensions,
        scale,
        width,
        height,
        start,
        drawing,
        origin,
        numbered,
        callouts,
        listed,
    )


def _dimensions(facts: Facts, body: Anatomy, scale: float, brief: bool) -> list[Dimension]:
    """List the widths to be marked: the button's, and the mould's where its words have room."""
    told = []
    button, mould = facts.lengths.get("diameter"), facts.lengths.get("mould_diameter")
    if button:
        told.append(Dimension(body.radius, button.words if brief else button.with_lines))
    if mould and abs(2 * body.mould_radius - mould.best) < 0.01:
        says = f"mould {mould.words if brief else mould.with_lines}"
        if not told or width_mm(says) + 1 < 2 * body.radius * scale:
            told.append(Dimension(body.mould_radius, says))
    return told


def _placed(
    pieces: Pieces, words: list[str], within: float, origin: Placed, drawing: float
) -> list[PlacedCallout]:
    points = np.array([(one.x, one.y) for one in pieces.callouts]).reshape(-1, 2)
    right = [(float(x), float(y)) for x, y in origin.on_paper(points)]
    left = [(float(x), float(y)) for x, y in origin.on_paper(points * (-1, 1))]
    return place_callouts(pieces.callouts, words, within, right, left, 2 * origin.x, 0.0, drawing)


def draw_view(sheet: Sheet, axes: "Axes", view: View, x: float, y: float) -> None:
    """Draw a planned button with its upper left corner at a place of the sheet's body."""
    placed = Placed(view.placed.x + x, view.placed.y + y, view.scale)
    draw_pieces(axes, view.pieces, placed)
    draw_dimensions(sheet, axes, placed, y + view.drawing_top, view.dimensions)
    for one in view.callouts:
        _draw_callout(sheet, axes, view, one, x, y)
    down = y + view.drawing_bottom + _MARGIN
    for number, letters in enumerate(view.listed):
        sheet.text(x, down, lettering(str(number + 1), 10), weight="bold")
        sheet.text(x + width_mm("00 "), down, letters)
        down += letters.height_mm


def _draw_callout(
    sheet: Sheet, axes: "Axes", view: View, one: PlacedCallout, x: float, y: float
) -> None:
    from matplotlib.patches import Circle

    edge = x if one.left else x + view.width
    middle = y + one.middle
    way = 1 if one.left else -1
    wide = 2 * _BALLOON if view.numbered else one.letters.width_mm
    near = edge + way * (wide + 0.8 * (not view.numbered))
    knee = near + way * (0.8 if not view.numbered else 0.0)
    at = (one.at[0] + x, one.at[1] + y)
    colour = ink("quiet").colour
    axes.plot([near, knee, at[0]], [middle, middle, at[1]], color=colour, linewidth=0.4, zorder=7)
    axes.add_patch(
        Circle(at, 0.4, facecolor=ink("ink").colour, edgecolor="white", linewidth=0.3, zorder=8)
    )
    if view.numbered:
        centre = edge + way * _BALLOON
        axes.add_patch(
            Circle(
                (centre, middle),
                _BALLOON,
                facecolor="white",
                edgecolor=colour,
                linewidth=0.5,
                zorder=7,
            )
        )
        sheet.text(centre, y + one.top, one.letters, align="center")
    else:
        start = edge if one.left else edge - one.letters.width_mm
        sheet.text(start, y + one.top, one.letters)
