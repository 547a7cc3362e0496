"""What the reader of .ods workbooks does not give: how far sheets reach, and merged cells.

In .ods a cell or a row may stand for many ("repeated"), so that a few bytes make a sheet of
billions of cells; and a merged area is told by its first cell.
"""

import zipfile
from dataclasses import dataclass, field

from buttonstudy.survey.extents import Extent
from buttonstudy.survey.packed import blocks, followed

__all__ = ["CELLS", "CONTENT", "MOST_COLUMNS", "MOST_ROWS", "OdsSheet", "following", "ods_sheets"]

CONTENT = "content.xml"
MOST_ROWS, MOST_COLUMNS = 1_048_576, 16_384  # what is beyond is not read
CELLS = ("table:table-cell", "table:covered-table-cell")
_FILLING = frozenset({"office:value-type", "calcext:value-type", "table:formula"})


@dataclass(slots=True)
class OdsSheet:
    """One sheet: its extent, and merged areas as a `Sheet` has them."""

    extent: Extent = field(default_factory=Extent)
    merged: list[tuple[int, int, int, int]] = field(default_factory=list)


def ods_sheets(archive: zipfile.ZipFile) -> dict[str, OdsSheet]:
    """Look through the sheets of an .ods workbook.

    Raises
    ------
    DAMAGED
        If they cannot be followed.
    """
    found: dict[str, OdsSheet] = {}
    sheet = OdsSheet()
    rows, columns = range(0), range(0)  # those of the row and the cell that were begun last

    def at_tag(tag: str, attributes: dict[str, str]) -> None:
        nonlocal sheet, rows, columns
        if tag == "table:table":
            sheet = found.setdefault(attributes.get("table:name", ""), OdsSheet())
            rows, columns = range(0), range(0)
        elif tag == "table:table-row":
            rows = following(rows, attributes.get("table:number-rows-repeated"), MOST_ROWS)
            columns = range(0)
        elif tag in CELLS:
            columns = following(
                columns, attributes.get("table:number-columns-repeated"), MOST_COLUMNS
            )
            if not _FILLING.isdisjoint(attributes):
                _fill(sheet.extent, rows, columns)
            _merge(sheet, rows, columns, attributes)
        elif tag == "text:p":
            _fill(sheet.extent, rows, columns)

    followed(blocks(archive, CONTENT), at_tag)
    return found


def following(before: range, repeated: str | None, most: int) -> range:
    """Give the places of what follows some rows or columns, from 0, within those that are read."""
    return range(before.stop, min(before.stop + int(repeated or 1), most))


def _fill(extent: Extent, rows: range, columns: range) -> None:
    if rows and columns:
        extent.add(rows.start + 1, columns.start + 1)
        if len(rows) > 1 or len(columns) > 1:
            extent.add(rows.stop, columns.stop)


def _merge(sheet: OdsSheet, rows: range, columns: range, attributes: dict[str, str]) -> None:
    down = int(attributes.get("table:number-rows-spanned") or 1)
    across = int(attributes.get("table:number-columns-spanned") or 1)
    if (down > 1 or across > 1) and rows and columns:
        sheet.merged.append(
            (rows.start + 1, columns.start, rows.start + down, columns.start + across - 1)
        )
