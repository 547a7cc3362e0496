"""A button in section, or several side by side, as a file for print."""

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from buttonstudy.publish.aside import write_aside
from buttonstudy.publish.choices import Choices
from buttonstudy.publish.errors import CallError, PublishError
from buttonstudy.publish.pictures import KINDS, picture_bytes
from buttonstudy.publish.places import new_file
from buttonstudy.publish.report import nothing_read
from buttonstudy.publish.sought import sought_record
from buttonstudy.publish.surveys import about, check_there

if TYPE_CHECKING:
    from buttonstudy.draw.drawn import Drawn

__all__ = ["write_section"]


def write_section(
    button: str,
    surveys: Sequence[str],
    to: str | Path,
    *,
    beside: Sequence[str] = (),
    within: str = "",
    size: str = "a5-page",
    choices: Choices | None = None,
) -> "Drawn":
    """Write the cross-section of one button, or of several on one sheet.

    Parameters
    ----------
    button
        The button's number, as the survey has it.
    surveys
        Survey files or folders; none stands for the invented demo surveys.
    to
        A new file that ends with .png, .pdf or .svg.
    beside
        Numbers of further buttons to draw beside it, at the same scale.
    within
        The survey file or sheet, needed only where several use the same number.
    size
        The name of a print size.
    choices
        How the survey is read.

    Returns
    -------
    Drawn
        With the caption and the alternative text to print beside it.

    Raises
    ------
    CallError
        If the file is already there, a button is not known, or it has no recorded size.
    PublishError
        If nothing could be read or written.
    SchemeError
        If the print size is not known.
    """
    from buttonstudy import draw
    from buttonstudy.study.evidence.columns import texts
    from buttonstudy.survey.load import load_survey

    ending = Path(to).suffix.lower()
    if ending.removeprefix(".") not in KINDS:
        raise CallError(f"{to}: the name must end with .pdf, .png or .svg.")
    place = new_file(to, ending)
    check_there(surveys)
    survey = load_survey(list(about(surveys).paths), **(choices or Choices()).reading())
    if not len(survey.buttons):
        raise PublishError(nothing_read(survey))
    numbers = [button, *beside]
    places = [sought_record(survey.buttons, one, within) for one in numbers]
    files = list(dict.fromkeys(map(str, texts(survey.buttons.iloc[places], "file"))))
    source = f"Survey {'files' if len(files) > 1 else 'file'} {', '.join(files)}."
    if beside:
        drawn = draw.cross_sections(survey.buttons, numbers, size, within=within, source=source)
    else:
        drawn = draw.cross_section(survey.buttons, button, size, within=within, source=source)
    if drawn.figure is None:
        raise CallError(drawn.caption)
    write_aside(place, picture_bytes(drawn, place.suffix.lower().removeprefix(".")), fresh=True)
    return drawn
