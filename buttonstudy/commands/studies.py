"""Commands that run notebooks: a report, one button, a newsletter article."""

import sys

import click

from buttonstudy.commands.options import EPILOG, RUNNING, named, options, reported

__all__ = ["button", "newsletter", "report"]


@click.command(epilog=EPILOG)
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
@options(RUNNING)
@click.option(
    "--jobs",
    metavar="N",
    type=click.IntRange(min=1),
    default=None,
    help="Notebooks that run side by side; else one for each processor core.",
)
@click.option(
    "--reuse",
    is_flag=True,
    help="Take over notebooks of the last report in this folder that would come out the same.",
)
def report(
    surveys: tuple[str, ...],
    to: str,
    notebooks: tuple[str, ...],
    name: str,
    periods: str,
    settings: tuple[str, ...],
    jobs: int | None,
    reuse: bool,
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
        name=name,
        notebooks=notebooks,
        choices=Choices(periods=periods, **reading),
        parameters=named(settings),
        jobs=jobs or 0,
        reuse=reuse,
        progress=Progress(sys.stdout),
    )
    return reported(result, "index.html")


@click.command(epilog=EPILOG)
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
@options(RUNNING)
def button(
    button_id: str,
    surveys: tuple[str, ...],
    to: str,
    within: str,
    name: str,
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
        name=name,
        choices=Choices(periods=periods, **reading),
        parameters=named(settings),
        progress=Progress(sys.stdout),
        sought=Sought(button_id, within),
    )
    return reported(result, f"{ONE_BUTTON}.html")


@click.command(epilog=EPILOG)
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
@options(RUNNING)
def newsletter(
    surveys: tuple[str, ...],
    to: str,
    figures: tuple[str, ...],
    width: str,
    paper: str,
    title: str,
    names: bool,
    name: str,
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
        name=name,
        wanted=PackWanted(figures, width, paper, title, names),
        choices=Choices(periods=periods, **reading),
        parameters=named(settings),
        progress=Progress(sys.stdout),
    )
    for remark in remarks(result) if result.finished else ():
        click.echo(remark)
    return reported(result, "newsletter.zip", "newsletter pack")
