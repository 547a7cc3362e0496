"""One button beside the rest: for each of its traits, how many of the other sets share it.

The rows are the figure of shares' own: a dot with its exact interval where there are enough sets,
else each set by itself. The rarest trait stands first. Its own set is left out.
"""

from collections.abc import Hashable, Mapping
from functools import partial

import pandas as pd

from buttonstudy.draw.drawn import Drawn, not_drawn
from buttonstudy.draw.lettering import shortened
from buttonstudy.draw.panels import Panel, Plan, Row
from buttonstudy.draw.row_labels import left_out_words
from buttonstudy.draw.share_marks import draw_shares, few_words
from buttonstudy.draw.share_sheet import Foot, draw_foot, share_sheet
from buttonstudy.draw.style import house_style
from buttonstudy.schemes import limit
from buttonstudy.study.evidence.dating import ALL_PERIODS
from buttonstudy.study.telling.words import number_of, per_cent, range_of, term_label

__all__ = ["traits_figure"]


def traits_figure(
    table: pd.DataFrame, button: str, size: str = "a5-page", *, source: str = ""
) -> Drawn:
    """Draw how many of the other sets examined share each trait of a record.

    Parameters
    ----------
    table
        As :func:`buttonstudy.study.one_button.rarity.trait_rarity` gives it.
    button
        The record's number.
    size
        The name of a print size.
    source
        For the figure's foot, as :func:`buttonstudy.study.telling.words.source_line` words it.
    """
    name = "traits"
    whole = table[table["period"] == ALL_PERIODS]
    if not (whole["examined"] > 0).any():
        return not_drawn(name, "no trait of this record was examined on any other set")
    order = whole.sort_values(["share", "examined"], ascending=[True, False], kind="stable")
    traits = list(zip(order["field"], order["term"]))
    by_period = {
        str(period): _in_order(rows, traits) for period, rows in table.groupby("period", sort=False)
    }
    title = f"Traits of button {shortened(button)}: how many other sets share each"
    panels = [_panel(period, rows) for period, rows in by_period.items()]
    foot = Foot.of("other sets examined", table["few"])
    with house_style():
        sheet, plan = share_sheet(size, title, partial(_note, table), source, panels, foot)
        for placed, rows in zip(plan.place(sheet), by_period.values()):
            draw_shares(placed, rows.head(len(placed.middles)))
        draw_foot(sheet, plan, foot)
        figure = sheet.figure
    return Drawn(figure, _caption(title, by_period, plan), _alt_text(title, by_period), name)


def _in_order(rows: pd.DataFrame, traits: list[tuple[str, str]]) -> pd.DataFrame:
    place = {trait: number for number, trait in enumerate(traits)}
    order = pd.Series([place[trait] for trait in zip(rows["field"], rows["term"])])
    return rows.iloc[order.argsort(kind="stable")]


def _panel(period: str, rows: pd.DataFrame) -> Panel:
    title = "All other sets" if period == ALL_PERIODS else f"Dated wholly to {shortened(period)}"
    return Panel(title, tuple(Row(_trait(row), _counts(row)) for row in rows.to_dict("records")))


def _trait(row: Mapping[Hashable, object]) -> str:
    return shortened(f"{row['label']}: {term_label(str(row['term']))}")


def _counts(row: Mapping[Hashable, object]) -> str:
    return f"{row['with_term']} of {row['examined']}" if row["examined"] else "none examined"


def _note(table: pd.DataFrame, width_mm: float) -> str:
    """Explain only what this figure shows."""
    parts = ["Right: other sets that have it, of those examined"]
    examined = table["examined"] > 0
    if (examined & ~table["few"]).any():
        parts.append(f"Dot and line: share, {limit('confidence'):.0f} % interval")
        parts.append("Grey: what the unanswered could change")
    if (examined & table["few"]).any():
        parts.append(few_words(width_mm, "with it"))
    return ". ".join(parts) + "."


def _caption(title: str, by_period: dict[str, pd.DataFrame], plan: Plan) -> str:
    rows = by_period[ALL_PERIODS]
    parts = [
        f"{title}. {number_of(int(rows['sets'].max()), 'other set')} in this survey; the "
        f"button's own set is left out. Intervals are exact {limit('confidence'):.0f} % intervals "
        f"(Clopper & Pearson 1934); they cover chance alone."
    ]
    if plan.left_out:
        parts.append(f"{number_of(plan.left_out, 'further period')} in the table only.")
    labels = [_trait(row) for row in rows.to_dict("records")]
    return " ".join([*parts, *left_out_words(plan.rows_left_out, *labels)])


def _alt_text(title: str, by_period: dict[str, pd.DataFrame]) -> str:
    rows = by_period[ALL_PERIODS].to_dict("records")
    return f"{title}. {'; '.join(map(_in_words, rows))}."


def _in_words(row: Mapping[Hashable, float]) -> str:
    words = f"{_trait(row)}, {_counts(row)}"
    if row["few"]:
        return words
    return f"{words} ({per_cent(row['share'])}, {range_of(row['low'], row['high'])})"
