"""Fills a cut surface with its material's hatch, in lines of fixed spacing on paper.

Matplotlib's own hatches keep neither their spacing nor their angle from one kind of file to the
next, and know no dashes. These lines are plain geometry, clipped to the surface.
"""

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from buttonstudy.draw.section.profiles import Outline
from buttonstudy.draw.section.tables import HatchLine, materials
from buttonstudy.draw.style import ink

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["EDGE_PT", "LINES", "LineStyle", "fill_surface", "hatch_lines"]

_HATCH_PT = 0.3

LineStyle = str | tuple[int, tuple[float, ...]]
LINES: dict[str, LineStyle] = {
    "solid": "solid",
    "dashed": (0, (3.0, 2.0)),
    "dotted": (0, (0.1, 1.9)),
}
EDGE_PT = {"solid": 0.6, "dashed": 0.6, "dotted": 0.8}


def hatch_lines(outline: Outline, line: HatchLine) -> NDArray[np.float64]:
    """Give the line pieces of one family that cover an outline's box.

    Returns
    -------
    ndarray
        Line pieces by their two ends, n by 2 by 2. All lines of one family lie on one lattice
        over the whole sheet, so that the parts of one material match.

    Examples
    --------
    >>> square = np.array([(0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0)])
    >>> len(hatch_lines(square, HatchLine(0, 1.0, 0, 0, 0)))
    5
    """
    turn = np.radians(line.angle)
    along = np.array([np.cos(turn), np.sin(turn)])
    across = np.array([-along[1], along[0]])
    middle = (outline.min(axis=0) + outline.max(axis=0)) / 2
    reach = float(np.linalg.norm(np.ptp(outline, axis=0))) / 2
    first = np.floor((middle @ across - reach - line.offset_mm) / line.spacing_mm)
    last = np.ceil((middle @ across + reach - line.offset_mm) / line.spacing_mm)
    rows = np.arange(first, last + 1)
    start, end = middle @ along - reach, middle @ along + reach
    pieces = []
    for row in rows:
        foot = across * (row * line.spacing_mm + line.offset_mm)
        starts, ends = _dashes(start, end, line, row)
        for one, other in zip(starts, ends):
            pieces.append((foot + along * one, foot + along * other))
    return np.array(pieces).reshape(-1, 2, 2)


def _dashes(
    start: float, end: float, line: HatchLine, row: float
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Give where dashes begin and end along one line; each line is shifted against the last."""
    if not line.gap_mm:
        return np.array([start]), np.array([end])
    step = line.dash_mm + line.gap_mm
    shift = (row * 0.382 % 1) * step  # the golden section keeps neighbours apart
    starts = np.arange(np.floor((start - shift) / step), (end - shift) / step + 1) * step + shift
    return starts, starts + line.dash_mm


def fill_surface(
    axes: "Axes",
    outline: Outline,
    material: str,
    *,
    level: float,
    style: str = "solid",
    turned: bool = False,
) -> None:
    """Draw one cut surface on axes that measure paper in mm.

    Parameters
    ----------
    outline
        On paper.
    material
        A material's name; ``"hole"`` is bare paper, the empty text leaves it unfilled.
    level
        What is drawn over what.
    style
        The edge: ``"solid"``, ``"dashed"``, ``"dotted"`` or ``"none"``.
    turned
        True leans the hatch the other way.
    """
    from matplotlib.collections import LineCollection
    from matplotlib.patches import Polygon

    known = materials().get(material)
    tint = known.tint if known else ink("paper").colour
    patch = Polygon(
        outline,
        closed=True,
        facecolor=tint if material else "none",
        edgecolor="none",
        zorder=level,
    )
    axes.add_patch(patch)
    for line in known.lines if known else ():
        line = replace(line, angle=-line.angle) if turned else line
        lines = LineCollection(
            list(hatch_lines(outline, line)),
            colors=ink("ink").colour,
            linewidths=_HATCH_PT if line.dash_mm != 0.05 else 0.9,
            capstyle="round",
            zorder=level + 0.001,
        )
        axes.add_collection(lines, autolim=False)
        lines.set_clip_path(patch)
    if style == "none":
        return
    edge = Polygon(
        outline,
        closed=True,
        fill=False,
        edgecolor=ink("ink").colour,
        linewidth=EDGE_PT[style],
        linestyle=LINES[style],
        capstyle="round",
        joinstyle="round",
        zorder=level + 0.002,
    )
    axes.add_patch(edge)
