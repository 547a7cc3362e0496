"""A table of results as HTML that everybody can read.

A caption, headings that a screen reader ties to their cells, numbers in line on the right,
missing values as a dash, and every word escaped: text from a survey is never taken for HTML.
Alignment is written into the cells because notebooks bring no style sheet.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from html import escape
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import pandas as pd

__all__ = ["LONGEST", "column_texts", "heading_text", "table_html"]

LONGEST = 30
"""Rows that a table shows before it is shortened."""

_NOTHING = "–"
_UNITS = {"mm": "mm", "cm": "cm", "in": "in", "lines": "lines"}
_MOST_DECIMALS = ((100.0, 1), (1.0, 2), (0.0, 3))


@dataclass(frozen=True, slots=True)
class _Column:
    heading: str
    texts: list[str]
    numbers: bool


def table_html(
    frame: "pd.DataFrame",
    title: str,
    *,
    headings: Mapping[str, str] | None = None,
    longest: int | None = LONGEST,
    spoken: str = "",
) -> str:
    """Return a table as HTML.

    Parameters
    ----------
    frame
        Any table. Row labels that say something become the first columns.
    title
        Its caption, in plain text.
    headings
        Words for columns by name; other columns get words made from their names.
    longest
        Show no more rows than this; None shows all.
    spoken
        What a screen reader calls the table where its title is not the only one of its kind.

    Examples
    --------
    >>> import pandas as pd
    >>> print(table_html(pd.DataFrame({"term": ["<b>"], "n": [3]}), "Terms"))
    <div class="table-box" role="region" aria-label="Terms" tabindex="0" style="overflow-x: auto">
    <table>
    <caption style="text-align: left">Terms</caption>
    <thead><tr><th scope="col" style="text-align: left">Term</th>
    <th scope="col" style="text-align: right">N</th></tr></thead>
    <tbody>
    <tr><th scope="row" style="text-align: left">&lt;b&gt;</th>
    <td style="text-align: right">3</td></tr>
    </tbody>
    </table>
    </div>
    """
    shown = _with_labels(frame)
    shown = shown if longest is None else shown.head(longest)
    columns = _columns(shown, headings or {})
    head = "\n".join(_cell("th", "col", column.heading, column.numbers) for column in columns)
    body = "\n".join(_row(columns, place) for place in range(len(shown)))
    return (
        f'<div class="table-box" role="region" aria-label="{escape(spoken or title)}" tabindex="0" '
        'style="overflow-x: auto">\n<table>\n'
        f'<caption style="text-align: left">{escape(title)}</caption>\n'
        f"<thead><tr>{head}</tr></thead>\n<tbody>\n{body}\n</tbody>\n</table>\n</div>"
    )


def heading_text(name: object) -> str:
    """Return words for a column's name.

    Examples
    --------
    >>> heading_text("sets_examined"), heading_text("diameter_mm_low"), heading_text("Colour")
    ('Sets examined', 'Diameter low (mm)', 'Colour')
    """
    words = " ".join(map(str, name)) if isinstance(name, tuple) else str(name)
    parts = words.split("_")
    if len(parts) == 1:
        return words[:1].upper() + words[1:]
    unit = next((_UNITS[part] for part in parts[1:] if part in _UNITS), "")
    rest = " ".join(part for part in parts if not unit or part != unit)
    return rest[:1].upper() + rest[1:] + (f" ({unit})" if unit else "")


def column_texts(column: "pd.Series") -> list[str]:
    """Return the words that stand in a column's cells; its decimals are the same in all rows.

    Examples
    --------
    >>> import pandas as pd
    >>> column_texts(pd.Series([15.875, 16, None]))
    ['15.88', '16.00', '–']
    >>> column_texts(pd.Series([True, False, None], dtype="boolean"))
    ['yes', 'no', '–']
    >>> column_texts(pd.Series([-3.03, -0.001, 1]))
    ['−3.03', '0.00', '1.00']
    """
    import pandas as pd

    missing = column.isna().tolist()
    if pd.api.types.is_float_dtype(column.dtype):
        decimals = _decimals([float(value) for value in column.dropna()])
        texts = [
            _NOTHING if gone else _signed(f"{value:.{decimals}f}")
            for gone, value in zip(missing, column)
        ]
    elif pd.api.types.is_bool_dtype(column.dtype):
        texts = [
            _NOTHING if gone else ("yes" if value else "no") for gone, value in zip(missing, column)
        ]
    elif pd.api.types.is_integer_dtype(column.dtype):
        texts = [_NOTHING if gone else _signed(str(value)) for gone, value in zip(missing, column)]
    else:
        texts = [_NOTHING if gone else str(value) for gone, value in zip(missing, column)]
    return texts


def _signed(number: str) -> str:
    """Give a number below nought the minus sign, and nought none."""
    if not number.startswith("-"):
        return number
    return f"−{number[1:]}" if number.strip("-0.") else number[1:]


def _decimals(values: list[float]) -> int:
    """Choose how many decimals a column needs: none for whole numbers, else by its size."""
    largest = max((abs(value) for value in values), default=0.0)
    most = next(decimals for size, decimals in _MOST_DECIMALS if largest >= size)
    return next(
        (d for d in range(most) if all(abs(value - round(value, d)) < 1e-9 for value in values)),
        most,
    )


def _with_labels(frame: "pd.DataFrame") -> "pd.DataFrame":
    import pandas as pd

    plain = isinstance(frame.index, pd.RangeIndex) or (
        frame.index.nlevels == 1 and frame.index.name is None and frame.index.dtype.kind in "iu"
    )
    return frame if plain else frame.reset_index()


def _columns(frame: "pd.DataFrame", headings: Mapping[str, str]) -> list[_Column]:
    import pandas as pd

    columns = []
    for place, name in enumerate(frame.columns):
        values = frame.iloc[:, place]
        numbers = pd.api.types.is_numeric_dtype(values.dtype) and not pd.api.types.is_bool_dtype(
            values.dtype
        )
        heading = headings.get(str(name), heading_text(name))
        columns.append(_Column(heading, column_texts(values), numbers))
    return columns


def _row(columns: list[_Column], place: int) -> str:
    cells = []
    for order, column in enumerate(columns):
        names_the_row = order == 0 and not column.numbers
        tag, scope = ("th", "row") if names_the_row else ("td", "")
        cells.append(_cell(tag, scope, column.texts[place], column.numbers))
    return "<tr>" + "\n".join(cells) + "</tr>"


def _cell(tag: str, scope: str, text: str, numbers: bool) -> str:
    scoped = f' scope="{scope}"' if scope else ""
    side = "right" if numbers else "left"
    return f'<{tag}{scoped} style="text-align: {side}">{escape(text)}</{tag}>'
