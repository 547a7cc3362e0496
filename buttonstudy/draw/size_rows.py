"""Sizes by class and by period, as labelled rows."""

from collections.abc import Hashable
from typing import Any

import pandas as pd

from buttonstudy.draw.drawn import Drawn, not_drawn
from buttonstudy.draw.lettering import has_gaps, lettering, line_height_mm
from buttonstudy.draw.marks import bar
from buttonstudy.draw.panels import Panel, PlacedPanel, Plan, Row, plan_panels
from buttonstudy.draw.scales import count_scale
from buttonstudy.draw.sheet import KeyEntry, Sheet
from buttonstudy.draw.style import house_style, ink, print_size
from buttonstudy.study.size_counts import NO_SIZE
from buttonstudy.study.words import number_of

__all__ = ["size_classes_figure"]

_NOTHING = 1e-6
_TICKS_MM = 4.0


def size_classes_figure(
    table: pd.DataFrame, size: str = "a5-page", *, scheme: str = "", source: str = ""
) -> Drawn:
    """Draw how many sets lie in each size class, and how many of them on its edge.

    Parameters
    ----------
    table
        As :func:`buttonstudy.study.size_counts.size_class_counts` gives it.
    size, source
        As for :func:`size_distribution`.
    scheme
        The title of the scheme of classes, to name it on the figure.
    """
    name = "size-classes"
    classes = table[table["size_class"] != NO_SIZE].to_dict("records")
    if not classes or sum(row["sets"] for row in classes) <= _NOTHING:
        return not_drawn(name, "no button has a size class")
    rows = [Row(str(row["size_class"]), _class_figures(row)) for row in classes]
    title = "Sets in each size class"
    note = f"Classes: {scheme}. " if scheme else ""
    note += "Borderline: the reading allows the next class as well."
    key = [KeyEntry(ink("deep"), "within the class"), KeyEntry(ink("sky"), "borderline")]
    with house_style():
        sheet = Sheet(print_size(size), title, note, source, key)
        plan = plan_panels(sheet, [Panel("", tuple(rows))], _TICKS_MM + line_height_mm())
        (placed,) = plan.place(sheet)
        _draw_classes(placed, classes)
        sheet.text(plan.label_mm, plan.body_mm - line_height_mm(), lettering("sets", 20))
        figure = sheet.figure
    return Drawn(figure, *_class_words(table, title, scheme, plan), name)


def _class_figures(row: dict[Hashable, Any]) -> str:
    told = f"{row['sets']:.0f}"
    edge = f"{row['borderline_sets']:.0f}"
    return f"{told} ({edge} borderline)" if edge != "0" else told


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
    if unsized["sets"] > _NOTHING:
        parts.append(f"{number_of(unsized['sets'], 'further set')} without a size.")
    if plan.rows_left_out:
        parts.append(
            f"{number_of(plan.rows_left_out, 'further class', 'further classes')} in the table only."
        )
    if has_gaps(*table["size_class"]):
        parts.append("An open box stands for a letter that the figure's typeface lacks.")
    told = "; ".join(
        f"{row['size_class']} {_class_figures(row)}" for row in table.to_dict("records")
    )
    return " ".join(parts), f"{title}. {told}."
