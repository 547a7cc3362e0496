"""Puts pieces on paper at a scale, with dimension lines and a scale bar in mm and lines."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from buttonstudy.draw.lettering import lettering, line_height_mm, width_mm
from buttonstudy.draw.scales import fitting_step
from buttonstudy.draw.section.hatching import EDGE_PT, LINES, LineStyle, fill_surface
from buttonstudy.draw.section.pieces import Pieces
from buttonstudy.draw.section.profiles import Outline
from buttonstudy.draw.section.tables import materials
from buttonstudy.draw.sheet import Sheet
from buttonstudy.draw.style import MM_PER_POINT, ink
from buttonstudy.schemes import units

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = [
    "BAR_MM",
    "TIER_MM",
    "Dimension",
    "Placed",
    "bar_length",
    "draw_bar",
    "draw_dimensions",
    "draw_key",
    "draw_pieces",
    "key_height",
    "paper_axes",
]

TIER_MM = 4.2
BAR_MM = 9.0
_FINE_PT = 0.35
_SWATCH = 6.0
_KEY_GAP = 3.0
_BARS = (1, 2, 5, 10, 20, 30, 40, 50, 100, 200)
_LABELLED = (1, 2, 4, 5, 10, 20, 50, 100, 200)
_MARKS_APART = 0.5


@dataclass(frozen=True, slots=True)
class Placed:
    """Where a button's middle and back lie on paper, in mm, and its scale."""

    x: float
    y: float
    scale: float

    def on_paper(self, points: Outline) -> NDArray[np.float64]:
        """Turn places on the button into places on paper."""
        return np.asarray(points) * (self.scale, -self.scale) + (self.x, self.y)


@dataclass(frozen=True, slots=True)
class Dimension:
    """A measured width to be marked above the drawing: half of it, and its words."""

    half: float
    says: str


def paper_axes(sheet: Sheet, height: float) -> "Axes":
    """Give axes that measure the body in mm, downwards."""
    axes = sheet.axes(0, 0, sheet.width_mm, height)
    axes.set_xlim(0, sheet.width_mm)
    axes.set_ylim(height, 0)
    axes.set(xticks=[], yticks=[])
    axes.set_axis_off()
    return axes


def draw_pieces(axes: "Axes", pieces: Pieces, placed: Placed) -> None:
    """Draw all surfaces and strokes."""
    for number, piece in enumerate(pieces.surfaces):
        outline = placed.on_paper(piece.outline)
        fill_surface(
            axes,
            outline,
            piece.material,
            level=2 + number / 100,
            style=piece.style,
            turned=piece.turned,
        )
    for stroke in pieces.strokes:
        points = placed.on_paper(stroke.points)
        if stroke.width_mm:
            wide = max(stroke.width_mm * placed.scale / MM_PER_POINT, 1.6)
            _line(axes, points, wide, 5.0, ink("ink").colour)
            _line(axes, points, wide - 1.0, 5.1, ink("paper").colour)
        else:
            if stroke.assumed:
                _line(axes, points, 1.0, 5.15, ink("paper").colour)
            style = "dashed" if not stroke.certain else "dotted" if stroke.assumed else "solid"
            _line(axes, points, EDGE_PT[style], 5.2, ink("ink").colour, LINES[style])


def _line(
    axes: "Axes",
    points: NDArray[np.float64],
    points_wide: float,
    level: float,
    colour: str,
    style: LineStyle = "solid",
) -> None:
    axes.plot(
        points[:, 0],
        points[:, 1],
        color=colour,
        linewidth=points_wide,
        linestyle=style,
        solid_capstyle="round",
        dash_capstyle="round",
        zorder=level,
    )


