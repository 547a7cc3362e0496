"""The marks of estimates: a dot on its interval, and an upright stroke for a second share."""

from collections.abc import Hashable
from typing import TYPE_CHECKING

import numpy as np
import pandas as pd

from buttonstudy.draw.panels import PlacedPanel
from buttonstudy.draw.style import ink

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["dot", "draw_estimates", "interval", "upright_lines"]

_MARGIN = 0.04
_STROKE_MM = 1.5
_SCALE = {0.0: "none", 0.5: "half", 1.0: "all"}


def draw_estimates(placed: PlacedPanel, rows: pd.DataFrame) -> None:
    """Draw one panel's rows of shares.

    Parameters
    ----------
    placed
        The panel's axes.
    rows
        ``estimate``, ``low``, ``high``, ``beside`` (a second share, perhaps missing), ``firm``
        (else a broken line without a dot) and ``few`` (an open dot).
    """
    axes = placed.axes
    axes.set_xlim(-_MARGIN, 1 + _MARGIN)
    upright_lines(axes, list(_SCALE))
    labels = list(_SCALE.values()) if placed.lowest else []
    axes.set_xticks(list(_SCALE) if placed.lowest else [], labels)
    for row, middle in zip(rows.to_dict("records"), placed.middles):
        _draw_row(axes, row, middle)


def _draw_row(axes: "Axes", row: dict[Hashable, float], middle: float) -> None:
    if not np.isnan(row["beside"]):
        ends = (middle - _STROKE_MM, middle + _STROKE_MM)
        axes.vlines(row["beside"], *ends, color=ink("quiet").colour, linewidth=0.9, zorder=2)
    if np.isnan(row["low"]):
        return
    interval(axes, middle, row["low"], row["high"], broken=not row["firm"])
    if row["firm"]:
        dot(axes, row["estimate"], middle, filled=not row["few"])


def upright_lines(axes: "Axes", places: list[float]) -> None:
    """Rule faint upright lines behind the rows, and take the axes' own lines away."""
    for place in places:
        axes.axvline(place, color=ink("faint").colour, linewidth=0.4, zorder=0)
    axes.spines[["left", "bottom"]].set_visible(False)
    axes.tick_params(axis="x", length=0)


def interval(axes: "Axes", middle: float, low: float, high: float, *, broken: bool = False) -> None:
    """Draw an interval; a broken line where it belongs to no estimate."""
    style = (0, (1.5, 1.5)) if broken else "solid"
    axes.hlines(
        middle,
        low,
        high,
        color=ink("deep").colour,
        linewidth=0.8 if broken else 1.4,
        linestyle=style,
        zorder=3,
    )


def dot(axes: "Axes", place: float, middle: float, *, filled: bool) -> None:
    """Draw an estimate, open where it is not to be relied on."""
    axes.plot(
        place,
        middle,
        "o",
        markersize=3.6,
        markerfacecolor=ink("ink" if filled else "paper").colour,
        markeredgecolor=ink("ink").colour,
        markeredgewidth=0.7,
        zorder=4,
        clip_on=False,
    )
