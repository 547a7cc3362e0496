"""What was examined on how many sets: one row for each field, before any share is told."""

from collections.abc import Hashable
from typing import Any

import pandas as pd

from buttonstudy.draw.drawn import Drawn, not_drawn
from buttonstudy.draw.lettering import lettering, line_height_mm
from buttonstudy.draw.marks import bar
from buttonstudy.draw.panels import Panel, PlacedPanel, Plan, Row, plan_panels
from buttonstudy.draw.row_labels import left_out_words
from buttonstudy.draw.scales import count_scale
from buttonstudy.draw.sheet import KeyEntry, Sheet
from buttonstudy.draw.style import Ink, house_style, ink, print_size
from buttonstudy.study.telling.words import number_of

__all__ = ["examined_figure"]

_TICKS_MM = 4.0
_STATES = {
    "there": "examined, there",
    "absent": "examined, absent",
    "unclear": "could not be told",
    "not_examined": "not examined",
    "not_recorded": "not recorded",
}


def examined_figure(table: pd.DataFrame, size: str = "a5-page", *, source: str = "") -> Drawn:
    """Draw on how many sets each field was examined, and what became of the others.

    Parameters
    ----------
    table
        As :func:`buttonstudy.study.evidence.examined.examined_by_field` gives it.
    size
        The name of a print size.
    source
        For the figure's foot, as :func:`buttonstudy.study.telling.words.source_line` words it.
    """
    name, title = "examined", "What was examined, on how many sets"
    if table.empty or table["sets"].max() == 0:
        return not_drawn(name, "there are no buttons")
    rows = table.assign(there=table["examined"] - table["absent"]).to_dict("records")
    inks = _inks()
    key = [KeyEntry(inks[state], says) for state, says in _STATES.items() if table_has(rows, state)]
    inside = any(row["inside"] for row in rows)
    note = "Right: sets examined, of all."
    if inside:
        note += " Fields marked * can be seen only on an opened button."
    panel = Panel(
        "", tuple(Row(_label(row), f"{row['examined']} of {row['sets']}") for row in rows)
    )
    with house_style():
        sheet = Sheet(print_size(size), title, note, source, key)
        plan = plan_panels(sheet, [panel], _TICKS_MM + line_height_mm())
        (placed,) = plan.place(sheet)
        _draw(placed, rows[: len(placed.middles)], inks)
        sheet.text(plan.label_mm, plan.body_mm - line_height_mm(), lettering("sets", 20))
        figure = sheet.figure
    return Drawn(figure, *_words(title, rows, plan, inside), name)


def table_has(rows: list[dict[Hashable, Any]], state: str) -> bool:
    """Say whether any row has sets in this state."""
    return any(row[state] > 0 for row in rows)


def _inks() -> dict[str, Ink]:
    paper = ink("paper")
    return {
        "there": ink("deep"),
        "absent": ink("sky"),
        "unclear": ink("pale"),
        "not_examined": Ink(paper.colour, "\\\\\\\\"),
        "not_recorded": paper,
    }


def _label(row: dict[Hashable, Any]) -> str:
    return f"{row['label']}{'*' * bool(row['inside'])}"


def _draw(placed: PlacedPanel, rows: list[dict[Hashable, Any]], inks: dict[str, Ink]) -> None:
    count_scale(placed.axes, max(row["sets"] for row in rows), placed.width_mm)
    for row, middle in zip(rows, placed.middles):
        start = 0
        for state, fill in inks.items():
            bar(placed.axes, middle, start, row[state], fill)
            start += row[state]


def _words(
    title: str, rows: list[dict[Hashable, Any]], plan: Plan, inside: bool
) -> tuple[str, str]:
    sets, buttons = rows[0]["sets"], rows[0]["buttons"]
    parts = [
        f"{title}: {number_of(sets, 'set')}, {number_of(buttons, 'button')}. A set counts as "
        f"examined if any of its buttons was."
    ]
    if inside:
        parts.append("Fields marked * can be seen only on an opened button.")
    parts += left_out_words(plan.rows_left_out, *(str(row["label"]) for row in rows))
    told = "; ".join(
        f"{row['label']} {row['examined']} of {row['sets']}"
        + (f", absent on {row['absent']}" if row["absent"] else "")
        for row in rows
    )
    return " ".join(parts), f"{title}. Sets examined, of all: {told}."
