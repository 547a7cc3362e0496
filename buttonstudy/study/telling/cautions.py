"""Which cautions a survey calls for: by its terms, and by hazards that its own words name."""

import pandas as pd

from buttonstudy.schemes import Caution, cautions, cautions_for

__all__ = ["cautions_called_for", "cautions_of"]

_NAMES = ("button_id", "set_id", "recorder", "file", "sheet", "found_inside", "photos")
"""Columns whose words name something and describe nothing."""


def cautions_of(buttons: pd.DataFrame) -> tuple[Caution, ...]:
    """Give the cautions that some records call for, and those that hold for every button.

    Parameters
    ----------
    buttons
        Records as :func:`buttonstudy.load_survey` gives them.
    """
    asked = {field for caution in cautions() for field, _ in caution.applies_to}
    terms = {
        field: {term for cell in _different(buttons[field]) for term in cell.split("; ")}
        for field in asked
        if field in buttons
    }
    told = (
        buttons[name]
        for name in buttons.select_dtypes(["object", "string"])
        if str(name).removesuffix("_wording") not in _NAMES
    )
    return cautions_for(terms, (text for column in told for text in _different(column)))


def cautions_called_for(buttons: pd.DataFrame) -> list[str]:
    """Give the cautions of :func:`cautions_of` as paragraphs, each with its hazard named."""
    told = cautions_of(buttons)
    return [f"{one.hazard[:1].upper()}{one.hazard[1:]}: {one.says}" for one in told]


def _different(column: "pd.Series[str]") -> list[str]:
    return [str(value) for value in column.dropna().unique()]
