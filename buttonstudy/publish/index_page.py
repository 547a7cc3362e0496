"""The report's first page and its page of problems.

The first page leads to everything else and says what a reader needs before believing any of it:
what was surveyed, how each column was understood, what could not be read, which conventions were
in force, which cautions the materials call for, and how the report was made.
"""

from base64 import b64encode
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from io import BytesIO
from typing import TYPE_CHECKING

from markupsafe import Markup

from buttonstudy.publish.conventions import Convention
from buttonstudy.publish.describing import (
    ProblemGroup,
    count_of,
    field_words,
    holdings,
    level_counts,
    problem_groups,
)
from buttonstudy.publish.pages import render
from buttonstudy.publish.prose import prose_html
from buttonstudy.publish.table_html import table_html
from buttonstudy.study.telling.cautions import cautions_of

if TYPE_CHECKING:
    import pandas as pd

    from buttonstudy.survey.load import Survey

__all__ = ["Link", "Masthead", "PageCard", "index_page", "problems_page"]

_THUMBNAIL = (640, 480)
_ROWS_SHOWN = 100
_PARTS = (
    ("surveyed", "What was surveyed"),
    ("problems", "Not read or to confirm"),
    ("conventions", "The conventions in force"),
    ("cautions", "Cautions"),
    ("made", "How this report was made"),
)
_COLUMN_HEADINGS = {
    "column": "Column",
    "heading": "Heading",
    "field": "Taken for",
    "unit": "Unit",
    "how": "Known by",
    "filled": "Filled cells",
}


@dataclass(frozen=True, slots=True)
class Link:
    """A page of the report, or a part of a page, with the words that lead to it."""

    file: str
    title: str


@dataclass(frozen=True, slots=True)
class Masthead:
    """What stands on every page: the report's name, its pages, and what to know of the whole."""

    title: str
    links: tuple[Link, ...]
    made: str
    demo: bool
    unfinished: str


@dataclass(frozen=True, slots=True)
class PageCard:
    """How the first page announces another: its title, first result and first figure."""

    file: str
    title: str
    lead: str
    picture: bytes
    failure: str


@dataclass(frozen=True, slots=True)
class _Columns:
    """How the columns of one sheet were understood."""

    name: str
    told: str
    unknown: str
    table: Markup


def index_page(
    survey: "Survey",
    masthead: Masthead,
    cards: Sequence[PageCard],
    conventions: Sequence[Convention],
    made_with: Mapping[str, str],
) -> str:
    """Return the first page of a report."""
    called = cautions_of(survey.buttons)
    return render(
        "index.html.j2",
        report=masthead,
        here="index.html",
        title=masthead.title,
        contents=[Link(*part) for part in _PARTS if part[0] != "cautions" or called],
        held=holdings(survey),
        cards=[(card, Markup(prose_html(card.lead)), _thumbnail(card.picture)) for card in cards],
        sources=Markup(_sources(survey)),
        columns=_column_tables(survey.columns),
        levels=level_counts(survey.problems),
        kinds=Markup(_kinds(survey.problems)),
        conventions=[
            (one, Markup(table_html(one.table, one.title, longest=None))) for one in conventions
        ],
        cautions=called,
        settings=survey.settings,
        made_with=made_with,
        hashes=list(zip(survey.sources["file"], survey.sources["sha256"])),
    )


def problems_page(survey: "Survey", masthead: Masthead) -> str:
    """Return the page that tells every problem, or the first of very many of a kind."""
    groups = problem_groups(survey.problems)
    return render(
        "problems.html.j2",
        report=masthead,
        here="problems.html",
        title="Problems in the survey files",
        contents=[
            Link(level.replace(" ", "-"), f"{level.capitalize()} ({number})")
            for level, number in level_counts(survey.problems).items()
            if number
        ],
        groups=[(group, Markup(_group_table(group))) for group in groups],
        rows_shown=_ROWS_SHOWN,
    )


def _thumbnail(picture: bytes) -> str:
    """Return a small copy of a figure as data for a page."""
    if not picture:
        return ""
    from PIL import Image

    small = BytesIO()
    with Image.open(BytesIO(picture)) as figure:
        image = figure.convert("RGB")
    image.thumbnail(_THUMBNAIL, Image.Resampling.LANCZOS)
    image.quantize(64, dither=Image.Dither.NONE).save(small, "PNG", optimize=True)
    return "data:image/png;base64," + b64encode(small.getvalue()).decode("ascii")


def _sources(survey: "Survey") -> str:
    sources = survey.sources.drop(columns=["sha256", "bytes", "survey_name"], errors="ignore")
    bad = survey.problems[survey.problems["level"].astype(str) != "for information"]
    sources["problems"] = [int((bad["file"] == file).sum()) for file in sources["file"]]
    headings = {"form": "Kind of file", "records": "Button records", "problems": "To look at"}
    return table_html(sources, "The survey files", headings=headings, longest=None)


def _column_tables(columns: "pd.DataFrame") -> list[_Columns]:
    tables = []
    for (file, sheet), here in columns.groupby(["file", "sheet"], sort=False):
        name = f"{file}, sheet {sheet}" if sheet else str(file)
        known = here["field"] != ""
        shown = here.drop(columns=["file", "sheet"])
        shown["field"] = [field_words(field) or "not known" for field in here["field"]]
        table = table_html(shown, name, headings=_COLUMN_HEADINGS, longest=None)
        told = f"{int(known.sum())} of {count_of(len(here), 'column')} understood"
        unknown = ", ".join(str(heading) for heading in here["heading"][~known] if heading)
        tables.append(_Columns(name, told, unknown, Markup(table)))
    return tables


def _kinds(problems: "pd.DataFrame") -> str:
    import pandas as pd

    groups = problem_groups(problems)
    table = pd.DataFrame(
        {
            "problem": [_saying(group) for group in groups],
            "level": [group.level for group in groups],
            "times": [len(group.rows) for group in groups],
        }
    )
    return table_html(table, "Problems by kind", longest=None)


def _saying(group: ProblemGroup) -> str:
    """Return words for a kind of problem: those that all share, else the first as an example."""
    first = str(group.rows["problem"].iloc[0])
    return group.problem or f"Such as: {first}"


def _group_table(group: ProblemGroup) -> str:
    own_words = [] if group.problem else ["problem", "what_to_do"]
    shown = group.rows[["file", "sheet", "row", "column", "wording", *own_words]]
    title = f"{count_of(len(group.rows), 'time')}, {group.level}"
    return table_html(
        shown,
        title,
        headings={"wording": "What stands there"},
        longest=_ROWS_SHOWN,
        spoken=f"{title}: {_saying(group)}",
    )
