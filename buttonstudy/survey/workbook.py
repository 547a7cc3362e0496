"""Workbooks (.xlsx, .ods and older kinds) read with calamine into sheets of raw cells.

Calamine is many times faster than other readers. What it does not give is looked up in the
workbook's XML: how far a sheet reaches, errors that cells show, number formats.
"""

import io
from collections.abc import Collection

from python_calamine import CalamineError, CalamineWorkbook, PasswordError

from buttonstudy.schemes import limit
from buttonstudy.survey.beside import Beside, look_beside
from buttonstudy.survey.grid import Grid
from buttonstudy.survey.old_workbooks import OLD_WORKBOOK, can_be_read
from buttonstudy.survey.open_document import CONTENT
from buttonstudy.survey.packed import BOOK, DAMAGED, opened
from buttonstudy.survey.problems import NOT_READ, Problems
from buttonstudy.survey.sheets import Sheet, column_letter

_BINARY = "xl/workbook.bin"


def read_workbook(data: bytes, problems: Problems) -> list[Sheet]:
    """Read every sheet, hidden ones too; what cannot be read is noted among the problems."""
    if not _sane_archive(data, problems):
        return []
    if data.startswith(OLD_WORKBOOK) and not can_be_read(data, problems):
        return []
    beside = look_beside(data)
    if beside.at_once and not _can_be_opened(beside, problems):
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
    return [
        sheet
        for name in names
        if _can_be_taken_up(name, beside, problems)
        and (sheet := _read_sheet(workbook, name, problems, beside))
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
    workbook: CalamineWorkbook, name: str, problems: Problems, beside: Beside
) -> Sheet | None:
    try:
        raw = workbook.get_sheet_by_name(name)
        if raw.start is None:
            return Sheet(name, Grid())
        first_row, first_column = raw.start
        merged = beside.merged.get(name) or tuple(
            (top + 1, left, bottom + 1, right)
            for (top, left), (bottom, right) in raw.merged_cell_ranges or ()
        )
        # One row at a time takes less memory, but gives all blank rows above the first as well.
        rows = Grid.of(raw.to_python(skip_empty_area=True) if first_row else raw.iter_rows())
        errors = beside.extents[name].errors if beside.extents else {}
        places = (
            ((row - 1 - first_row, column - first_column), shown)
            for (row, column), shown in errors.items()
        )
        shown = {place: shown for place, shown in places if rows.has(*place)}
        return Sheet(name, rows.with_cells(shown), first_row + 1, first_column, merged)
    except BaseException as error:
        if not _is_the_readers(error):
            raise
        _tell_sheet_damaged(_short(error), name, problems)
        return None


def _tell_sheet_damaged(why: str, name: str, problems: Problems) -> None:
    problems.add(
        "sheet-damaged",
        f"This sheet cannot be read ({why}).",
        "Copy its cells into a new workbook and name that file.",
        level=NOT_READ,
        sheet=name,
    )


def _can_be_opened(beside: Beside, problems: Problems) -> bool:
    """Tell whether all sheets can be taken up; if not, or if nobody can tell, say so."""
    if not beside.extents:
        _tell_damaged("how far its sheets reach cannot be told", problems)
        return False
    fitting = [name for name in beside.extents if _can_be_taken_up(name, beside, problems)]
    if len(fitting) == len(beside.extents):
        return True
    for name in fitting:
        why = "a workbook of this kind is read whole, and another of its sheets reaches too far"
        _tell_sheet_damaged(why, name, problems)
    return False


def _can_be_taken_up(name: str, beside: Beside, problems: Problems) -> bool:
    """Tell whether a sheet's cells fit into memory; if not, or if nobody can tell, say so."""
    if beside.extents is None:
        return True
    extent = beside.extents.get(name)
    if extent is None:
        _tell_sheet_damaged("how far its cells reach cannot be told", name, problems)
        return False
    if extent.fits():
        return True
    many = extent.cells() > limit("sheet-cells")
    most = f"{limit('sheet-cells'):,.0f} cells" if many else f"{limit('sheet-rows'):,.0f} rows"
    problems.add(
        "sheet-too-large",
        f"This sheet reaches to row {extent.last_row:,} and column "
        f"{column_letter(extent.last_column - 1)}, more than {most}.",
        "Delete stray cells and formulas far outside the table, or split the survey over several "
        "files.",
        level=NOT_READ,
        sheet=name,
    )
    return False


def _sane_archive(data: bytes, problems: Problems) -> bool:
    """Refuse archives that would unpack to far more than any survey."""
    if not data.startswith(b"PK"):
        return True
    try:
        with opened(data) as archive:
            unpacked = sum(entry.file_size for entry in archive.infolist())
            names = [name.replace("\\", "/").casefold() for name in archive.namelist()]
    except DAMAGED:
        return True  # calamine says better what is wrong
    if len(set(names)) < len(names):  # readers differ in which of two they take
        _tell_damaged("it holds a part twice", problems)
        return False
    if not _of_one_kind(names, problems):
        return False
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


def _of_one_kind(names: Collection[str], problems: Problems) -> bool:
    """Refuse binary workbooks, and those of which readers would differ in what they are."""
    kinds = [kind for kind in (BOOK, _BINARY, CONTENT) if kind in names]
    if len(kinds) > 1:
        _tell_damaged("it holds workbooks of two kinds", problems)
        return False
    if kinds == [_BINARY]:
        problems.add(
            "binary-workbook",
            "This is a binary workbook (.xlsb), which is not read: how far its sheets reach, and "
            "which cells show errors, cannot be told beforehand.",
            "Open it in your spreadsheet program, save it as .xlsx, and name that file.",
            level=NOT_READ,
        )
        return False
    return True


def _short(error: BaseException) -> str:
    return " ".join(str(error).split())[:120] or type(error).__name__
