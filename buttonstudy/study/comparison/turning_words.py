"""Says in plain sentences when a trait came in or went out, and which sets show it."""

import pandas as pd

from buttonstudy.study.comparison.phrases import trait_name
from buttonstudy.study.telling.words import in_tenths

__all__ = ["turning_sentence"]


def turning_sentence(row: pd.Series) -> str:
    """Say one row of :func:`buttonstudy.study.comparison.turning.turning_years`."""
    name = trait_name(row)
    if not row["told"]:
        first = f"When {name} came in or went out cannot be told. {row['why']}"
    else:
        levels = f"{in_tenths(row['share_before'])} to {in_tenths(row['share_after'])}"
        first = (
            f"In this survey {name} {row['direction']} about {row['turning_year']:.0f} (with the "
            f"sets dated as they are, {row['low']:.0f} to {row['high']:.0f} is possible): its "
            f"share went from {levels} of the sets."
        )
    return first if pd.isna(row["earliest_to"]) else f"{first} {_sure_showings(row)}"


def _sure_showings(row: pd.Series) -> str:
    """Say which sets surely show the trait first and last, and what lies beyond them."""
    return (
        f"The earliest sure showing is a set dated {_years(row, 'earliest')} "
        f"({_beyond(row['lacking_before'], 'earlier')}); the latest is one dated "
        f"{_years(row, 'latest')} ({_beyond(row['lacking_after'], 'later')})."
    )


def _years(row: pd.Series, which: str) -> str:
    first, last = row[f"{which}_from"], row[f"{which}_to"]
    return f"{first}" if first == last else f"{first}–{last}"


def _beyond(lacking: int, way: str) -> str:
    if lacking == 0:
        return f"no examined set is dated wholly {way}"
    if lacking == 1:
        return f"the one examined set dated wholly {way} lacks it"
    return f"all {lacking} examined sets dated wholly {way} lack it"
