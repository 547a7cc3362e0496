"""Checks of whole records, after each cell was understood: what no single cell can show.

A check never changes a record. It tells the row, what was read and what to do.
"""

from collections.abc import Iterable

import pandas as pd

from buttonstudy.schemes import limit
from buttonstudy.survey.problems import COLUMNS, LEVELS, TO_CONFIRM


def check_records(buttons: pd.DataFrame) -> pd.DataFrame:
    """Run all checks.

    Parameters
    ----------
    buttons
        The finished record.

    Returns
    -------
    pandas.DataFrame
        Problems with the columns of ``survey.problems``.
    """
    found = [*_repeated_ids(buttons), *_unlikely_sizes(buttons)]
    frame = pd.DataFrame(found, columns=list(COLUMNS))
    frame["row"] = frame["row"].astype("Int64")
    frame["level"] = pd.Categorical(frame["level"], categories=list(LEVELS), ordered=True)
    return frame


def _problem(
    record: pd.Series, column: str, wording: str, problem: str, what_to_do: str, kind: str
) -> tuple[object, ...]:
    return (
        record["file"],
        record["sheet"],
        record["row"],
        column,
        wording,
        problem,
        what_to_do,
        kind,
        TO_CONFIRM,
    )


def _repeated_ids(buttons: pd.DataFrame) -> Iterable[tuple[object, ...]]:
    """Tell button numbers that stand twice, within a file or in two files."""
    known = buttons[buttons["button_id"].notna()]
    repeated = known[known["button_id"].duplicated(keep=False)]
    for name, group in repeated.groupby("button_id", sort=True):
        places = [_place(record) for _, record in group.iterrows()]
        for number, (_, record) in enumerate(group.iterrows()):
            others = [place for at, place in enumerate(places) if at != number]
            same_file = bool((group["file"] == record["file"]).sum() > 1)
            yield _problem(
                record,
                "",
                str(name),
                f"Button number {name} stands also in {_listed(others)}.",
                "Give each button its own number, or keep one row if it is one button noted twice."
                if same_file
                else "If these are different buttons, put a prefix before the numbers of one file.",
                "id-twice" if same_file else "id-in-two-files",
            )


def _place(record: pd.Series) -> str:
    sheet = f', sheet "{record["sheet"]}"' if record["sheet"] else ""
    return f"{record['file']}{sheet}, row {record['row']}"


def _listed(places: list[str]) -> str:
    shown = "; ".join(places[:3])
    return shown if len(places) <= 3 else f"{shown} and {len(places) - 3} more places"


def _unlikely_sizes(buttons: pd.DataFrame) -> Iterable[tuple[object, ...]]:
    """Tell diameters that are possible but unlikely for a button."""
    smallest, largest = limit("size-smallest-plausible"), limit("size-largest-plausible")
    for field, label in (("diameter", "diameter"), ("mould_diameter", "mould diameter")):
        best = buttons[f"{field}_mm"]
        odd = buttons[((best < smallest) | (best > largest)).fillna(False)]
        for _, record in odd.iterrows():
            size = float(record[f"{field}_mm"])
            yield _problem(
                record,
                "",
                str(record[f"{field}_wording"]),
                f"A {label} of {size:.4g} mm is unlikely for a button "
                f"(usual: {smallest:.4g} to {largest:.4g} mm).",
                "Check the unit and the decimal point; if it is right, leave it.",
                "size-unlikely",
            )
