"""The marks of a panel of shares: dots, intervals and bounds; of few sets each by itself.

Few sets are squares, one for each. Where a panel is so narrow that an empty square would close up
in print, they are a bar as long as the sets examined, filled for those that have the term.
"""

from typing import TYPE_CHECKING

import numpy as np
import pandas as pd

from buttonstudy.draw.marks import BAR_MM, edge_pt, whole
from buttonstudy.draw.panels import PlacedPanel
from buttonstudy.draw.style import MM_PER_POINT, ink
from buttonstudy.schemes import limit
from buttonstudy.study.evidence.columns import Floats

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["bar_scale_mm", "draw_shares", "draws_bars", "few_words"]

_WIDE_MM = 30.0
_MARGIN = 0.04
_PITCH_MM = 1.5
_SQUARE = 0.68
_BAR_STEP = 10


def few_words(width_mm: float, having: str) -> str:
    """Say how a panel of this width shows few sets.

    Examples
    --------
    >>> few_words(25, "with it")
    'Below 30 sets: a square for each, filled if with it'
    >>> few_words(15, "with it")
    'Below 30 sets: a bar as long as their number, filled for sets with it'
    """
    lead = f"Below {limit('few-sets'):.0f} sets"
    if draws_bars(width_mm):
        return f"{lead}: a bar as long as their number, filled for sets {having}"
    return f"{lead}: a square for each, filled if {having}"


def draws_bars(width_mm: float) -> bool:
    """Say whether a panel is so narrow that an empty square would close up in print."""
    inside = _SQUARE * _pitch_mm(width_mm) - edge_pt() * MM_PER_POINT
    return inside < limit("print-narrowest-gap")


def bar_scale_mm(width_mm: float) -> list[tuple[int, float]]:
    """Give the numbers of sets on the scale of bars, and their places on axes of this width.

    Examples
    --------
    >>> [number for number, _ in bar_scale_mm(20)]
    [0, 10, 20, 30]
    """
    return [
        (number, (number / limit("few-sets") + _MARGIN) / (1 + 2 * _MARGIN) * width_mm)
        for number in range(0, round(limit("few-sets")) + 1, _BAR_STEP)
    ]


def _pitch_mm(width_mm: float) -> float:
    return min(2 * width_mm / (1 + 2 * _MARGIN) / limit("few-sets"), _PITCH_MM)


def draw_shares(placed: PlacedPanel, rows: pd.DataFrame) -> None:
    """Draw one panel's rows: dots with intervals, or each set by itself where they are few."""
    axes = placed.axes
    wide = placed.width_mm >= _WIDE_MM
    ticks = [0, 0.25, 0.5, 0.75, 1] if wide else [0, 0.5, 1]
    axes.set_xlim(-_MARGIN, 1 + _MARGIN)
    few = rows["few"].to_numpy(dtype=bool)
    middles = np.array(placed.middles)
    if few.all():  # counts have no scale of shares
        ticks = []
    for tick in ticks:
        _draw_guide(axes, tick, middles[~few], whole_panel=not few.any())
    axes.spines[["left", "bottom"]].set_visible(False)
    ticks = ticks if placed.lowest else []
    axes.set_xticks(ticks, [f"{100 * tick:.0f}{' %' * (tick == 1)}" for tick in ticks])
    axes.tick_params(axis="x", length=0)
    _draw_dots(axes, rows[~few], middles[~few])
    if few.any():
        draw = _draw_bars if draws_bars(placed.width_mm) else _draw_squares
        draw(placed, rows[few], middles[few])


def _draw_guide(axes: "Axes", tick: float, middles: Floats, *, whole_panel: bool) -> None:
    """Draw a guide line where there are shares to be read, and not through counts."""
    colour = ink("faint").colour
    if whole_panel:
        axes.axvline(tick, color=colour, linewidth=0.4, zorder=0)
        return
    axes.vlines(
        [tick] * len(middles),
        middles - _PITCH_MM,
        middles + _PITCH_MM,
        color=colour,
        linewidth=0.4,
        zorder=0,
    )


def _draw_dots(axes: "Axes", rows: pd.DataFrame, middles: Floats) -> None:
    """Draw each share with its interval before its bounds."""
    if rows.empty:
        return
    shares = rows[["share", "low", "high", "if_none", "if_all"]].astype(float)
    bounds = shares["if_all"] - shares["if_none"]
    axes.barh(
        middles,
        bounds,
        BAR_MM,
        shares["if_none"],
        color=ink("faint").colour,
        edgecolor=ink("ink").colour,
        linewidth=edge_pt(),
        zorder=1,
    )
    deep, dark = ink("deep").colour, ink("ink").colour
    axes.hlines(middles, shares["low"], shares["high"], color=deep, linewidth=1.4, zorder=3)
    axes.plot(shares["share"], middles, "o", color=dark, markersize=3.4, zorder=4, clip_on=False)


def _draw_squares(placed: PlacedPanel, rows: pd.DataFrame, middles: Floats) -> None:
    """Draw one square for each set, in columns of two, filled for those that have the term.

    All squares of a panel are one artist: a figure takes as long as it has artists.
    """
    unit_mm = placed.width_mm / (1 + 2 * _MARGIN)
    pitch_mm = _pitch_mm(placed.width_mm)
    paper, deep = ink("paper").colour, ink("deep").colour
    squares = [
        (
            (place // 2 + 0.5) * pitch_mm / unit_mm,
            middle + (place % 2 - 0.5) * pitch_mm * (whole(examined) > 1),
            deep if place < whole(having) else paper,
        )
        for having, examined, middle in zip(rows["with_term"], rows["examined"], middles)
        for place in range(whole(examined))
    ]
    if not squares:
        return
    across, down, colours = zip(*squares)
    placed.axes.scatter(
        across,
        down,
        s=(_SQUARE * pitch_mm / MM_PER_POINT) ** 2,
        c=colours,
        marker="s",
        edgecolors=ink("ink").colour,
        linewidths=edge_pt(),
        zorder=3,
    )


def _draw_bars(placed: PlacedPanel, rows: pd.DataFrame, middles: Floats) -> None:
    """Draw a bar of the sets examined, filled for those that have the term."""
    for number, _ in bar_scale_mm(placed.width_mm):
        _draw_guide(placed.axes, number / limit("few-sets"), middles, whole_panel=False)
    for name, fill in (("examined", "paper"), ("with_term", "deep")):
        lengths = [whole(number) / limit("few-sets") for number in rows[name]]
        placed.axes.barh(
            middles,
            lengths,
            BAR_MM,
            color=ink(fill).colour,
            edgecolor=ink("ink").colour,
            linewidth=[edge_pt() if length else 0.0 for length in lengths],
            zorder=3,
        )
