"""Differences between periods, trait by trait: how many more, or fewer, of every ten sets.

The counts on which each rests stand at the right. A filled dot is a difference that shuffling
answers hardly ever makes; an open one may be chance.
"""

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
from buttonstudy.draw.style import house_style, print_size
from buttonstudy.schemes import limit
from buttonstudy.study.comparison.chosen import SURE
from buttonstudy.study.comparison.tens import signed, span_of_ten
from buttonstudy.study.telling.words import field_label, number_of, term_label

__all__ = ["comparison_figure", "differences_figure"]

_FOOT_MM = 6.8
_SCALE = {-1.0: "−10", -0.5: "−5", 0.0: "0", 0.5: "+5", 1.0: "+10"}
_NARROW_MM = 25.0


def comparison_figure(
    comparison: pd.DataFrame, size: str = "a5-page", *, source: str = ""
) -> Drawn:
    """Draw for each trait the two periods that differ most.

    Parameters
    ----------
    comparison
        As :func:`buttonstudy.study.comparison.periods.compare_periods` gives it.
    size
        The name of a print size.
    source
        For the figure's foot, as :func:`buttonstudy.study.telling.words.source_line` words it.
    """
    rows = comparison[comparison["difference"].notna()].copy()
    rows["sure"] = rows["sureness"].isin(SURE)
    rows["label"] = [
        f"{_trait(row)}, {row['earlier']} to {row['later']}" for row in rows.to_dict("records")
    ]
    together = number_of(len(rows), "trait")
    words = (
        f"For each of {together} the two periods that differ most surely. The "
        f"{limit('confidence'):.0f} % intervals allow for the choice of the pair, and reach to no "
        "difference wherever chance may have made it. Filled dots: clear or likely when all "
        "traits are taken together (Holm)."
    )
    title = "Largest differences between periods"
    return _figure(rows, "largest-differences", title, words, size, source)


def differences_figure(
    differences: pd.DataFrame, size: str = "a5-page", *, source: str = ""
) -> Drawn:
    """Draw the difference between two periods for each trait.

    Parameters
    ----------
    differences
        As :func:`buttonstudy.study.comparison.chosen.as_compared` gives it.
    size, source
        As for :func:`comparison_figure`.
    """
    rows = differences[differences["low"].notna()].copy()
    rows["sure"] = rows["sureness"].isin(SURE) & (rows["low"] * rows["high"] > 0)
    rows["label"] = [_trait(row) for row in rows.to_dict("records")]
    name = "two-periods"
    if rows.empty:
        return not_drawn(name, "no two periods can be compared")
    title = f"{rows['later'].iloc[0]} against {rows['earlier'].iloc[0]}"
    words = (
        f"{limit('confidence'):.0f} % intervals; they reach to no difference wherever chance may "
        "have made it. Filled dots: clear or likely when all traits are taken together (Holm)."
    )
    return _figure(rows, name, title, words, size, source)


def _figure(rows: pd.DataFrame, name: str, title: str, words: str, size: str, source: str) -> Drawn:
    if rows.empty:
        return not_drawn(name, "no two periods can be compared")
    records = rows.to_dict("records")
    panel = Panel("", tuple(Row(row["label"], _figures(row)) for row in records))
    note = (
        f"Dot and line: how many more or fewer of every 10 sets have it in the later period, "
        f"{limit('confidence'):.0f} % interval. Right: examined sets dated wholly within the "
        "earlier, then the later period, and how many of them have it."
    )
    with house_style():
        sheet = Sheet(print_size(size), title, note, source)
        plan = plan_panels(sheet, [panel], _FOOT_MM)
        (placed,) = plan.place(sheet)
        _draw_rows(placed, records)
        foot = lettering("more or fewer of every 10 sets", sheet.width_mm)
        left = min(plan.label_mm, sheet.width_mm - foot.width_mm)
        sheet.text(left, plan.body_mm - line_height_mm(), foot)
        figure = sheet.figure
    caption = [f"{title}.", words, *left_out_words(plan.rows_left_out, *rows["label"])]
    told = "; ".join(_in_words(row) for row in records)
    return Drawn(figure, " ".join(caption), f"{title}. {told}.", name)


def _trait(row: dict[Hashable, str]) -> str:
    label = f"{field_label(row['field']).capitalize()}: {term_label(row['term'])}"
    return shortened(label)


def _figures(row: dict[Hashable, float]) -> str:
    ends = [
        f"{whole(row[f'{end}_with_term'])} of {whole(row[f'{end}_sets'])}"
        for end in ("earlier", "later")
    ]
    return "; ".join(ends)


def _draw_rows(placed: PlacedPanel, records: list[dict[Hashable, float]]) -> None:
    axes = placed.axes
    axes.set_xlim(-1.06, 1.06)
    upright_lines(axes, list(_SCALE))
    axes.axvline(0, color="black", linewidth=0.5, zorder=1)
    ticks = [place for place in _SCALE if placed.width_mm >= _NARROW_MM or abs(place) != 0.5]
    axes.set_xticks(ticks, [_SCALE[place] for place in ticks])
    for row, middle in zip(records, placed.middles):
        interval(axes, middle, row["low"], row["high"])
        dot(axes, row["difference"], middle, filled=bool(row["sure"]))


def _in_words(row: dict[Hashable, Any]) -> str:
    span = span_of_ten(row["low"], row["high"])
    return f"{row['label']}: {signed(row['difference'])} of every 10 ({span}), {_figures(row)}"
