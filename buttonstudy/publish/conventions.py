"""The conventions in force, as tables for a reader.

A result rests on what was taken for a date, a period or a size class. The report prints each
convention in full, with its source.
"""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from buttonstudy.schemes import date_convention, period_scheme, size_classes
from buttonstudy.schemes.conventions import convention_table

if TYPE_CHECKING:
    import pandas as pd

__all__ = ["Convention", "conventions"]


@dataclass(frozen=True, slots=True)
class Convention:
    """One convention: what it is for, its name, its own words and its table."""

    purpose: str
    name: str
    title: str
    source: str
    table: "pd.DataFrame"


def conventions(dates: str, periods: str, classes: str) -> tuple[Convention, ...]:
    """Return the conventions for dates, periods and size classes.

    Parameters
    ----------
    dates, periods, classes
        Names of schemes, or paths of a user's own tables.

    Raises
    ------
    SchemeError
        If one of them is not known or cannot be read.
    """
    return (_dates(dates), _periods(periods), _classes(classes))


def _dates(name: str) -> Convention:
    import pandas as pd

    convention = date_convention(name)
    table = pd.DataFrame(
        convention_table(convention), columns=["Wording", "Read as", "Source"], dtype="str"
    )
    return Convention("Dates", convention.name, convention.title, convention.source, table)


def _periods(name: str) -> Convention:
    import pandas as pd

    scheme = period_scheme(name)
    table = pd.DataFrame(
        {
            "Period": [period.label for period in scheme.periods],
            "First year": [period.year_from for period in scheme.periods],
            "Last year": [period.year_to for period in scheme.periods],
        }
    )
    own = [period.source.removeprefix(scheme.source).strip() for period in scheme.periods]
    if any(own):
        table["Source"] = own
    source = scheme.source or ("Each period has its own source." if any(own) else "")
    return Convention("Periods", scheme.name, scheme.title, source, table)


def _classes(name: str) -> Convention:
    import pandas as pd

    scheme = size_classes(name)
    table = pd.DataFrame(
        {
            "Size class": [one.label for one in scheme.classes],
            "Over (mm)": [float(one.over_mm) for one in scheme.classes],
            "Up to and with (mm)": [
                None if one.up_to_mm is None else float(one.up_to_mm) for one in scheme.classes
            ],
            "Rule": [one.rule for one in scheme.classes],
        }
    ).astype({"Up to and with (mm)": "Float64"})
    return Convention("Size classes", scheme.name, scheme.title, scheme.source, table)
