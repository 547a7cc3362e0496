"""How the sets of a survey are dated: how many to each period, and how wide the dates are.

A share by period is only as good as the dates under it. The upper part shows what is dated
wholly within each period and what is shared out over several; the lower part shows every date
range as a line, so that a reader sees how long they are beside the periods.
"""

from collections.abc import Hashable
from typing import Any

import numpy as np
import pandas as pd

from buttonstudy.draw.drawn import Drawn, not_drawn
from buttonstudy.draw.lettering import lettering, line_height_mm
from buttonstudy.draw.marks import bar, edge_pt, whole
from buttonstudy.draw.panels import Panel, PlacedPanel, Plan, Row, plan_panels
from buttonstudy.draw.row_labels import labelled, left_out_words, ruled, split_rows, with_years
from buttonstudy.draw.scales import count_scale, fitting_step, ticks_between
from buttonstudy.draw.sheet import KeyEntry, Sheet
from buttonstudy.draw.style import house_style, ink, print_size
from buttonstudy.study.telling.words import HALF_A_SET, NOTHING, count, number_of

__all__ = ["periods_figure"]

_TICKS_MM = 4.0
_MOST_LINES = 80
_LINES_MM = 34.0


def periods_figure(
    table: pd.DataFrame,
    spans: pd.DataFrame,
    size: str = "a5-page",
    *,
    scheme: str = "",
    source: str = "",
) -> Drawn:
    """Draw how the sets are dated.

    Parameters
    ----------
    table
        As :func:`buttonstudy.study.evidence.dating.record_by_period` gives it.
    spans
        As :func:`buttonstudy.study.evidence.dating.date_spans` gives it.
    size
        The name of a print size.
    scheme
        The title of the period scheme, to name it on the figure.
    source
        For the figure's foot, as :func:`buttonstudy.study.telling.words.source_line` words it.
    """
    name, title = "dates-of-the-record", "How the sets are dated"
    rows = labelled(table, "period")
    rows = rows[rows["kind"] != "all"]
    rows["label"] = [_label(row) for row in rows.to_dict("records")]
    if not (rows.loc[rows["kind"] == "period", "sets"] > NOTHING).any():
        return not_drawn(name, "no set has a date within the periods")
    note = f"Periods: {scheme}. " if scheme else ""
    note += "Right: sets, and those dated wholly within the period."
    key = [
        KeyEntry(ink("deep"), "dated wholly within"),
        KeyEntry(ink("sky"), "part of a wider date"),
        KeyEntry(ink("paper"), "without a date that can be placed"),
    ]
    texts = [_figures(row) for row in rows.to_dict("records")]
    panel = Panel("", tuple(map(Row, rows["label"], texts, ruled(rows))))
    lines_mm = min(_LINES_MM, 0.4 * len(spans) + 4) + _TICKS_MM + line_height_mm()
    foot_mm = _TICKS_MM + line_height_mm() + 2 + lines_mm
    with house_style():
        sheet = Sheet(print_size(size), title, note, source, key)
        plan = plan_panels(sheet, [panel], foot_mm)
        (placed,) = plan.place(sheet)
        _draw_bars(placed, split_rows(rows, len(placed.middles)))
        below = plan.body_mm - lines_mm - 2 - line_height_mm()
        sheet.text(plan.label_mm, below, lettering("sets", 20))
        _draw_spans(sheet, plan, rows, spans, lines_mm)
        figure = sheet.figure
    return Drawn(figure, *_words(title, table, spans, plan), name)


def _label(row: dict[Hashable, Any]) -> str:
    if row["kind"] != "period":
        return str(row["label"])
    return with_years(str(row["label"]), row["year_from"], row["year_to"])


def _figures(row: dict[Hashable, Any]) -> str:
    under = 0 < row["sets"] < HALF_A_SET
    told = "under 1" if under else f"{whole(row['sets'])}"
    return f"{told} ({row['dated_within']} within)" if row["kind"] == "period" else told


