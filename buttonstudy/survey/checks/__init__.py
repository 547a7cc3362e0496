"""Checks of whole records, after each cell was understood: what no single cell can show.

A check never changes a record: it looks at the finished table and tells what does not fit
together, with its rule. What is told can be accepted, and then stays quiet.
"""

from collections.abc import Mapping
from pathlib import Path

import pandas as pd

from buttonstudy.survey.checks.button_numbers import repeated_numbers
from buttonstudy.survey.checks.dates import too_early
from buttonstudy.survey.checks.finding import Finding, column_names, told, words
from buttonstudy.survey.checks.inside import inside_findings
from buttonstudy.survey.checks.nested import nested_findings
from buttonstudy.survey.checks.noted_twice import noted_twice
from buttonstudy.survey.checks.photographs import photograph_findings
from buttonstudy.survey.checks.recorders import recorder_findings
from buttonstudy.survey.checks.sets import set_findings
from buttonstudy.survey.checks.sizes import size_findings, unread_slips
from buttonstudy.survey.checks.spellings import spelling_findings
from buttonstudy.survey.checks.sums import sum_findings

__all__ = ["check_records", "with_slips"]

_NOT_A_SIZE = ("size-too-large", "size-too-small")

_CHECKS = (
    repeated_numbers,
    inside_findings,
    too_early,
    set_findings,
    nested_findings,
    noted_twice,
    recorder_findings,
    spelling_findings,
    sum_findings,
)


def check_records(
    buttons: pd.DataFrame,
    columns: pd.DataFrame | None = None,
    folders: Mapping[str, Path] | None = None,
) -> pd.DataFrame:
    """Run all checks.

    Parameters
    ----------
    buttons
        The finished record.
    columns
        What each heading was taken for, to name the column of a finding.
    folders
        Where each survey file lies, to look for photographs; without it none is looked for.

    Returns
    -------
    pandas.DataFrame
        Problems with the columns of ``survey.problems``.
    """
    findings: list[Finding] = []
    if len(buttons):
        findings += size_findings(buttons)
        for check in _CHECKS:
            findings += check(buttons)
        findings += photograph_findings(buttons, folders or {})
    return told(findings, buttons, columns)


def with_slips(
    problems: pd.DataFrame, buttons: pd.DataFrame, columns: pd.DataFrame
) -> pd.DataFrame:
    """Put the slip that most likely explains a size that was not read into what is told of it."""
    asked = problems["kind"].isin(_NOT_A_SIZE).to_numpy(dtype=bool)
    if not asked.any() or not len(buttons):
        return problems
    names = column_names(columns)
    files, sheets, numbers = words(buttons, "file"), words(buttons, "sheet"), buttons["row"]
    slips: dict[tuple[object, ...], str] = {}
    for place, field, slip in unread_slips(buttons, columns):
        where = files[place], sheets[place]
        slips[(*where, int(numbers.iloc[place]), names.get((*where, field), ""))] = slip
    remedies = problems["what_to_do"].tolist()
    places = zip(*(problems[name].tolist() for name in ("file", "sheet", "row", "column")))
    for at, place_told in enumerate(places):
        says = slips.get(place_told, "") if asked[at] else ""
        if says and not remedies[at].startswith("Perhaps"):
            remedies[at] = f"{says} {remedies[at]}"
    return problems.assign(what_to_do=pd.array(remedies, dtype="str"))
