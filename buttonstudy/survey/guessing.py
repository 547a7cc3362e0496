"""What a column that the kit does not know may hold, guessed from its heading's unit and its cells.

Only asked where a table has no button number or no diameter. A guess is never read with: it is
words in a drafted mapping file, for the researcher to take or leave.
"""

from dataclasses import dataclass

import pandas as pd

from buttonstudy.readings.lengths.reading import read_lengths
from buttonstudy.schemes import limit
from buttonstudy.survey.column_problems import WANTED
from buttonstudy.survey.headings import NOT_KNOWN, split_heading
from buttonstudy.survey.records import carried_name

__all__ = ["Guess", "guessed"]


@dataclass(frozen=True, slots=True)
class Guess:
    """What to look at in a column, and the unit that its heading states."""

    look: str
    unit: str = ""


def guessed(columns: pd.DataFrame, buttons: pd.DataFrame) -> dict[tuple[str, str, str], Guess]:
    """Guess the meaning of columns that are not known, in tables that lack a number or a size.

    Parameters
    ----------
    columns, buttons
        As in the survey.

    Returns
    -------
    dict
        By file, sheet and heading.
    """
    found = {}
    for (file, sheet), here in columns.groupby(["file", "sheet"], sort=False):
        lacking = [field for field in WANTED if field not in set(here["field"])]
        rows = buttons[(buttons["file"] == file) & (buttons["sheet"] == sheet)]
        for heading in here["heading"][here["how"] == NOT_KNOWN] if lacking else ():
            name = carried_name(heading)
            cells = rows[name].dropna() if name in rows else pd.Series(dtype="str")
            found[str(file), str(sheet), str(heading)] = _guess(heading, cells, lacking, len(rows))
    return found


def _guess(heading: str, cells: pd.Series, lacking: list[str], records: int) -> Guess:
    unit = split_heading(heading)[1]
    if "diameter" in lacking and _like_sizes(cells, unit):
        sizes = f"sizes in {unit}" if unit else "sizes"
        return Guess(f"not known: {sizes}; if this is the diameter, write diameter", unit)
    if "button_id" in lacking and _like_numbers(cells, records):
        return Guess("not known: every cell differs; if it is the button number, write button_id")
    words = " and none for the ".join(WANTED[field] for field in lacking)
    return Guess(f"not known, and no column was taken for the {words}: is it this?")


def _like_sizes(cells: pd.Series, unit: str) -> bool:
    """Tell whether nearly all cells read as one size that a button may have."""
    smallest, largest = limit("size-smallest-plausible"), limit("size-largest-plausible")
    told = cells.value_counts()
    fitting = 0
    for text, number in told.items():
        lengths = read_lengths(str(text), unit or None).lengths
        fitting += int(number) * any(smallest <= one.best <= largest for one in lengths)
    return bool(len(cells)) and fitting >= limit("guess-share") * len(cells)


def _like_numbers(cells: pd.Series, records: int) -> bool:
    """Tell whether nearly every record has a short text of its own."""
    short = cells[cells.str.len() <= limit("id-length")]
    return bool(records) and short.nunique() >= limit("guess-share") * records
