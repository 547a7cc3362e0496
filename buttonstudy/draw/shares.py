"""Shares with everything that belongs beside them: by period, or by groups of another field.

A dot with its interval for each row; a faint bar behind it as wide as the sets without an answer
could move it; the counts in figures at the right. Where few sets were examined there is no dot,
since a dot's place is a percentage: each set is one small square, filled if it had the term. The
commonest terms stand first, and those that get no panel are named under the figure.
"""

from collections.abc import Hashable, Sequence

import pandas as pd

from buttonstudy.draw.drawn import Drawn, not_drawn
from buttonstudy.draw.lettering import shortened
from buttonstudy.draw.marks import whole
from buttonstudy.draw.panels import Panel, Row
from buttonstudy.draw.row_labels import labelled, left_out_words, period_words, ruled, split_rows
from buttonstudy.draw.share_marks import draw_shares, few_words
from buttonstudy.draw.share_sheet import Foot, draw_foot, share_sheet
from buttonstudy.draw.shown_terms import (
    commonest_first,
    examined_rows,
    not_drawn_words,
    rare_groups_together,
    together_words,
    unknown_words,
    worth_a_panel,
)
from buttonstudy.draw.style import house_style, print_size
from buttonstudy.schemes import fields, limit
from buttonstudy.study.telling.words import (
    HALF_A_SET,
    NOTHING,
    WIDE_DATES_SHARED,
    field_label,
    in_survey,
    listed,
    number_of,
    per_cent,
    range_of,
    term_label,
    wilson_words,
)

__all__ = ["crossed_figure", "shares_figure"]

