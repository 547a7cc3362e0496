"""Sentences as HTML."""

import re
from html import escape

__all__ = ["prose_html"]

_UNIT = re.compile(r"(?<=\d) (?=(?:%|mm)(?!\w))")


def prose_html(text: str) -> str:
    r"""Escape text, with a number and its per cent sign or unit on one line.

    Examples
    --------
    >>> prose_html("41 % of <b>")
    '41\xa0% of &lt;b&gt;'
    """
    return _UNIT.sub("\N{NO-BREAK SPACE}", escape(text))