def _draw_bars(placed: PlacedPanel, rows: pd.DataFrame) -> None:
    count_scale(placed.axes, float(rows["sets"].max()), placed.width_mm)
    for row, middle in zip(rows.to_dict("records"), placed.middles):
        if row["kind"] == "undated":
            bar(placed.axes, middle, 0, row["sets"], ink("paper"))
            continue
        within = row["dated_within"]
        bar(placed.axes, middle, 0, within, ink("deep"))
        bar(placed.axes, middle, within, row["sets"] - within, ink("sky"))


def _draw_spans(
    sheet: Sheet, plan: Plan, rows: pd.DataFrame, spans: pd.DataFrame, lines_mm: float
) -> None:
    """Draw each date range as a line over the years, with the periods' limits behind."""
    from matplotlib.collections import LineCollection

    top = plan.body_mm - lines_mm
    width = sheet.width_mm - plan.label_mm - 4
    axes = sheet.axes(plan.label_mm, top, width, lines_mm - _TICKS_MM - line_height_mm())
    shown = spans.iloc[:: max(1, int(np.ceil(len(spans) / _MOST_LINES)))]
    first = shown["year_from"].to_numpy(dtype=np.float64)
    last = shown["year_to"].to_numpy(dtype=np.float64) + 1
    places = np.arange(len(shown), dtype=np.float64)
    ends = np.stack([np.column_stack([first, places]), np.column_stack([last, places])], axis=1)
    axes.add_collection(LineCollection(list(ends), colors=ink("ink").colour, linewidths=edge_pt()))
    low, high = first.min(), last.max()
    pad = max((high - low) * 0.02, 1)
    axes.set_xlim(low - pad, high + pad)
    axes.set_ylim(len(shown), -1)
    axes.set_yticks([])
    axes.spines["left"].set_visible(False)
    periods = rows[rows["kind"] == "period"]
    for edge in {*periods["year_from"], *(periods["year_to"] + 1)}:
        if low - pad <= edge <= high + pad:
            axes.axvline(float(edge), color=ink("faint").colour, linewidth=0.5, zorder=0)
    ticks = ticks_between(low, high, fitting_step(low, high, width))
    axes.set_xticks(ticks, [f"{tick:.0f}" for tick in ticks])
    label = "Dates of single sets, a line for each"
    sheet.text(0, top, lettering(label, max(plan.label_mm - 2, 12)))
    sheet.text(plan.label_mm, plan.body_mm - line_height_mm(), lettering("year", width))


def _words(title: str, table: pd.DataFrame, spans: pd.DataFrame, plan: Plan) -> tuple[str, str]:
    by_kind = table.groupby("kind")["sets"].sum()
    overall = table[table["kind"] == "all"].iloc[0]
    median = spans["years"].median()
    parts = [
        f"{title}: {number_of(overall['sets'], 'set')}, {overall['dated_within']} of them dated "
        f"wholly within one period. A wide date is shared out over the years that it "
        f"allows, which describes the record and makes sudden changes look slow. Half of the "
        f"dates are {median:.0f} years long or less."
    ]
    if by_kind["undated"] > NOTHING:
        parts.append(f"{number_of(by_kind['undated'], 'set')} without a date that can be placed.")
    if by_kind["outside"] > NOTHING:
        outside = number_of(by_kind["outside"], "set's worth", "sets' worth")
        parts.append(f"{outside[:1].upper()}{outside[1:]} of dates lies outside the periods.")
    if len(spans) > _MOST_LINES:
        parts.append(f"The lines are an even choice from {number_of(len(spans), 'dated set')}.")
    parts += left_out_words(plan.rows_left_out, *table["period"])
    told = "; ".join(
        f"{row['period']} {count(row['sets'])}, {row['dated_within']} wholly within"
        for row in table[table["kind"] == "period"].to_dict("records")
        if row["sets"] > NOTHING
    )
    return " ".join(parts), f"{title}. Sets by period: {told}."
