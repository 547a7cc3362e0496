"""How sizes are distributed, on one pair of scales: millimetres below, button lines above.

The even lines, which are the trade sizes, have a tick each. Bars are told apart by how finely the
sizes were read, so that a hill made by a coarse ruler is seen for what it is.
"""

from typing import TYPE_CHECKING

import numpy as np
import pandas as pd

from buttonstudy.draw.drawn import Drawn, not_drawn
from buttonstudy.draw.lettering import lettering, line_height_mm, width_mm
from buttonstudy.draw.marks import edge_pt
from buttonstudy.draw.scales import fitting_step, size_scales, ticks_between
from buttonstudy.draw.sheet import KeyEntry, Sheet
from buttonstudy.draw.style import house_style, ink, print_size
from buttonstudy.schemes import units
from buttonstudy.study.sizes.counts import PRECISIONS
from buttonstudy.study.telling.words import NOTHING, count, field_label, listed, number_of

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["size_distribution"]

_INKS = ("deep", "sky", "pale")
_TICKS_MM = 4.0
_PLOT_SHARE = 0.5
_PLOT_MOST_MM = 60.0
_LEAST_MM = 8.0  # sizes all alike still get a scale with numbers


def size_distribution(
    table: pd.DataFrame, size: str = "a5-page", *, field: str = "diameter", source: str = ""
) -> Drawn:
    """Draw how sizes are distributed, in millimetres and button lines.

    Parameters
    ----------
    table
        As :func:`buttonstudy.study.sizes.counts.size_histogram` gives it.
    size
        The name of a print size.
    field
        The length that it was asked for.
    source
        For the figure's foot, as :func:`buttonstudy.study.telling.words.source_line` words it.
    """
    name = f"{field_label(field)}-distribution".replace(" ", "-")
    if table.empty or table["sets"].sum() <= NOTHING:
        return not_drawn(name, f"no button has a {field_label(field)}")
    held = table.groupby("precision")["sets"].sum()
    groups = [group for group in PRECISIONS if held.get(group, 0) > NOTHING]
    key = [
        KeyEntry(ink(_INKS[PRECISIONS.index(group)]), f"{group}: {number_of(held[group], 'set')}")
        for group in groups
    ]
    title = f"{field_label(field).capitalize()}: how many sets of each size"
    note = (
        "Height: sets for each button line of size. Each reading is spread evenly over the sizes "
        "that it allows."
    )
    with house_style():
        sheet = Sheet(print_size(size), title, note, source, key)
        axes = _size_axes(sheet, table, field)
        _draw_stacks(axes, table, groups)
        figure = sheet.figure
    return Drawn(figure, *_distribution_words(table, title, groups, held), name)


def _size_axes(sheet: Sheet, table: pd.DataFrame, field: str) -> "Axes":
    """Open the sheet with one pair of scales: lines above, millimetres below."""
    height = min(_PLOT_SHARE * sheet.width_mm + 12, _PLOT_MOST_MM)
    top = line_height_mm() + _TICKS_MM
    sheet.open(top + height + _TICKS_MM + line_height_mm())
    most = float(table.groupby("lines")["sets"].sum().max())
    left = width_mm(count(round(most * 1.1))) + 2.5
    width = sheet.width_mm - left - 2
    axes = sheet.axes(left, top, width, height)
    low, high = float(table["over_mm"].min()), float(table["up_to_mm"].max())
    pad = max(_LEAST_MM - (high - low), 0.0) / 2
    axes.set_xlim(low - pad, high + pad)
    axes.set_ylim(0, most * 1.08)
    step = fitting_step(0, most, height)
    ticks = ticks_between(0, most, step)
    axes.set_yticks(ticks, [f"{tick:.0f}" for tick in ticks])
    size_scales(axes, width)
    sheet.text(left, top + height + _TICKS_MM, lettering(f"{field_label(field)} in mm", width))
    above = "button lines; a tick at each even line" if width > 50 else "button lines"
    sheet.text(left, 0, lettering(above, width))
    return axes


def _draw_stacks(axes: "Axes", table: pd.DataFrame, groups: list[str]) -> None:
    below = np.zeros(table["lines"].nunique())
    for group in groups:
        bars = table[table["precision"] == group]
        fill = ink(_INKS[PRECISIONS.index(group)])
        axes.bar(
            bars["over_mm"],
            bars["sets"],
            bars["up_to_mm"] - bars["over_mm"],
            below,
            align="edge",
            color=fill.colour,
            hatch=fill.hatch,
            edgecolor=ink("ink").colour,
            linewidth=edge_pt(),
        )
        below = below + bars["sets"].to_numpy()


def _distribution_words(
    table: pd.DataFrame, title: str, groups: list[str], held: pd.Series
) -> tuple[str, str]:
    sets, buttons = table["sets"].sum(), table["buttons"].sum()
    told = listed(f"{number_of(held[group], 'set')} {group}" for group in groups)
    caption = (
        f"{title}. {number_of(sets, 'set')} with {number_of(buttons, 'button')}: {told}. Bars are "
        f"one button line (0.635 mm) wide, about the whole lines; each reading is spread evenly "
        f"over the sizes that it allows, and the buttons of a set share its weight."
    )
    by_line = table.groupby("lines")["sets"].sum()
    filled = table.loc[table["sets"] > NOTHING, "lines"]
    low, high, tallest = int(filled.min()), int(filled.max()), int(str(by_line.idxmax()))
    line = float(units()["lines"])
    alt = (
        f"{title}. Sizes run from {low} to {high} button lines "
        f"({low * line:.0f} to {high * line:.0f} mm). The "
        f"tallest bar is at {tallest} lines ({tallest * line:.1f} mm) with "
        f"{number_of(by_line.max(), 'set')} of {count(sets)}. {told}."
    )
    return caption, alt
