"""A button cut through the middle, to scale, from nothing but its record.

Measured sizes are drawn as measured. What nobody saw is dashed, what is bounded is drawn as
bounded, what had to be assumed is dotted and said, and where the record contradicts itself the
drawing says so instead of drawing what cannot be.
"""

import pandas as pd

from buttonstudy.draw.drawn import Drawn, not_drawn
from buttonstudy.draw.lettering import Lettering, lettering, shortened, width_mm
from buttonstudy.draw.section.anatomy import Anatomy, anatomy_of
from buttonstudy.draw.section.facts import Facts, facts_of
from buttonstudy.draw.section.painting import (
    BAR_MM,
    bar_length,
    draw_bar,
    draw_key,
    key_height,
    paper_axes,
)
from buttonstudy.draw.section.view import View, draw_view, fitting_scales, view_of
from buttonstudy.draw.section.words import (
    KIND_ONLY,
    alt_text,
    assumed_words,
    caption,
    line_words,
    notes,
    scale_words,
)
from buttonstudy.draw.sheet import Sheet
from buttonstudy.draw.style import PrintSize, house_style, print_size
from buttonstudy.study.one_button.by_number import find_record

__all__ = ["cross_section"]

_GAP = 2.0


def cross_section(
    buttons: pd.DataFrame,
    button_id: str,
    size: str = "a5-page",
    *,
    within: str = "",
    source: str = "",
) -> Drawn:
    """Draw one button in section, to scale, from its record.

    Parameters
    ----------
    buttons
        One row per button.
    button_id
        The button's number, as the survey has it.
    size
        The name of a print size.
    within
        The survey file or sheet, needed only where several use the same number.
    source
        For the figure's foot, as :func:`buttonstudy.study.telling.words.source_line` words it.

    Raises
    ------
    NoSuchButtonError
        If no record, or more than one, has that number.
    """
    place = find_record(buttons, button_id, within)
    facts = facts_of(buttons.iloc[[place]])
    name = f"cross-section-{facts.name}"
    body = anatomy_of(facts)
    if body is None:
        return not_drawn(name, f"no size is recorded for button {facts.name}")
    with house_style():
        return _draw(facts, body, name, print_size(size).name, source)


def _draw(facts: Facts, body: Anatomy, name: str, size: str, source: str) -> Drawn:
    place = print_size(size)
    scales = fitting_scales(facts, body, place.width_mm - 2, 0.4 * place.tallest_mm)
    for scale in scales:
        sheet, view, below, key = _planned(facts, body, place, scale, source)
        tall = view.height + BAR_MM + 2 * _GAP + key + sum(line.height_mm for line in below)
        if tall <= sheet.room_mm:
            break
    sheet.open(tall)
    axes = paper_axes(sheet, tall)
    draw_view(sheet, axes, view, 0.0, 0.0)
    y = view.height
    mm = bar_length(view.scale, 0.5 * sheet.width_mm)
    length = mm * view.scale + width_mm("00lines")
    draw_bar(sheet, axes, max((sheet.width_mm - length) / 2, 2.0), y, view.scale, mm)
    y += BAR_MM + _GAP
    draw_key(sheet, axes, y, view.materials, sheet.width_mm)
    y += key + _GAP / 2
    for line in below:
        sheet.text(0, y, line)
        y += line.height_mm
    words = caption(facts, body, view.scale), alt_text(facts, view.pieces.callouts, body)
    return Drawn(sheet.figure, *words, name)


def _planned(
    facts: Facts, body: Anatomy, place: PrintSize, scale: float, source: str
) -> tuple[Sheet, View, list[Lettering], float]:
    """Plan the drawing at one scale: its sheet, the button, the lines below, the key's height."""
    date = f", {facts.date}" if facts.date else ""
    height = facts.lengths.get("height")
    high = [f"Height without the fastening: {height.words}."] if height else []
    lead = f"Drawn {scale_words(scale)}. {line_words(bool(body.dotted))}"
    sheet = Sheet(place, f"Button {shortened(facts.name)}{date}: cross-section", lead, source)
    view = view_of(facts, body, sheet.width_mm, scale)
    told = [*high, *notes(facts, body), *assumed_words(body), KIND_ONLY]
    below = [lettering(line, sheet.width_mm) for line in told]
    return sheet, view, below, key_height(view.materials, sheet.width_mm)
