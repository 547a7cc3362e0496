"""The cells of one column understood, by the kind of field that the column holds.

Each function reads a column's distinct wordings once, spreads what was read over the rows and
tells the doubts with their rows. What comes back are columns of the record.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
import pandas as pd

from buttonstudy.readings.counts import CountReading, read_count
from buttonstudy.readings.dates.reading import DateReading, read_date
from buttonstudy.readings.doubt import Doubt
from buttonstudy.readings.opened import OpenedReading, read_opened
from buttonstudy.readings.shown_errors import shown_error
from buttonstudy.readings.terms.medium import read_medium
from buttonstudy.readings.terms.reading import TermReading, read_terms
from buttonstudy.schemes import DateConvention, Vocabulary
from buttonstudy.survey.coded import Coded
from buttonstudy.survey.problems import Problems

Frame = dict[str, pd.Series]
NOT_RECORDED = "not recorded"


@dataclass(frozen=True, slots=True)
class Place:
    """Where a column stands: its problems list, sheet, name and row numbers (shape (rows,))."""

    problems: Problems
    sheet: str
    column: str
    row_numbers: npt.NDArray[np.intp]

    def tell(self, column: Coded, doubts: Sequence[Sequence[Doubt]]) -> None:
        """Note each wording's doubts for every row that has the wording."""
        all_doubts = [
            (error,) if (error := shown_error(text)) else some
            for text, some in zip(column.wordings, doubts)
        ]
        wanted = [code for code, some in enumerate(all_doubts) if some]
        for code, rows in column.rows_by_code(wanted):
            for doubt in all_doubts[code]:
                self.problems.add_doubt(
                    doubt, column.wordings[code], self.sheet, self.column, self.row_numbers[rows]
                )


def text_column(field: str, column: Coded) -> Frame:
    """Read identifiers, names and remarks: the text itself, without blanks around it."""
    texts = column.texts()
    return {field: texts.str.strip(), f"{field}_wording": texts}


def term_column(field: str, column: Coded, place: Place, vocabulary: Vocabulary) -> Frame:
    """Read preferred terms; several in one cell are joined with ``"; "`` in alphabetical order."""
    readings = column.understood(lambda text: read_terms(text, field, vocabulary), None)
    place.tell(column, [one.doubts if one else () for one in readings])
    return {
        field: _spread([_term_value(one) for one in readings], column),
        f"{field}_wording": column.texts(),
    }


def medium_columns(
    wanted: Sequence[str], column: Coded, place: Place, vocabulary: Vocabulary
) -> Frame:
    """Read a museum's list of materials and techniques into several fields of terms.

    Parameters
    ----------
    wanted
        Those of the fields that have no column of their own.
    """
    readings = column.understood(lambda text: read_medium(text, vocabulary), None)
    place.tell(column, [one.doubts if one else () for one in readings])
    frame: Frame = {}
    for field in wanted:
        values = ["; ".join(one.terms(field)) or None if one else None for one in readings]
        frame[field] = _spread(values, column)
        frame[f"{field}_wording"] = column.texts().where(frame[field].notna())
    return frame


def _term_value(reading: TermReading | None) -> str | None:
    if reading is None or reading.state == NOT_RECORDED:
        return None
    return reading.state or "; ".join(sorted({*reading.terms, *reading.unknown})) or None


def opened_column(column: Coded, place: Place, vocabulary: Vocabulary) -> Frame:
    """Read whether the button was opened."""
    readings: list[OpenedReading | None] = column.understood(
        lambda text: read_opened(text, vocabulary), None
    )
    place.tell(column, [one.doubts if one else () for one in readings])
    values = [one.opened or None if one else None for one in readings]
    return {"opened": _spread(values, column), "opened_wording": column.texts()}


