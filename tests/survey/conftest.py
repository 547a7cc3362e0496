"""Surveys written for a test, in the formats that contributors use."""

from pathlib import Path

import pytest


@pytest.fixture
def xlsx(tmp_path):
    """Write rows as a workbook: ``xlsx({"Sheet": rows}, formats={(row, column): "d-mmm"})``."""
    import datetime as dt

    import xlsxwriter

    def write(sheets, name="survey.xlsx", formats=None, merge=()) -> Path:
        path = tmp_path / name
        with xlsxwriter.Workbook(path) as book:
            for title, rows in sheets.items():
                sheet = book.add_worksheet(title)
                for area in merge:
                    sheet.merge_range(*area)
                for number, row in enumerate(rows):
                    for column, value in enumerate(row):
                        form = (formats or {}).get((number, column))
                        style = book.add_format({"num_format": form}) if form else None
                        if isinstance(value, dt.date):
                            sheet.write_datetime(number, column, value, style)
                        elif value != "":
                            sheet.write(number, column, value, style)
        return path

    return write


@pytest.fixture
def csv_file(tmp_path):
    """Write text as a file: ``csv_file("No,Diam (mm)\\n1,16\\n")``."""

    def write(text, name="survey.csv", encoding="utf-8") -> Path:
        path = tmp_path / name
        path.write_bytes(text if isinstance(text, bytes) else text.encode(encoding))
        return path

    return write
