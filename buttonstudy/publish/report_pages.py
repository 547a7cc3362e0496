"""A report's pages, tables and record, written into its folder once the notebooks have run."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from buttonstudy import __version__
from buttonstudy.publish.aside import write_aside
from buttonstudy.publish.conventions import conventions
from buttonstudy.publish.csv_files import write_csv
from buttonstudy.publish.html import NotebookBody, notebook_body
from buttonstudy.publish.index_page import Link, Masthead, PageCard, index_page, problems_page
from buttonstudy.publish.pages import render
from buttonstudy.publish.provenance import versions, without_folder, write_record
from buttonstudy.publish.reuse import files_of
from buttonstudy.publish.running import Ran
from buttonstudy.publish.surveys import About
from buttonstudy.schemes import Vocabulary

if TYPE_CHECKING:
    from buttonstudy.survey.load import Survey

__all__ = ["Facts", "run_record", "write_pages"]


@dataclass(frozen=True, slots=True)
class Facts:
    """What the pages tell.

    Parameters
    ----------
    about
        What the report is about.
    survey
        The survey as understood.
    ran
        The notebooks that were run.
    periods
        The period scheme in force.
    begun
        When the run began.
    vocabulary
        The vocabulary with which the survey was read.
    understood_from
        A hash of each thing that the understood survey hangs on.
    """

    about: About
    survey: "Survey"
    ran: tuple[Ran, ...]
    periods: str
    begun: datetime
    vocabulary: Vocabulary
    understood_from: Mapping[str, str] = field(default_factory=dict)


def write_pages(facts: Facts, folder: Path) -> None:
    """Write everything of a report but what its notebooks wrote.

    Raises
    ------
    PublishError
        If something cannot be written.
    """
    from buttonstudy.survey.wordings import wordings_read

    ended = datetime.now(UTC)
    masthead = _masthead(facts, ended)
    bodies = [notebook_body(one.job.executed) for one in facts.ran]
    cards = []
    for one, body, lead in zip(facts.ran, bodies, _leads(bodies)):
        name = one.job.notebook.name
        _write(folder / f"{name}.html", _notebook_page(one, body, masthead))
        failed = one.failure.where if one.failure else ""
        cards.append(PageCard(f"{name}.html", one.job.notebook.title, lead, body.picture, failed))
    survey = facts.survey
    settings = survey.settings
    shown = conventions(settings["date_convention"], facts.periods, settings["size_classes"])
    _write(folder / "index.html", index_page(survey, masthead, cards, shown, versions()))
    _write(folder / "problems.html", problems_page(survey, masthead))
    for name in ("buttons", "columns", "problems"):
        write_csv(getattr(survey, name), folder / f"{name}.csv")
    told = wordings_read(survey.buttons, survey.columns, facts.vocabulary)
    write_csv(told, folder / "wordings.csv")
    write_record(folder, run_record(facts, ended, folder))


def _leads(bodies: Sequence[NotebookBody]) -> list[str]:
    """Choose a sentence that announces each page, and no other: all may say what was surveyed."""
    said = Counter(sentence for body in bodies for sentence in set(body.leads))
    return [
        next((one for one in body.leads if said[one] == 1), next(iter(body.leads), ""))
        for body in bodies
    ]


def _notebook_page(one: Ran, body: NotebookBody, masthead: Masthead) -> str:
    name = one.job.notebook.name
    return render(
        "notebook.html.j2",
        report=masthead,
        here=f"{name}.html",
        title=one.job.notebook.title,
        contents=[Link(heading.anchor, heading.words) for heading in body.contents],
        body=body,
        failure=one.failure,
        notebook=f"notebooks/{name}.ipynb",
    )


def _masthead(facts: Facts, ended: datetime) -> Masthead:
    pages = [Link(f"{one.job.notebook.name}.html", one.job.notebook.title) for one in facts.ran]
    made = f"Made on {ended.day} {ended:%B %Y} with buttonstudy {__version__}."
    return Masthead(
        title=facts.about.title,
        links=(*pages, Link("problems.html", "Problems")),
        made=made,
        demo=facts.about.demo,
        unfinished=" ".join(str(one.failure) for one in facts.ran if one.failure),
    )


def run_record(facts: Facts, ended: datetime, folder: Path) -> dict[str, object]:
    """Return the record of the run, without the name of its passing folder."""
    survey = facts.survey
    return {
        "begun": facts.begun.isoformat(timespec="seconds"),
        "ended": ended.isoformat(timespec="seconds"),
        "finished": not any(one.failure for one in facts.ran),
        "invented data": facts.about.demo,
        "surveys": survey.sources.astype(object).to_dict("records"),
        "understood_from": dict(facts.understood_from),
        "conventions": survey.settings | {"period_scheme": facts.periods},
        "notebooks": [
            {
                "name": one.job.notebook.name,
                "title": one.job.notebook.title,
                "parameters": without_folder(folder, one.job.parameters),
                "seconds": round(one.seconds, 1),
                "failure": str(one.failure) if one.failure else None,
                "taken_over": one.taken_over,
                "made_from": dict(one.job.made_from),
                "files": files_of(one.job.executed, folder),
            }
            for one in facts.ran
        ],
        "versions": versions(),
    }


def _write(path: Path, text: str) -> None:
    write_aside(path, text.encode(errors="replace"))
