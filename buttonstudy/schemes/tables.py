"""Reads the kit's tables, and a user's own, from CSV.

What the kit knows (units, periods, size classes, vocabulary, thresholds) is kept as plain tables
with a source beside each row, so that a button researcher can read and correct it without
reading code. A table that cannot be used is refused with the place of the fault and a remedy,
since a half-read scheme would quietly change every result.
"""

import csv
from collections.abc import Collection, Iterator
from functools import cache
from importlib import resources
from io import StringIO
from pathlib import Path

__all__ = ["Row", "SchemeError", "read_scheme_file", "rows", "scheme_rows"]

_DELIMITERS = (",", ";", "\t")
_SHOWN = 60


class SchemeError(ValueError):
    """A table or a name of one cannot be used; the message says where, what and what to do."""


class Row(dict[str, str]):
    """One row of a table: text by column, and the place it was read from.

    Parameters
    ----------
    values
        Cell texts by column name, without surrounding blanks.
    file
        The file's name as it was given.
    number
        The row as a spreadsheet program shows it, the headings being row 1.
    """

    __slots__ = ("file", "number")

    def __init__(self, values: dict[str, str], file: str, number: int) -> None:
        super().__init__(values)
        self.file = file
        self.number = number

    def error(self, column: str, says: str, remedy: str) -> SchemeError:
        """Make the error that names this row's place, what was read there and the remedy."""
        return SchemeError(
            f"{self.file}, row {self.number}, column {column}: "
            f"{_quoted(self.get(column, ''))} {says}. {remedy}"
        )

    def needed(self, column: str) -> str:
        """Give a cell's text, or raise SchemeError if it is empty."""
        if not self[column]:
            raise self.error(column, "is empty", "Fill it in, or take the row out.")
        return self[column]

    def year(self, column: str) -> int:
        """Give a cell's whole year, or raise SchemeError."""
        text = self.needed(column)
        if not (text.isascii() and text.isdigit() and len(text) <= 4):
            raise self.error(column, "is not a year", "Write a whole year such as 1837.")
        return int(text)


@cache
def rows(name: str) -> tuple[Row, ...]:
    """Read one of the kit's own tables.

    Parameters
    ----------
    name
        The table's name without ``.csv``, such as ``"fields"``.

    Returns
    -------
    tuple of Row
        The rows in the table's order, each a dictionary of texts by column.

    Raises
    ------
    SchemeError
        If the kit has no table of that name.

    Examples
    --------
    >>> rows("fields")[0]["label"]
    'Button no.'
    """
    table = resources.files(__package__).joinpath("tables", f"{name}.csv")
    if not table.is_file():
        raise SchemeError(f"The kit has no table called {_quoted(name)}.")
    return tuple(_rows(table.read_text(encoding="utf-8-sig"), f"{name}.csv", ()))


def read_scheme_file(path: str | Path, columns: Collection[str] = ()) -> tuple[Row, ...]:
    """Read a user's own table.

    Parameters
    ----------
    path
        A CSV file in UTF-8 (with or without a byte order mark), its cells parted by commas,
        semicolons or tabs. Blank rows are passed over; a row may leave out its last cells.
    columns
        The headings that must be there. Others may stand beside them.

    Returns
    -------
    tuple of Row
        At least one row.

    Raises
    ------
    SchemeError
        If the file is missing, unreadable, not UTF-8 text, empty, or lacks a needed column, or
        if a row has more cells than there are headings.
    """
    file = str(path)
    try:
        text = Path(path).read_bytes().decode("utf-8-sig")
    except UnicodeDecodeError:
        raise SchemeError(
            f"{file}: this is not UTF-8 text. In the spreadsheet program, save the table as "
            f'"CSV UTF-8".'
        ) from None
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or "the name cannot be used"
        raise SchemeError(
            f"{file}: cannot be read ({reason}). Check the name and that the file may be opened."
        ) from None
    found = tuple(_rows(text, file, columns))
    if not found:
        raise SchemeError(
            f"{file}: there is no row below the headings. Add the table's rows, or name one of "
            f"the kit's own schemes instead."
        )
    return found


