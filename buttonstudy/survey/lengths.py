"""Columns of lengths understood: every reading an interval, several readings brought together."""

from collections.abc import Collection, Sequence
from dataclasses import replace

import pandas as pd

from buttonstudy.readings.doubt import Doubt
from buttonstudy.readings.lengths.faces import face_diameter
from buttonstudy.readings.lengths.mangled import read_back
from buttonstudy.readings.lengths.reading import LengthReading, read_lengths
from buttonstudy.readings.lengths.steps import with_step
from buttonstudy.survey.cells import Frame, Place, joined_wordings
from buttonstudy.survey.coded import Coded
from buttonstudy.survey.column_steps import Codes, Lengths, with_column_steps
from buttonstudy.survey.conversions import without_conversions
from buttonstudy.survey.headings import Column
from buttonstudy.survey.meant import with_meaning
from buttonstudy.survey.problems import FOR_INFORMATION
from buttonstudy.survey.sizes import (
    Readings,
    combine,
    disagreements,
    join_readings,
    size_columns,
    spread_lengths,
)

_NOTHING = LengthReading("", (), ())
_PARTS = {"diameter": "", "mould_diameter": "mould"}


def length_columns(
    field: str,
    columns: Sequence[tuple[Column, Coded, Place]],
    nothing: Collection[str] = (),
    recorders: Coded | None = None,
) -> Frame:
    """Read one length from all the columns that hold it.

    Parameters
    ----------
    field
        The length's field, such as ``"mould_diameter"``.
    columns
        Its columns, for instance one in mm, one in inches and one in lines.
    nothing
        Wordings that are known to say that there is nothing to measure.
    recorders
        Who measured each button, where a column tells it.

    Returns
    -------
    dict
        ``<field>_mm`` with ``_low`` and ``_high``, its wording and, for the diameter, the unit and
        step of the most precise reading and whether the readings agree.
    """
    found = [_read(field, *one, nothing, recorders) for one in columns]
    readings = _measured(field, found, columns)
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


def _measured(
    field: str,
    found: Sequence[tuple[Lengths, Codes]],
    columns: Sequence[tuple[Column, Coded, Place]],
) -> Readings:
    """Bring the readings of all columns together, without those only reckoned from others."""
    parts = [spread_lengths(some, codes) for some, codes in found]
    units = [{one.unit for lengths in some for one in lengths} for some, _ in found]
    readings, conversions = without_conversions(
        join_readings(parts), sorted(set[str]().union(*units))
    )
    for one in conversions:
        holding = [place for (_, _, place), here in zip(columns, units) if one.unit in here]
        holding[0].problems.add(
            "sizes-converted",
            one.says(field),
            "Nothing, if they were reckoned; if they were measured, note them as they were read.",
            level=FOR_INFORMATION,
            sheet=holding[0].sheet,
            column=holding[0].column,
        )
    return readings


def _read(
    field: str,
    column: Column,
    cells: Coded,
    place: Place,
    nothing: Collection[str],
    recorders: Coded | None,
) -> tuple[Lengths, Codes]:
    """Read one column's distinct wordings; tell its doubts."""
    found, doubts = [], []
    blank: tuple[LengthReading, tuple[Doubt, ...]] = (_NOTHING, ())

    def read(text: str) -> tuple[LengthReading, tuple[Doubt, ...]]:
        return blank if text in nothing else _one_cell(text, column.unit)

    for reading, marked in cells.understood(read, blank):
        face = face_diameter(reading.lengths, _PARTS[field]) if field in _PARTS else None
        found.append(face.lengths if face else reading.lengths)
        told = (*marked, *reading.doubts, *(face.doubts if face else ()))
        doubts.append(with_meaning(told, reading.text, column.unit))
    place.tell(cells, doubts)
    if column.step_mm is not None:
        stated = [tuple(with_step(one, column.step_mm) for one in some) for some in found]
        return stated, cells.codes
    return with_column_steps(found, cells.codes, recorders)


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
