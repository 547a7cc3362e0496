"""Shares with everything that belongs beside them: by period, or by groups of another field.

A dot with its interval for each row; a faint bar behind it as wide as the sets without an answer
could move it; the counts in figures at the right. Where few sets were examined there is no dot,
since a dot's place is a percentage: each set is one small square, filled if it had the term.
"""

from collections.abc import Hashable, Sequence

import pandas as pd

from buttonstudy.draw.drawn import Drawn, not_drawn
from buttonstudy.draw.lettering import lettering, line_height_mm, shortened
from buttonstudy.draw.marks import whole
from buttonstudy.draw.panels import Panel, Plan, Row, plan_panels
from buttonstudy.draw.row_labels import labelled, left_out_words, period_words, ruled, split_rows
from buttonstudy.draw.share_marks import draw_shares
from buttonstudy.draw.sheet import Sheet
from buttonstudy.draw.style import house_style, print_size
from buttonstudy.schemes import fields, limit
from buttonstudy.study.telling.words import field_label, number_of, per_cent, range_of, term_label

__all__ = ["crossed_figure", "shares_figure"]

_NOTHING = 1e-6
_VISIBLE = 0.5
_FOOT_MM = 6.8


def shares_figure(
    table: pd.DataFrame,
    field: str,
    size: str = "a5-page",
    *,
    terms: Sequence[str] | None = None,
    source: str = "",
) -> Drawn:
    """Draw the share of examined sets with each term, by period.

    Parameters
    ----------
    table
        As :func:`buttonstudy.study.shares.by_period.shares_by_period` gives it.
    field
        The field that it was asked for.
    size
        The name of a print size; its width is kept, its height used as far as needed.
    terms
        The terms wanted; else as many as the page holds, in the table's order.
    source
        For the figure's foot, as :func:`buttonstudy.study.telling.words.source_line` words it.

    Returns
    -------
    Drawn
        Without a figure, and with the reason, if no set was examined.
    """
    name = f"{field_label(field)} by period".replace(" ", "-")
    rows = _worth_showing(table, "period", terms)
    title = f"{field_label(field).capitalize()} by period"
    counted = "Wide dates are shared out over the periods"
    return _figure(rows, name, title, field, size, source, counted)


def crossed_figure(
    table: pd.DataFrame,
    field: str,
    by: str,
    size: str = "a5-page",
    *,
    terms: Sequence[str] | None = None,
    source: str = "",
) -> Drawn:
    """Draw the share of examined sets with each term of one field, by groups of another.

    Parameters
    ----------
    table
        As :func:`buttonstudy.study.shares.crossed.shares_crossed` gives it.
    field, by
        The fields that it was asked for.
    size, terms, source
        As for :func:`shares_figure`.
    """
    title = f"{field_label(field).capitalize()} by {field_label(by)}"
    rows = _worth_showing(table, "group", terms)
    unknown = rows["kind"] == "unknown"
    rows.loc[unknown, "label"] = f"{field_label(by).capitalize()} " + rows.loc[unknown, "group"]
    name = title.lower().replace(" ", "-")
    counted = "Mixed sets are shared out over the groups"
    return _figure(rows, name, title, field, size, source, counted)


def _worth_showing(table: pd.DataFrame, names: str, terms: Sequence[str] | None) -> pd.DataFrame:
    """Give the rows of the terms wanted, term by term."""
    wanted = list(dict.fromkeys(table["term"]) if terms is None else terms)
    rows = labelled(table[table["term"].isin(wanted)], names)
    place = {term: number for number, term in enumerate(wanted)}
    return rows.iloc[rows["term"].map(place).argsort(kind="stable")]


