"""A finished report from survey files.

The survey is read once and saved; the notebooks run on what was saved, side by side; their pages
are made; and the finished folder takes its place in one step. If a notebook fails, the others
still finish, all that was made is kept beside under the name ``...-unfinished``, and an earlier
finished report stays as it was.
"""

import math
import os
import shutil
import tempfile
from collections.abc import Callable, Mapping, Sequence
from contextlib import nullcontext
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from buttonstudy.publish.aside import Working, move_into_place, working_folder
from buttonstudy.publish.choices import Choices
from buttonstudy.publish.describing import count_of, holdings, level_counts
from buttonstudy.publish.errors import PublishError
from buttonstudy.publish.executed import tidy
from buttonstudy.publish.failures import Failure
from buttonstudy.publish.given import PHOTOGRAPHS, own_files, report_values
from buttonstudy.publish.kernels import warm_python
from buttonstudy.publish.notebooks import (
    Notebook,
    Value,
    check_known,
    choose_notebooks,
    notebooks_folder,
    set_parameters,
)
from buttonstudy.publish.own_tables import vocabulary_of
from buttonstudy.publish.photographs import copy_sought
from buttonstudy.publish.progress import Progress
from buttonstudy.publish.provenance import check_replaceable, replaceable
from buttonstudy.publish.read_back import SAVED_SURVEY, read_back, understood_from
from buttonstudy.publish.report_pages import Facts, write_pages
from buttonstudy.publish.reuse import last_report, made_from, take_over
from buttonstudy.publish.running import Job, Ran, run_notebooks
from buttonstudy.publish.saving import save_survey
from buttonstudy.publish.sought import ONE_BUTTON, Sought
from buttonstudy.publish.stopping import go_on
from buttonstudy.publish.surveys import DEMO, About, about, check_there, given_name
from buttonstudy.schemes import period_scheme

if TYPE_CHECKING:
    from buttonstudy.publish.warm import WarmPython
    from buttonstudy.survey.load import Survey

__all__ = ["ReportResult", "make_report"]

_DEFAULT_PERIODS = "british-reigns"
_NOTEBOOKS = "notebooks"


@dataclass(frozen=True, slots=True)
class ReportResult:
    """Where a report is, and what did not work.

    Parameters
    ----------
    folder
        The finished report, or what was made of an unfinished one.
    failures
        The notebooks that did not finish.
    """

    folder: Path
    failures: tuple[Failure, ...]

    @property
    def finished(self) -> bool:
        """True if the report is whole and in its place."""
        return not self.failures


@dataclass(frozen=True, slots=True)
class _Plan:
    """All that is known before anything runs."""

    about: About
    place: Path
    notebooks: tuple[Notebook, ...]
    choices: Choices
    parameters: Mapping[str, str]
    at_once: int
    reuse: bool
    kits: Path
    progress: Progress
    finish: Callable[[Facts, Path], None]
    begun: datetime = field(default_factory=lambda: datetime.now(UTC))


