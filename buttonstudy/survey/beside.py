"""What is known of a workbook's sheets beside their values: extents with errors, merged cells."""

import zipfile
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from buttonstudy.survey.extents import Extent, workbook_extents
from buttonstudy.survey.open_document import ods_sheets
from buttonstudy.survey.packed import BOOK, DAMAGED, named, opened

__all__ = ["Beside", "look_beside"]


@dataclass(frozen=True, slots=True)
class Beside:
    """What calamine does not give, by the sheet's name.

    Parameters
    ----------
    extents
        How far each sheet reaches, and which of its cells show errors; a sheet that cannot be
        followed is missing. None for the kind of workbook that is not looked into (.xls).
    merged
        Merged areas, where the reader does not tell them.
    at_once
        Whether the reader takes up all sheets in opening the file, as it does with .ods.
    """

    extents: Mapping[str, Extent] | None = None
    merged: Mapping[str, Sequence[tuple[int, int, int, int]]] = field(default_factory=dict)
    at_once: bool = False


def look_beside(data: bytes) -> Beside:
    """Look through a workbook for what its reader does not give."""
    if not data.startswith(b"PK"):
        return Beside()
    try:
        with opened(data) as archive:
            if named(archive, BOOK) in archive.namelist():
                return Beside(workbook_extents(archive))
            return _of_ods(archive)
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