def draw_dimensions(
    sheet: Sheet, axes: "Axes", placed: Placed, top: float, dimensions: list[Dimension]
) -> None:
    """Mark widths above the drawing, the widest uppermost.

    Parameters
    ----------
    top
        The height of the uppermost tier on paper.
    """
    ordered = sorted(dimensions, key=lambda one: -one.half)
    for tier, one in enumerate(ordered):
        level = top + (tier + 1) * TIER_MM - 0.7
        left, right = placed.x - one.half * placed.scale, placed.x + one.half * placed.scale
        foot = placed.y - 0.2
        for x in (left, right):
            ends = np.array([(x, level - 0.4), (x, min(foot, top + len(ordered) * TIER_MM + 1.2))])
            _line(axes, ends, _FINE_PT, 1.0, ink("quiet").colour)
        _line(axes, np.array([(left, level), (right, level)]), _FINE_PT, 1.1, ink("ink").colour)
        for x, way in ((left, 1), (right, -1)):
            head = np.array(
                [(x + way * 1.5, level - 0.4), (x, level), (x + way * 1.5, level + 0.4)]
            )
            axes.fill(head[:, 0], head[:, 1], color=ink("ink").colour, linewidth=0, zorder=1.2)
        sheet.text(
            placed.x, level - line_height_mm() - 0.1, lettering(one.says, 200), align="center"
        )


def bar_length(scale: float, room_mm: float) -> int:
    """Choose how many millimetres the scale bar shows.

    Examples
    --------
    >>> bar_length(4, 50), bar_length(1, 50), bar_length(0.5, 20)
    (10, 50, 40)
    """
    fitting = [mm for mm in _BARS if mm * scale <= room_mm]
    return fitting[-1] if fitting else 1


def draw_bar(sheet: Sheet, axes: "Axes", x: float, y: float, scale: float, mm: int) -> None:
    """Draw a bar with millimetres above and button lines below, its left end at a place."""
    line = float(units()["lines"])
    middle = y + BAR_MM / 2
    lines = int(mm / line + 1e-9)
    _line(axes, np.array([(x, middle), (x + mm * scale, middle)]), 0.8, 3.0, ink("ink").colour)
    for number, size, way, unit in ((mm, 1.0, -1, "mm"), (lines, line, 1, "lines")):
        length = number * size * scale
        step = int(fitting_step(0, number, length, _LABELLED))
        marked = next((one for one in (1, 2, 5) if one * size * scale >= _MARKS_APART), step)
        for tick in range(0, number + 1, marked if step % marked == 0 else step):
            place = x + tick * size * scale
            long = tick % step == 0
            reach = way * (1.4 if long else 0.8)
            _line(
                axes,
                np.array([(place, middle), (place, middle + reach)]),
                0.4,
                3.0,
                ink("ink").colour,
            )
            if long:
                top = middle + 1.5 if way > 0 else middle - 1.5 - line_height_mm()
                sheet.text(place, top, lettering(str(tick), 20), align="center")
        top = middle + 1.5 if way > 0 else middle - 1.5 - line_height_mm()
        sheet.text(x + mm * scale + width_mm("00"), top, lettering(unit, 20))


def _key_places(names: list[str], within_mm: float) -> list[tuple[float, float, str]]:
    placed = []
    x = y = 0.0
    for name in names:
        wide = _SWATCH + 1.2 + width_mm(materials()[name].says)
        if x > 0 and x + wide > within_mm:
            x, y = 0.0, y + line_height_mm() + 1.2
        placed.append((x, y, name))
        x += wide + _KEY_GAP
    return placed


def key_height(names: list[str], within_mm: float) -> float:
    """Give the height of a key of materials."""
    placed = _key_places(names, within_mm)
    return placed[-1][1] + line_height_mm() + 1.0 if placed else 0.0


def draw_key(sheet: Sheet, axes: "Axes", y: float, names: list[str], within_mm: float) -> None:
    """Draw the key of materials."""
    for x, down, name in _key_places(names, within_mm):
        top, bottom = y + down, y + down + line_height_mm()
        swatch = np.array([(x, top), (x + _SWATCH, top), (x + _SWATCH, bottom), (x, bottom)])
        fill_surface(axes, swatch, name, level=2)
        sheet.text(x + _SWATCH + 1.0, top, lettering(materials()[name].says, within_mm))
