"""When traits came in or went out: the turning year with its interval, on a scale of years.

Behind it a pale bar reaches from the earliest to the latest set that surely shows the trait, so
that the fitted year can be held against the sets themselves. Where no year can be told, the bar
stands alone.
"""

from collections.abc import Hashable
from typing import Any

import numpy as np
import pandas as pd

from buttonstudy.draw.drawn import Drawn, not_drawn
from buttonstudy.draw.estimate_marks import dot, interval
from buttonstudy.draw.lettering import lettering, line_height_mm, shortened
from buttonstudy.draw.marks import BAR_MM, whole
from buttonstudy.draw.panels import Panel, PlacedPanel, Row, plan_panels
from buttonstudy.draw.row_labels import left_out_words
from buttonstudy.draw.scales import fitting_step, ticks_between
from buttonstudy.draw.sheet import Sheet
from buttonstudy.draw.style import house_style, ink, print_size
from buttonstudy.schemes import limit
from buttonstudy.study.telling.words import field_label, number_of, term_label

__all__ = ["turning_figure"]

_FOOT_MM = 6.8
_PAD = 0.03


def turning_figure(turning: pd.DataFrame, size: str = "a5-page", *, source: str = "") -> Drawn:
    """Draw when each trait came in or went out.

    Parameters
    ----------
    turning
        As :func:`buttonstudy.study.comparison.turning.turning_years` gives it, for one field or
        several.
    size
        The name of a print size.
    source
        For the figure's foot, as :func:`buttonstudy.study.telling.words.source_line` words it.

    Returns
    -------
    Drawn
        Without a figure, and with the reason, if no dated set shows any of the traits.
    """
    name, title = "turning-years", "When traits came in or went out"
    rows = turning[turning["earliest_from"].notna()]
    if turning.empty:
        return not_drawn(name, "no trait is asked for a turning year")
    if rows.empty:
        return not_drawn(name, "no set with a date shows any of these traits")
    records = rows.to_dict("records")
    panel = Panel("", tuple(Row(_label(row), _figures(row)) for row in records))
    with house_style():
        sheet = Sheet(print_size(size), title, _note(rows), source)
        plan = plan_panels(sheet, [panel], _FOOT_MM)
        (placed,) = plan.place(sheet)
        _draw_rows(placed, records)
        sheet.text(plan.label_mm, plan.body_mm - line_height_mm(), lettering("year", 20))
        figure = sheet.figure
    told = int(rows["told"].sum())
    caption = [
        f"{title}: a year can be told for {told} of {number_of(len(rows), 'trait')}.",
        "A logistic curve is fitted to the sets with their dates as ranges; the turning year is "
        f"the one in which the share is half way, with its {limit('confidence'):.0f} % interval.",
        *left_out_words(plan.rows_left_out, *rows["term"]),
    ]
    alt = "; ".join(_in_words(row) for row in records)
    return Drawn(figure, " ".join(caption), f"{title}. {alt}.", name)


def _label(row: dict[Hashable, Any]) -> str:
    return shortened(f"{field_label(row['field']).capitalize()}: {term_label(row['term'])}")


def _figures(row: dict[Hashable, Any]) -> str:
    seen = f"{whole(row['with_term'])} of {whole(row['sets'])}"
    return f"{row['direction']} {row['turning_year']:.0f}; {seen}" if row["told"] else seen


def _note(rows: pd.DataFrame) -> str:
    parts = []
    if rows["told"].any():
        parts.append(
            f"Dot and line: turning year, {limit('confidence'):.0f} % interval; a filled dot came "
            "in, an open one went out"
        )
    parts.append("Pale bar: from the earliest to the latest set that surely shows it")
    return ". ".join([*parts, "Right: sets with it, of those examined and dated"]) + "."


def _draw_rows(placed: PlacedPanel, records: list[dict[Hashable, Any]]) -> None:
    axes = placed.axes
    names = ("earliest_from", "latest_to", "low", "high")
    ends = [float(row[name]) for row in records for name in names if pd.notna(row[name])]
    low, high = min(ends), max(ends) + 1
    pad = max((high - low) * _PAD, 1)
    axes.set_xlim(low - pad, high + pad)
    axes.spines["left"].set_visible(False)
    ticks = ticks_between(low, high, fitting_step(low, high, placed.width_mm))
    for tick in ticks:
        axes.axvline(tick, color=ink("faint").colour, linewidth=0.4, zorder=0)
    axes.set_xticks(ticks, [f"{tick:.0f}" for tick in ticks])
    for row, middle in zip(records, placed.middles):
        first, last = float(row["earliest_from"]), float(row["latest_to"]) + 1
        axes.barh(middle, last - first, BAR_MM, first, color=ink("faint").colour, zorder=1)
        if row["told"]:
            interval(axes, middle, row["low"], row["high"])
            dot(axes, row["turning_year"], middle, filled=row["direction"] == "came in")


def _in_words(row: dict[Hashable, Any]) -> str:
    words = f"{_label(row)}: {whole(row['with_term'])} of {whole(row['sets'])} sets"
    showing = f"sure showings {row['earliest_from']} to {row['latest_to']}"
    if not row["told"] or np.isnan(row["turning_year"]):
        return f"{words}, no year can be told, {showing}"
    years = f"{row['turning_year']:.0f} ({row['low']:.0f} to {row['high']:.0f})"
    return f"{words}, {row['direction']} about {years}, {showing}"
