"""What is known of the demo: the truth of every button, true shares, and planted mistakes.

Each is a list of rows, headings first, keyed to the surveys by file, sheet and row.
"""

from math import fsum

from demo_tables import Table, as_text
from demo_trade import YEARS

Rows = list[list[str | int]]

PLACE = ("file", "sheet", "row")
OF_RECORD = ("button_id", "set_key", "set_size", "year", "trade_lines")
OF_BUTTON = ("cover_layers", "opened", "cover_condition")
LENGTHS = ("diameter_mm", "mould_diameter_mm", "height_mm", "hole_diameter_mm")
TERMS = (
    "mould_material",
    "mould_shape",
    "mould_hole",
    "hole_fill",
    "padding",
    "cover_material",
    "cover_colour",
    "cover_thickness",
    "cover_cut",
    "cover_drawn_up",
    "thread",
    "back_finish",
    "attachment",
    "decoration",
)


def truth(tables: list[Table]) -> Rows:
    """What is true of every button, by the place of its record."""
    rows: Rows = [[*PLACE, *OF_RECORD, *LENGTHS, *TERMS, *OF_BUTTON]]
    for table in tables:
        for row, entry in table.placed():
            button, make = entry.button, entry.button.make
            lengths = (button.diameter_mm, button.mould_mm, button.height_mm, make.hole_mm)
            rows.append(
                [table.file, table.sheet, row, as_text(entry.cells[table.number_heading])]
                + [button.set_key, entry.set_size, make.year, make.trade_lines]
                + ["" if mm is None else f"{mm:.2f}" for mm in lengths]
                + [make.terms[term] for term in TERMS]
                + [make.layers, button.opened, button.condition]
            )
    return rows


def truth_shares(tables: list[Table]) -> Rows:
    """Shares of sets by twenty years, as they fell and as they were to be expected.

    The expected share is the mean chance of the trait over the same sets, given their years (for
    fills and layers also their covers and holes).
    """
    makes = {
        entry.button.set_key: entry.button.make for table in tables for _, entry in table.placed()
    }
    traits = sorted({trait for make in makes.values() for trait in make.chances})
    spans = [(start, start + 19) for start in YEARS] + [(min(YEARS), max(YEARS) + 19)]
    rows: Rows = [["year_from", "year_to", "trait", "of", "sets", "sets_with", "share", "expected"]]
    for first, last in spans:
        for trait in traits:
            of = [
                make
                for make in makes.values()
                if trait in make.chances and first <= make.year <= last
            ]
            have = sum(make.has(trait) for make in of)
            expected = fsum(make.chances[trait] for make in of)
            whole = "pierced moulds" if trait.startswith("hole_fill") else "all sets"
            shares = [f"{count / len(of):.3f}" for count in (have, expected)]
            rows.append([first, last, trait, whole, len(of), have, *shares])
    return rows


def planted(tables: list[Table]) -> Rows:
    """Where the planted mistakes stand, and what each is, in plain words."""
    rows: Rows = [[*PLACE, "column", "heading", "wording", "kind"]]
    for table in tables:
        place = [table.file, table.sheet]
        if "Drawer" in table.headings:
            where = [table.heading_row, table.letter("Drawer"), "Drawer", "Drawer"]
            rows.append([*place, *where, "heading that nobody can know"])
        for row, entry in table.placed():
            for heading, kind in entry.planted:
                wording = as_text(entry.cells[heading])
                rows.append([*place, row, table.letter(heading), heading, wording, kind])
    return rows
