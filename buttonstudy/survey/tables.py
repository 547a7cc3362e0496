"""Tables found in a sheet: the heading row, the rows of buttons, and what stands around them.

Real surveys carry title lines above the table, blank rows between groups, remarks below it, the
headings again on each printed page, and headings in two tiers ("Mould" over "material"). Each is
told from a row of buttons by what stands in it; nothing is dropped without being told.
"""

from collections.abc import Collection, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from buttonstudy.schemes import limit
from buttonstudy.schemes.units import unit_named
from buttonstudy.survey.grid import Cell, CellColumn, Grid
from buttonstudy.survey.headings import field_of, is_heading
from buttonstudy.survey.sheets import Sheet, wording


@dataclass(frozen=True, slots=True)
class Table:
    """One table of a sheet.

    Parameters
    ----------
    headings
        One text per column; tiers joined, ``""`` where a column has no heading.
    heading_row
        The heading row as the spreadsheet shows it.
    rows
        Rows below the headings, blank rows left out.
    row_numbers
        The rows as the spreadsheet shows them.
    after_blank
        For each row, whether a blank row stands directly above it.
    """

    headings: tuple[str, ...]
    heading_row: int
    rows: Grid
    row_numbers: Sequence[int]
    after_blank: Sequence[bool]

    def column(self, index: int) -> CellColumn:
        """Give the cells of one column."""
        return self.rows.columns[index]


@dataclass(frozen=True, slots=True)
class _Part:
    """A table's headings, their row, and where the rows below them stand in the sheet, from 0."""

    headings: tuple[str, ...]
    heading_row: int
    spans: list[range]


@dataclass(frozen=True, slots=True)
class Found:
    """What a sheet holds: its tables, and rows of text that belong to none (number, text)."""

    tables: tuple[Table, ...]
    around: tuple[tuple[int, str], ...]
    repeated: tuple[int, ...]


def find_tables(sheet: Sheet, mapped: Collection[str] = ()) -> Found:
    """Find the tables of one sheet.

    Parameters
    ----------
    sheet
        The sheet.
    mapped
        Headings named in a mapping file, which count as recognised.

    Returns
    -------
    Found
        No table where no row has at least two headings that are recognised.
    """
    known = {" ".join(heading.split()).casefold() for heading in mapped}
    start = _heading_index(sheet, known)
    if start is None:
        return Found((), _texts(sheet, range(len(sheet.rows))), ())
    starts = [start, *_further_headings(sheet, start, known)]
    parts: list[_Part] = []
    repeated: list[int] = []
    around = _texts(sheet, range(_first_tier(sheet, start)))
    blank = sheet.rows.blank()
    for begin, end in zip(starts, [*starts[1:], len(sheet.rows)]):
        headings, used = _joined_headings(sheet, begin, known)
        if parts and headings == parts[-1].headings:
            repeated.append(sheet.first_row + begin)
        else:
            parts.append(_Part(headings, sheet.first_row + begin, []))
        parts[-1].spans.append(range(begin + used, end))
    return Found(tuple(_table(sheet, part, blank) for part in parts), around, tuple(repeated))


def row_text(cells: Sequence[Cell]) -> str:
    """Put a row's filled cells into one line."""
    return " | ".join(text for cell in cells if (text := wording(cell).strip()))


def _texts(sheet: Sheet, indexes: range) -> tuple[tuple[int, str], ...]:
    rows = sheet.rows[indexes.start : indexes.stop]
    return tuple(
        (number, text)
        for number, cells in enumerate(rows, start=sheet.first_row + indexes.start)
        if (text := row_text(cells))
    )


def _score(cells: Sequence[Cell], known: Collection[str]) -> int:
    """Count a row's distinct headings; 0 if too few of its filled cells are headings."""
    texts = [cell.strip() for cell in cells if isinstance(cell, str) and cell.strip()]
    filled = sum(1 for cell in cells if cell != "")
    names = {text.casefold() for text in texts if is_heading(text) or _flat(text) in known}
    if len(names) < limit("fewest-headings") and not (len(names) == filled == 1):
        return 0
    return len(names) if len(names) >= filled * limit("heading-share") else 0


def _flat(text: str) -> str:
    return " ".join(text.split()).casefold()


def _heading_index(sheet: Sheet, known: Collection[str]) -> int | None:
    rows = sheet.rows[: int(limit("heading-rows"))]
    scores = [_score(cells, known) for cells in rows]
    best = max(scores, default=0)
    if best == 0:
        return None
    if best == 1:  # a single column: only if nothing else stands above it
        return scores.index(1) if scores.index(1) == _first_filled(rows) else None
    return scores.index(best)