def make_report(
    paths: Sequence[str | Path] = (),
    to: str | Path = "",
    *,
    name: str = "",
    notebooks: Sequence[str] = (),
    choices: Choices | None = None,
    parameters: Mapping[str, str] | None = None,
    jobs: int = 0,
    reuse: bool = False,
    progress: Progress | None = None,
    notebooks_in: Path | None = None,
    sought: Sought | None = None,
    finish: Callable[[Facts, Path], None] = write_pages,
) -> ReportResult:
    """Make a report.

    Parameters
    ----------
    paths
        Survey files or folders of them; none stands for the invented demo surveys.
    to
        The report's folder. By default a folder below ``reports``, named after the survey.
    name
        What the survey is called; by default as its files say, or else as its file or folder.
    notebooks
        Names of the kit's notebooks, or paths of a user's own; by default all of the kit's that
        are about a whole survey.
    choices
        Conventions for reading and counting.
    parameters
        Notebook parameters by name, as typed.
    jobs
        Notebooks that run side by side; by default one for each processor core.
    reuse
        Take over from the last report in the same folder what would come out the same.
    progress
        Told how far the run has come.
    notebooks_in
        Another folder of notebooks than the kit's own.
    sought
        The one button that the report is about, which then runs that notebook alone.
    finish
        Writes what belongs into the folder beside what the notebooks wrote, and its record.

    Returns
    -------
    ReportResult
        Where the report is, and the notebooks that failed.

    Raises
    ------
    PublishError
        If there is nothing to read, the call makes no sense, or the place cannot be written.
    SchemeError
        If a scheme or a mapping file cannot be used.
    """
    told = _called(paths, name, sought)
    only = (ONE_BUTTON,) if sought else ()
    plan = _Plan(
        about=told,
        place=Path(to or Path("reports") / told.name).resolve(),
        notebooks=choose_notebooks(notebooks or only, notebooks_in),
        choices=choices or Choices(),
        parameters={**(parameters or {}), **(sought.parameters() if sought else {})},
        at_once=jobs or os.cpu_count() or 1,
        reuse=reuse,
        kits=notebooks_in or notebooks_folder(),
        progress=progress or Progress(),
        finish=finish,
    )
    check_known(plan.notebooks, plan.parameters)
    for notebook in plan.notebooks:
        _check_size(set_parameters(notebook, plan.parameters))
    period_scheme(_periods(plan))
    check_replaceable(plan.place)
    # Where most is taken over, a warm Python would seldom be worth its start.
    with nullcontext() if reuse else warm_python() as warm:
        survey = _read(plan)
        go_on()
        if sought:
            sought.check(survey.buttons)
        told = _called(paths, name.strip() or given_name(survey), sought)
        return _make(replace(plan, about=told), survey, warm)


def _called(paths: Sequence[str | Path], name: str, sought: Sought | None) -> About:
    check_there(paths)
    told = about(paths, name)
    return sought.named(told) if sought else told


def _check_size(values: Mapping[str, Value]) -> None:
    """Refuse a print size that is not known before anything runs."""
    if "figure_size" in values:
        from buttonstudy.draw.style import print_size

        print_size(str(values["figure_size"]))


def _make(plan: _Plan, survey: "Survey", warm: "WarmPython | None") -> ReportResult:
    with working_folder(plan.place) as working:
        ran = _run(plan, survey, working.folder, warm)
        failures = tuple(one.failure for one in ran if one.failure)
        plan.progress.now("Making the pages")
        hangs_on = understood_from(survey, _survey_files(plan), plan.choices)
        terms = vocabulary_of(_survey_files(plan), plan.choices)
        facts = Facts(plan.about, survey, ran, _periods(plan), plan.begun, terms, hangs_on)
        plan.finish(facts, working.folder)
        if not failures:
            _tell_missing(plan)
        return ReportResult(_hand_over(working, failures), failures)


def _tell_missing(plan: _Plan) -> None:
    """Name the notebooks of the report before that the new one, which replaces it, lacks."""
    now = {notebook.name for notebook in plan.notebooks}
    last = last_report(plan.place)
    missing = [name for name in last.notebooks if name not in now] if last else []
    if missing:
        plan.progress.line(
            f"The earlier report in this folder also had {', '.join(missing)}; the new one, which "
            "replaces it, does not."
        )


def _read(plan: _Plan) -> "Survey":
    """Read the survey files, or say why there is nothing to make a report of."""
    from buttonstudy.survey.load import load_survey

    if plan.about.demo:
        what = "page" if [one.name for one in plan.notebooks] == [ONE_BUTTON] else "report"
        plan.progress.line(f"No survey was named: the {what} is about the invented demo surveys.")
    files = _survey_files(plan)
    survey = read_back(plan.place, files, plan.choices) if plan.reuse else None
    how = "Read" if survey is None else "Took over from the last report"
    if survey is None:
        survey = load_survey(
            files,
            progress=lambda file: plan.progress.now(f"Reading {file}"),
            **plan.choices.reading(),
        )
    held = holdings(survey)
    if not held.buttons:
        raise PublishError(nothing_read(survey))
    told = ", ".join(f"{n} {level}" for level, n in level_counts(survey.problems).items() if n)
    plan.progress.line(
        f"{how} {count_of(held.buttons, 'button record')} in {count_of(held.sets, 'set')} from "
        f"{count_of(held.files, 'survey file')}. Problems: {told or 'none'}."
    )
    return survey