def count_column(field: str, column: Coded, place: Place) -> Frame:
    """Read a count with its bounds and its state."""
    readings: list[CountReading | None] = column.understood(read_count, None)
    place.tell(column, [one.doubts if one else () for one in readings])
    return {
        f"{field}_low": _whole([one.low if one else None for one in readings], column),
        f"{field}_high": _whole([one.high if one else None for one in readings], column),
        f"{field}_state": _spread([_count_state(one) for one in readings], column),
        f"{field}_wording": column.texts(),
    }


def _count_state(reading: CountReading | None) -> str | None:
    if reading is None or reading.state == NOT_RECORDED:
        return None
    if reading.low is None and reading.high is None:
        return reading.state or None
    return "counted" if reading.low == reading.high else "bounded"


def date_columns(columns: Mapping[str, tuple[Coded, Place]], convention: DateConvention) -> Frame:
    """Read the date from one column or from columns for its two ends.

    Parameters
    ----------
    columns
        Columns by role: ``"date"``, ``"date_from"``, ``"date_to"``. Where an end has a column of
        its own and it is filled, that column is used.
    """
    ends: dict[str, tuple[pd.Series, pd.Series, pd.Series]] = {}
    for role, (column, place) in columns.items():
        readings: list[DateReading | None] = column.understood(
            lambda text: read_date(text, convention), None
        )
        place.tell(column, [one.doubts if one else () for one in readings])
        ends[role] = (
            _whole([one.earliest if one else None for one in readings], column),
            _whole([one.latest if one else None for one in readings], column),
            _spread([one.basis or None if one else None for one in readings], column),
        )
    first = [ends[role] for role in ("date_from", "date") if role in ends]
    last = [ends[role] for role in ("date_to", "date") if role in ends]
    nothing = pd.Series(pd.NA, index=next(iter(ends.values()))[0].index, dtype="Int64")
    year_from = _first_filled([one[0] for one in first], nothing)
    year_to = _first_filled([one[1] for one in last], nothing)
    reversed_ends = (year_from > year_to).fillna(False).to_numpy(dtype=bool)
    _tell_reversed(columns, year_from, year_to, reversed_ends)
    basis = _first_filled([one[2] for one in ends.values()], nothing.astype("str"))
    return {
        "year_from": year_from.mask(reversed_ends),
        "year_to": year_to.mask(reversed_ends),
        "date_basis": basis,
        "date_wording": joined_wordings(
            [(place.column, column) for column, place in columns.values()]
        ),
    }


def _tell_reversed(
    columns: Mapping[str, tuple[Coded, Place]],
    year_from: pd.Series,
    year_to: pd.Series,
    rows: npt.NDArray[np.bool_],
) -> None:
    column, place = next(iter(columns.values()))
    for row in np.flatnonzero(rows):
        place.problems.add(
            "date-reversed",
            f"The earliest year {year_from[row]} is later than the latest year {year_to[row]}.",
            "Correct the two years; until then the button counts as undated.",
            level="not read",
            sheet=place.sheet,
            row=int(place.row_numbers[row]),
            column=place.column,
            wording=column.wordings[column.codes[row]],
        )


def joined_wordings(columns: Sequence[tuple[str, Coded]]) -> pd.Series:
    """Keep the wordings of a field that stands in several columns, each with its column's name."""
    if len(columns) == 1:
        return columns[0][1].texts()
    parts = []
    for name, column in columns:
        texts = column.texts()
        parts.append(name + ": " + texts)
    joined = parts[0]
    for part in parts[1:]:
        both = joined.notna() & part.notna()
        joined = joined.where(~both, joined + " | " + part).fillna(part)
    return joined


def _first_filled(choices: Sequence[pd.Series], nothing: pd.Series) -> pd.Series:
    filled = choices[0] if choices else nothing
    for choice in choices[1:]:
        filled = filled.fillna(choice)
    return filled


def _spread(values: Sequence[str | None], column: Coded) -> pd.Series:
    return pd.Series(pd.array(values, dtype="str").take(column.codes))


def _whole(values: Sequence[int | None], column: Coded) -> pd.Series:
    return pd.Series(pd.array(values, dtype="Int64").take(column.codes))
