"""Text tables: their encoding and separator found out, their rows read.

Collectors' text files come from many programs. A byte order mark settles the encoding; without
one, text that is valid UTF-8 is UTF-8 and anything else is Windows-1252. The separator is the one
that splits the first lines into the most regular table.
"""

import csv
import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import islice

from buttonstudy.schemes import limit
from buttonstudy.survey.grid import Grid
from buttonstudy.survey.problems import FOR_INFORMATION, NOT_READ, TO_CONFIRM, Problems
from buttonstudy.survey.sheets import Sheet

SEPARATORS = {",": "comma", ";": "semicolon", "\t": "tab"}
_LINE = re.compile(r"[^\r\n]*(?:\r\n|\r|\n)|[^\r\n]+")


@dataclass(frozen=True, slots=True)
class TextForm:
    """How a text file is written: encoding and separator, in plain words."""

    encoding: str
    separator: str


def decode(data: bytes) -> tuple[str, str]:
    """Decode text of unknown encoding; give the text and the encoding's name.

    Raises
    ------
    ValueError
        If the bytes are not text.

    Examples
    --------
    >>> decode("Ø 5⁄8″".encode("utf-8-sig"))
    ('Ø 5⁄8″', 'UTF-8')
    >>> decode("Ø 16".encode("cp1252"))
    ('Ø 16', 'Windows-1252')
    """
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        return data.decode("utf-16", errors="replace"), "UTF-16"
    head = data[: int(limit("encoding-bytes"))]
    if b"\x00" in head:
        for name, zeros in (("utf-16-le", head[1::2]), ("utf-16-be", head[0::2])):
            if zeros.count(0) > limit("utf-16-share") * len(zeros):
                return data.decode(name, errors="replace"), "UTF-16"
        raise ValueError("the file is not text")
    try:
        return data.decode("utf-8-sig"), "UTF-8"
    except UnicodeDecodeError:
        if sum(byte < 9 or 13 < byte < 32 for byte in head) > limit("odd-byte-share") * len(head):
            raise ValueError("the file is not text") from None
        return data.decode("cp1252", errors="replace"), "Windows-1252"


def _lines(text: str) -> Iterator[str]:
    """Part a text into lines with their ends, without a copy of the whole."""
    return map(re.Match.group, _LINE.finditer(text))


def find_separator(text: str) -> str:
    r"""Give the separator that splits the first lines most regularly; a comma if none does.

    Examples
    --------
    >>> find_separator("No;Diam;Date\n1;15,5;c. 1840\n2;16,0;1850")
    ';'
    """
    scores = {}
    lines = list(islice(_lines(text), int(limit("separator-lines"))))
    for separator in SEPARATORS:
        try:
            widths = Counter(len(row) for row in csv.reader(lines, delimiter=separator) if row)
        except csv.Error:
            continue
        width, count = max(
            ((width, count) for width, count in widths.items() if width > 1),
            key=lambda pair: pair[1] * (pair[0] - 1),
            default=(1, 0),
        )
        scores[separator] = count * (width - 1)
    return max(scores, key=lambda separator: scores[separator]) if any(scores.values()) else ","


def read_delimited(data: bytes, problems: Problems) -> tuple[Sheet | None, TextForm | None]:
    """Read a text table whole; what cannot be read is noted among the problems."""
    try:
        text, encoding = decode(data)
    except ValueError:
        problems.add(
            "not-a-table",
            "This file is neither a spreadsheet nor text.",
            "Save the survey as .xlsx, .ods or .csv and name that file.",
            level=NOT_READ,
        )
        return None, None
    if "\ufffd" in text:
        problems.add(
            "characters-lost",
            f"Some characters could not be read as {encoding}.",
            "Save the file again as UTF-8 and compare the marked cells.",
        )
    skipped = 0
    if text[:4].lower() == "sep=":
        declared, _, text = text.partition("\n")
        separator = declared.rstrip("\r")[4:5] or ","
        skipped = 1
    else:
        separator = find_separator(text)
    rows = _rows(text, separator, problems)
    form = TextForm(encoding, SEPARATORS.get(separator, separator))
    return (None if rows is None else Sheet("", rows, first_row=1 + skipped)), form


def _rows(text: str, separator: str, problems: Problems) -> Grid | None:
    """Give the rows, or None where they are more than is read."""
    before = csv.field_size_limit(int(limit("cell-longest")))  # for all readers of this process
    try:
        rows = Grid.of(_read_rows(text, separator, problems))
    except _TooLargeError as error:
        _tell_too_large(error.rows, error.columns, problems)
        return None
    finally:
        csv.field_size_limit(before)
    if any("\x00" in str(cell) for row in rows[:50] for cell in row):
        problems.add(
            "odd-characters",
            "The text holds characters that no spreadsheet writes.",
            "Check that this is the right file.",
            level=FOR_INFORMATION,
        )
    return rows


@dataclass
class _TooLargeError(Exception):
    rows: int
    columns: int


def _read_rows(text: str, separator: str, problems: Problems) -> Iterator[list[str]]:
    """Read row by row, so that no more than a block of them is held as it was written."""
    reader = csv.reader(_lines(text), delimiter=separator)
    read, widest, most, begun = 0, 1, limit("sheet-cells"), 0
    most_breaks = limit("cell-line-breaks")
    while True:
        try:
            for row in reader:
                read, widest = read + 1, max(widest, len(row))
                if read * widest > most:
                    raise _TooLargeError(read, widest)
                if reader.line_num - read > most_breaks:
                    _tell_long_cells(row, read, problems)
                begun = reader.line_num
                yield row
            return
        except csv.Error:
            read += 1
            _tell_unread(reader.line_num - begun, read, problems)
            begun = reader.line_num
            yield []


def _tell_too_large(rows: int, columns: int, problems: Problems) -> None:
    problems.add(
        "sheet-too-large",
        f"This table is more than {limit('sheet-cells'):,.0f} cells large: row {rows:,} is not its "
        f"last, and its widest row has {columns:,} cells.",
        "Delete blank rows and stray separators, or split the survey over several files.",
        level=NOT_READ,
    )


def _tell_unread(lines: int, row: int, problems: Problems) -> None:
    """Tell a cell that is longer than the reader takes, and how many lines it took in."""
    these = "This line" if lines <= 1 else f"From here on {lines:,} lines"
    problems.add(
        "cell-not-readable",
        f"{these} could not be read: one cell is longer than {limit('cell-longest'):,.0f} "
        "characters.",
        "Look for a quotation mark that is opened and not closed.",
        level=NOT_READ,
        row=row,
    )


def _tell_long_cells(row: list[str], number: int, problems: Problems) -> None:
    for cell in row:
        if cell.count("\n") > limit("cell-line-breaks"):
            problems.add(
                "quote-not-closed",
                f"One cell runs over {cell.count(chr(10)) + 1} lines: a quotation mark is "
                "probably opened and not closed, and rows after it may be inside this cell.",
                "Close the quotation mark, or remove it, and read the file again.",
                level=TO_CONFIRM,
                row=number,
                wording=cell[:80],
            )
