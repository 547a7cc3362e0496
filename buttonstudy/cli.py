"""The command line: it takes what was typed, hands it on, and prints what comes back.

What is slow to import waits until a command is sure to need it, so that help appears at once.
Whatever goes wrong becomes a sentence or two: exit status 1 says that something was found amiss
or a notebook failed, 2 that the call or the survey files allow nothing to be done.
"""

import sys
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, TypeVar

import click

from buttonstudy import __version__

if TYPE_CHECKING:
    from buttonstudy.publish.report import ReportResult

__all__ = ["main"]

_Command = TypeVar("_Command", bound=Callable[..., int])
_Option = Callable[[_Command], _Command]
_EPILOG = "A SURVEY is a spreadsheet (.xlsx, .ods, .csv, .tsv) or a folder of them."
_VOCABULARY = click.option(
    "--vocabulary", metavar="FILE", default="", help="Your own table of preferred terms."
)
_READING = (
    click.option(
        "--dates",
        metavar="CONVENTION",
        default="",
        help="How wordings such as c. 1860 are read as years: a name or a table of your own.",
    ),
    click.option(
        "--size-classes",
        metavar="SCHEME",
        default="",
        help="Which size classes to use: a name or a table of your own.",
    ),
    _VOCABULARY,
    click.option(
        "--mapping",
        metavar="FILE",
        default="",
        help="A table that says what headings mean, or a folder of one for each survey.",
    ),
    click.option(
        "--accepted",
        metavar="FILE",
        default="",
        help="A table of findings that were looked at and are right.",
    ),
)
_RUNNING = (
    click.option(
        "--periods",
        metavar="SCHEME",
        default="",
        help="Which periods to count by: a name or a table of your own.",
    ),
    *_READING,
    click.option(
        "--set",
        "settings",
        metavar="NAME=VALUE",
        multiple=True,
        help="Set a notebook's parameter; may be given again.",
    ),
)
_FORM = (
    click.option(
        "--field",
        "fields",
        metavar="NAME",
        multiple=True,
        help="Only this field of the record, and the button's number; may be given again.",
    ),
    click.option(
        "--unit",
        metavar="UNIT",
        default="mm",
        show_default=True,
        help="The unit of sizes that are noted without one: mm, cm, in, lines or Paris lines.",
    ),
)


