"""Several buttons in section side by side, at one scale, for comparing constructions."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import pandas as pd

from buttonstudy.draw.drawn import Drawn, not_drawn
from buttonstudy.draw.lettering import Lettering, lettering
from buttonstudy.draw.section.anatomy import Anatomy, anatomy_of
from buttonstudy.draw.section.facts import Facts, facts_of
from buttonstudy.draw.section.painting import (
    BAR_MM,
    bar_length,
    draw_bar,
    draw_key,
    key_height,
    paper_axes,
)
from buttonstudy.draw.section.tables import materials
from buttonstudy.draw.section.view import View, draw_view, fitting_scales, view_of
from buttonstudy.draw.section.words import (
    KIND_ONLY,
    alt_text,
    assumed_words,
    line_words,
    notes,
    scale_words,
)
from buttonstudy.draw.sheet import Sheet
from buttonstudy.draw.style import SMALL_PT, PrintSize, house_style, print_size, print_sizes
from buttonstudy.study.one_button.by_number import find_record
from buttonstudy.study.telling.words import listed, number_of, some_of

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["cross_sections"]

_COLUMN_MM = 52.0
_GAP_MM = 4.0
_TALL_MM = 40.0
_TITLE = "Constructions in section"


@dataclass(frozen=True, slots=True)
class _Cell:
    """One button of a sheet, planned."""

    facts: Facts
    body: Anatomy
    view: View
    heading: Lettering
    below: tuple[Lettering, ...]

    @property
    def height(self) -> float:
        """What it takes on paper, in mm."""
        lines = sum(line.height_mm for line in self.below)
        return self.heading.height_mm + 1 + self.view.height + lines + _GAP_MM


def cross_sections(
    buttons: pd.DataFrame,
    button_ids: Sequence[str] = (),
    size: str = "a5-page",
    *,
    within: str = "",
    source: str = "",
) -> Drawn:
    """Draw several buttons in section on one sheet, all at the same scale.

    Parameters
    ----------
    buttons
        One row per button.
    button_ids
        Which to draw, in this order; none stands for all, in the survey's order. As many as the
        page holds are drawn, and the caption tells which are left out.
    size
        The name of a print size.
    within
        The survey file or sheet, needed only where several use the same number.
    source
        For the figure's foot, as :func:`buttonstudy.study.telling.words.source_line` words it.

    Raises
    ------
    NoSuchButtonError
        If no record, or more than one, has one of the numbers.
    """
    places = [find_record(buttons, one, within) for one in button_ids] or list(range(len(buttons)))
    known, sizeless = [], []
    for place in places:
        facts = facts_of(buttons.iloc[[place]])
        body = anatomy_of(facts)
        if body is None:
            sizeless.append(facts.name)
        else:
            known.append((facts, body))
    if not known:
        return not_drawn("cross-sections", "no button that was asked for has a recorded size")
    with house_style():
        return _draw(known, sizeless, size, source)


def _draw(known: list[tuple[Facts, Anatomy]], sizeless: list[str], size: str, source: str) -> Drawn:
    place = print_size(size)
    rows, width, scale = _planned(known, place, source)
    shown = [cell for row in rows for cell in row]
    names = _materials(shown)
    dotted = any(cell.body.dotted for cell in shown)
    sheet = Sheet(place, _TITLE, _lead(scale, dotted=dotted), source)
    heights = [max(cell.height for cell in row) for row in rows]
    key = key_height(names, sheet.width_mm)
    total = sum(heights) + BAR_MM + 2 + key
    sheet.open(total)
    axes = paper_axes(sheet, total)
    y = 0.0
    for row, height in zip(rows, heights):
        for column, cell in enumerate(row):
            _draw_cell(sheet, axes, cell, column * (width + _GAP_MM), y)
        y += height
    draw_bar(sheet, axes, 2.0, y, scale, bar_length(scale, 0.5 * sheet.width_mm))
    draw_key(sheet, axes, y + BAR_MM + 1, names, sheet.width_mm)
    room = _room_words(known, len(shown), source)
    return Drawn(sheet.figure, *_words(shown, scale, room, sizeless), "cross-sections")


def _planned(
    known: list[tuple[Facts, Anatomy]], place: PrintSize, source: str
) -> tuple[list[list[_Cell]], float, float]:
    """Give the rows of cells that a page holds, a cell's width, and the scale of all."""
    draft = Sheet(place, _TITLE, _lead(0.25, dotted=True), source)
    columns = max(1, int((draft.width_mm + _GAP_MM) // (_COLUMN_MM + _GAP_MM)))
    width = (draft.width_mm - (columns - 1) * _GAP_MM) / columns
    scale = min(fitting_scales(*one, width, _TALL_MM)[0] for one in known)
    cells = [_cell(*one, width, scale) for one in known]
    return _rows(cells, columns, draft.room_mm - BAR_MM - 2, draft.width_mm), width, scale


def _room_words(known: list[tuple[Facts, Anatomy]], shown: int, source: str) -> str:
    """Name the buttons that the page does not hold, and the smallest size that would hold all."""
    if shown == len(known):
        return ""
    names = [facts.name for facts, _ in known[shown:]]
    told = f"For want of room not drawn: {some_of(names)}."
    for size in print_sizes():
        if sum(map(len, _planned(known, size, source)[0])) == len(known):
            return f"{told} The size {size.name} would hold all."
    return told


def _lead(scale: float, *, dotted: bool) -> str:
    return f"All drawn {scale_words(scale)}. {line_words(dotted)} {KIND_ONLY}"


def _cell(facts: Facts, body: Anatomy, width: float, scale: float) -> _Cell:
    view = view_of(facts, body, width, scale)
    date = f", {facts.date}" if facts.date else ""
    heading = lettering(f"{facts.name}{date}", width, SMALL_PT, bold=True)
    told = [*notes(facts, body), *assumed_words(body, dotted=True)]
    below = tuple(lettering(line, width) for line in told)
    return _Cell(facts, body, view, heading, below)


def _rows(cells: list[_Cell], columns: int, room: float, within: float) -> list[list[_Cell]]:
    """Part the cells into rows, as many as there is room for with their key, and at least one."""
    rows = [cells[start : start + columns] for start in range(0, len(cells), columns)]
    held: list[list[_Cell]] = []
    for row in rows:
        room -= max(cell.height for cell in row)
        key = key_height(_materials([cell for one in [*held, row] for cell in one]), within)
        if room < key and held:
            break
        held.append(row)
    return held


def _materials(cells: list[_Cell]) -> list[str]:
    return [name for name in materials() if any(name in cell.view.materials for cell in cells)]


def _draw_cell(sheet: Sheet, axes: "Axes", cell: _Cell, x: float, y: float) -> None:
    sheet.text(x, y, cell.heading, weight="bold")
    y += cell.heading.height_mm + 1
    draw_view(sheet, axes, cell.view, x, y)
    y += cell.view.height
    for line in cell.below:
        sheet.text(x, y, line)
        y += line.height_mm


def _words(shown: list[_Cell], scale: float, room: str, sizeless: list[str]) -> tuple[str, str]:
    parts = [
        f"{number_of(len(shown), 'button')} in section, all drawn {scale_words(scale)}: "
        f"{listed(cell.facts.name for cell in shown)}."
    ]
    for cell in shown:
        if cell.body.assumed:
            assumed = "; ".join(cell.body.assumed)
            parts.append(f"Assumed for drawing {cell.facts.name}: {assumed}.")
    parts.append(KIND_ONLY)
    dotted = any(cell.body.dotted for cell in shown)
    parts.append(line_words(dotted))
    if room:
        parts.append(room)
    if sizeless:
        parts.append(f"Without a recorded size, so not drawn: {listed(sizeless)}.")
    told = [alt_text(cell.facts, cell.view.pieces.callouts, cell.body) for cell in shown]
    return " ".join(parts), " ".join(told)
