"""The command line: it takes what was typed, hands it on, and prints what comes back.

What is slow to import waits until a command is sure to need it, so that help appears at once.
Whatever goes wrong becomes a sentence or two: exit status 1 says that something was found amiss
or a notebook failed, 2 that the call or the survey files allow nothing to be done.
"""

import os
import sys
import threading
from collections.abc import Sequence

import click

from buttonstudy import __version__
from buttonstudy.commands import bench, studies, surveys
from buttonstudy.commands.options import EPILOG
from buttonstudy.publish.stopping import stop_when_asked

__all__ = ["main"]


def main(arguments: Sequence[str] | None = None) -> None:
    """Run the command line and end the process with its exit status."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")  # a terminal that lacks a sign shows "?"
    stop_when_asked()
    try:
        status = buttonstudy.main(arguments, prog_name="buttonstudy", standalone_mode=False)
    except click.ClickException as error:
        error.show()
        status = error.exit_code
    except (click.Abort, KeyboardInterrupt):
        click.echo("Stopped. Nothing was left half-made.", err=True)
        status = 130
        if threading.active_count() > 1:
            os._exit(status)  # something is held up, and must not hold up the end as well
    except BrokenPipeError:
        sys.stdout = None  # whoever read the output has gone, so nothing more can be said
        status = 1
    except Exception as error:  # no traceback reaches a user
        click.echo(_sentence(error), err=True)
        status = 2
    sys.exit(status)


@click.group(
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 96},
    epilog=EPILOG,
)
@click.version_option(__version__, prog_name="buttonstudy", message="%(prog)s %(version)s")
def buttonstudy() -> None:
    """Survey spreadsheets of measured buttons in, finished reports out."""


for _command in (
    *(studies.report, studies.button, studies.newsletter),
    *(surveys.check, surveys.draft_map, surveys.export),
    *(bench.template, bench.card, bench.plate, bench.gauge, bench.section),
):
    buttonstudy.add_command(_command)


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
