"""What a report tells its notebooks by itself, and the files of a researcher's own that they read.

A user's own tables are copied into the report, where its notebooks read them: the report stays
whole when the tables change or it is handed on.
"""

from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING

from buttonstudy.publish.aside import write_aside
from buttonstudy.publish.choices import Choices
from buttonstudy.publish.fingerprints import files_below
from buttonstudy.publish.notebooks import Value
from buttonstudy.publish.own_tables import KEPT_IN, own_tables
from buttonstudy.publish.read_back import SAVED_SURVEY

if TYPE_CHECKING:
    from buttonstudy.survey.load import Survey

__all__ = ["PHOTOGRAPHS", "own_files", "report_values"]

PHOTOGRAPHS = "photographs"
"""The folder in a report that holds copies of photographs, and the parameter that names one."""


def report_values(choices: Choices, survey: "Survey", folder: Path) -> dict[str, Value]:
    """Copy a user's own tables into a report, and return the parameters that it sets itself.

    Parameters
    ----------
    choices
        Conventions for reading and counting.
    survey
        The survey as understood.
    folder
        The passing folder of the run.

    Raises
    ------
    PublishError
        If a copy cannot be written.
    """
    values: dict[str, Value] = {
        "surveys": [(folder / SAVED_SURVEY).as_posix()],
        "outputs": folder.as_posix(),
        PHOTOGRAPHS: (folder / PHOTOGRAPHS).as_posix(),
        # An archive keeps its own conventions, which its notebooks are not to ask otherwise.
        **{name: survey.settings[name] for name in ("date_convention", "size_classes")},
    }
    copies = _copied(choices, folder / KEPT_IN)
    for name, value in choices.for_notebooks().items():
        values[name] = copies[name].as_posix() if name in copies else value
    return values


def own_files(choices: Choices, parameters: Mapping[str, str]) -> list[Path]:
    """Return the files of a researcher's own that the kit's notebooks may read.

    Parameters
    ----------
    choices
        Conventions for reading and counting.
    parameters
        Notebook parameters by name, as typed.
    """
    tables = [*own_tables(_chosen(choices)), *own_tables(parameters)]
    photographs = parameters.get(PHOTOGRAPHS, "")
    return [*(one.file for one in tables), *(files_below(Path(photographs)) if photographs else ())]


def _chosen(choices: Choices) -> dict[str, str]:
    return {**choices.for_notebooks(), "accepted": choices.accepted}


def _copied(choices: Choices, to: Path) -> dict[str, Path]:
    """Copy a user's own tables, each below the name of what it was chosen for.

    What was accepted is copied too: no notebook asks for it, but whoever repeats the report does.
    """
    chosen = _chosen(choices)
    copies = {}
    for one in own_tables(chosen):
        place = Path(chosen[one.setting])
        copy = copies[one.setting] = to / one.setting / place.name
        write_aside(copy / one.file.name if place.is_dir() else copy, one.file.read_bytes())
    return copies
