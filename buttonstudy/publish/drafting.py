"""What `buttonstudy map` writes: a drafted mapping file, or the same on the screen."""

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from buttonstudy.publish.csv_files import csv_text, write_csv
from buttonstudy.publish.describing import count_of
from buttonstudy.publish.errors import CallError
from buttonstudy.publish.places import new_file
from buttonstudy.survey.drafting import draft_mapping, unrecognised_columns

if TYPE_CHECKING:
    from buttonstudy.survey.load import Survey

__all__ = ["write_draft"]


def write_draft(survey: "Survey", paths: Sequence[str | Path], to: str = "") -> str:
    """Draft a mapping file for a survey, and write it if a path is given.

    Parameters
    ----------
    survey
        What ``load_survey(paths)`` gave.
    paths
        The survey files, or folders of them.
    to
        A new file that ends with .csv; none gives the table itself.

    Returns
    -------
    str
        The draft as CSV, or a sentence that tells where it is and what to look at.

    Raises
    ------
    CallError
        If there is no heading to map, something is already there, or the name does not fit.
    PublishError
        If it cannot be written.
    """
    import pandas as pd

    columns = [survey.columns, unrecognised_columns(paths, survey.problems)]
    draft = draft_mapping(pd.concat(columns, ignore_index=True), survey.problems, survey.buttons)
    if draft.empty:
        raise CallError("There are no headings in these files, so there is nothing to map.")
    if not to:
        return csv_text(draft)
    place = new_file(Path(to), ".csv")
    write_csv(draft, place, fresh=True)
    look = int((draft["look"] != "").sum())
    told = f"{count_of(look, 'heading')} to look at" if look else "all were recognised"
    return (
        f"{place} says what {count_of(len(draft), 'heading')} mean; {told} (column look). "
        f"Correct it, and read with --mapping {place}\n"
    )
