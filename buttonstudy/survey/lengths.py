"""Columns of lengths understood: every reading an interval, several readings brought together."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import pandas as pd

from buttonstudy.readings.doubt import Doubt
from buttonstudy.readings.lengths.faces import face_diameter
from buttonstudy.readings.lengths.mangled import read_back
from buttonstudy.readings.lengths.reading import Length, LengthReading, read_lengths
from buttonstudy.readings.lengths.steps import lines_step, with_step
from buttonstudy.schemes import units
from buttonstudy.survey.cells import Frame, Place, joined_wordings
from buttonstudy.survey.coded import Coded
from buttonstudy.survey.headings import Column
from buttonstudy.survey.sizes import (
    combine,
    disagreements,
    join_readings,
    size_columns,
    spread_lengths,
)

_NOTHING = LengthReading("", (), ())
_PARTS = {"diameter": "", "mould_diameter": "mould"}


def length_columns(field: str, columns: Sequence[tuple[Column, Coded, Place]]) -> Frame:
    """Read one length from all the columns that hold it.

    Parameters
    ----------
    field
        The length's field, such as ``"mould_diameter"``.
    columns
        Its columns, for instance one in mm, one in inches and one in lines.

    Returns
    -------
    dict
        ``<field>_mm`` with ``_low`` and ``_high``, its wording and, for the diameter, the unit and
        step of the most precise reading and whether the readings agree.
    """
    parts = [
        spread_lengths(_read(field, column, cells, place), cells.codes)
        for column, cells, place in columns
    ]
    readings = join_readings(parts)
    sizes = combine(readings)
    wordings = joined_wordings([(place.column, cells) for _, cells, place in columns])
    for row, told in disagreements(readings, sizes):
        place = columns[0][2]
        place.problems.add(
            "sizes-disagree",
            f"The readings of this {field.replace('_', ' ')} do not agree: {told}",
            "Measure again, or correct the reading that is wrong; until then the most precise "
            "one is used.",
            sheet=place.sheet,
            row=int(place.row_numbers[row]),
            column=place.column if len(columns) == 1 else "",
            wording=str(wordings[row]),
        )
    frame = size_columns(field, sizes)
    frame[f"{field}_wording"] = wordings
    if field == "diameter":
        frame["diameter_unit"] = pd.Series(sizes.unit, dtype="str").replace("", None)
        frame["diameter_step_mm"] = pd.Series(pd.array(sizes.step, dtype="Float64"))
        frame["sizes_agree"] = pd.Series(pd.array(sizes.agree == 1, dtype="boolean")).mask(
            sizes.agree < 0
        )
    return frame


def _read(field: str, column: Column, cells: Coded, place: Place) -> list[tuple[Length, ...]]:
    """Read one column's distinct wordings; tell its doubts."""
    found, doubts = [], []
    blank: tuple[LengthReading, tuple[Doubt, ...]] = (_NOTHING, ())
    for reading, marked in cells.understood(lambda text: _one_cell(text, column.unit), blank):
        face = face_diameter(reading.lengths, _PARTS[field]) if field in _PARTS else None
        found.append(face.lengths if face else reading.lengths)
        doubts.append((*marked, *reading.doubts, *(face.doubts if face else ())))
    place.tell(cells, doubts)
    if column.step_mm is not None:
        return [tuple(with_step(one, column.step_mm) for one in some) for some in found]
    return _with_column_step(found, cells)


def _one_cell(text: str, unit: str) -> tuple[LengthReading, tuple[Doubt, ...]]:
    """Read one cell, a fraction that became a date read back and marked."""
    fraction = read_back(text)
    if fraction is None:
        return read_lengths(text, unit or None), ()
    reading = read_lengths(fraction, unit or None)
    doubt = Doubt(
        "fraction-became-date",
        f"The spreadsheet program seems to have turned the fraction {fraction} into a date.",
        f"If {fraction} was meant, write it again in a cell formatted as text.",
    )
    return replace(reading, text=text), (doubt,)


def _with_column_step(found: list[tuple[Length, ...]], cells: Coded) -> list[tuple[Length, ...]]:
    """Give readings in lines the step in which this column's lines are given."""
    per_line = float(units()["lines"])
    in_lines = [
        [round(one.best / per_line, 6) for one in some if one.unit == "lines"] for some in found
    ]
    if not any(in_lines):
        return found
    counts = np.bincount(cells.codes, minlength=len(found))
    values = [value for some, n in zip(in_lines, counts) for value in some * int(n)]
    step = float(lines_step(values)) * per_line
    return [
        tuple(
            with_step(one, step) if one.unit == "lines" and not one.approximate else one
            for one in some
        )
        for some in found
    ]
