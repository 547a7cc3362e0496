"""Columns about the mould's hole told apart: its kind, or its size, and sizes that say "no hole".

"Hole" alone may head either. Where most of its cells are sizes, it is the hole's diameter. In a
column of diameters "none" and "no hole" say that the mould has no hole.
"""

from collections.abc import Iterable, Sequence
from dataclasses import replace

import numpy as np
import pandas as pd

from buttonstudy.readings.lengths.mangled import reads_as_date
from buttonstudy.readings.terms.measured import is_size, is_whole
from buttonstudy.readings.terms.reading import read_terms
from buttonstudy.schemes import ABSENT, OPENED, Vocabulary, limit
from buttonstudy.survey.cells import Frame, Place
from buttonstudy.survey.coded import Coded
from buttonstudy.survey.finish import STATES
from buttonstudy.survey.headings import BY_MAPPING, Column

__all__ = ["HOLE_SIZE", "absent_holes", "sized_holes", "without_hole"]

HOLE_SIZE = "hole_diameter"
_HOLE = "mould_hole"


def sized_holes(
    columns: Sequence[Column], cells: Sequence[Coded], vocabulary: Vocabulary
) -> list[Column]:
    """Take a column headed as the mould's hole for its diameter where most cells are sizes.

    What a mapping file says is kept, and so is a column of diameters that is there already.

    Parameters
    ----------
    columns, cells
        What each column of a table was taken for, and its cells.
    vocabulary
        Preferred terms, by which words for kinds of holes are known.
    """
    measured = any(one.field == HOLE_SIZE for one in columns)
    return [
        replace(one, field=HOLE_SIZE)
        if one.field == _HOLE
        and one.how != BY_MAPPING
        and not measured
        and _mostly_sizes(here, vocabulary)
        else one
        for one, here in zip(columns, cells)
    ]


def _mostly_sizes(cells: Coded, vocabulary: Vocabulary) -> bool:
    """Tell whether sizes outnumber words; beside broken decimals, whole numbers are sizes too.

    Dates are sizes as well: nothing of a hole is a date, and 1/8 easily becomes one.
    """
    sized = [is_size(text) or reads_as_date(text) for text in cells.wordings]
    if not any(sized):
        return False
    if any(map(_is_broken, cells.wordings)):
        sized = [size or is_whole(text) for size, text in zip(sized, cells.wordings)]
    readings = [read_terms(text, _HOLE, vocabulary) for text in cells.wordings]
    worded = [not size and not one.state for size, one in zip(sized, readings)]
    counts = np.bincount(cells.codes, minlength=len(sized))
    sizes, words = int(counts[np.array(sized)].sum()), int(counts[np.array(worded)].sum())
    return sizes > limit("hole-sizes-share") * (sizes + words)


def _is_broken(text: str) -> bool:
    whole, mark, parts = text.strip().replace(",", ".").partition(".")
    return bool(mark) and (whole + parts).isdigit() and not is_whole(text)


def without_hole(columns: Iterable[Coded], vocabulary: Vocabulary) -> frozenset[str]:
    """Give the wordings in columns of hole diameters that say that there is no hole.

    Examples
    --------
    >>> from buttonstudy.schemes import vocabulary
    >>> from buttonstudy.survey.coded import coded
    >>> sorted(without_hole([coded(["no hole", "none", "2.5", "0", "-", "?"])], vocabulary()))
    ['no hole', 'none']
    """
    words = {text for one in columns for text in one.wordings if not any(map(str.isdigit, text))}
    return frozenset(text for text in words if read_terms(text, _HOLE, vocabulary).state == ABSENT)


def absent_holes(
    frame: Frame, columns: Sequence[tuple[Coded, Place]], without: frozenset[str]
) -> Frame:
    """Note that there is no hole where a diameter says so and the record says nothing else of it.

    On a button that was not opened nobody could see that, so there it stays not examined. Where
    the record names a kind of hole, that stays, and the contradiction is told.

    Parameters
    ----------
    frame
        The record's columns so far.
    columns
        The columns of hole diameters, and where they stand.
    without
        As :func:`without_hole` gives it.
    """
    said = pd.Series(pd.array([None] * len(columns[0][0].codes), dtype="str"))
    for one, _ in columns:
        said = said.fillna(one.texts().where(one.texts().isin(without)))
    seen = frame[f"{HOLE_SIZE}_mm"].isna()
    if "opened" in frame:
        seen &= frame["opened"].ne(OPENED[-1]).fillna(True)
    said = said.where(seen)
    absent = pd.Series(pd.array([ABSENT] * len(said), dtype="str")).where(said.notna())
    if _HOLE not in frame:
        return {_HOLE: absent, f"{_HOLE}_wording": said}
    own, wording = frame[_HOLE], frame[f"{_HOLE}_wording"]
    _tell_contradicted(own, said, columns)
    open_to = own.isna() & wording.isna()
    return {
        _HOLE: own.where(~open_to, absent),
        f"{_HOLE}_wording": wording.where(~open_to, said),
    }


def _tell_contradicted(
    own: pd.Series, said: pd.Series, columns: Sequence[tuple[Coded, Place]]
) -> None:
    """Tell where a kind of hole is named and its diameter says that there is none."""
    place = columns[0][1]
    named = own.notna() & ~own.isin(STATES)
    for row in np.flatnonzero((named & said.notna()).to_numpy(dtype=bool)):
        place.problems.add(
            "hole-without-diameter",
            f"The mould's hole is noted as {own[row]}, and under its diameter that there is none; "
            f"it is read as {own[row]}.",
            "Write the diameter, or leave the cell empty if it was not measured; or correct the "
            "mould's hole.",
            sheet=place.sheet,
            row=int(place.row_numbers[row]),
            column=place.column if len(columns) == 1 else "",
            wording=said[row],
        )
