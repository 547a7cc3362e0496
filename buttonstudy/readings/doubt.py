"""What was doubtful in one cell, in words that a button researcher can act on."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Doubt:
    """One thing about a cell that its reader should know.

    Parameters
    ----------
    kind
        A stable code such as ``"size-no-unit"``, the same for every cell with this doubt.
    says
        A short full sentence that tells what is wrong, without file, row or column.
    remedy
        What the researcher can do about it.
    fatal
        True if nothing was read from the cell because of this doubt.
    note
        True if the reader need only know it: nothing has to be confirmed or changed.
    """

    kind: str
    says: str
    remedy: str
    fatal: bool = False
    note: bool = False