def main(arguments: Sequence[str] | None = None) -> None:
    """Run the command line and end the process with its exit status."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")  # a terminal that lacks a sign shows "?"
    try:
        status = buttonstudy.main(arguments, prog_name="buttonstudy", standalone_mode=False)
    except click.ClickException as error:
        error.show()
        status = error.exit_code
    except (click.Abort, KeyboardInterrupt):
        click.echo("Stopped. Nothing was left half-made.", err=True)
        status = 130
    except BrokenPipeError:
        sys.stdout = None  # whoever read the output has gone, so nothing more can be said
        status = 1
    except Exception as error:  # no traceback reaches a user
        click.echo(_sentence(error), err=True)
        status = 2
    sys.exit(status)


def _options(options: Sequence[_Option]) -> Callable[[_Command], _Command]:
    """Give a command several options, in their order."""

    def add(command: _Command) -> _Command:
        for option in reversed(options):
            command = option(command)
        return command

    return add


@click.group(
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 96},
    epilog=_EPILOG,
)
@click.version_option(__version__, prog_name="buttonstudy", message="%(prog)s %(version)s")
def buttonstudy() -> None:
    """Survey spreadsheets of measured buttons in, finished reports out."""


@buttonstudy.command(epilog=_EPILOG)
@click.argument("surveys", metavar="[SURVEY]...", nargs=-1)
@click.option(
    "--to", metavar="FOLDER", default="", help="Where the report goes; else reports/NAME."
)
@click.option(
    "--notebook",
    "notebooks",
    metavar="NAME",
    multiple=True,
    help="Run this notebook only; may be given again. A path runs a notebook of your own.",
)
@_options(_RUNNING)
@click.option(
    "--jobs",
    metavar="N",
    type=click.IntRange(min=1),
    default=None,
    help="Notebooks that run side by side; else one for each processor core.",
)
def report(
    surveys: tuple[str, ...],
    to: str,
    notebooks: tuple[str, ...],
    periods: str,
    settings: tuple[str, ...],
    jobs: int | None,
    **reading: str,
) -> int:
    """Make a report: pages, figures for print and tables.

    Without a SURVEY the report is about the invented demo surveys. An earlier report in the same
    folder is replaced once the new one is finished, and only if nobody has changed anything in it.
    """
    from buttonstudy.publish.choices import Choices
    from buttonstudy.publish.progress import Progress
    from buttonstudy.publish.report import make_report

    result = make_report(
        surveys,
        to,
        notebooks=notebooks,
        choices=Choices(periods=periods, **reading),
        parameters=_named(settings),
        jobs=jobs or 0,
        progress=Progress(sys.stdout),
    )
    return _reported(result, "index.html")


@buttonstudy.command(epilog=_EPILOG)
@click.argument("button_id", metavar="ID")
@click.argument("surveys", metavar="[SURVEY]...", nargs=-1)
@click.option(
    "--to", metavar="FOLDER", default="", help="Where the page goes; else reports/NAME-button-ID."
)
@click.option(
    "--in",
    "within",
    metavar="FILE",
    default="",
    help="The file or the sheet that holds the button, if several have one of this number.",
)
@_options(_RUNNING)
def button(
    button_id: str,
    surveys: tuple[str, ...],
    to: str,
    within: str,
    periods: str,
    settings: tuple[str, ...],
    **reading: str,
) -> int:
    """Set one button beside its survey.

    ID is the button's number as the survey has it. Told are its size among the others, how many
    share each of its traits, the nearest records, and what its own still lacks. Without a SURVEY
    it is sought in the invented demo surveys.
    """
    from buttonstudy.publish.choices import Choices
    from buttonstudy.publish.progress import Progress
    from buttonstudy.publish.report import make_report
    from buttonstudy.publish.sought import ONE_BUTTON, Sought

    result = make_report(
        surveys,
        to,
        choices=Choices(periods=periods, **reading),
        parameters=_named(settings),
        progress=Progress(sys.stdout),
        sought=Sought(button_id, within),
    )
    return _reported(result, f"{ONE_BUTTON}.html")


@buttonstudy.command(epilog=_EPILOG)
@click.argument("surveys", metavar="[SURVEY]...", nargs=-1)
@click.option(
    "--to", metavar="FOLDER", default="", help="Where the pack goes; else reports/NAME-newsletter."
)
@click.option(
    "--figures",
    metavar="NAME,...",
    multiple=True,
    help="Which figures, named as their files in a report; a name that is not known lists them.",
)
@click.option(
    "--width",
    type=click.Choice(["column", "page"], case_sensitive=False),
    default="column",
    show_default=True,
    help="How wide the figures are printed.",
)
@click.option(
    "--paper",
    type=click.Choice(["A5", "A4"], case_sensitive=False),
    default="A5",
    show_default=True,
    help="The newsletter's paper.",
)
@click.option(
    "--title", metavar="WORDS", default="", help="The article's title; else made from the survey."
)
@click.option(
    "--no-names",
    "names",
    is_flag=True,
    flag_value=False,
    default=True,
    help="Number the recorders instead of naming them. Names of survey files stay.",
)
@_options(_RUNNING)
def newsletter(
    surveys: tuple[str, ...],
    to: str,
    figures: tuple[str, ...],
    width: str,
    paper: str,
    title: str,
    names: bool,
    periods: str,
    settings: tuple[str, ...],
    **reading: str,
) -> int:
    """Make a newsletter pack: an article with its figures, to edit and to print.

    It holds the article as a Word document, as plain text and as a typeset proof, each figure as
    PNG, grey PNG, TIFF, PDF and SVG at its printed width, and a zip of it all. Without a SURVEY it
    is about the invented demo surveys.
    """
    from buttonstudy.publish.choices import Choices
    from buttonstudy.publish.newsletter.making import PackWanted, make_newsletter, remarks
    from buttonstudy.publish.progress import Progress

    result = make_newsletter(
        surveys,
        to,
        wanted=PackWanted(figures, width, paper, title, names),
        choices=Choices(periods=periods, **reading),
        parameters=_named(settings),
        progress=Progress(sys.stdout),
    )
    for remark in remarks(result) if result.finished else ():
        click.echo(remark)
    return _reported(result, "newsletter.zip", "newsletter pack")


@buttonstudy.command(epilog=_EPILOG)
@click.argument("surveys", metavar="SURVEY...", nargs=-1, required=True)
@_options(_READING)
@click.option(
    "--problems", "problems", metavar="FILE", default="", help="Also write all problems as CSV."
)
@click.option(
    "--marked",
    metavar="FILE.xlsx",
    default="",
    help="Also write a copy of the survey with every problem marked at its cell. For several "
    "survey files, name a folder.",
)
def check(surveys: tuple[str, ...], problems: str, marked: str, **reading: str) -> int:
    """Tell how survey files are understood, and every problem in them.

    The exit status is 0 if there is none that needs a look, else 1. Survey files are never
    written to.
    """
    from buttonstudy.publish.checking import check_survey, write_problems
    from buttonstudy.publish.choices import Choices
    from buttonstudy.survey.load import load_survey

    survey = load_survey(list(surveys), **Choices(**reading).reading())
    if problems:
        write_problems(survey, problems)
    checked = check_survey(survey)
    click.echo(checked.text, nl=False)
    if marked:
        from buttonstudy.publish.marking import write_marked

        for path in write_marked(survey, surveys, marked):
            click.echo(f"A marked copy is in {path}")
    if problems:
        click.echo(f"All problems, one a row, are in {problems}")
    elif len(survey.problems):
        click.echo("All problems, one a row: add --problems FILE.csv")
    return 0 if checked.fine else 1


@buttonstudy.command("map", epilog=_EPILOG)
@click.argument("surveys", metavar="SURVEY...", nargs=-1, required=True)
@_options(_READING)
@click.option("--to", metavar="FILE.csv", default="", help="Where it goes; else on the screen.")
def draft_map(surveys: tuple[str, ...], to: str, **reading: str) -> int:
    """Draft a table of what each heading means, for you to correct and read with.

    What was not known, or only guessed from a near spelling, is marked in its column "look".
    """
    from buttonstudy.publish.choices import Choices
    from buttonstudy.publish.drafting import write_draft
    from buttonstudy.survey.load import load_survey

    survey = load_survey(list(surveys), **Choices(**reading).reading())
    click.echo(write_draft(survey, surveys, to), nl=False)
    return 0


@buttonstudy.command()
@click.argument("file", metavar="FILE.xlsx")
@_options(_FORM)
@_VOCABULARY
def template(file: str, fields: tuple[str, ...], unit: str, vocabulary: str) -> int:
    """Write a workbook in which a survey can be noted."""
    from buttonstudy.publish.template import write_template

    write_template(file, names=fields, unit=unit, terms=vocabulary)
    click.echo(f"{file} is ready to be filled in. Begin with its sheet About the survey.")
    return 0


@buttonstudy.command()
@click.argument("file", metavar="FILE.pdf")
@click.option(
    "--paper", metavar="SIZE", default="A5", show_default=True, help="The paper: A5 or A4."
)
@_options(_FORM)
@_VOCABULARY
def card(file: str, paper: str, fields: tuple[str, ...], unit: str, vocabulary: str) -> int:
    """Write a record card to print for the bench, with a ruler at actual size."""
    from buttonstudy.publish.card import write_card

    write_card(file, size=paper, names=fields, unit=unit, terms=vocabulary)
    click.echo(f"{file} is ready. Print it at actual size (100 %).")
    return 0


@buttonstudy.command(epilog=_EPILOG)
@click.argument("surveys", metavar="SURVEY...", nargs=-1, required=True)
@click.option("--to", metavar="FILE.pdf", required=True, help="Where it goes.")
@click.option(
    "--paper", metavar="SIZE", default="A5", show_default=True, help="The paper: A5 or A4."
)
@click.option(
    "--only", metavar="ID", multiple=True, help="Show this button only; may be given again."
)
@_options(_READING)
def plate(
    surveys: tuple[str, ...], to: str, paper: str, only: tuple[str, ...], **reading: str
) -> int:
    """Draw buttons at actual size, to print.

    A button is shown by its photograph where one shows it clear of a plain ground, else by its
    outline. Each page has a ruler to check the print by.
    """
    from buttonstudy.publish.choices import Choices
    from buttonstudy.publish.plate import write_plate

    click.echo(write_plate(surveys, to, size=paper, only=only, choices=Choices(**reading)).says)
    click.echo(f"{to} is ready. Print it at actual size (100 %).")
    return 0


@buttonstudy.command()
@click.argument("file", metavar="FILE.pdf")
@click.option(
    "--paper", metavar="SIZE", default="A5", show_default=True, help="The paper: A5 or A4."
)
def gauge(file: str, paper: str) -> int:
    """Draw round outlines of button sizes at actual size, to print."""
    from buttonstudy.publish.plate import write_gauge

    write_gauge(file, size=paper)
    click.echo(f"{file} is ready. Print it at actual size (100 %).")
    return 0


@buttonstudy.command(epilog=_EPILOG)
@click.argument("button_id", metavar="ID")
@click.argument("surveys", metavar="SURVEY...", nargs=-1, required=True)
@click.option("--to", metavar="FILE", required=True, help="Where it goes: .pdf, .png or .svg.")
@click.option(
    "--beside", metavar="ID", multiple=True, help="Draw this one beside it; may be given again."
)
@click.option("--in", "within", metavar="FILE", default="", help="The file or sheet that has it.")
@click.option("--size", metavar="NAME", default="a5-page", show_default=True, help="Its width.")
@_options(_READING)
def section(
    button_id: str,
    surveys: tuple[str, ...],
    to: str,
    beside: tuple[str, ...],
    within: str,
    size: str,
    **reading: str,
) -> int:
    """Draw a button cut through the middle, to scale, from its record.

    ID is the button's number as the survey has it. What nobody saw is drawn dashed; what had to
    be assumed is told below.
    """
    from buttonstudy.publish.choices import Choices
    from buttonstudy.publish.section import write_section

    choices = Choices(**reading)
    drawn = write_section(
        button_id, surveys, to, beside=beside, within=within, size=size, choices=choices
    )
    click.echo(drawn.caption)
    click.echo(f"The drawing is in {to}")
    return 0


def _reported(result: "ReportResult", page: str, what: str = "report") -> int:
    """Tell where a report is, or what of it did not work."""
    for failure in result.failures:
        click.echo(str(failure), err=True)
    if not result.finished:
        click.echo(
            f"The {what} is not finished. What was made of it is in {result.folder}; "
            "an earlier report was left as it was.",
            err=True,
        )
        return 1
    click.echo(f"The {what} is ready: {result.folder / page}")
    return 0


@buttonstudy.command(epilog=_EPILOG)
@click.argument("surveys", metavar="SURVEY...", nargs=-1, required=True)
@click.option("--to", metavar="FOLDER", required=True, help="A new folder for the archive.")
@click.option("--title", metavar="TEXT", default="", help="The survey's title.")
@click.option(
    "--licence",
    metavar="NAME",
    default="",
    help="Under which licence the records may be used, such as CC-BY-4.0, or its address.",
)
@click.option(
    "--source",
    "sources",
    metavar="TEXT",
    multiple=True,
    help="Where the records come from; may be given again.",
)
@_options(_READING)
def export(
    surveys: tuple[str, ...],
    to: str,
    title: str,
    licence: str,
    sources: tuple[str, ...],
    **reading: str,
) -> int:
    """Write the records as an archive: CSV and Parquet, described as an open Data Package."""
    from buttonstudy.publish.archive import Statement, export_survey
    from buttonstudy.publish.choices import Choices
    from buttonstudy.survey.load import load_survey

    survey = load_survey(list(surveys), **Choices(**reading).reading())
    stated = Statement(title, licence, sources)
    folder = export_survey(survey, to, stated, terms=reading["vocabulary"])
    click.echo(f"{len(survey.buttons)} button records are in {folder}")
    if not licence:
        click.echo("Nobody can tell how they may be used: state it with --licence.")
    return 0


def _named(settings: Sequence[str]) -> dict[str, str]:
    """Take NAME=VALUE apart."""
    named = {}
    for setting in settings:
        name, equals, value = setting.partition("=")
        if not equals or not name.strip():
            raise click.UsageError(f"--set takes NAME=VALUE, and {setting!r} is not that.")
        named[name.strip()] = value
    return named


def _sentence(error: Exception) -> str:
    """Return an error as a sentence; an unforeseen one keeps its details in a file."""
    from buttonstudy.publish.errors import PublishError
    from buttonstudy.schemes.tables import SchemeError
    from buttonstudy.survey.saved import SavedSurveyError

    if isinstance(error, PublishError | SchemeError | SavedSurveyError):
        return str(error)
    if isinstance(error, MemoryError):
        return "There is not enough memory for this. Try it with fewer survey files."
    if isinstance(error, OSError) and error.filename:
        return f"{error.filename}: {(error.strerror or 'it could not be used').lower()}."
    return _keep_details(error)


def _keep_details(error: Exception) -> str:
    import tempfile
    import traceback

    told = f"Something went wrong that the kit did not foresee ({type(error).__name__})."
    try:
        with tempfile.NamedTemporaryFile(
            "w", prefix="buttonstudy-", suffix=".txt", delete=False, encoding="utf-8"
        ) as file:
            file.writelines(traceback.format_exception(error))
    except OSError:
        return f"{told} Please tell its makers what you did."
    return f"{told} Please send its makers the details in {file.name}"
