"""Photographs that go into a report: copies that hold nothing but what is seen.

The report's notebook reads them there, so that the report stays whole when it is handed on, and
nothing that a camera wrote into a photograph goes with it.
"""

from collections.abc import Mapping, Sequence
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING

from buttonstudy.publish.aside import write_aside

if TYPE_CHECKING:
    import pandas as pd

__all__ = ["copy_photographs", "copy_sought"]

_JPEG = (".jpg", ".jpeg")
_QUALITY = 90


def copy_sought(
    buttons: "pd.DataFrame",
    parameters: Mapping[str, str],
    surveys: Sequence[str | Path],
    folder: Path,
) -> int:
    """Copy the photographs of the button that a notebook's parameters name, if they name one.

    A button that the survey does not have is left for the notebook to tell.
    """
    from buttonstudy.study.one_button.by_number import NoSuchButtonError, find_record

    button = parameters.get("button", "")
    if not button:
        return 0
    try:
        record = find_record(buttons, button, parameters.get("button_in", ""))
    except NoSuchButtonError:
        return 0
    return copy_photographs(buttons, record, surveys, folder)


def copy_photographs(
    buttons: "pd.DataFrame", record: int, surveys: Sequence[str | Path], folder: Path
) -> int:
    """Copy one button's photographs, upright and scaled down, under the names that it has.

    Parameters
    ----------
    buttons
        One row per button.
    record
        The button's place, counted from 0.
    surveys
        The survey files or folders, as they were loaded.
    folder
        Where the copies go. A name below it may have folders of its own.

    Returns
    -------
    int
        How many could be copied.

    Raises
    ------
    PublishError
        If a copy cannot be written.
    """
    from PIL import Image

    from buttonstudy.survey.photographs import name_parts, record_photographs

    album = record_photographs(buttons, record, surveys)
    for one in album.photographs:
        content = BytesIO()
        Image.fromarray(one.pixels).save(content, "JPEG", quality=_QUALITY)
        path = folder.joinpath(*name_parts(one.name))
        if path.suffix.lower() not in _JPEG:
            path = path.with_name(f"{path.name}.jpg")
        write_aside(path, content.getvalue())
    return len(album.photographs)
