"""The marks of a panel of shares: dots, intervals and bounds, or one square for each set."""

from collections.abc import Hashable
from typing import TYPE_CHECKING

import pandas as pd

from buttonstudy.draw.marks import whole
from buttonstudy.draw.panels import PlacedPanel
from buttonstudy.draw.style import MM_PER_POINT, ink
from buttonstudy.schemes import limit

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["draw_shares"]

_WIDE_MM = 30.0
_MARGIN = 0.04
_BAR_MM = 2.2
_PITCH_MM = 1.5
_SQUARE = 0.68


def draw_shares(placed: PlacedPanel, rows: pd.DataFrame) -> None:
    """Draw one panel's rows: dots with intervals, or squares where sets are few."""
    axes = placed.axes
    wide = placed.width_mm >= _WIDE_MM
    ticks = [0, 0.25, 0.5, 0.75, 1] if wide else [0, 0.5, 1]
    axes.set_xlim(-_MARGIN, 1 + _MARGIN)
    for tick in ticks:
        axes.axvline(tick, color=ink("faint").colour, linewidth=0.4, zorder=0)
    axes.spines[["left", "bottom"]].set_visible(False)
    labels = [f"{100 * tick:.0f}" for tick in ticks[:-1]] + ["100 %"]
    axes.set_xticks(ticks if placed.lowest else [], labels if placed.lowest else [])
    axes.tick_params(axis="x", length=0)
    for row, middle in zip(rows.to_dict("records"), placed.middles):
        if row["few"]:
            _draw_squares(placed, row["with_term"], row["examined"], middle)
        else:
            _draw_share(axes, row, middle)


def _draw_share(axes: "Axes", row: dict[Hashable, float], middle: float) -> None:
    bounds = row["if_all"] - row["if_none"]
    axes.barh(middle, bounds, _BAR_MM, row["if_none"], color=ink("faint").colour, zorder=1)
    deep, dark = ink("deep").colour, ink("ink").colour
    axes.hlines(middle, row["low"], row["high"], color=deep, linewidth=1.4, zorder=3)
    axes.plot(row["share"], middle, "o", color=dark, markersize=3.4, zorder=4, clip_on=False)


def _draw_squares(placed: PlacedPanel, having: float, examined: float, middle: float) -> None:
    """Draw one square for each set, in columns of two, filled for those that have the term."""
    number, filled = whole(examined), whole(having)
    unit_mm = placed.width_mm / (1 + 2 * _MARGIN)
    pitch_mm = min(2 * unit_mm / limit("few-sets"), _PITCH_MM)
    paper = ink("paper").colour
    placed.axes.barh(middle, 1 + 2 * _MARGIN, 2 * _PITCH_MM, -_MARGIN, color=paper, zorder=1)
    across = [(place // 2 + 0.5) * pitch_mm / unit_mm for place in range(number)]
    down = [middle + (place % 2 - 0.5) * pitch_mm for place in range(number)]
    colours = [ink("deep" if place < filled else "paper").colour for place in range(number)]
    placed.axes.scatter(
        across,
        down,
        s=(_SQUARE * pitch_mm / MM_PER_POINT) ** 2,
        c=colours,
        marker="s",
        edgecolors=ink("deep").colour,
        linewidths=0.5,
        zorder=3,
    )
