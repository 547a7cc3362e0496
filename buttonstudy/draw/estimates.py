"""Estimated shares by period, with what chance and wide dates leave open, trait by trait.

A dot with its interval for each period, and across it an upright stroke for the share as the record
describes it: where the two lie apart, wide dates have smeared a change. The scale says "none,
half, all" and no percentages, since most periods of most surveys hold few sets; an open dot says
which. Where the dates cannot part a period from the others there is a broken line and no dot.
"""

from collections.abc import Hashable, Sequence
from dataclasses import dataclass
from typing import Any

import pandas as pd

from buttonstudy.draw.drawn import Drawn, not_drawn
from buttonstudy.draw.estimate_marks import draw_estimates
from buttonstudy.draw.lettering import lettering, line_height_mm, shortened
from buttonstudy.draw.marks import whole
from buttonstudy.draw.panels import Panel, Plan, Row, plan_panels
from buttonstudy.draw.row_labels import labelled, left_out_words, period_words, ruled, split_rows
from buttonstudy.draw.sheet import Sheet
from buttonstudy.draw.style import house_style, print_size
from buttonstudy.schemes import limit
from buttonstudy.study.telling.words import field_label, number_of, span_in_words, term_label

__all__ = ["estimates_figure", "reweighted_figure"]

_VISIBLE = 1.0
_FOOT_MM = 6.8


@dataclass(frozen=True, slots=True)
class _Told:
    """What one figure of estimates says of itself."""

    name: str
    title: str
    scale: str
    note: str
    words: str


def estimates_figure(estimates: pd.DataFrame, size: str = "a5-page", *, source: str = "") -> Drawn:
    """Draw the estimated share of each trait by period.

    Parameters
    ----------
    estimates
        As :func:`buttonstudy.study.shares.latent.estimated_shares` gives it. The traits stand in
        the table's order, as many as the page holds.
    size
        The name of a print size; its width is kept, its height used as far as needed.
    source
        For the figure's foot, as :func:`buttonstudy.study.telling.words.source_line` words it.

    Returns
    -------
    Drawn
        Without a figure, and with the reason, if no examined set is dated to the periods.
    """
    rows = estimates[estimates["kind"].isin(["period", "all"])].copy()
    within = (rows["kind"] == "period").to_numpy()
    rows["sets"] = rows["examined"]
    rows["firm"] = rows["told_apart"].fillna(True).astype(bool)
    described = within & (rows["examined"] >= _VISIBLE).to_numpy()
    rows["beside"] = rows["recorded_share"].where(described)
    having = rows["with_term_within"].where(within, rows["with_term"])
    examined = rows["dated_within"].where(within, rows["examined"])
    rows["figures"] = [_of(*numbers) for numbers in zip(having, examined)]
    told = _Told(
        "estimated-shares",
        "Estimated shares by period",
        "share of the sets",
        _note(rows, "the share as the record is dated, a description")
        + " Right: sets with it, of those examined and dated wholly within the period; dots rest "
        "on sets with wide dates too.",
        "The most likely shares take each set's period as unknown within its dates (maximum "
        "likelihood; the intervals are drawn from the posterior with a fixed seed). They cover "
        "chance and dating, not what the sets without an answer hide.",
    )
    held = rows[within]
    if not held["estimate"].notna().any():
        return not_drawn(told.name, "no examined set is dated to these periods")
    return _figure(rows, told, size, source)


def reweighted_figure(
    reweighted: pd.DataFrame, size: str = "a5-page", *, source: str = ""
) -> Drawn:
    """Draw shares with each visible kind counted by how many sets of it there are.

    Parameters
    ----------
    reweighted
        As :func:`buttonstudy.study.shares.reweighting.reweighted_estimates` gives it.
    size, source
        As for :func:`estimates_figure`.
    """
    rows = reweighted.copy()
    rows["firm"] = rows["estimate"].notna()
    rows["beside"] = rows["plain"]
    rows["figures"] = [_of(*numbers) for numbers in zip(rows["examined"], rows["sets"])]
    told = _Told(
        "reweighted-shares",
        "Shares with opening allowed for",
        "share of the sets",
        _note(rows, "the share without reweighting")
        + " Right: sets examined, of all that are likely to be of the period.",
        "Each visible kind counts by how many sets of it there are, not by how many were examined "
        "(post-stratification). A kind of which nothing was examined may all, or none, have it.",
    )
    if not rows["low"].notna().any():
        return not_drawn(told.name, "no share is reweighted")
    return _figure(rows, told, size, source)


