"""One button beside the rest: for each of its traits, how many of the other sets share it.

The rows are the figure of shares' own: a dot with its exact interval where there are enough sets,
else one square for each set. The rarest trait stands first. Its own set is left out.
"""

from collections.abc import Hashable, Mapping

import pandas as pd

from buttonstudy.draw.drawn import Drawn, not_drawn
from buttonstudy.draw.lettering import lettering, line_height_mm, shortened
from buttonstudy.draw.panels import Panel, Plan, Row, plan_panels
from buttonstudy.draw.row_labels import left_out_words
from buttonstudy.draw.share_marks import draw_shares
from buttonstudy.draw.sheet import Sheet
from buttonstudy.draw.style import house_style, print_size
from buttonstudy.schemes import limit
from buttonstudy.study.evidence.dating import ALL_PERIODS
from buttonstudy.study.telling.words import number_of, per_cent, range_of, term_label

__all__ = ["traits_figure"]

_FOOT_MM = 6.8


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
    with house_style():
        sheet = Sheet(print_size(size), title, _note(table), source)
        plan = plan_panels(sheet, panels, _FOOT_MM)
        for placed, rows in zip(plan.place(sheet), by_period.values()):
            draw_shares(placed, rows.head(len(placed.middles)))
        foot = lettering("share of the other sets examined", sheet.width_mm)
        left = min(plan.label_mm, sheet.width_mm - foot.width_mm)
        sheet.text(left, plan.body_mm - line_height_mm(), foot)
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


def _note(table: pd.DataFrame) -> str:
    """Explain only what this figure shows."""
    parts = ["Right: other sets that have it, of those examined"]
    examined = table["examined"] > 0
    if (examined & ~table["few"]).any():
        parts.append(f"Dot and line: share, {limit('confidence'):.0f} % interval")
        parts.append("Grey: how far sets without an answer could move it")
    if (examined & table["few"]).any():
        parts.append(f"Below {limit('few-sets'):.0f} sets: a square for each, filled if it has it")
    return ". ".join(parts) + "."


def _caption(title: str, by_period: dict[str, pd.DataFrame], plan: Plan) -> str:
    rows = by_period[ALL_PERIODS]
    parts = [
        f"{title}. {number_of(int(rows['sets'].iloc[0]), 'other set')} in this survey; the "
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
