"""Where an article's numbers come from, who recorded them, and how to cite them.

A spreadsheet changes and keeps its name, so that the pack has a file of the survey files' hashes,
and the article only their names. No date is written: the same survey gives the same pack on any
day.
"""

from functools import cache
from typing import TYPE_CHECKING

from buttonstudy import __version__
from buttonstudy.publish.fingerprints import fingerprint

if TYPE_CHECKING:
    import pandas as pd

    from buttonstudy.survey.load import Survey

__all__ = [
    "INVENTED",
    "citation",
    "credit_lines",
    "is_invented",
    "source_lines",
    "survey_files",
    "without_names",
]

INVENTED = (
    "Invented data: this society, its members, places and buttons do not exist, "
    "and nothing here is evidence of anything."
)


def is_invented(survey: "Survey") -> bool:
    """Say whether any file of a survey is one of the invented ones, under whatever name."""
    return bool(set(survey.sources["sha256"]) & _invented_files())


@cache
def _invented_files() -> frozenset[str]:
    from buttonstudy.survey.load import demo_folder

    files = (path for path in demo_folder().iterdir() if path.is_file())
    return frozenset(fingerprint(path.read_bytes()) for path in files)


def without_names(buttons: "pd.DataFrame") -> "pd.DataFrame":
    """Return the records with a number in place of each recorder's name.

    Examples
    --------
    >>> import pandas as pd
    >>> hands = pd.DataFrame({"recorder": ["J. Vell", None, "Ada Tarn", "J. Vell"]})
    >>> without_names(hands)["recorder"].dropna().tolist()
    ['Recorder 1', 'Recorder 2', 'Recorder 1']
    """
    names = buttons["recorder"].dropna().unique()
    numbered = {name: f"Recorder {number}" for number, name in enumerate(names, start=1)}
    return buttons.assign(recorder=buttons["recorder"].map(numbered).astype("str"))


def credit_lines(buttons: "pd.DataFrame", names: bool) -> list[str]:
    """Name the recorders as the survey has them, or say how many are not named."""
    from buttonstudy.study.telling.words import listed, number_of

    recorders = sorted({str(name) for name in buttons["recorder"].dropna() if name}, key=str.lower)
    unnamed = int(buttons["recorder"].isna().sum())
    told = []
    if recorders and names:
        told.append(f"The buttons were recorded by {listed(recorders).removesuffix('.')}.")
    elif recorders:
        people = number_of(len(recorders), "person", "people")
        told.append(f"The buttons were recorded by {people}, whose names are left out here.")
    if unnamed:
        told.append(f"No recorder is named for {number_of(unnamed, 'button record')}.")
    return told


def source_lines(survey: "Survey") -> list[str]:
    """Name the survey files with their records."""
    from buttonstudy.study.telling.words import number_of

    return [f"{file}: {number_of(records, 'record')}." for file, records, _ in survey_files(survey)]


def citation(survey: "Survey", name: str, names: bool) -> list[str]:
    """Say how to cite the survey, and how the kit that read it."""
    from buttonstudy.study.telling.words import listed, source_line

    hands = sorted({str(one) for one in survey.buttons["recorder"].dropna() if one}, key=str.lower)
    by = f"{listed(hands)}: " if hands and names else ""
    files = [file for file, _, _ in survey_files(survey)]
    word = "file" if len(files) == 1 else "files"
    numbers = source_line(survey.buttons).rpartition(";")[2].strip(" .")
    return [
        f"The survey: {by}“{name}”, survey of buttons, {numbers}, {word} {listed(files)}.",
        f"The kit: buttonstudy, version {__version__}, a research notebook kit for button history.",
    ]


def survey_files(survey: "Survey") -> list[tuple[str, int, str]]:
    """Give each file's name, how many records it holds, and its SHA-256."""
    files = survey.sources
    return [
        (str(name), int(records), str(mark))
        for name, records, mark in zip(files["file"], files["records"], files["sha256"])
    ]