def _of(having: float, examined: float) -> str:
    return f"{whole(having)} of {whole(examined)}" if whole(examined) else "none"


def _note(rows: pd.DataFrame, beside: str) -> str:
    """Explain only the marks that this figure shows."""
    known = rows["low"].notna()
    parts = [f"Dot and line: most likely share, {limit('confidence'):.0f} % interval"]
    if (known & rows["firm"] & rows["few"]).any():
        parts.append(f"Open dot: fewer than {limit('few-sets'):.0f} sets")
    if (known & ~rows["firm"]).any():
        parts.append("Broken line: too few sets to tell")
    return ". ".join([*parts, f"Upright stroke: {beside}"]) + "."


def _figure(rows: pd.DataFrame, told: _Told, size: str, source: str) -> Drawn:
    rows = labelled(rows, "period", by_years=print_size(size).periods_by_years)
    by_trait = {
        _title(str(field), str(term)): group
        for (field, term), group in rows.groupby(["field", "term"], sort=False)
    }
    panels = [
        Panel(title, tuple(map(Row, group["label"], group["figures"], ruled(group))))
        for title, group in by_trait.items()
    ]
    with house_style():
        sheet = Sheet(print_size(size), told.title, told.note, source)
        plan = plan_panels(sheet, panels, _FOOT_MM)
        for placed, group in zip(plan.place(sheet), by_trait.values()):
            draw_estimates(placed, split_rows(group, len(placed.middles)))
        _draw_foot(sheet, plan, told.scale)
        figure = sheet.figure
    shown = list(by_trait)[: len(plan.panels)]
    return Drawn(
        figure, _caption(rows, told, plan, list(by_trait)), _alt(told, by_trait, shown), told.name
    )


def _title(field: str, term: str) -> str:
    return f"{field_label(field).capitalize()}: {shortened(term_label(term))}"


def _draw_foot(sheet: Sheet, plan: Plan, scale: str) -> None:
    foot = lettering(scale, sheet.width_mm)
    left = min(plan.label_mm, sheet.width_mm - foot.width_mm)
    sheet.text(left, plan.body_mm - line_height_mm(), foot)


def _caption(rows: pd.DataFrame, told: _Told, plan: Plan, titles: Sequence[str]) -> str:
    most = rows.loc[rows["kind"] == "all", "examined"].max()
    parts = [f"{told.title}: at most {number_of(most, 'examined set')} in this survey."]
    parts.append(told.words)
    if plan.left_out:
        parts.append(f"{number_of(plan.left_out, 'further trait')} in the table only.")
    parts += period_words(rows)
    return " ".join([*parts, *left_out_words(plan.rows_left_out, *rows["label"], *titles)])


def _alt(told: _Told, by_trait: dict[str, pd.DataFrame], shown: Sequence[str]) -> str:
    """Tell every row: counts, and the interval in tenths where few sets allow no more."""
    parts = [
        f"{title}: {'; '.join(_in_words(row) for row in by_trait[title].to_dict('records'))}."
        for title in shown
    ]
    return f"{told.title}. {' '.join(parts)}"


def _in_words(row: dict[Hashable, Any]) -> str:
    words = f"{row['label']} {row['figures']}"
    if pd.isna(row["low"]):
        return words
    span = span_in_words(row["low"], row["high"], bool(row["few"]))
    return f"{words} ({span}{'' if row['firm'] else ', not told apart'})"
