"""Commands for the bench and the page: forms to fill in, and buttons drawn to size."""

import click

from buttonstudy.commands.options import EPILOG, FORM, NAME, READING, VOCABULARY, options

__all__ = ["card", "gauge", "plate", "section", "template"]


@click.command()
@click.argument("file", metavar="FILE.xlsx")
@options(FORM)
@VOCABULARY
def template(file: str, fields: tuple[str, ...], unit: str, vocabulary: str) -> int:
    """Write a workbook in which a survey can be noted."""
    from buttonstudy.publish.template import write_template

    write_template(file, names=fields, unit=unit, terms=vocabulary)
    click.echo(f"{file} is ready to be filled in. Begin with its sheet About the survey.")
    return 0


@click.command()
@click.argument("file", metavar="FILE.pdf")
@click.option(
    "--paper", metavar="SIZE", default="A5", show_default=True, help="The paper: A5 or A4."
)
@options(FORM)
@VOCABULARY
def card(file: str, paper: str, fields: tuple[str, ...], unit: str, vocabulary: str) -> int:
    """Write a record card to print for the bench, with a ruler at actual size."""
    from buttonstudy.publish.card import write_card

    write_card(file, size=paper, names=fields, unit=unit, terms=vocabulary)
    click.echo(f"{file} is ready. Print it at actual size (100 %).")
    return 0


@click.command(epilog=EPILOG)
@click.argument("surveys", metavar="[SURVEY]...", nargs=-1)
@click.option("--to", metavar="FILE.pdf", required=True, help="Where it goes.")
@click.option(
    "--paper", metavar="SIZE", default="A5", show_default=True, help="The paper: A5 or A4."
)
@click.option(
    "--only", metavar="ID", multiple=True, help="Show this button only; may be given again."
)
@options(NAME)
@options(READING)
def plate(
    surveys: tuple[str, ...], to: str, paper: str, only: tuple[str, ...], name: str, **reading: str
) -> int:
    """Draw buttons at actual size, to print.

    A button is shown by its photograph where one shows it clear of a plain ground, else by its
    outline. Each page has a ruler to check the print by. Without a SURVEY the invented demo surveys
    are shown.
    """
    from buttonstudy.publish.choices import Choices
    from buttonstudy.publish.plate import write_plate

    _tell_demo(surveys, "the plate shows")
    choices = Choices(**reading)
    click.echo(write_plate(surveys, to, size=paper, only=only, name=name, choices=choices).says)
    click.echo(f"{to} is ready. Print it at actual size (100 %).")
    return 0


@click.command()
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


@click.command(epilog=EPILOG)
@click.argument("button_id", metavar="ID")
@click.argument("surveys", metavar="[SURVEY]...", nargs=-1)
@click.option("--to", metavar="FILE", required=True, help="Where it goes: .pdf, .png or .svg.")
@click.option(
    "--beside", metavar="ID", multiple=True, help="Draw this one beside it; may be given again."
)
@click.option("--in", "within", metavar="FILE", default="", help="The file or sheet that has it.")
@click.option("--size", metavar="NAME", default="a5-page", show_default=True, help="Its width.")
@options(READING)
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
    be assumed is told below. Without a SURVEY the button is sought in the invented demo surveys.
    """
    from buttonstudy.publish.choices import Choices
    from buttonstudy.publish.section import write_section

    _tell_demo(surveys, "the button is one of")
    choices = Choices(**reading)
    drawn = write_section(
        button_id, surveys, to, beside=beside, within=within, size=size, choices=choices
    )
    click.echo(drawn.caption)
    click.echo(f"The drawing is in {to}")
    return 0


def _tell_demo(surveys: tuple[str, ...], shows: str) -> None:
    """Say that what is drawn is invented, where no survey was named."""
    if not surveys:
        click.echo(f"No survey was named: {shows} the invented demo surveys.")
