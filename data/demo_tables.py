"""Tables of a contributor laid out in rows, and the mistakes planted in them.

A mistake is planted in a record that fits and carries no other. Where it stands is kept,
so that tests can ask whether the kit tells of it.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from datetime import date

from demo_habits import Cell
from demo_truth import Button


@dataclass(slots=True)
class Entry:
    """One record: the true button, what the contributor wrote, and what is wrong with it."""

    button: Button
    set_size: int
    cells: dict[str, Cell]
    planted: list[tuple[str, str]] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class Table:
    """One sheet: its records in groups, a blank row between two groups."""

    file: str
    sheet: str
    headings: tuple[str, ...]
    heading_row: int
    groups: list[list[Entry]]
    number_heading: str

    def letter(self, heading: str) -> str:
        """The letter of a heading's column; no table here is wider than 52 columns."""
        beyond_z, place = divmod(self.headings.index(heading), 26)
        return "A" * beyond_z + chr(65 + place)

    def placed(self) -> Iterator[tuple[int, Entry]]:
        """Every record with its row as the spreadsheet shows it."""
        row = self.heading_row
        for group in self.groups:
            for entry in group:
                row += 1
                yield row, entry
            row += 1


def as_text(cell: Cell) -> str:
    """What a cell says, whole numbers without a point and dates as year-month-day."""
    if isinstance(cell, float):
        return f"{cell:g}"
    return "" if cell is None else str(cell)


Fits = Callable[[Entry], bool]


def plant(entries: list[Entry], heading: str, cell: Cell, kind: str, fits: Fits) -> None:
    """Overwrite one cell of a fitting record with a mistake, and keep what it is.

    Every mistake is looked a place for a little further down than the one before.
    """
    start = sum(bool(entry.planted) for entry in entries) * len(entries) // 8
    below = entries[start:] + entries[:start]
    entry = next(entry for entry in below if not entry.planted and fits(entry))
    entry.cells[heading] = cell
    entry.planted.append((heading, kind))


def plant_parvel(entries: list[Entry]) -> None:
    """Fractions turned into dates, a number twice, a misspelt mould, a date nobody can read."""
    for top, bottom in ((5, 8), (3, 4), (7, 8), (1, 2)):
        wording = f"{top}/{bottom}"
        plant(
            entries,
            "Size (ins)",
            date(2021, bottom, top),
            f"fraction {wording} turned into a date",
            lambda entry, wording=wording: entry.cells["Size (ins)"] == wording,
        )
    plant(entries[40:], "No.", entries[25].cells["No."], "button number twice in a file", _alone)
    plant(
        entries,
        "Mould",
        "pastbord",
        "misspelt term",
        lambda entry: _inside(entry) and entry.button.make.terms["mould_material"] == "pasteboard",
    )
    plant(entries, "Date", "the year the mill burnt", "date that cannot be read", _alone)


def plant_marchwane(entries: list[Entry]) -> None:
    """A lost decimal comma, an inside seen in a closed button, terms nobody knows."""
    plant(
        entries,
        "Diam. (mm)",
        165.0,
        "decimal comma lost: a size ten times too large",
        lambda entry: entry.cells["Diam. (mm)"] == "16,5",
    )
    plant(
        entries,
        "Mold material",
        "bone",
        "inside recorded for a button that was not opened",
        lambda entry: _alone(entry) and entry.button.opened == "not opened",
    )
    plant(
        entries,
        "Cover",
        "linan",
        "misspelt term",
        lambda entry: entry.button.make.terms["cover_material"] == "linen",
    )
    plant(
        entries,
        "Padding",
        "thistledown",
        "unknown term",
        lambda entry: _inside(entry) and entry.button.make.terms["padding"] != "absent",
    )


def plant_quillow(entries: list[Entry], number_elsewhere: Cell) -> None:
    """A size without its unit, a range of years turned round, a number used by someone else."""
    plant(entries, "Ø", "24", "size without a unit", lambda entry: entry.cells["Ø"] == "24 L")
    plant(
        entries,
        "Dated",
        "1860–1840",
        "range of years reversed",
        lambda entry: _alone(entry) and 1840 <= entry.button.make.year <= 1860,
    )
    plant(entries[10:], "Button", number_elsewhere, "button number in two files", _alone)


def plant_aldersay(entries: list[Entry]) -> None:
    """Readings that disagree, a date to come, a height of nothing."""
    plant(
        entries,
        "Diameter in",
        "7/8",
        "size readings disagree",
        lambda entry: _alone(entry) and 14 < entry.button.diameter_mm < 17,
    )
    plant(
        entries,
        "Date",
        "2086~",
        "date in the future",
        lambda entry: _alone(entry) and entry.button.make.year >= 1876,
    )
    plant(entries, "Height mm", "0", "size of nothing", _alone)


def put_inside(entries: list[Entry], pairs: int) -> None:
    """Say of a few older, smaller buttons that they were found inside an opened one."""
    for outer in [entry for entry in entries if entry.button.opened == "opened" and _alone(entry)]:
        inner = next((entry for entry in entries if _fits_inside(entry, outer)), None)
        if inner is None or pairs == 0 or outer.cells["Found inside"]:
            continue
        inner.cells["Found inside"] = outer.cells["Button id"]
        outer.cells["Notes"] = "an older covered button lies inside, under the cover"
        pairs -= 1


def _fits_inside(inner: Entry, outer: Entry) -> bool:
    return (
        _alone(inner)
        and inner.cells["Found inside"] is None
        and inner.button.diameter_mm < outer.button.mould_mm - 2
        and inner.button.make.year < outer.button.make.year - 20
    )


def _alone(entry: Entry) -> bool:
    return entry.set_size == 1


def _inside(entry: Entry) -> bool:
    return entry.button.opened == "opened"
