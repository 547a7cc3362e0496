"""Dates that come before what the button is made of."""

from collections.abc import Iterator

import numpy as np
import pandas as pd

from buttonstudy.schemes.findings import earliest_dates
from buttonstudy.survey.checks.finding import Finding, holds, numbers


def too_early(buttons: pd.DataFrame) -> Iterator[Finding]:
    """Tell records that end before the earliest year of a material or way of making.

    Only a date that lies wholly before that year, and before what the source may be off, is told:
    a long range that reaches over it may be right.
    """
    latest = numbers(buttons, "year_to")
    for one in earliest_dates():
        before = latest < one.year - one.within
        if before.any():
            for place in np.flatnonzero(before & holds(buttons[one.field], one.term)):
                yield Finding(
                    "date-before-material",
                    int(place),
                    f"The button is dated to {latest[place]:.0f} at the latest, and "
                    f"{one.field.replace('_', ' ')} {one.term} is noted: {one.event}.",
                    "date",
                )
