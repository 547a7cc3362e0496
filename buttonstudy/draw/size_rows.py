"""Sizes by class and by period, as labelled rows.

The scale of sizes by period has both units: millimetres below, button lines above.
"""

from collections.abc import Hashable
from typing import Any

import numpy as np
import pandas as pd

from buttonstudy.draw.drawn import Drawn, not_drawn
from buttonstudy.draw.lettering import lettering, line_height_mm, shortened
from buttonstudy.draw.marks import bar, whole
from buttonstudy.draw.panels import Panel, PlacedPanel, Plan, Row, plan_panels
from buttonstudy.draw.row_labels import labelled, left_out_words, period_words, ruled, split_rows
from buttonstudy.draw.scales import count_scale, size_scales
from buttonstudy.draw.sheet import KeyEntry, Sheet
from buttonstudy.draw.style import house_style, ink, print_size
from buttonstudy.schemes import limit
from buttonstudy.study.sizes.counts import NO_SIZE
from buttonstudy.study.telling.words import (
    NOTHING,
    WIDE_DATES_SHARED,
    count,
    field_label,
    number_of,
)

__all__ = ["size_classes_figure", "sizes_by_period"]

_TICKS_MM = 4.0
_PAD = 0.06
_QUARTILE_MM = 2.2


def size_classes_figure(
    table: pd.DataFrame, size: str = "a5-page", *, scheme: str = "", source: str = ""
) -> Drawn:
    """Draw how many sets lie in each size class, and how many of them on its edge.

    Parameters
    ----------
    table
        As :func:`buttonstudy.study.sizes.counts.size_class_counts` gives it.
    size, source
        As for :func:`size_distribution`.
    scheme
        The title of the scheme of classes, to name it on the figure.
    """
    name = "size-classes"
    classes = _held_classes(table[table["size_class"] != NO_SIZE].to_dict("records"))
    if not classes:
        return not_drawn(name, "no button has a size class")
    rows = [Row(shortened(str(row["size_class"])), _class_figures(row)) for row in classes]
    title = "Sets in each size class"
    note = f"Classes: {scheme}. " if scheme else ""
    note += "Borderline, in brackets: the reading allows the next class as well."
    key = [KeyEntry(ink("deep"), "within the class"), KeyEntry(ink("sky"), "borderline")]
    with house_style():
        sheet = Sheet(print_size(size), title, note, source, key)
        plan = plan_panels(sheet, [Panel("", tuple(rows))], _TICKS_MM + line_height_mm())
        (placed,) = plan.place(sheet)
        _draw_classes(placed, classes)
        sheet.text(plan.label_mm, plan.body_mm - line_height_mm(), lettering("sets", 20))
        figure = sheet.figure
    return Drawn(figure, *_class_words(table, title, scheme, plan), name)


def _held_classes(classes: list[dict[Hashable, Any]]) -> list[dict[Hashable, Any]]:
    """Leave out the classes before the first and after the last that hold anything."""
    held = [place for place, row in enumerate(classes) if row["sets"] > NOTHING]
    return classes[held[0] : held[-1] + 1] if held else []


def _class_figures(row: dict[Hashable, Any], says: str = "") -> str:
    told, edge = whole(row["sets"]), whole(row["borderline_sets"])
    return f"{told} ({edge}{says})" if edge else f"{told}"


def _draw_classes(placed: PlacedPanel, classes: list[dict[Hashable, Any]]) -> None:
    count_scale(placed.axes, max(row["sets"] for row in classes), placed.width_mm)
    for row, middle in zip(classes, placed.middles):
        edge = row["borderline_sets"]
        bar(placed.axes, middle, 0, row["sets"] - edge, ink("deep"))
        bar(placed.axes, middle, row["sets"] - edge, edge, ink("sky"))


def _class_words(table: pd.DataFrame, title: str, scheme: str, plan: Plan) -> tuple[str, str]:
    unsized = table[table["size_class"] == NO_SIZE].iloc[0]
    sized = table["sets"].sum() - unsized["sets"]
    parts = [f"{title}: {number_of(sized, 'set')} with a size."]
    if scheme:
        parts.append(f"Classes: {scheme}.")
    parts.append("A set with buttons in several classes counts in each by its share there.")
    ends = len(table) - 1 - len(_held_classes(table.drop(index=unsized.name).to_dict("records")))
    if ends:
        parts.append(
            f"{number_of(ends, 'class', 'classes')} at the ends without any set not drawn."
        )
    if unsized["sets"] > NOTHING:
        parts.append(f"{number_of(unsized['sets'], 'further set')} without a size.")
    parts += left_out_words(plan.rows_left_out, *table["size_class"])
    told = "; ".join(
        f"{row['size_class']} {_class_figures(row, ' borderline')}"
        for row in table.to_dict("records")
    )
    return " ".join(parts), f"{title}. {told}."


