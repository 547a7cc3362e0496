"""What is known of a workbook's sheets beside their values: extents, errors shown, merged cells."""

import zipfile
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from buttonstudy.schemes import limit
from buttonstudy.survey.extents import Extent, workbook_extents
from buttonstudy.survey.formula_errors import Errors, formula_errors
from buttonstudy.survey.open_document import CONTENT, ods_sheets
from buttonstudy.survey.packed import DAMAGED, opened

__all__ = ["Beside", "look_beside"]

_BINARY = "xl/workbook.bin"


@dataclass(frozen=True, slots=True)
class Beside:
    """What calamine does not give, by the sheet's name.

    Parameters
    ----------
    extents
        How far each sheet reaches; one that cannot be followed is missing. None for kinds of
        workbook that are not looked into (.xls, .xlsb).
    errors
        What cells show whose formula came to nothing.
    merged
        Merged areas, where the reader does not tell them.
    at_once
        Whether the reader takes up all sheets in opening the file, as it does with .ods.
    """

    extents: Mapping[str, Extent] | None = None
    errors: Mapping[str, Errors] = field(default_factory=dict)
    merged: Mapping[str, Sequence[tuple[int, int, int, int]]] = field(default_factory=dict)
    at_once: bool = False


def look_beside(data: bytes) -> Beside:
    """Look through a workbook for what its reader does not give."""
    if not data.startswith(b"PK"):
        return Beside()
    try:
        with opened(data) as archive:
            names = archive.namelist()
            if CONTENT in names:
                return _of_ods(archive)
            if _BINARY in names:
                return Beside()
            extents = workbook_extents(archive, limit("sheet-cells"))
            may_show = {name for name, extent in extents.items() if extent.errors}
            return Beside(extents, formula_errors(archive, may_show))
    except DAMAGED:
        return Beside({})


def _of_ods(archive: zipfile.ZipFile) -> Beside:
    try:
        sheets = ods_sheets(archive)
    except DAMAGED:
        return Beside({}, at_once=True)
    return Beside(
        {name: one.extent for name, one in sheets.items()},
        merged={name: one.merged for name, one in sheets.items()},
        at_once=True,
    )
