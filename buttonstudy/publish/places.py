"""Where a single file may be written: never over something that is already there.

A template may have been filled in since, a marked copy corrected. So a command that writes one
file writes a new one, and says what stands in the way.
"""

from pathlib import Path

from buttonstudy.publish.errors import CallError

__all__ = ["already_there", "new_file"]


def new_file(path: str | Path, ending: str) -> Path:
    """Check a path at which a new file is to be written.

    Parameters
    ----------
    path
        As typed.
    ending
        The ending that its name must have, such as ``".xlsx"``.

    Raises
    ------
    CallError
        If the name has another ending, something stands there, or its folder is missing.

    Examples
    --------
    >>> new_file("record.doc", ".xlsx")
    Traceback (most recent call last):
    buttonstudy.publish.errors.CallError: record.doc: the name must end with .xlsx.
    """
    place = Path(path)
    if place.suffix.lower() != ending:
        raise CallError(f"{path}: the name must end with {ending}.")
    if place.is_dir():
        raise CallError(f"{path} is a folder. Add the name of a file.")
    if place.exists():
        raise CallError(already_there(place))
    if not place.parent.is_dir():
        raise CallError(f"There is no folder {place.parent}. Make it first, or choose another.")
    return place


def already_there(place: Path) -> str:
    """Return what to say where a file stands that must stay."""
    return f"{place} is already there and was left alone. Name another file, or move that one away."
