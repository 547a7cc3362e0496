"""Text that a spreadsheet program would run, made harmless and made itself again.

A spreadsheet program takes a cell of a text table that starts with ``=`` or ``+`` for a formula
and runs it. Text from a survey may start so by chance or by malice, so in what the kit writes it
gets a leading apostrophe, which such programs read as "this is text". On reading, that apostrophe
is taken off. Text that started with apostrophes before such a sign gets one more, so that what
comes back is always what was there.
"""

import re

__all__ = ["harmless", "restored"]

# Tab, CR and LF too: some programs strip them and then see the sign that follows. The wide signs
# are what East Asian input writes, and are taken for the narrow ones.
_STARTS_A_FORMULA = re.compile(r"'*[=+\-@\t\r\n＝＋－＠]")


def harmless(text: str) -> str:
    r"""Return text that no spreadsheet program runs.

    Examples
    --------
    >>> harmless("=1+1"), harmless("horn"), harmless("'-"), harmless("don't")
    ("'=1+1", 'horn', "''-", "don't")
    """
    return f"'{text}" if _STARTS_A_FORMULA.match(text) else text


def restored(text: str) -> str:
    """Return the text that ``harmless`` was given.

    Examples
    --------
    >>> restored("'=1+1"), restored("''-"), restored("'quoted'"), restored("-")
    ('=1+1', "'-", "'quoted'", '-')
    """
    marked = text.startswith("'") and _STARTS_A_FORMULA.match(text)
    return text[1:] if marked else text
