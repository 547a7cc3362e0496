"""Surveys loaded: files in, one table of button records and one of problems out."""

import gc
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import pandas as pd

from buttonstudy.schemes import SchemeError
from buttonstudy.schemes import date_convention as convention_named
from buttonstudy.schemes import size_classes as classes_named
from buttonstudy.schemes import vocabulary as vocabulary_named
from buttonstudy.survey.accepted import quieted, read_accepted
from buttonstudy.survey.around import left_out, tell_around, tell_no_rows
from buttonstudy.survey.checks import check_records, with_slips
from buttonstudy.survey.coded import Coded, coded, coded_columns
from buttonstudy.survey.column_problems import tell_columns, tell_missing
from buttonstudy.survey.exported import is_exported_survey, read_exported_survey
from buttonstudy.survey.files import (
    SurveyFile,
    display_names,
    find_files,
    left_out_files,
    read_file,
)
from buttonstudy.survey.finish import finish_records
from buttonstudy.survey.headings import Column, recognise
from buttonstudy.survey.holes import sized_holes
from buttonstudy.survey.links import linked_records, prefixed
from buttonstudy.survey.mapping import Meaning, read_mapping
from buttonstudy.survey.problems import (
    LEVELS,
    Problems,
    problems_frame,
)
from buttonstudy.survey.records import Rules, read_records
from buttonstudy.survey.saved import is_saved_survey, read_saved_survey
from buttonstudy.survey.sheets import column_letter
from buttonstudy.survey.shown import shown_cells
from buttonstudy.survey.tables import find_tables
from buttonstudy.survey.unread import record_sheets, survey_name

DEMO = "demo"
_DEFAULTS = {
    "date_convention": "buttonstudy",
    "size_classes": "us-society",
    "vocabulary": "",
    "mapping": "",
}
COLUMN_NAMES = ("file", "sheet", "column", "heading", "field", "unit", "how", "filled")

SOURCE_NAMES = ("file", "sha256", "bytes", "form", "sheets", "records", "survey_name")


@dataclass(frozen=True, slots=True, repr=False)
class Survey:
    """A survey as understood.

    Parameters
    ----------
    buttons
        One row per button record; the columns are described in DEVELOPERS.md.
    problems
        ``file, sheet, row, column, wording, problem, what_to_do, kind, level``.
    columns
        What each heading was taken for: ``file, sheet, column, heading, field, unit, how,
        filled``; `field` is empty where a heading is not known.
    sources
        The survey files: ``file, sha256, bytes, form, sheets, records, survey_name``; the last
        is what the file's own sheet about the survey calls it.
    settings
        The conventions in force, by name.
    """

    buttons: pd.DataFrame
    problems: pd.DataFrame
    columns: pd.DataFrame
    sources: pd.DataFrame
    settings: dict[str, str]

    def __repr__(self) -> str:
        """Sum up in one line: its tables would fill the screen."""
        levels = self.problems["level"].value_counts()
        told = ", ".join(f"{levels.get(one, 0)} {one}" for one in LEVELS)
        parts = _counted(len(self.buttons), "record"), _counted(len(self.sources), "file")
        return f"Survey: {' in '.join(parts)}; problems: {told}"


def _counted(number: int, name: str) -> str:
    return f"{number:,} {name}{'' if number == 1 else 's'}"


def demo_folder() -> Path:
    """Give the folder of the invented demo surveys: the checkout's, or the installed kit's."""
    package = Path(__file__).resolve().parents[1]
    checkout = package.parent / "data" / DEMO / "surveys"
    return checkout if checkout.is_dir() else package / "kit" / DEMO / "surveys"


@contextmanager
def _no_collecting() -> Iterator[None]:
    """Keep Python from looking for dead objects while cells are taken up.

    It would go through millions of living cells again and again, for a quarter of the time.
    """
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()


