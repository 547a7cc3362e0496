"""Size-class schemes: named classes by diameter, with the published wording of each limit.

The published classes say "not over": a button exactly at a limit is still in the smaller class.
"""

import re
from bisect import bisect_left
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

from buttonstudy.schemes.tables import Row, rows, scheme_rows
from buttonstudy.schemes.units import units

__all__ = [
    "SizeClass",
    "SizeClassScheme",
    "borderline",
    "size_class",
    "size_class_schemes",
    "size_classes",
]

_COLUMNS = ("label", "up_to", "unit")
_SIZE = re.compile(r"\d{1,4}(?:\.\d{1,6})?|(?:\d{1,4} )?\d{1,4}/[1-9]\d{0,3}", re.ASCII)


@dataclass(frozen=True, slots=True)
class SizeClass:
    """One class: over one limit and up to another, in mm; `up_to_mm` None for the last."""

    label: str
    over_mm: Fraction
    up_to_mm: Fraction | None
    rule: str


@dataclass(frozen=True, slots=True)
class SizeClassScheme:
    """Classes from the smallest to the largest, with the scheme's title and source."""

    name: str
    title: str
    source: str
    classes: tuple[SizeClass, ...]

    def edges_mm(self) -> tuple[float, ...]:
        """Give the limits between the classes in mm, ascending; one fewer than classes."""
        return tuple(float(one.up_to_mm) for one in self.classes if one.up_to_mm is not None)


def size_class_schemes() -> tuple[str, ...]:
    """Name the kit's own size-class schemes."""
    return tuple(dict.fromkeys(row["scheme"] for row in rows("size_classes")))


def size_classes(name_or_path: str | Path) -> SizeClassScheme:
    """Give a size-class scheme by its name, or read a researcher's own table.

    Parameters
    ----------
    name_or_path
        A name from `size_class_schemes`, or the path of a CSV file with the columns ``label,
        up_to, unit`` from the smallest class to the largest; the last class has no ``up_to``.

    Raises
    ------
    SchemeError
        If there is no such scheme, or the limits do not rise.

    Examples
    --------
    >>> [one.label for one in size_classes("us-society").classes]
    ['diminutive', 'small', 'medium', 'large']
    """
    name = str(name_or_path)
    found = scheme_rows("size_classes", name_or_path, _COLUMNS, "size-class scheme")
    classes: list[SizeClass] = []
    over = Fraction(0)
    for place, row in enumerate(found):
        last = place == len(found) - 1
        up_to = None if last and not row["up_to"] else _limit(row)
        if up_to is not None and up_to <= over:
            raise row.error("up_to", "is not above the class before", "Let the limits rise.")
        if any(row["label"] == one.label for one in classes):
            raise row.error("label", "stands twice", "Give each class its own label.")
        classes.append(SizeClass(row.needed("label"), over, up_to, row.get("rule", "")))
        over = up_to or over
    if classes[-1].up_to_mm is not None:
        raise found[-1].error(
            "up_to", "ends the last class", "Add a last class without a limit for larger buttons."
        )
    sources = dict.fromkeys(row.get("source", "") for row in found)
    title = found[0].get("title", "") or Path(name).stem
    return SizeClassScheme(name, title, "; ".join(filter(None, sources)), tuple(classes))


def _limit(row: Row) -> Fraction:
    text, unit = row.needed("up_to"), row.needed("unit")
    if unit not in units():
        raise row.error("unit", "is not a known unit", f"Use one of: {', '.join(units())}.")
    if not _SIZE.fullmatch(text):
        raise row.error("up_to", "is not a size", "Write a number such as 19 or 1 1/4.")
    return sum(map(Fraction, text.split()), Fraction(0)) * units()[unit]


def size_class(scheme: SizeClassScheme, size_mm: float) -> str:
    """Name the class of a size; exactly at a limit it is still the smaller class.

    Examples
    --------
    >>> scheme = size_classes("us-society")
    >>> size_class(scheme, 25.4 * 3 / 8), size_class(scheme, 9.6)
    ('diminutive', 'small')
    """
    return scheme.classes[bisect_left(scheme.edges_mm(), round(size_mm, 6))].label


def borderline(scheme: SizeClassScheme, low_mm: float, high_mm: float) -> bool:
    """Tell whether a reading's interval reaches into more than one class."""
    return size_class(scheme, low_mm) != size_class(scheme, high_mm)
