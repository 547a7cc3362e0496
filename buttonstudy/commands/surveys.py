"""Commands that read surveys and tell, map or archive what is in them."""

import click

from buttonstudy.commands.options import EPILOG, READING, options

__all__ = ["check", "draft_map", "export"]


@click.command(epilog=EPILOG)
@click.argument("surveys", metavar="SURVEY...", nargs=-1, required=True)
@options(READING)
@click.option(
    "--problems", "problems", metavar="FILE", default="", help="Also write all problems as CSV."
)
@click.option(
    "--wordings",
    metavar="FILE",
    default="",
    help="Also write as CSV what every wording was read as, and which words were passed over.",
)
@click.option(
    "--marked",
    metavar="FILE.xlsx",
    default="",
    help="Also write a copy of the survey with every problem marked at its cell. For several "
    "survey files, name a folder.",
)
def check(
    surveys: tuple[str, ...], problems: str, wordings: str, marked: str, **reading: str
) -> int:
    """Tell how survey files are understood, and every problem in them.

    The exit status is 0 if there is none that needs a look, else 1. Survey files are never
    written to.
    """
    from buttonstudy.publish.checking import check_survey, told_wordings, write_problems
    from buttonstudy.publish.choices import Choices
    from buttonstudy.survey.load import load_survey

    choices = Choices(**reading)
    survey = load_survey(list(surveys), **choices.reading())
    if problems:
        write_problems(survey, problems)
    told = told_wordings(survey, surveys, choices, wordings)
    checked = check_survey(survey)
    click.echo(checked.text, nl=False)
    if marked:
        from buttonstudy.publish.marking import write_marked

        for path in write_marked(survey, surveys, marked):
            click.echo(f"A marked copy is in {path}")
    if told:
        click.echo(told)
    if problems:
        click.echo(f"All problems, one a row, are in {problems}")
    elif len(survey.problems):
        click.echo("All problems, one a row: add --problems FILE.csv")
    return 0 if checked.fine else 1


@click.command("map", epilog=EPILOG)
@click.argument("surveys", metavar="SURVEY...", nargs=-1, required=True)
@options(READING)
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


@click.command(epilog=EPILOG)
@click.argument("surveys", metavar="SURVEY...", nargs=-1, required=True)
@click.option("--to", metavar="FOLDER", required=True, help="A new folder for the archive.")
@click.option(
    "--title",
    metavar="TEXT",
    default="",
    help="The survey's title; else what its files call it, or the folder's name.",
)
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
@options(READING)
def export(
    surveys: tuple[str, ...],
    to: str,
    title: str,
    licence: str,
    sources: tuple[str, ...],
    **reading: str,
) -> int:
    """Write the records as an archive: CSV and Parquet, described as an open Data Package."""
    from buttonstudy.publish.archive import Statement, export_survey, licence_remark
    from buttonstudy.publish.choices import Choices
    from buttonstudy.publish.surveys import check_there
    from buttonstudy.survey.load import load_survey

    check_there(surveys)
    choices = Choices(**reading)
    survey = load_survey(list(surveys), **choices.reading())
    folder = export_survey(survey, to, Statement(title, licence, sources), choices, surveys)
    click.echo(f"{len(survey.buttons)} button records are in {folder}")
    if remark := licence_remark(licence):
        click.echo(remark)
    if not licence:
        click.echo("Nobody can tell how they may be used: state it with --licence.")
    return 0
