"""How many sets have so many layers or more, where some counts are bounds only.

A dot with its interval for each period; a faint bar from the sets that certainly have as many to
those that may have. Where few sets were counted each is shown by itself, filled if it certainly has
as many; how many may have stands at the right.
"""

from collections.abc import Hashable
from functools import partial
from typing import Any

import pandas as pd

from buttonstudy.draw.drawn import Drawn, not_drawn
from buttonstudy.draw.marks import whole
from buttonstudy.draw.panels import Panel, Row
from buttonstudy.draw.row_labels import labelled, left_out_words, period_words, ruled, split_rows
from buttonstudy.draw.share_marks import draw_shares, few_words
from buttonstudy.draw.share_sheet import Foot, draw_foot, share_sheet
from buttonstudy.draw.style import house_style, print_size
from buttonstudy.schemes import limit
from buttonstudy.study.telling.words import (
    WIDE_DATES_SHARED,
    field_label,
    number_of,
    per_cent,
    range_of,
)

__all__ = ["at_least_figure"]


def at_least_figure(
    table: pd.DataFrame, field: str = "cover_layers", size: str = "a5-page", *, source: str = ""
) -> Drawn:
    """Draw the share of sets with at least so many, by period.

    Parameters
    ----------
    table
        As :func:`buttonstudy.study.shares.bounded_counts.at_least_by_period` gives it.
    field
        The count that it was asked for.
    size
        The name of a print size.
    source
        For the figure's foot, as :func:`buttonstudy.study.telling.words.source_line` words it.
    """
    label = field_label(field)
    name, title = f"{label} at least".replace(" ", "-"), f"{label.capitalize()}, so many or more"
    if not (table["sets"] > 0).any():
        return not_drawn(name, f"no set has a count of {label} of two or more")
    rows = labelled(_as_shares(table), "period", by_years=print_size(size).periods_by_years)
    by_number = {
        f"{number} or more": group for number, group in rows.groupby("at_least", sort=True)
    }
    panels = [
        Panel(heading, tuple(map(Row, group["label"], group["figures"], ruled(group))))
        for heading, group in by_number.items()
    ]
    foot = Foot.of("sets with a count or a bound", rows["few"])
    with house_style():
        sheet, plan = share_sheet(size, title, partial(_note, rows), source, panels, foot)
        for placed, group in zip(plan.place(sheet), by_number.values()):
            draw_shares(placed, split_rows(group, len(placed.middles)))
        draw_foot(sheet, plan, foot)
        figure = sheet.figure
    shown = list(by_number)[: len(plan.panels)]
    alt = " ".join(_panel_in_words(heading, by_number[heading]) for heading in shown)
    caption = [*_caption(rows, title), *left_out_words(plan.rows_left_out, *rows["label"])]
    if plan.left_out:
        caption.append(f"{number_of(plan.left_out, 'further number')} in the table only.")
    return Drawn(figure, " ".join(caption), f"{title}. {alt}", name)


def _as_shares(table: pd.DataFrame) -> pd.DataFrame:
    """Give the columns that the marks of shares are drawn from."""
    sets = table["sets"].where(table["sets"] > 0)
    return table.assign(
        with_term=table["fewest"],
        examined=table["sets"],
        if_none=table["fewest"] / sets,
        if_all=table["most"] / sets,
        figures=[_figures(row) for row in table.to_dict("records")],
    )


def _figures(row: dict[Hashable, Any]) -> str:
    sets, fewest, most = whole(row["sets"]), whole(row["fewest"]), whole(row["most"])
    told = f"{fewest}" if fewest == most else f"{fewest}–{most}"
    return f"{told} of {sets}" if sets else "none"


def _note(rows: pd.DataFrame, width_mm: float) -> str:
    parts = ["Right: sets that certainly have as many, and that may have, of those counted"]
    if not rows["few"].all():
        parts.append(f"Dot and line: most likely share, {limit('confidence'):.0f} % interval")
        parts.append("Grey: what the bounds leave open")
    if rows["few"].any():
        parts.append(few_words(width_mm, "certainly with as many"))
    return ". ".join(parts) + "."


def _caption(rows: pd.DataFrame, title: str) -> list[str]:
    every = rows[rows["kind"] == "all"].iloc[0]
    bounded = every["sets"] - every["counted"]
    return [
        f"{title}: {number_of(every['sets'], 'set')} in this survey, {whole(bounded)} of them with "
        "a bound in place of a count. “At least 2” allows two, three and more (Turnbull's "
        f"estimate). {WIDE_DATES_SHARED}",
        *period_words(rows),
    ]


def _panel_in_words(heading: str, rows: pd.DataFrame) -> str:
    told = [_row_in_words(row) for row in rows.to_dict("records")]
    return f"{heading}: {'; '.join(told)}."


def _row_in_words(row: dict[Hashable, Any]) -> str:
    words = f"{row['label']} {row['figures']}"
    if row["few"] or pd.isna(row["share"]):
        return words
    return f"{words} ({per_cent(row['share'])}, {range_of(row['low'], row['high'])})"