def _figure(
    rows: pd.DataFrame, name: str, title: str, field: str, size: str, source: str, counted: str
) -> Drawn:
    if rows.empty or not (rows["examined"] > _NOTHING).any():
        return not_drawn(name, f"no set was examined for {field_label(field)}")
    terms = list(dict.fromkeys(rows["term"]))
    by_term = {term: rows[rows["term"] == term] for term in terms}
    panels = [_panel(_panel_title(term, field), by_term[term]) for term in terms]
    note = _note(rows, counted)
    with house_style():
        sheet = Sheet(print_size(size), title, note, source)
        plan = plan_panels(sheet, panels, _FOOT_MM)
        for placed, term in zip(plan.place(sheet), terms):
            draw_shares(placed, split_rows(by_term[term], len(placed.middles)))
        _draw_foot(sheet, plan)
        figure = sheet.figure
    shown_terms = terms[: len(plan.panels)]
    caption = _caption(title, rows, terms, shown_terms, plan.rows_left_out, counted)
    return Drawn(figure, caption, _alt_text(title, by_term, shown_terms), name)


def _panel_title(term: str, field: str) -> str:
    """Name a term; a bare count or length has its field's name before it."""
    is_term = all(known.field != field or known.kind == "term" for known in fields())
    name = shortened(term_label(term))
    return name if is_term else f"{field_label(field).capitalize()}: {name}"


def _panel(title: str, rows: pd.DataFrame) -> Panel:
    texts = [_figures(*numbers) for numbers in rows[["with_term", "examined", "sets"]].to_numpy()]
    return Panel(title, tuple(map(Row, rows["label"], texts, ruled(rows))))


def _figures(having: float, examined: float, sets: float) -> str:
    told = f"{whole(having)} of {whole(examined)}" if whole(examined) else "none"
    unknown = whole(sets - examined)
    return f"{told} (+{unknown})" if unknown else told


def _draw_foot(sheet: Sheet, plan: Plan) -> None:
    foot = lettering("share of the sets examined", sheet.width_mm)
    left = min(plan.label_mm, sheet.width_mm - foot.width_mm)
    sheet.text(left, plan.body_mm - line_height_mm(), foot)


def _note(rows: pd.DataFrame, counted: str) -> str:
    """Explain only what this figure shows."""
    parts = ["Right: sets with it, of those examined"]
    if ((rows["sets"] - rows["examined"]) >= _VISIBLE).any():
        parts[0] += " (+ sets without an answer)"
    examined = rows["examined"] > _NOTHING
    if (examined & ~rows["few"]).any():
        parts.append(f"Dot and line: share, {limit('confidence'):.0f} % interval")
        parts.append("Grey: how far sets without an answer could move it")
    if (examined & rows["few"]).any():
        parts.append(f"Below {limit('few-sets'):.0f} sets: a square for each, filled if it had it")
    return ". ".join([*parts, counted]) + "."


def _caption(
    title: str,
    rows: pd.DataFrame,
    terms: Sequence[str],
    shown: Sequence[str],
    rows_left_out: int,
    counted: str,
) -> str:
    overall = rows[rows["kind"] == "all"].iloc[0]
    examined = number_of(overall["examined"], "set")
    parts = [f"{title}: {examined} examined of {overall['sets']:.0f} in this survey."]
    parts.append(f"{counted}.")
    if not rows.loc[rows["examined"] > _NOTHING, "few"].all():
        parts.append(
            f"Intervals are {limit('confidence'):.0f} % Wilson intervals for the counts shown; "
            f"they cover chance alone."
        )
    if len(shown) < len(terms):
        left_out = number_of(len(terms) - len(shown), "further term")
        parts.append(f"{left_out} in the table only.")
    if "year_from" in rows:
        parts += period_words(rows)
    return " ".join([*parts, *left_out_words(rows_left_out, *rows["label"], *terms)])


def _alt_text(title: str, by_term: dict[str, pd.DataFrame], shown: Sequence[str]) -> str:
    """Tell every row: counts, and the share where there are enough sets for one."""
    told = []
    for term in shown:
        rows = by_term[term].to_dict("records")
        told.append(f"{term_label(term)}: {'; '.join(_row_in_words(row) for row in rows)}.")
    return f"{title}. Sets with the term, of sets examined. {' '.join(told)}"


def _row_in_words(row: dict[Hashable, float]) -> str:
    words = f"{row['label']} {whole(row['with_term'])} of {whole(row['examined'])}"
    if row["few"] or row["examined"] <= _NOTHING:
        return words
    return f"{words} ({per_cent(row['share'])}, {range_of(row['low'], row['high'])})"