def _survey_files(plan: _Plan) -> list[str]:
    """Return the survey files or folders, with the demo's own folder for its name."""
    from buttonstudy.survey.load import demo_folder

    return [str(demo_folder()) if path == DEMO else path for path in plan.about.paths]


def nothing_read(survey: "Survey") -> str:
    """Return why a survey has no button records: its first problem, with its place."""
    unread = survey.problems[survey.problems["level"].astype(str) == "not read"]
    if unread.empty:
        return "No button record was found in the survey files. Check that they are the right ones."
    first = unread.iloc[0]
    place = f"{first['file']}, sheet {first['sheet']}" if first["sheet"] else str(first["file"])
    return f"No button record could be read. {place}: {first['problem']} {first['what_to_do']}"


def _run(plan: _Plan, survey: "Survey", folder: Path, warm: "WarmPython | None") -> tuple[Ran, ...]:
    """Save the survey and run the notebooks on it."""
    save_survey(survey, folder / SAVED_SURVEY)
    given = report_values(plan.choices, survey, folder) | {"survey_name": plan.about.title}
    copy_sought(survey.buttons, plan.parameters, plan.about.paths, folder / PHOTOGRAPHS)
    own = own_files(plan.choices, plan.parameters)
    jobs = []
    for notebook in plan.notebooks:
        told = set_parameters(notebook, plan.parameters, given)
        executed = folder / _NOTEBOOKS / f"{notebook.name}.ipynb"
        jobs.append(Job(notebook, told, executed, made_from(notebook, told, folder, survey, own)))
    last = last_report(plan.place)
    taken = take_over(jobs, last, plan.kits, plan.progress) if plan.reuse else {}
    to_run = sorted(
        (job for job in jobs if job.notebook.name not in taken),
        key=lambda job: -last.seconds.get(job.notebook.name, math.inf) if last else 0.0,
    )
    ran = taken | {one.job.notebook.name: one for one in _run_jobs(plan, to_run, folder, warm)}
    return tuple(ran[job.notebook.name] for job in jobs)


def _run_jobs(
    plan: _Plan, jobs: Sequence[Job], folder: Path, warm: "WarmPython | None"
) -> tuple[Ran, ...]:
    """Run notebooks, those first that took longest in the last report."""
    side_by_side = min(plan.at_once, len(jobs))
    if not side_by_side:
        return ()
    plan.progress.line(f"Running {count_of(len(jobs), 'notebook')}, {side_by_side} at a time")
    with tempfile.TemporaryDirectory(prefix="buttonstudy-") as scratch:
        ran = run_notebooks(
            jobs,
            folder,
            Path(scratch),
            at_once=side_by_side,
            progress=plan.progress,
            warm=warm,
        )
    for job in jobs:
        tidy(job.executed, folder)
    return ran


def _periods(plan: _Plan) -> str:
    """Return the period scheme in force: as chosen, as set, or as the notebooks have it."""
    declared = [
        str(parameter.default)
        for notebook in plan.notebooks
        for parameter in notebook.parameters
        if parameter.name == "period_scheme"
    ]
    chosen = [plan.choices.periods, plan.parameters.get("period_scheme", ""), *declared]
    return next((name for name in chosen if name), _DEFAULT_PERIODS)


def _hand_over(working: Working, failures: Sequence[Failure]) -> Path:
    """Move the finished folder to its place, or an unfinished one beside it."""
    beside = working.place.with_name(f"{working.place.name}-unfinished")
    if not failures:
        check_replaceable(working.place)
        move_into_place(working)
        if beside.exists() and replaceable(beside):
            shutil.rmtree(beside, ignore_errors=True)
        return working.place
    number = 1
    while beside.exists() and not replaceable(beside):
        number += 1
        beside = beside.with_name(f"{working.place.name}-unfinished-{number}")
    if beside.exists():
        shutil.rmtree(beside)
    working.folder.rename(beside)
    return beside
