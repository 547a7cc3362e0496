"""Tables as CSV files that are safe to open.

Text that a spreadsheet program would run as a formula gets a leading apostrophe, which reading
takes off again. Numbers are written as they are.
"""

from pathlib import Path
from typing import TYPE_CHECKING

from buttonstudy.publish.aside import write_aside
from buttonstudy.readings.formula_marks import harmless

if TYPE_CHECKING:
    import pandas as pd

__all__ = ["csv_text", "safe_text", "write_csv"]


def safe_text(value: object) -> object:
    """Return text that no spreadsheet program runs; anything but text is returned unchanged.

    Examples
    --------
    >>> safe_text("=1+1")
    "'=1+1"
    >>> safe_text("horn")
    'horn'
    >>> safe_text(-4)
    -4
    """
    return harmless(value) if isinstance(value, str) else value


def csv_text(frame: "pd.DataFrame") -> str:
    """Return a table as CSV text, its headings and words made safe, without row numbers.

    Missing values are empty cells. The line ending is CR LF, as RFC 4180 has it.
    """
    import pandas as pd

    safe = frame.copy()
    for place, dtype in enumerate(frame.dtypes):
        if not (pd.api.types.is_numeric_dtype(dtype) or pd.api.types.is_bool_dtype(dtype)):
            words = frame.iloc[:, place].astype(object).map(safe_text, na_action="ignore")
            safe.isetitem(place, words.array)
    safe.columns = [safe_text(str(heading)) for heading in frame.columns]
    return safe.to_csv(index=False, lineterminator="\r\n")


def write_csv(frame: "pd.DataFrame", path: Path, *, fresh: bool = False) -> None:
    """Write a table as UTF-8 with a byte-order mark, which spreadsheet programs need to see.

    A `fresh` one never takes the place of a file that is there.
    """
    write_aside(path, csv_text(frame).encode("utf-8-sig", errors="replace"), fresh=fresh)
