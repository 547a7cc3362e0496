"""What a researcher may choose for reading and counting a survey."""

from dataclasses import dataclass
from typing import TypedDict

__all__ = ["Choices", "Reading"]


class Reading(TypedDict, total=False):
    """The choices under the names that `load_survey` gives them; those left open are missing."""

    date_convention: str
    size_classes: str
    vocabulary: str
    mapping: str
    accepted: str


@dataclass(frozen=True, slots=True)
class Choices:
    """How a survey is read and counted. An empty choice leaves the kit's own in force.

    Parameters
    ----------
    dates, periods, size_classes
        Names of schemes, or paths of a user's own tables.
    vocabulary, mapping, accepted
        Paths of a user's own tables.
    """

    dates: str = ""
    periods: str = ""
    size_classes: str = ""
    vocabulary: str = ""
    mapping: str = ""
    accepted: str = ""

    def for_notebooks(self) -> dict[str, str]:
        """Return what notebooks are to be told, under their parameters' names.

        Not what was accepted: they read the survey as it was understood, problems and all.
        """
        told = {name: str(value) for name, value in self.reading().items() if name != "accepted"}
        return told | ({"period_scheme": self.periods} if self.periods else {})

    def reading(self) -> Reading:
        """Return what `load_survey` is to be told."""
        told = Reading()
        if self.dates:
            told["date_convention"] = self.dates
        if self.size_classes:
            told["size_classes"] = self.size_classes
        if self.vocabulary:
            told["vocabulary"] = self.vocabulary
        if self.mapping:
            told["mapping"] = self.mapping
        if self.accepted:
            told["accepted"] = self.accepted
        return told
