"""Cells that show an error instead of a value: a formula in them came to nothing.

The words are those of ECMA-376, 18.17.2.7 (from memory), and the numbered ones of LibreOffice.
"""

import re

from buttonstudy.readings.doubt import Doubt

__all__ = ["shown_error"]

_ERROR = re.compile(r"#(?:DIV/0!|N/A|NAME\?|NULL!|NUM!|REF!|VALUE!|SPILL!|CALC!)|Err:\d{3}")


def shown_error(text: str) -> Doubt | None:
    """Tell of a cell that shows an error; None for every other cell.

    Examples
    --------
    >>> shown_error("#DIV/0!").says
    'The formula in this cell came to nothing and shows #DIV/0!.'
    >>> shown_error("no. #12") is None
    True
    """
    if text[:1] not in ("#", "E") or not _ERROR.fullmatch(text.strip()):
        return None
    return Doubt(
        "formula-error",
        f"The formula in this cell came to nothing and shows {text.strip()}.",
        "Mend the formula, or write the value itself.",
        fatal=True,
    )
