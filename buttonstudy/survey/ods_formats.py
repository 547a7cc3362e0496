"""Number formats of the cells of an .ods workbook, in the words of an .xlsx workbook.

A cell names its style, or its row or column does; the style, or the one that it is derived from,
names a data style; and that spells its format out in elements: a fraction, a month, a text. Of a
data style for several kinds of value, the one for numbers above nought counts.
"""

import re
import zipfile
from collections.abc import Collection
from dataclasses import dataclass, field

from buttonstudy.schemes import limit
from buttonstudy.survey.open_document import CELLS, CONTENT, MOST_COLUMNS, MOST_ROWS, following
from buttonstudy.survey.packed import blocks, followed, named

__all__ = ["ods_formats"]

_STYLES = "styles.xml"
_DATA_STYLES = tuple(
    f"number:{kind}-style" for kind in ("number", "currency", "percentage", "date", "time", "text")
)
_ABOVE_NOUGHT = "value()>"
_TEXTS = ("number:text", "number:currency-symbol")
_LETTERS = {"number:day": "d", "number:year": "yy", "number:hours": "h", "number:seconds": "s"}
_MOST_DECIMALS = 20  # as many as programs show
_LONGEST = 200  # characters of a format; and of styles derived from each other:
_DEEPEST = 50

Formats = dict[tuple[int, int], str]


@dataclass(slots=True)
class _Styles:
    """Cell styles with what they are derived from and their data style, and data styles' formats.

    `instead` has the data style for numbers above nought of those that have one.
    """

    parents: dict[str, str] = field(default_factory=dict)
    data: dict[str, str] = field(default_factory=dict)
    formats: dict[str, str] = field(default_factory=dict)
    instead: dict[str, str] = field(default_factory=dict)

    def of(self, style: str) -> str:
        """Give the format of a cell style; empty if it has none."""
        for _ in range(_DEEPEST):  # a damaged list may lead in a circle
            if style in self.data:
                name = self.data[style]
                return self.formats.get(self.instead.get(name, name), "")
            style = self.parents.get(style, "")
        return ""


def ods_formats(archive: zipfile.ZipFile, sheet: str, columns: Collection[int]) -> Formats:
    """Look up the number formats of the cells of some columns.

    Parameters
    ----------
    archive
        The workbook.
    sheet
        The sheet's name.
    columns
        Their numbers, from 0.

    Returns
    -------
    dict
        Place of a cell (row 1-based, column 0-based) to its format, for those that have one.

    Raises
    ------
    DAMAGED
        If they cannot be followed.
    """
    styles = _Styles()
    for part in (_STYLES, CONTENT):  # what the content says goes before
        if named(archive, part) in archive.namelist():
            _read_styles(archive, part, styles)
    formats = {name: form for name in {*styles.parents, *styles.data} if (form := styles.of(name))}
    return _of_cells(archive, sheet, columns, formats) if formats else {}


def _read_styles(archive: zipfile.ZipFile, part: str, styles: _Styles) -> None:
    current = text = ""
    most = limit("cell-formats")

    def begins(tag: str, attributes: dict[str, str]) -> None:
        nonlocal current, text
        name = attributes.get("style:name", "")
        if tag == "style:style" and attributes.get("style:family") == "table-cell":
            styles.parents[name] = attributes.get("style:parent-style-name", "")
            if data := attributes.get("style:data-style-name"):
                styles.data[name] = data
        elif tag in _DATA_STYLES:
            current, styles.formats[name] = name, ""
        elif current and tag == "style:map":
            if attributes.get("style:condition", "").startswith(_ABOVE_NOUGHT):
                styles.instead[current] = attributes.get("style:apply-style-name", "")
        elif current:
            text = ""
            add(_spelt(tag, attributes))
        if max(len(styles.parents), len(styles.formats)) > most:
            raise ValueError(f"there are more than {most:,.0f} of them")

    def add(spelt: str) -> None:
        styles.formats[current] = (styles.formats[current] + spelt)[:_LONGEST]

    def ends(tag: str) -> None:
        nonlocal current
        if current and tag in _TEXTS:
            add(re.sub(r"(.)", r"\\\1", text, flags=re.DOTALL))
        elif tag in _DATA_STYLES:
            current = ""

    def says(more: str) -> None:
        nonlocal text
        text = (text + more)[:_LONGEST] if current else ""

    followed(blocks(archive, part), begins, ends, says)


def _spelt(tag: str, attributes: dict[str, str]) -> str:
    """Spell one element of a data style as .xlsx workbooks do."""
    if tag == "number:number":
        decimals = min(int(attributes.get("number:decimal-places") or 0), _MOST_DECIMALS)
        return "0." + "0" * decimals if decimals else "0"
    if tag == "number:fraction":
        whole = "# " if "number:min-integer-digits" in attributes else ""
        return f"{whole}?/{attributes.get('number:denominator-value') or '?'}"
    if tag == "number:month":
        return "mmm" if attributes.get("number:textual") == "true" else "m"
    return _LETTERS.get(tag, "")


def _of_cells(
    archive: zipfile.ZipFile, sheet: str, columns: Collection[int], formats: dict[str, str]
) -> Formats:
    """Give the formats of the filled cells of some columns of one sheet."""
    found: Formats = {}
    of_column: dict[int, str] = {}  # the columns' styles
    inside = False
    row_style = ""
    rows = cells = across = range(0)  # those of the row, the cell and the column begun last

    def begins(tag: str, attributes: dict[str, str]) -> None:
        nonlocal inside, row_style, rows, cells, across
        if tag == "table:table":
            inside = attributes.get("table:name", "") == sheet
            rows = across = range(0)
            of_column.clear()
        elif not inside:
            return
        elif tag == "table:table-column":
            repeated = attributes.get("table:number-columns-repeated")
            across = following(across, repeated, MOST_COLUMNS)
            style = attributes.get("table:default-cell-style-name", "")
            of_column.update((column, style) for column in columns if column in across)
        elif tag == "table:table-row":
            rows = following(rows, attributes.get("table:number-rows-repeated"), MOST_ROWS)
            row_style = attributes.get("table:default-cell-style-name", "")
            cells = range(0)
        elif tag in CELLS:
            repeated = attributes.get("table:number-columns-repeated")
            cells = following(cells, repeated, MOST_COLUMNS)
            if "office:value-type" in attributes:
                at_cell(attributes.get("table:style-name", ""))

    def at_cell(own: str) -> None:
        for column in (one for one in columns if one in cells):
            if form := formats.get(own or row_style or of_column.get(column, "")):
                found.update(((row + 1, column), form) for row in rows)

    followed(blocks(archive, CONTENT), begins)
    return found
