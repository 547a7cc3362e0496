"""Options that several commands share, and what commands say of a report."""

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, TypeVar

import click

if TYPE_CHECKING:
    from buttonstudy.publish.report import ReportResult

__all__ = ["EPILOG", "FORM", "READING", "RUNNING", "VOCABULARY", "named", "options", "reported"]

Command = TypeVar("Command", bound=Callable[..., int])
Option = Callable[[Command], Command]
EPILOG = "A SURVEY is a spreadsheet (.xlsx, .ods, .csv, .tsv) or a folder of them."
VOCABULARY = click.option(
    "--vocabulary", metavar="FILE", default="", help="Your own table of preferred terms."
)
READING = (
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
    VOCABULARY,
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
NAME = (
    click.option(
        "--name",
        metavar="WORDS",
        default="",
        help="What the survey is called; else as its files say, or as its file or folder.",
    ),
)
RUNNING = (
    *NAME,
    click.option(
        "--periods",
        metavar="SCHEME",
        default="",
        help="Which periods to count by: a name or a table of your own.",
    ),
    *READING,
    click.option(
        "--set",
        "settings",
        metavar="NAME=VALUE",
        multiple=True,
        help="Set a notebook's parameter; may be given again.",
    ),
)
FORM = (
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


def options(options: Sequence[Option]) -> Callable[[Command], Command]:
    """Give a command several options, in their order."""

    def add(command: Command) -> Command:
        for option in reversed(options):
            command = option(command)
        return command

    return add


def named(settings: Sequence[str]) -> dict[str, str]:
    """Take NAME=VALUE apart."""
    named = {}
    for setting in settings:
        name, equals, value = setting.partition("=")
        if not equals or not name.strip():
            raise click.UsageError(f"--set takes NAME=VALUE, and {setting!r} is not that.")
        named[name.strip()] = value
    return named


def reported(result: "ReportResult", page: str, what: str = "report") -> int:
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