def _first_filled(rows: Sequence[Sequence[Cell]]) -> int:
    return next((index for index, cells in enumerate(rows) if row_text(cells)), 0)


def _further_headings(sheet: Sheet, start: int, known: Collection[str]) -> list[int]:
    """Find headings that stand again further down, or a second table's headings."""
    first = [
        index for index, cell in enumerate(sheet.rows[start]) if isinstance(cell, str) and cell
    ][:3]
    own = {sheet.rows[start][index] for index in first}
    alike = np.zeros(len(sheet.rows), dtype=bool)
    for place in first:
        alike |= sheet.rows.columns[place].where(own.__contains__)
    below = np.flatnonzero(alike[start + 1 :]) + start + 1
    best = _score(sheet.rows[start], known)
    return [index for index in below.tolist() if 2 * _score(sheet.rows[index], known) > best > 1]


def _first_tier(sheet: Sheet, start: int) -> int:
    """Give the index of the first row that belongs to the headings."""
    return start - 1 if start and _has_groups(sheet, start) else start


def _has_groups(sheet: Sheet, start: int) -> bool:
    """Tell whether the row above the headings groups them, rather than being a title."""
    above, below = sheet.rows[start - 1], sheet.rows[start]
    groups = _spread(sheet, start - 1)
    if sum(1 for cell in above if cell != "") < limit("fewest-headings"):
        return False
    gained = sum(
        1
        for group, cell in zip(groups, below)
        if group
        and wording(cell).strip()
        and field_of(f"{group} {wording(cell)}")[0] not in ("", field_of(wording(cell))[0])
    )
    return gained > 0


def _spread(sheet: Sheet, index: int) -> list[str]:
    """Give the texts of a row with merged cells filled across their columns."""
    texts = [wording(cell).strip() for cell in sheet.rows[index]]
    number = sheet.first_row + index
    for top, left, bottom, right in sheet.merged:
        first = left - sheet.first_column
        if top <= number <= bottom and 0 <= first < len(texts):
            for place in range(first, min(right - sheet.first_column + 1, len(texts))):
                texts[place] = texts[first]
    return texts


def _joined_headings(
    sheet: Sheet, start: int, known: Collection[str]
) -> tuple[tuple[str, ...], int]:
    """Give the headings, tiers joined, and how many rows they take from `start` on."""
    headings = [" ".join(wording(cell).split()) for cell in sheet.rows[start]]
    if start and _has_groups(sheet, start):
        headings = [
            f"{group} {heading}".strip()
            if group
            and heading.casefold() not in known
            and (not heading or field_of(f"{group} {heading}")[0])
            else heading
            for group, heading in zip(_spread(sheet, start - 1), headings)
        ]
    if start + 1 < len(sheet.rows):
        below = [wording(cell).strip(" ()[].").casefold() for cell in sheet.rows[start + 1]]
        units = [unit_named(text) if text else "" for text in below]
        if any(below) and all(unit for text, unit in zip(below, units) if text):
            headings = [
                f"{heading} ({text})" if text else heading for heading, text in zip(headings, below)
            ]
            return tuple(headings), 2
    return tuple(headings), 1


def _table(sheet: Sheet, part: _Part, blank: npt.NDArray[np.bool_]) -> Table:
    """Take a table's rows out of its sheet, blank ones left out."""
    below = np.concatenate([np.arange(span.start, span.stop) for span in part.spans])
    under_headings = np.isin(below, [span.start for span in part.spans])
    written = below[~blank[below]]
    after_blank = (blank[below - 1] & ~under_headings)[~blank[below]]
    rows = _with_merged(sheet, sheet.rows.taken(written), written)
    numbers = (written + sheet.first_row).tolist()
    return Table(part.headings, part.heading_row, rows, numbers, after_blank.tolist())


def _with_merged(sheet: Sheet, rows: Grid, places: npt.NDArray[np.intp]) -> Grid:
    """Let a cell merged down over several rows stand in each of them, as it shows on screen."""
    tall = [area for area in sheet.merged if area[2] > area[0] and area[1] == area[3]]
    if not tall:
        return rows
    place = {number: index for index, number in enumerate((places + sheet.first_row).tolist())}
    filled: dict[tuple[int, int], Cell] = {}
    for top, left, bottom, _ in tall:
        column = left - sheet.first_column
        if top not in place or not 0 <= column < len(rows.columns):
            continue
        whole = filled.get((place[top], column), rows.cell(place[top], column))
        for number in range(top + 1, bottom + 1):
            here = place.get(number, -1), column
            if here[0] >= 0 and filled.get(here, rows.cell(*here)) == "":
                filled[here] = whole
    return rows.with_cells(filled)