_MOST_NAMED = 40


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
        The terms wanted, in this order; else as many as the page holds, the commonest first.
    source
        For the figure's foot, as :func:`buttonstudy.study.telling.words.source_line` words it.

    Returns
    -------
    Drawn
        Without a figure, and with the reason, if no set was examined.
    """
    name = f"{field_label(field)} by period".replace(" ", "-")
    rows, drawn = _worth_showing(table, "period", terms, by_years=print_size(size).periods_by_years)
    title = f"{field_label(field).capitalize()} by period"
    return _figure(rows, drawn, name, title, field, size, source, [WIDE_DATES_SHARED])


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
    rows, drawn = _worth_showing(table, "group", terms)
    unknown = rows["kind"] == "unknown"
    rows.loc[unknown, "label"] = f"{field_label(by).capitalize()} " + rows.loc[unknown, "group"]
    name = title.lower().replace(" ", "-")
    words = ["Mixed sets are shared out over the groups."]
    if rows["group"].nunique() < labelled(table, "group")["group"].nunique():
        words.append("Groups of which no set was examined are in the table only.")
    rows, together = rare_groups_together(rows, by)
    if together:
        words.append(together_words(together))
    words += unknown_words(by, list(dict.fromkeys(table.loc[table["kind"] == "group", "group"])))
    return _figure(rows, drawn, name, title, field, size, source, words)


def _worth_showing(
    table: pd.DataFrame, names: str, terms: Sequence[str] | None, *, by_years: bool = False
) -> tuple[pd.DataFrame, list[str]]:
    """Give the rows of all terms, term by term, and the terms that are worth a panel."""
    wanted = commonest_first(table) if terms is None else list(terms)
    rows = labelled(table[table["term"].isin(wanted)], names, by_years=by_years)
    rows = examined_rows(rows, names)
    place = {term: number for number, term in enumerate(wanted)}
    rows = rows.iloc[rows["term"].map(place).argsort(kind="stable")].reset_index(drop=True)
    return rows, worth_a_panel(rows, wanted) if terms is None else wanted


def _figure(
    rows: pd.DataFrame,
    drawn: list[str],
    name: str,
    title: str,
    field: str,
    size: str,
    source: str,
    words: list[str],
) -> Drawn:
    if rows.empty or not (rows["examined"] > NOTHING).any():
        return not_drawn(name, f"no set was examined for {field_label(field)}")
    every = list(dict.fromkeys(rows["term"]))
    by_term = {term: rows[rows["term"] == term] for term in every}
    panels = [_panel(_panel_title(term, field), by_term[term]) for term in drawn]
    told = rows[rows["term"].isin(drawn)]

    def under(shown: int) -> str:
        return not_drawn_words(rows, [term for term in every if term not in drawn[:shown]])

    def titled(shown: int) -> str:
        return _which([term_label(term) for term in drawn[:shown]], len(every))

    foot = Foot.of("sets examined", told["few"])
    with house_style():
        sheet, plan = share_sheet(
            size,
            title,
            lambda width_mm: _note(told, width_mm),
            source,
            panels,
            foot,
            under,
            titled=titled,
        )
        for placed, term in zip(plan.place(sheet), drawn):
            draw_shares(placed, split_rows(by_term[term], len(placed.middles)))
        draw_foot(sheet, plan, foot)
        figure = sheet.figure
    shown_terms = drawn[: len(plan.panels)]
    title += titled(len(shown_terms))
    words = [*words, *unknown_words(field, every)]
    words.append(under(len(shown_terms)).replace("Not drawn:", "Not drawn, but in the table:"))
    caption = [
        *_caption(title, field, told, [*filter(None, words)]),
        *left_out_words(plan.rows_left_out, *rows["label"]),
    ]
    return Drawn(figure, " ".join(caption), _alt_text(title, by_term, shown_terms), name)


def _which(shown: Sequence[str], wanted: int) -> str:
    """Say in the title which terms it is about, where the page does not hold all."""
    if len(shown) == wanted:
        return ""
    names = listed(shown)
    return f": {names if len(names) <= _MOST_NAMED else f'{len(shown)} terms of {wanted}'}"


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


def _note(rows: pd.DataFrame, width_mm: float) -> str:
    """Explain only what this figure shows."""
    parts = ["Right: sets with it, of those examined"]
    unanswered = (rows["sets"] - rows["examined"]) >= HALF_A_SET
    if unanswered.any():
        parts[0] += " (+ unanswered)"
    examined = rows["examined"] > NOTHING
    if (examined & ~rows["few"]).any():
        parts.append(f"Dot and line: share, {limit('confidence'):.0f} % interval")
    if (examined & ~rows["few"] & unanswered).any():
        parts.append("Grey: what the unanswered could change")
    if (examined & rows["few"]).any():
        parts.append(few_words(width_mm, "with it"))
    return ". ".join(parts) + "."


def _caption(title: str, field: str, rows: pd.DataFrame, words: Sequence[str]) -> list[str]:
    overall = rows[rows["kind"] == "all"].iloc[0]
    examined = number_of(overall["examined"], "set")
    parts = [f"{title}: {examined} examined of {overall['sets']:.0f} {in_survey(field)}.", *words]
    if not rows.loc[rows["examined"] > NOTHING, "few"].all():
        parts.append(wilson_words())
    return [*parts, *(period_words(rows) if "year_from" in rows else [])]


def _alt_text(title: str, by_term: dict[str, pd.DataFrame], shown: Sequence[str]) -> str:
    """Tell every row: counts, and the share where there are enough sets for one."""
    told = []
    for term in shown:
        rows = by_term[term].to_dict("records")
        told.append(f"{term_label(term)}: {'; '.join(_row_in_words(row) for row in rows)}.")
    return f"{title}. Sets with the term, of sets examined. {' '.join(told)}"


def _row_in_words(row: dict[Hashable, float]) -> str:
    words = f"{row['label']} {whole(row['with_term'])} of {whole(row['examined'])}"
    if row["few"] or row["examined"] <= NOTHING:
        return words
    return f"{words} ({per_cent(row['share'])}, {range_of(row['low'], row['high'])})"