def scheme_rows(
    table: str, name_or_path: str | Path, columns: Collection[str], what: str
) -> tuple[Row, ...]:
    """Give the rows of one scheme, by its name in a table of the kit or from a user's own file.

    Parameters
    ----------
    table
        The kit's table; its column ``scheme`` holds the names.
    name_or_path
        A scheme's name, or the path of a CSV file that holds one scheme.
    columns
        The headings that a user's own file must have.
    what
        What the scheme is called in messages, such as ``"period scheme"``.

    Raises
    ------
    SchemeError
        If there is neither such a scheme nor such a file, or the file cannot be used.
    """
    own = tuple(row for row in rows(table) if row["scheme"] == str(name_or_path))
    if own:
        return own
    if Path(name_or_path).suffix == "" and not Path(name_or_path).is_file():
        names = ", ".join(dict.fromkeys(row["scheme"] for row in rows(table)))
        raise SchemeError(
            f"There is no {what} called {_quoted(str(name_or_path))}. "
            f"Use one of: {names}; or give the path of your own CSV file."
        )
    return read_scheme_file(name_or_path, columns)


def _rows(text: str, file: str, columns: Collection[str]) -> Iterator[Row]:
    """Part a table's text into rows, checking its headings and each row's length."""
    delimiter = _delimiter(text, columns)
    reader = enumerate(csv.reader(StringIO(text, newline=""), delimiter=delimiter, strict=True), 1)
    try:
        headings: list[str] = []
        for number, cells in reader:
            stripped = [cell.strip() for cell in cells]
            if not any(stripped):
                continue
            if not headings:
                headings = _headings(stripped, file, number, columns)
                continue
            yield _row(headings, stripped, file, number)
    except csv.Error as error:
        raise SchemeError(
            f"{file}: this is not a readable CSV table ({error}). Check its quotation marks, or "
            f"save it again as CSV."
        ) from None
    if not headings:
        raise SchemeError(f"{file}: the file is empty. It needs a row of headings.")


def _delimiter(text: str, columns: Collection[str]) -> str:
    """Choose the mark under which the headings hold the most of the needed columns."""
    first = next((line for line in text.splitlines() if line.strip()), "")

    def fit(mark: str) -> tuple[int, int]:
        names = [name.strip().strip('"') for name in first.split(mark)]
        return sum(column in names for column in columns), len(names)

    return max(_DELIMITERS, key=fit)


def _headings(cells: list[str], file: str, number: int, columns: Collection[str]) -> list[str]:
    """Check the row of headings."""
    while cells and not cells[-1]:
        cells.pop()
    missing = [column for column in columns if column not in cells]
    if missing:
        raise SchemeError(
            f"{file}, row {number}: the headings lack {', '.join(missing)} "
            f"(read: {_quoted(', '.join(cells))}). Name the columns {', '.join(columns)}."
        )
    twice = next((cell for cell in cells if cells.count(cell) > 1), None)
    if twice is not None:
        raise SchemeError(
            f"{file}, row {number}: the heading {_quoted(twice)} stands twice. "
            f"Give each column its own heading."
        )
    return cells


def _row(headings: list[str], cells: list[str], file: str, number: int) -> Row:
    """Make one row; cells beyond the headings are a fault unless they are empty."""
    beyond = [cell for cell in cells[len(headings) :] if cell]
    if beyond:
        raise SchemeError(
            f"{file}, row {number}: {_quoted(beyond[0])} stands beyond the last heading. "
            f"Put quotation marks around a text that holds a comma."
        )
    filled = cells + [""] * (len(headings) - len(cells))
    return Row(dict(zip(headings, filled)), file, number)


def _quoted(text: str) -> str:
    """Put a text in quotation marks, shortened and on one line."""
    flat = " ".join(text.split())
    return f'"{flat[: _SHOWN - 1]}…"' if len(flat) > _SHOWN else f'"{flat}"'
