"""The one button that a report is about: what it is called, and whether the survey has it.

The survey is read before any notebook runs, so that a number nobody knows is told at once, with
the nearest numbers there are, and no report is begun.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from buttonstudy.publish.errors import CallError
from buttonstudy.publish.names import safe_name
from buttonstudy.publish.surveys import About

if TYPE_CHECKING:
    import pandas as pd

__all__ = ["ONE_BUTTON", "Sought", "sought_record"]

ONE_BUTTON = "one-button"
"""The notebook about one button."""


@dataclass(frozen=True, slots=True)
class Sought:
    """A button that is asked about.

    Parameters
    ----------
    button
        Its number, as the survey has it.
    within
        The file or the sheet that holds it; empty if the number alone tells.
    """

    button: str
    within: str = ""

    def parameters(self) -> dict[str, str]:
        """Return what the notebook is to be told, under its parameters' names."""
        return {"button": self.button, "button_in": self.within}

    def named(self, about: About) -> About:
        """Name a report after the button and its survey.

        Examples
        --------
        >>> from buttonstudy.publish.surveys import about
        >>> told = Sought("1912/10").named(about(["Smith.xlsx"]))
        >>> told.name, told.title
        ('smith-button-1912-10', 'Smith: button 1912/10')
        """
        name = safe_name(f"{about.name} button {self.button}", "button")
        return replace(about, name=name, title=f"{about.title}: button {self.button}")

    def check(self, buttons: "pd.DataFrame") -> None:
        """Refuse a number that the survey does not have, or has more than once.

        Raises
        ------
        CallError
            With the nearest numbers, or with the places that have one and how to name the
            right one.
        """
        sought_record(buttons, self.button, self.within)


def sought_record(buttons: "pd.DataFrame", button: str, within: str = "") -> int:
    """Find a button's record, as `find_record` does, and say how to name the right one if need be.

    Returns
    -------
    int
        The record's place, counted from 0.

    Raises
    ------
    CallError
        As for `Sought.check`.
    """
    from buttonstudy.study.one_button.by_number import NoSuchButtonError, find_record

    try:
        return find_record(buttons, button, within)
    except NoSuchButtonError as error:
        raise CallError(f"{error}{_hint(buttons, button, error.places)}") from error


def _hint(buttons: "pd.DataFrame", button: str, places: Sequence[str]) -> str:
    """Say how to name one of several places, if there is one in which the number stands once."""
    from buttonstudy.study.one_button.by_number import NoSuchButtonError, find_record

    for place in filter(None, places):
        try:
            find_record(buttons, button, place)
        except NoSuchButtonError:
            continue
        return f' Add --in "{place}" for that one.'
    if any(places):
        return " The number stands more than once in each: give each button a number of its own."
    return ""
