"""How many sets are no larger than a size: the curve that keeps every reading as its interval.

Where the curve rises steeply many sets lie; where it is flat there are none. Dots with lines stand
on it at the quantiles, so that what chance allows can be seen beside the curve itself.
"""

from collections.abc import Hashable
from typing import TYPE_CHECKING

import numpy as np
import pandas as pd

from buttonstudy.draw.drawn import Drawn, not_drawn
from buttonstudy.draw.lettering import lettering, line_height_mm, width_mm
from buttonstudy.draw.scales import size_scales
from buttonstudy.draw.sheet import Sheet
from buttonstudy.draw.style import house_style, ink, print_size
from buttonstudy.schemes import limit
from buttonstudy.study.telling.words import field_label, number_of

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["size_curve"]

_TICKS_MM = 4.0
_PLOT_SHARE = 0.45
_PLOT_MOST_MM = 60.0
_SHARES = (0, 0.25, 0.5, 0.75, 1)


def size_curve(
    table: pd.DataFrame,
    quantiles: pd.DataFrame,
    size: str = "a5-page",
    *,
    field: str = "diameter",
    source: str = "",
) -> Drawn:
    """Draw the share of sets that are no larger than each size.

    Parameters
    ----------
    table
        As :func:`buttonstudy.study.sizes.intervals.size_distribution` gives it.
    quantiles
        As :func:`buttonstudy.study.sizes.intervals.size_quantiles` gives it.
    size
        The name of a print size.
    field
        The length that it was asked for.
    source
        For the figure's foot, as :func:`buttonstudy.study.telling.words.source_line` words it.
    """
    name = f"{field_label(field)}-curve".replace(" ", "-")
    if table.empty:
        return not_drawn(name, f"no button has a {field_label(field)}")
    title = f"{field_label(field).capitalize()}: how many sets are no larger"
    note = "Line: share of the sets that are no larger than each size"
    if quantiles["low_mm"].notna().any():
        note += f". Dots and bars: the size at that share, with its {_confidence()} interval"
    with house_style():
        sheet = Sheet(print_size(size), title, f"{note}.", source)
        axes = _axes(sheet, table, field)
        _draw(axes, table, quantiles)
        figure = sheet.figure
    return Drawn(figure, *_words(title, table, quantiles), name)


def _axes(sheet: Sheet, table: pd.DataFrame, field: str) -> "Axes":
    """Open the sheet with one pair of scales: lines above, millimetres below."""
    height = min(_PLOT_SHARE * sheet.width_mm + 12, _PLOT_MOST_MM)
    top = line_height_mm() + _TICKS_MM
    sheet.open(top + height + _TICKS_MM + line_height_mm())
    left = width_mm("100 %") + 2.5
    width = sheet.width_mm - left - 2
    axes = sheet.axes(left, top, width, height)
    low, high = float(table["low_mm"].min()), float(table["high_mm"].max())
    pad = max(0.04 * (high - low), 0.5)
    axes.set_xlim(low - pad, high + pad)
    axes.set_ylim(0, 1.02)
    axes.set_yticks(_SHARES, [f"{100 * share:.0f} %" for share in _SHARES])
    for share in _SHARES[1:]:
        axes.axhline(share, color=ink("faint").colour, linewidth=0.4, zorder=0)
    size_scales(axes, width)
    sheet.text(left, top + height + _TICKS_MM, lettering(f"{field_label(field)} in mm", width))
    above = "button lines; a tick at each even line" if width > 50 else "button lines"
    sheet.text(left, 0, lettering(above, width))
    return axes


def _draw(axes: "Axes", table: pd.DataFrame, quantiles: pd.DataFrame) -> None:
    """Draw the curve, straight within each interval, whose inside the readings cannot tell."""
    upper = table["share_up_to"].to_numpy(dtype=float)
    lower = np.concatenate([[0.0], upper[:-1]])
    ends = table[["low_mm", "high_mm"]].to_numpy(dtype=float)
    sizes = np.concatenate([axes.get_xlim()[:1], ends.reshape(-1), axes.get_xlim()[1:]])
    shares = np.concatenate([[0.0], np.column_stack([lower, upper]).reshape(-1), [1.0]])
    axes.plot(sizes, shares, color=ink("deep").colour, linewidth=1.2, zorder=2)
    known = quantiles.dropna(subset=["low_mm"])
    dark = ink("ink").colour
    axes.hlines(known["quantile"], known["low_mm"], known["high_mm"], color=dark, zorder=3)
    axes.plot(known["size_mm"], known["quantile"], "o", color=dark, markersize=3.4, zorder=4)


def _words(title: str, table: pd.DataFrame, quantiles: pd.DataFrame) -> tuple[str, str]:
    sets = number_of(int(table["sets"].iloc[0]), "set")
    caption = (
        f"{title}. {sets} with a size, each counted once. Every reading is spread evenly over the "
        f"interval that it leaves open; no rounded size is taken as exact."
    )
    if quantiles["low_mm"].notna().any():
        caption += (
            f" {_confidence()} intervals say how far chance could move the size in so many sets."
        )
    told = "; ".join(_quantile_in_words(row) for row in quantiles.to_dict("records"))
    return caption, f"{title}. A rising curve for {sets}. {told}."


def _quantile_in_words(row: dict[Hashable, float]) -> str:
    words = f"{100 * row['quantile']:.0f} % are no larger than {row['size_mm']:.1f} mm"
    if np.isnan(row["low_mm"]):
        return words
    return f"{words} ({row['low_mm']:.1f} to {row['high_mm']:.1f} mm)"


def _confidence() -> str:
    return f"{limit('confidence'):.0f} %"
