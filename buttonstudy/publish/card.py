"""A record card as PDF, to print and fill in by hand at the bench.

It is drawn by matplotlib in the house style, which embeds its typeface and puts every mark where
it is told in millimetres: no other library is needed for a page of lines, boxes and a ruler.
"""

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from buttonstudy.publish.aside import write_aside
from buttonstudy.publish.pdf import pdf_pages
from buttonstudy.publish.places import new_file
from buttonstudy.publish.record_form import FormField, form_fields
from buttonstudy.schemes import vocabulary

if TYPE_CHECKING:
    from buttonstudy.draw.card import CardLine

__all__ = ["write_card"]

_AFTER_THE_CHECK = "accepted"  # says what a check found: nothing to note at the bench


def write_card(
    path: str | Path,
    *,
    size: str = "A5",
    names: Sequence[str] = (),
    unit: str = "mm",
    terms: str = "",
) -> Path:
    """Write a record card.

    Parameters
    ----------
    path
        A new file that ends with .pdf.
    size
        The paper, ``"A5"`` or ``"A4"``.
    names, unit, terms
        As for a template: fields of the record, unit of lengths, a user's own vocabulary table.

    Raises
    ------
    CallError
        If the file is already there, or a field or unit is not known.
    PublishError
        If it cannot be written.
    SchemeError
        If the paper is not known or the vocabulary cannot be used.
    """
    from buttonstudy.draw.card import card_figures
    from buttonstudy.draw.paper import paper

    place = new_file(path, ".pdf")
    form = form_fields(names, unit, vocabulary(terms or None))
    lines = [_card_line(one) for one in form if one.field.field != _AFTER_THE_CHECK]
    write_aside(
        place, pdf_pages(card_figures(lines, paper(size)), "Record of one button"), fresh=True
    )
    return place


def _card_line(one: FormField) -> "CardLine":
    from buttonstudy.draw.card import CardLine

    few = one.field.kind == "opened"
    listed = one.terms if one.field.kind == "term" else ()
    return CardLine(one.heading, one.choices if few else one.states, listed, one.field.inside)
