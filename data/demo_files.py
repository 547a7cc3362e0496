"""Write the tables as files, each in a form of its own and always the same.

Workbooks are archives that note when they were made: the times are set to one fixed day, so that
nothing changes but what the surveys say.
"""

import csv
import io
import zipfile
from collections.abc import Iterable
from datetime import date, datetime
from pathlib import Path

import xlsxwriter
from demo_tables import Table, as_text
from odf.opendocument import OpenDocumentSpreadsheet
from odf.table import Table as OdsTable
from odf.table import TableCell, TableRow
from odf.text import P

MADE = datetime(2024, 1, 1)
INVENTED = (
    "Invented survey for trying out the kit: the Button Circle of Ambrelow, its members and "
    "their buttons do not exist."
)
ABOUT = """\
All of this is invented.

The island of Ambrelow, its Button Circle, the four people who filled in the surveys and every
button in them are made up. The shares, trends and sizes are drawn by a seeded generator
(data/make_demo.py) and say nothing about real buttons. They serve to try out the kit and to see
whether a study finds what is known to be there.

surveys/               four contributors' files, as untidy as surveys are
truth.csv              what is true of every button, by file, sheet and row of its record
truth_shares.csv       true shares of sets by twenty years: as they fell, and as expected
planted_problems.csv   the mistakes planted in the surveys, by file, sheet, row and column

Every date in the surveys holds the true year by the kit's default convention, save where a
mistake is planted. Sizes are blurred by each contributor's error and rounding. Ruined covers were
opened far more often than sound ones, so that the opened buttons are no fair sample of all. The
seed is one of two hundred tried: with it the shares fall near to what is expected of them.
"""


def write_xlsx(path: Path, table: Table) -> None:
    """A workbook with two titles over the table, a column and a row hidden, notes below."""
    data = io.BytesIO()
    workbook = xlsxwriter.Workbook(data, {"in_memory": True})
    workbook.set_properties({"title": "Invented survey", "created": MADE})
    sheet = workbook.add_worksheet(table.sheet)
    text = workbook.add_format({"num_format": "@"})
    day = workbook.add_format({"num_format": "d-mmm"})
    title = workbook.add_format({"bold": True})
    sheet.merge_range(0, 0, 0, 7, "Covered buttons in the drawers of Idony Parvel", title)
    sheet.write_string(1, 0, INVENTED)
    for column, heading in enumerate(table.headings):
        sheet.write_string(table.heading_row - 1, column, heading, title)
    rows = list(table.placed())
    for row, entry in rows:
        for column, heading in enumerate(table.headings):
            cell = entry.cells[heading]
            if isinstance(cell, date):
                sheet.write_datetime(row - 1, column, cell, day)
            elif isinstance(cell, float):
                sheet.write_number(row - 1, column, cell)
            elif cell:
                sheet.write_string(row - 1, column, cell, text)
    hidden = table.headings.index("Thread")
    sheet.set_column(hidden, hidden, None, None, {"hidden": True})
    sheet.set_row(rows[9][0] - 1, None, None, {"hidden": True})
    below = rows[-1][0] + 1
    sheet.write_string(below, 0, "Sizes by tape, to the nearest sixteenth of an inch.")
    sheet.write_string(below + 1, 0, "? means that I looked and could not tell. I. P.")
    workbook.close()
    path.write_bytes(_fixed_times(data.getvalue()))


def write_ods(path: Path, tables: list[Table]) -> None:
    """A workbook with a sheet per drawer: one bare, with a note below; one under a title."""
    document = OpenDocumentSpreadsheet()
    for table in tables:
        sheet = OdsTable(name=table.sheet)
        lines = {
            row: [entry.cells[heading] for heading in table.headings]
            for row, entry in table.placed()
        }
        lines[table.heading_row] = list(table.headings)
        lines[1 if table.heading_row > 1 else max(lines) + 2] = [INVENTED]
        for row in range(1, max(lines) + 1):
            sheet.addElement(_ods_row(lines.get(row, [None])))
        document.spreadsheet.addElement(sheet)
    data = io.BytesIO()
    document.save(data)
    path.write_bytes(_fixed_times(data.getvalue()))


def _ods_row(cells: Iterable[object]) -> TableRow:
    row = TableRow()
    for cell in cells:
        if isinstance(cell, float):
            row.addElement(TableCell(valuetype="float", value=f"{cell:g}"))
        elif cell:
            written = TableCell(valuetype="string")
            written.addElement(P(text=str(cell)))
            row.addElement(written)
        else:
            row.addElement(TableCell())
    return row


def write_semicolons(path: Path, table: Table) -> None:
    """Windows-1252 text with semicolons, a title line and a blank one over the headings."""
    text = io.StringIO(newline="")
    writer = csv.writer(text, delimiter=";", lineterminator="\r\n")
    writer.writerow([INVENTED])
    writer.writerow([])
    writer.writerows(_as_texts(table))
    path.write_bytes(text.getvalue().encode("cp1252"))


def write_commas(path: Path, table: Table) -> None:
    """UTF-8 text with commas, headings first, a note below."""
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\n")
    writer.writerows(_as_texts(table))
    writer.writerow([])
    writer.writerow([INVENTED])
    path.write_bytes(text.getvalue().encode("utf-8"))


def write_rows(path: Path, rows: list[list[str | int]]) -> None:
    """Plain UTF-8 text with commas."""
    text = io.StringIO(newline="")
    csv.writer(text, lineterminator="\n").writerows(rows)
    path.write_bytes(text.getvalue().encode("utf-8"))


def _as_texts(table: Table) -> list[list[str]]:
    records = [[entry.cells[name] for name in table.headings] for _, entry in table.placed()]
    return [list(table.headings), *([as_text(cell) for cell in cells] for cells in records)]


def _fixed_times(data: bytes) -> bytes:
    """Pack an archive again with every time set to `MADE`."""
    packed = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(packed, "w") as new:
        for entry in old.infolist():
            again = zipfile.ZipInfo(entry.filename, MADE.timetuple()[:6])
            again.compress_type = entry.compress_type
            again.external_attr = entry.external_attr
            new.writestr(again, old.read(entry))
    return packed.getvalue()
