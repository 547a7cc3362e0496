"""Features that go together: odds ratios with their intervals, and the counts they rest on.

The scale is even in steps of times: four times as high lies as far to the right of 1 as a quarter
lies to the left. An interval that is open at one side ends in an arrowhead.
"""

import math
from collections.abc import Hashable
from typing import Any

import pandas as pd

from buttonstudy.draw.drawn import Drawn, not_drawn
from buttonstudy.draw.estimate_marks import dot, interval, upright_lines
from buttonstudy.draw.lettering import lettering, line_height_mm, shortened
from buttonstudy.draw.marks import whole
from buttonstudy.draw.panels import Panel, PlacedPanel, Row, plan_panels
from buttonstudy.draw.row_labels import left_out_words
from buttonstudy.draw.sheet import Sheet
from buttonstudy.draw.style import house_style, ink, print_size
from buttonstudy.schemes import limit
from buttonstudy.study.comparison.association_words import times
from buttonstudy.study.telling.words import field_label, number_of, term_label

__all__ = ["ties_figure"]

_FOOT_MM = 6.8
_SCALE = {1 / 64: "1/64", 1 / 16: "1/16", 1 / 4: "1/4", 1: "1", 4: "4", 16: "16", 64: "64"}
_NARROW_MM = 34.0


def ties_figure(ties: pd.DataFrame, size: str = "a5-page", *, source: str = "") -> Drawn:
    """Draw the odds ratio of each pair of features, with its counts.

    Parameters
    ----------
    ties
        As :func:`buttonstudy.study.comparison.ties.all_ties` gives it; pairs without an odds
        ratio are left out.
    size
        The name of a print size.
    source
        For the figure's foot, as :func:`buttonstudy.study.telling.words.source_line` words it.
    """
    name = "ties"
    rows = ties[ties["odds_ratio"].notna()]
    if rows.empty:
        return not_drawn(name, "no pair of features is known on enough sets")
    title = f"{field_label(str(rows['field'].iloc[0])).capitalize()}, and what it goes with"
    records = rows.to_dict("records")
    panel = Panel("", tuple(Row(_label(row), _figures(row)) for row in records))
    with house_style():
        sheet = Sheet(print_size(size), title, _note(), source)
        plan = plan_panels(sheet, [panel], _FOOT_MM)
        (placed,) = plan.place(sheet)
        _draw_rows(placed, records)
        foot = lettering("times as high are the odds (odds ratio)", sheet.width_mm)
        left = min(plan.label_mm, sheet.width_mm - foot.width_mm)
        sheet.text(left, plan.body_mm - line_height_mm(), foot)
        figure = sheet.figure
    caption = [
        f"{title}: {number_of(len(rows), 'pair')} of features in this survey.",
        "Exact or resampled intervals over sets, each for itself: of twenty about one misses by "
        "chance. Filled dots: the interval leaves out 1, which would be no tie. Arrowheads: the "
        "interval is open there, or goes beyond the scale.",
        *left_out_words(plan.rows_left_out, *rows["term"], *rows["group"]),
    ]
    alt = "; ".join(_in_words(row) for row in records)
    return Drawn(figure, " ".join(caption), f"{title}. Odds ratios. {alt}.", name)


def _label(row: dict[Hashable, Any]) -> str:
    group = term_label(row["group"])
    return shortened(f"“{term_label(row['term'])}” with {field_label(row['by'])} {group}")


def _figures(row: dict[Hashable, Any]) -> str:
    inside, outside = row["both"] + row["group_only"], row["term_only"] + row["neither"]
    ends = [f"{whole(row['both'])} of {whole(inside)}", f"{whole(row['term_only'])} of"]
    return f"{ends[0]}; {ends[1]} {whole(outside)}"


def _note() -> str:
    return (
        f"Dot and line: odds ratio, {limit('confidence'):.0f} % interval. Right: sets with "
        "it, of those with the other feature; then of those without."
    )


def _draw_rows(placed: PlacedPanel, records: list[dict[Hashable, Any]]) -> None:
    axes = placed.axes
    places = {math.log(value): label for value, label in _SCALE.items()}
    least, most = min(places), max(places)
    axes.set_xlim(least * 1.06, most * 1.06)
    upright_lines(axes, list(places))
    axes.axvline(0, color="black", linewidth=0.5, zorder=1)
    wide = placed.width_mm >= _NARROW_MM
    ticks = [place for order, place in enumerate(places) if wide or order % 3 == 0]
    axes.set_xticks(ticks, [places[tick] for tick in ticks])
    for row, middle in zip(records, placed.middles):
        low, high = (
            _place(row[end], open_end) for end, open_end in (("low", least), ("high", most))
        )
        ends = max(low, least), min(high, most)
        interval(axes, middle, *ends)
        for beyond, place, marker in ((low <= least, least, "<"), (high >= most, most, ">")):
            if beyond:
                colour = ink("deep").colour
                axes.plot(place, middle, marker, markersize=3.2, color=colour, zorder=3)
        ratio = min(max(math.log(row["odds_ratio"]), least), most)
        dot(axes, ratio, middle, filled=leaves_out_one(row))


def leaves_out_one(row: dict[Hashable, Any]) -> bool:
    """Say whether a tie's interval leaves out 1."""
    return bool(row["low"] > 1 or row["high"] < 1)


def _place(ratio: float, open_end: float) -> float:
    return open_end if pd.isna(ratio) else math.log(max(ratio, 1e-12))


def _in_words(row: dict[Hashable, Any]) -> str:
    low = "" if pd.isna(row["low"]) else f"from {times(row['low'])}"
    high = "upwards" if pd.isna(row["high"]) else f"up to {times(row['high'])}"
    return f"{_label(row)}: {times(row['odds_ratio'])} ({f'{low} {high}'.strip()}), {_figures(row)}"
