"""A mapping file: the researcher's own word on what a heading means.

Where recognition cannot know ("Material" of what? "B" for back or for bone?), a plain CSV table
says it: columns `heading` and `field`, and if need be `unit`, `step` (the recorder's measuring
step, such as ``1/16 in``), `prefix` (put before the button numbers of that column, where two
surveys use the same), `file` and `sheet` to narrow a row to one place. Reading with a mapping file
is exact and repeatable.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from buttonstudy.readings.formula_marks import restored
from buttonstudy.readings.lengths.reading import read_lengths
from buttonstudy.schemes import SchemeError, fields, units
from buttonstudy.schemes.tables import Row, read_scheme_file

NOT_USED = "not used"
DATE_ENDS = ("date_from", "date_to")
MEDIUM = "medium"
"""A museum's list of materials and techniques, read into several fields."""
CONTAINS = "contains"
"""The numbers of the buttons found inside this one: `found_inside` seen from the outer button."""
_NEEDED = ("heading", "field")


@dataclass(frozen=True, slots=True)
class Meaning:
    """What the mapping file says of one heading."""

    heading: str
    field: str
    unit: str = ""
    step_mm: float | None = None
    file: str = ""
    sheet: str = ""
    prefix: str = ""

    def is_at(self, file: str, sheet: str) -> bool:
        """Tell whether this row of the mapping file speaks of that sheet at all."""
        return self.file in ("", file) and self.sheet in ("", sheet)

    def applies(self, heading: str, file: str, sheet: str) -> bool:
        """Tell whether this row of the mapping file speaks of that heading there."""
        same = self.heading.casefold() == " ".join(heading.split()).casefold()
        return same and self.is_at(file, sheet)


def field_names() -> tuple[str, ...]:
    """Names that a mapping file may use: the record's fields, a date's two ends, and others."""
    return (*(one.field for one in fields()), *DATE_ENDS, MEDIUM, CONTAINS, NOT_USED)


def read_mapping(path: str | Path) -> tuple[Meaning, ...]:
    """Read a mapping file, or all those (.csv) in a folder.

    Raises
    ------
    SchemeError
        Naming file, row and column, if a field, unit or step is not known.
    """
    place = Path(path)
    files = sorted(place.glob("*.csv")) if place.is_dir() else [place]
    if not files:
        raise SchemeError(f"{path}: there is no mapping file (.csv) in this folder.")
    return tuple(_meaning(row) for one in files for row in read_scheme_file(one, _NEEDED))


def _meaning(row: Row) -> Meaning:
    heading = " ".join(restored(row.needed("heading")).split())
    field = row.needed("field")
    if field not in field_names():
        raise row.error(
            "field", "is not a field of the record", f"Use one of: {', '.join(field_names())}."
        )
    unit = row.get("unit", "")
    if unit and unit not in units():
        raise row.error("unit", "is not a known unit", f"Use one of: {', '.join(units())}.")
    prefix = row.get("prefix", "")
    if prefix and field != "button_id":
        raise row.error(
            "prefix", "stands beside another field", "Write it in the row of the button number."
        )
    return Meaning(
        heading, field, unit, _step(row), row.get("file", ""), row.get("sheet", ""), prefix
    )


def _step(row: Row) -> float | None:
    text = row.get("step", "")
    if not text:
        return None
    reading = read_lengths(text, row.get("unit") or None)
    if len(reading.lengths) != 1:
        raise row.error(
            "step", "is not one length", "Write the measuring step with its unit, such as 1/16 in."
        )
    return reading.lengths[0].best


def meaning_of(mapping: Iterable[Meaning], heading: str, file: str, sheet: str) -> Meaning | None:
    """Give the most particular row of the mapping file for a heading, or None."""
    fitting = [one for one in mapping if one.applies(heading, file, sheet)]
    return max(fitting, key=lambda one: bool(one.file) + bool(one.sheet), default=None)


__all__ = [
    "CONTAINS",
    "DATE_ENDS",
    "MEDIUM",
    "NOT_USED",
    "Meaning",
    "SchemeError",
    "meaning_of",
    "read_mapping",
]
