"""Workbooks (.xlsx, .ods and older kinds) read with calamine into sheets of raw cells.

Calamine is many times faster than other readers. What it does not give is looked up in the
workbook's XML: how far a sheet reaches, errors that cells show, number formats.
"""

import io
import zipfile

from python_calamine import CalamineError, CalamineWorkbook, PasswordError

from buttonstudy.schemes import limit
from buttonstudy.survey.extents import stated_extents
from buttonstudy.survey.formula_errors import Errors, formula_errors
from buttonstudy.survey.old_workbooks import OLD_WORKBOOK, can_be_read
from buttonstudy.survey.packed import DAMAGED
from buttonstudy.survey.problems import NOT_READ, Problems
from buttonstudy.survey.sheets import Sheet, column_letter


def read_workbook(data: bytes, problems: Problems) -> list[Sheet]:
    """Read every sheet, hidden ones too; what cannot be read is noted among the problems."""
    if not _sane_archive(data, problems):
        return []
    if data.startswith(OLD_WORKBOOK) and not can_be_read(data):
        _tell_damaged("its inner order is broken", problems)
        return []
    try:
        workbook = CalamineWorkbook.from_filelike(io.BytesIO(data))
        names = workbook.sheet_names
    except PasswordError:
        problems.add(
            "password",
            "This workbook is protected by a password and cannot be opened.",
            "Save a copy without the password and name that file.",
            level=NOT_READ,
        )
        return []
    except BaseException as error:
        if not _is_the_readers(error):
            raise
        _tell_damaged(_short(error), problems)
        return []
    if not names:
        problems.add(
            "no-sheets",
            "No sheet was found in this workbook.",
            "Open it in your spreadsheet program, let it repair the file, and save it again.",
            level=NOT_READ,
        )
    extents, errors = stated_extents(data), formula_errors(data)
    return [
        sheet
        for name in names
        if not _too_large(extents.get(name), problems, name)
        and (sheet := _read_sheet(workbook, name, problems, errors.get(name, {})))
    ]


def _is_the_readers(error: BaseException) -> bool:
    """Tell errors of the workbook reader; one kind, for broken promises, is no Exception."""
    known = isinstance(error, CalamineError | OSError | ValueError)
    return known or type(error).__name__ == "PanicException"


def _tell_damaged(why: str, problems: Problems) -> None:
    problems.add(
        "file-damaged",
        f"This workbook is damaged and cannot be opened ({why}).",
        "Open it in your spreadsheet program, let it repair the file, and save it again.",
        level=NOT_READ,
    )


def _read_sheet(
    workbook: CalamineWorkbook, name: str, problems: Problems, errors: Errors
) -> Sheet | None:
    try:
        raw = workbook.get_sheet_by_name(name)
        if raw.start is None:
            return Sheet(name, ())
        first_row, first_column = raw.start
        merged = tuple(
            (top + 1, left, bottom + 1, right)
            for (top, left), (bottom, right) in raw.merged_cell_ranges or ()
        )
        rows = raw.to_python(skip_empty_area=True)
        for (row, column), shown in errors.items():
            down, across = row - 1 - first_row, column - first_column
            if 0 <= down < len(rows) and 0 <= across < len(rows[down]):
                rows[down][across] = shown
        return Sheet(name, rows, first_row + 1, first_column, merged)
    except BaseException as error:
        if not _is_the_readers(error):
            raise
        problems.add(
            "sheet-damaged",
            f"This sheet cannot be read ({_short(error)}).",
            "Copy its cells into a new workbook and name that file.",
            level=NOT_READ,
            sheet=name,
        )
        return None


def _too_large(extent: tuple[int, int] | None, problems: Problems, name: str) -> bool:
    if extent is None or extent[0] * extent[1] <= limit("sheet-cells"):
        return False
    problems.add(
        "sheet-too-large",
        f"This sheet reaches to row {extent[0]:,} and column {column_letter(extent[1] - 1)}, "
        f"more than {limit('sheet-cells'):,.0f} cells.",
        "Delete stray cells far outside the table, or split the survey over several files.",
        level=NOT_READ,
        sheet=name,
    )
    return True


def _sane_archive(data: bytes, problems: Problems) -> bool:
    """Refuse archives that would unpack to far more than any survey."""
    if not data.startswith(b"PK"):
        return True
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            unpacked = sum(entry.file_size for entry in archive.infolist())
    except DAMAGED:
        return True  # calamine says better what is wrong
    if unpacked <= limit("unpacked-bytes"):
        return True
    problems.add(
        "file-too-large",
        f"This workbook unpacks to {unpacked / 1e6:,.0f} MB, more than any survey needs "
        f"({limit('unpacked-bytes') / 1e6:,.0f} MB).",
        "Check that it is the right file; if it is, split it.",
        level=NOT_READ,
    )
    return False


def _short(error: BaseException) -> str:
    return " ".join(str(error).split())[:120] or type(error).__name__
