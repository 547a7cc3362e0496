"""What is told of a table's columns: headings not known, not sure, or missing altogether.

A column that the kit does not know is carried through, and mostly that is right. Where the table
then has no button number or no diameter, one of these columns most likely holds it.
"""

from collections.abc import Sequence

from buttonstudy.schemes import limit
from buttonstudy.survey.coded import Coded
from buttonstudy.survey.headings import (
    BY_MAPPING,
    BY_NEAR_SPELLING,
    NOT_KNOWN,
    Column,
    proposed_field,
)
from buttonstudy.survey.problems import FOR_INFORMATION, Problems
from buttonstudy.survey.records import column_name
from buttonstudy.survey.sheets import wording
from buttonstudy.survey.tables import Table

__all__ = ["WANTED", "tell_columns", "tell_missing"]

WANTED = {"button_id": "button number", "diameter": "diameter"}
"""Fields that every survey is expected to have, in words."""


def tell_columns(taken: Sequence[Column], table: Table, sheet: str, problems: Problems) -> None:
    """Tell headings that are not known, or known by guess, or that claim a field already held."""
    for one in taken:
        if one.claims:
            holders = [other for other in taken if other.field == one.claims]
            first = next((other for other in holders if other.unit == one.unit), holders[0])
            problems.add(
                "heading-twice",
                f'The headings "{first.heading}" (column {first.letter}) and "{one.heading}" '
                f"(column {one.letter}) both mean {one.claims.replace('_', ' ')}. The first was "
                "used; the other was carried through as it stands.",
                "Rename one of them, or say in a mapping file what each means.",
                sheet=sheet,
                row=table.heading_row,
                column=column_name(one),
                wording=one.heading,
            )
        elif one.how == BY_NEAR_SPELLING:
            problems.add(
                "heading-near",
                f'The heading "{one.heading}" was taken for {one.field.replace("_", " ")}, from a '
                "near spelling.",
                "Correct the heading, or say in a mapping file what it means.",
                sheet=sheet,
                row=table.heading_row,
                column=column_name(one),
                wording=one.heading,
            )
        elif one.how == NOT_KNOWN and one.heading and (meant := _proposed(one, taken, table)):
            problems.add(
                "heading-perhaps",
                f'The heading "{one.heading}" is not known; its cells were carried through '
                f"unchanged. It may mean {meant.replace('_', ' ')}, which no column holds.",
                f"If it does, name the field {meant} for it in a mapping file (buttonstudy map "
                'drafts one); else write "not used" there.',
                sheet=sheet,
                row=table.heading_row,
                column=column_name(one),
                wording=one.heading,
            )
        elif not one.field and one.heading and one.how != BY_MAPPING:
            problems.add(
                "heading-unknown",
                f'The heading "{one.heading}" is not known; its cells were carried through '
                "unchanged.",
                "Nothing, if the kit need not know it; else say in a mapping file what it means.",
                level=FOR_INFORMATION,
                sheet=sheet,
                row=table.heading_row,
                column=column_name(one),
                wording=one.heading,
            )


def _proposed(one: Column, taken: Sequence[Column], table: Table) -> str:
    """Give the field that a well-filled column may hold, by a word of its heading."""
    meant = proposed_field(one.heading, {other.field for other in taken})
    if not meant:
        return ""
    filled = int(table.column(one.index).where(lambda cell: bool(wording(cell).strip())).sum())
    return meant if filled and filled >= limit("heading-perhaps-filled") * len(table.rows) else ""


def tell_missing(
    taken: Sequence[Column], cells: Sequence[Coded], table: Table, sheet: str, problems: Problems
) -> None:
    """Tell that nothing was taken for the button number or the diameter, if it may be there."""
    held = {one.field for one in taken}
    lacking = [words for field, words in WANTED.items() if field not in held]
    unknown = [
        one.heading or f"column {one.letter}"
        for one, column in zip(taken, cells)
        if not one.field and not one.claims and one.how == NOT_KNOWN and column.is_filled().any()
    ]
    if lacking and unknown:
        problems.add(
            "column-missing",
            f"No column was taken for the {' and none for the '.join(lacking)}. Columns not "
            f"understood: {', '.join(unknown)}.",
            "Say in a mapping file what they mean (buttonstudy map drafts one).",
            sheet=sheet,
            row=table.heading_row,
        )
