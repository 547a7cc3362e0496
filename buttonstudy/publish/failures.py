"""Why a notebook could not finish, in words that need no knowledge of Python.

Who sees the message is a button researcher. It names the notebook, the place in it and the
reason; the whole story stays in the notebook's half-run copy.
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Protocol

__all__ = ["Cell", "Failure", "cell_place", "plain_reason"]

_STOPPED = "its Python stopped suddenly, as happens when the memory runs out"
_REASONS = {
    "KeyError": "something called {what} was looked up and is not there",
    "NameError": "a name is used before anything was given that name ({what})",
    "ModuleNotFoundError": "a package is missing ({what}); install it where the kit is installed, "
    "or the kit again",
    "ImportError": "a part of a package could not be loaded ({what}); install the kit again",
    "MemoryError": "the memory ran out",
    "ZeroDivisionError": "a count of none was divided by",
    "KeyboardInterrupt": "it was interrupted",
    "DeadKernelError": _STOPPED,
    "SystemExit": "the cell ended the notebook's Python",
}
_SAYS_IT_ALL = {"PublishError", "CallError", "SchemeError", "SurveyError", "NoSuchButtonError"}
_NO_MODULE = re.compile(r"No module named '(\w+)")
_NOWHERE: Mapping[str, Path] = {}
_COLOURS = re.compile(r"\x1b\[[0-9;]*m")


class Cell(Protocol):
    """What is needed of a notebook's cell."""

    cell_type: str
    source: str
    metadata: Mapping[str, Sequence[str]]


@dataclass(frozen=True, slots=True)
class Failure:
    """A notebook that did not finish."""

    notebook: str
    where: str
    why: str

    def __str__(self) -> str:
        return f"The notebook {self.notebook} could not finish {self.where}: {self.why}."


def cell_place(cells: Sequence[Cell], index: int) -> str:
    """Return where a cell is: the heading above it, and its number among the code cells.

    Parameters
    ----------
    cells
        A notebook's cells. The one that papermill adds is not counted.
    index
        The cell's place among all cells, from 0.
    """
    number = sum(_of_the_author(cell) for cell in cells[: index + 1])
    lines = [
        line
        for cell in cells[:index]
        if cell.cell_type == "markdown"
        for line in cell.source.split("\n")
    ]
    headings = [heading[1] for line in lines if (heading := re.match(r"#+\s+(.+?)\s*$", line))]
    under = f" under “{headings[-1]}”" if headings else ""
    return f"at its code cell {number}{under}"


def _of_the_author(cell: Cell) -> bool:
    """Tell a code cell of the notebook from the one that papermill adds for parameters."""
    return cell.cell_type == "code" and "injected-parameters" not in cell.metadata.get("tags", ())


def plain_reason(name: str, says: str, folders: Mapping[str, Path] = _NOWHERE) -> str:
    """Return why, from an exception's name and its message.

    Parameters
    ----------
    name, says
        The exception's.
    folders
        Where a module of the author's own may lie, by words for the place: a report is passed
        on, and does not tell the folders of its maker.

    Examples
    --------
    >>> plain_reason("KeyError", "'colour'")
    "something called 'colour' was looked up and is not there"
    >>> plain_reason("SchemeError", "There is no period scheme called 'kings'.")
    "There is no period scheme called 'kings'"
    >>> plain_reason("IndexError", "list index out of range")
    'list index out of range (IndexError)'
    """
    what = _COLOURS.sub("", says).strip().rstrip(".")
    if name == "ModuleNotFoundError" and (beside := _beside(what, folders)):
        return beside
    if name in _REASONS:
        return _REASONS[name].format(what=what)
    if name in _SAYS_IT_ALL:
        return what
    return f"{what} ({name})" if what else f"a fault of the kind {name}"


def _beside(what: str, folders: Mapping[str, Path]) -> str:
    """Say why a module was not found that lies where one would look for it."""
    found = _NO_MODULE.match(what)
    name = found[1] if found else ""
    for place, folder in folders.items() if name else ():
        module = folder / name
        if module.with_suffix(".py").is_file() or any(module.glob("*.py")):
            return (
                f"its module {name} lies {place}, and notebooks import nothing from their own "
                "folder or the current one, where received files may lie. If it is yours, install "
                "it as a package, or add its folder in a cell before: "
                "import sys; sys.path.append('the folder')"
            )
    return ""