@_no_collecting()
def load_survey(
    paths: str | Path | Sequence[str | Path],
    *,
    mapping: str | Path | None = None,
    date_convention: str | Path | None = None,
    size_classes: str | Path | None = None,
    vocabulary: str | Path | None = None,
    accepted: str | Path | None = None,
    progress: Callable[[str], None] | None = None,
) -> Survey:
    """Read survey files into button records and problems.

    Parameters
    ----------
    paths
        Files (.xlsx, .ods, .csv, .tsv and older workbooks) or folders of them, one or several.
        ``"demo"`` stands for the invented demo surveys that come with the kit. Or one folder that
        holds a saved or exported survey, which keeps the settings with which it was read.
    mapping
        A mapping file: a CSV table with the columns ``heading, field`` and, if need be, ``unit,
        step, prefix, file, sheet``; or a folder of such files, one for each survey.
    date_convention
        Name of a date convention, or the path of a user's own table; by default ``buttonstudy``.
    size_classes
        Name of a size-class scheme, or the path of a user's own table; by default ``us-society``.
    vocabulary
        Path of a user's own vocabulary table.
    accepted
        A CSV table of findings that were looked at and are right, with the columns ``file, sheet,
        row, button, kind, note``: they are counted, and not told.
    progress
        Called with the name of each file before it is read.

    Returns
    -------
    Survey
        With no records where nothing could be read; `problems` then says why.

    Raises
    ------
    SchemeError
        If a scheme or the mapping file cannot be used, naming what is wrong and the choices; or
        if the folders hold no survey file.
    """
    given = [paths] if isinstance(paths, str | Path) else list(paths)
    chosen = {
        "date_convention": date_convention,
        "size_classes": size_classes,
        "vocabulary": vocabulary,
        "mapping": mapping,
        "accepted": accepted,
    }
    asked = {name: str(value) for name, value in chosen.items() if value}
    understood = [path for path in given if is_saved_survey(path) or is_exported_survey(path)]
    if understood:
        return _saved(understood[0], asked, alone=len(given) == 1)
    settings = _DEFAULTS | asked
    rules = Rules(
        convention_named(settings["date_convention"]), vocabulary_named(vocabulary or None)
    )
    scheme = classes_named(settings["size_classes"])
    meanings = read_mapping(mapping) if mapping else ()
    right = read_accepted(accepted) if accepted else ()
    places = [demo_folder() if path == DEMO else path for path in given]
    files = find_files(places)
    if not files:
        raise SchemeError(
            f"There is no survey file in {', '.join(map(str, given))}."
            if given
            else "No survey file was named."
        )
    lists = [left_out(path) for path in left_out_files(places)]
    frames: list[pd.DataFrame] = []
    columns: list[tuple[object, ...]] = []
    sources: list[tuple[object, ...]] = []
    for path, name in zip(files, display_names(files)):
        if progress:
            progress(name)
        problems = Problems(name)
        lists.append(problems)
        file = read_file(path, name, problems)
        records = _read_sheets(file, meanings, rules, problems, columns)
        frames.extend(records)
        number = sum(map(len, records))
        called = survey_name(file.sheets)
        sources.append((name, file.sha256, file.size, file.form, len(file.sheets), number, called))
    buttons = linked_records(finish_records(_stacked(frames), scheme))
    headings = pd.DataFrame(columns, columns=list(COLUMN_NAMES))
    folders = {name: path.parent for path, name in zip(files, display_names(files))}
    cells = with_slips(problems_frame(lists), buttons, headings)
    told = pd.concat([cells, check_records(buttons, headings, folders)], ignore_index=True)
    return Survey(
        buttons,
        quieted(told, buttons, right),
        headings,
        pd.DataFrame(sources, columns=list(SOURCE_NAMES)),
        settings,
    )


def _saved(folder: str | Path, asked: dict[str, str], *, alone: bool) -> Survey:
    """Read back a survey that was understood before, unless it is asked for in another way."""
    if not alone:
        raise SchemeError(
            f"{folder}: a saved or exported survey is read alone, not together with others. "
            "Name the survey files themselves."
        )
    read = read_saved_survey if is_saved_survey(folder) else read_exported_survey
    survey = read(folder)
    # By name only: a report copies a user's own tables beside the survey that it saves.
    kept = {name: survey.settings.get(name, "") for name in asked}
    differing = [name for name, value in asked.items() if Path(value).name != Path(kept[name]).name]
    if differing:
        others = ", ".join(f"{name}: {kept[name] or 'none'}" for name in differing)
        raise SchemeError(
            f"{folder}: this saved survey was read with other settings ({others}). "
            "Ask for no others, or name the survey files themselves."
        )
    return survey


def _stacked(frames: list[pd.DataFrame]) -> pd.DataFrame:
    filled = [frame for frame in frames if len(frame)]
    if not filled:
        return pd.DataFrame({"file": [], "sheet": [], "row": []})
    return pd.concat(filled, ignore_index=True) if len(filled) > 1 else filled[0]


def _read_sheets(
    file: SurveyFile,
    meanings: Sequence[Meaning],
    rules: Rules,
    problems: Problems,
    columns: list[tuple[object, ...]],
) -> list[pd.DataFrame]:
    frames = []
    sheets = record_sheets(file.sheets, problems)
    found = [
        find_tables(sheet, [one.heading for one in meanings if one.is_at(file.name, sheet.name)])
        for sheet in sheets
    ]
    any_table = any(one.tables for one in found)
    is_form = len(sheets) < len(file.sheets)
    for sheet, here in zip(sheets, found):
        tell_around(sheet, here, any_table, problems)
        for table in here.tables:
            letters = [column_letter(sheet.first_column + i) for i in range(len(table.headings))]
            taken = recognise(table.headings, letters, file.name, sheet.name, meanings)
            tell_no_rows(table, sheet.name, is_form, problems)
            tell_columns(taken, table, sheet.name, problems)
            cells = coded_columns(table.rows)
            taken = sized_holes(taken, cells, rules.vocabulary)
            tell_missing(taken, cells, table, sheet.name, problems)
            shown = shown_cells(table, taken, cells, sheet, file.data, problems)
            for index, worded in shown.items():
                cells[index] = coded(worded)
            frame = read_records(table, taken, cells, sheet.name, rules, problems)
            columns.extend(_column_rows(taken, cells, file.name, sheet.name))
            frames.append(prefixed(frame, taken))
    return frames


def _column_rows(
    taken: Sequence[Column], cells: Sequence[Coded], file: str, sheet: str
) -> list[tuple[object, ...]]:
    rows: list[tuple[object, ...]] = []
    for one, column in zip(taken, cells):
        filled = column.written()
        if one.heading or filled:
            rows.append(
                (file, sheet, one.letter, one.heading, one.field, one.unit, one.how, filled)
            )
    return rows