def sizes_by_period(
    table: pd.DataFrame, size: str = "a5-page", *, field: str = "diameter", source: str = ""
) -> Drawn:
    """Draw the median size of each period with its interval, and the middle half of the sizes.

    Parameters
    ----------
    table
        As :func:`buttonstudy.study.sizes.intervals.sizes_by_period` gives it.
    size, source
        As for :func:`size_classes_figure`.
    field
        The length that it was asked for.
    """
    name = f"{field_label(field)}-by-period".replace(" ", "-")
    rows = labelled(table, "period", by_years=print_size(size).periods_by_years)
    if (rows["sets"] <= NOTHING).all():
        return not_drawn(name, f"no set has a {field_label(field)}")
    if (table.loc[table["kind"] == "period", "sets"] <= NOTHING).all():
        return not_drawn(name, f"no set with a {field_label(field)} is dated to these periods")
    if rows["median_mm"].isna().all():
        return not_drawn(name, f"too few sets have a {field_label(field)}")
    title = f"{field_label(field).capitalize()} by period"
    listed_rows = map(Row, rows["label"], [_sets(number) for number in rows["sets"]], ruled(rows))
    scale_mm = _TICKS_MM + line_height_mm()
    with house_style():
        sheet = Sheet(print_size(size), title, _size_note(rows), source)
        plan = plan_panels(sheet, [Panel("", tuple(listed_rows))], scale_mm, scale_mm)
        (placed,) = plan.place(sheet)
        _draw_sizes(placed, split_rows(rows, len(placed.middles)))
        for says, top in (("button lines", 0.0), ("mm", plan.body_mm - line_height_mm())):
            sheet.text(plan.label_mm, top, lettering(says, plan.axes_mm))
        figure = sheet.figure
    return Drawn(figure, *_period_words(rows, title, plan), name)


def _sets(number: float) -> str:
    if number < NOTHING:
        return "no set"
    return "under 1 set" if whole(number) == 0 else f"{whole(number)} set{'s' * (number >= 1.5)}"


def _size_note(rows: pd.DataFrame) -> str:
    confidence = f"{limit('confidence'):.0f} %"
    parts = ["Bar: the middle half of the sizes"]
    if not rows["few"].all():
        parts.append(f"Dot and line: median, {confidence} interval")
    if (rows["few"] & rows["median_mm"].notna()).any():
        few = f"{limit('few-sets-for-sizes'):.0f}"
        parts.append(f"Open dot: median of fewer than {few} sets, too few for an interval")
    if ((rows["sets"] > NOTHING) & rows["median_mm"].isna()).any():
        parts.append(f"No dot: fewer than {limit('fewest-sets-for-median'):.0f} sets")
    return ". ".join([*parts, "Wide dates are shared out over the periods"]) + "."


def _draw_sizes(placed: PlacedPanel, rows: pd.DataFrame) -> None:
    axes = placed.axes
    ends = rows[[name for name in rows.columns if name.endswith("_mm")]].to_numpy(dtype=np.float64)
    low, high = np.nanmin(ends), np.nanmax(ends)
    pad = max((high - low) * _PAD, 0.5)
    axes.set_xlim(low - pad, high + pad)
    size_scales(axes, placed.width_mm)
    sky, dark = ink("sky").colour, ink("ink").colour
    for row, middle in zip(rows.to_dict("records"), placed.middles):
        if np.isnan(row["median_mm"]):
            continue
        width = row["upper_quartile_mm"] - row["lower_quartile_mm"]
        axes.barh(middle, width, _QUARTILE_MM, row["lower_quartile_mm"], color=sky, zorder=1)
        if not row["few"]:
            low, high = row["median_low_mm"], row["median_high_mm"]
            axes.hlines(middle, low, high, color=dark, linewidth=1.2, zorder=3)
        fill = ink("paper").colour if row["few"] else dark
        axes.plot(
            row["median_mm"],
            middle,
            "o",
            markersize=3.4,
            markerfacecolor=fill,
            markeredgecolor=dark,
            markeredgewidth=0.6,
            zorder=4,
        )


def _period_words(rows: pd.DataFrame, title: str, plan: Plan) -> tuple[str, str]:
    overall = rows[rows["kind"] == "all"].iloc[0]
    confidence = f"{limit('confidence'):.0f} %"
    parts = [
        f"{title}: {number_of(overall['sets'], 'set')} with a size. Each set counts once, its "
        f"buttons sharing its weight. {WIDE_DATES_SHARED}"
    ]
    if not rows["few"].all():
        parts.append(
            f"{confidence} intervals of the median say how far chance alone could move it in so "
            f"many sets."
        )
    parts += period_words(rows)
    parts += left_out_words(plan.rows_left_out, *rows["label"])
    told = "; ".join(_median_in_words(row) for row in rows.to_dict("records"))
    return " ".join(parts), f"{title}. Median and number of sets. {told}."


def _median_in_words(row: dict[Hashable, Any]) -> str:
    if np.isnan(row["median_mm"]):
        too_few = f"{count(row['sets'])}, too few for a median"
        return f"{row['label']} {too_few if row['sets'] > NOTHING else 'no size'}"
    words = f"{row['label']} {row['median_mm']:.1f} mm, {count(row['sets'])}"
    if row["few"]:
        return words
    return f"{words} ({row['median_low_mm']:.1f} to {row['median_high_mm']:.1f} mm)"
