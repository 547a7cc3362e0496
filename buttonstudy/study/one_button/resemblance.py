"""The records most like one record, and what they have in common.

Likeness is Gower's distance over the fields that were examined on both (which fields count is
kept in ``resemblance_fields.csv``). Records of the same set are left out, other sets are heard
once, and records that share too few examined fields are not called alike at all: two buttons of
which nothing but the cover is known are not near, only unknown.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from buttonstudy.schemes import Field, limit
from buttonstudy.study.evidence.answers import ABSENT, answers
from buttonstudy.study.evidence.columns import Floats, floats, length_bounds, texts
from buttonstudy.study.evidence.keys import set_keys
from buttonstudy.study.one_button.gower import Measured, Named, gower_distances
from buttonstudy.study.one_button.record import compared_fields, said_of

__all__ = ["NEAREST_COLUMNS", "Nearest", "features", "nearest_records"]

NEAREST_COLUMNS = (
    "rank",
    "button_id",
    "set_id",
    "file",
    "record",
    "distance",
    "compared",
    "agrees",
    "differs",
    "set_size",
)

_ALIKE = 1e-9


@dataclass(frozen=True, slots=True)
class Nearest:
    """The records nearest to one record.

    Attributes
    ----------
    table
        One row for each, the nearest first: ``rank``, ``button_id``, ``set_id``, ``file``,
        ``record`` (its place in the survey, from 0), ``distance`` (0 is alike in all that was
        compared, 1 in nothing), ``compared`` (number of fields examined on both), ``agrees`` and
        ``differs`` (the fields' labels, with what the two records say where they differ) and
        ``set_size`` (matching records of its set).
    examined
        Fields of the record itself that can be compared.
    sets
        Other sets in the survey.
    too_little
        Of these, sets of which no record shares enough examined fields.
    """

    table: pd.DataFrame
    examined: int
    sets: int
    too_little: int


def features(buttons: pd.DataFrame, compared: Sequence[Field]) -> list[Measured | Named]:
    """Turn fields into what Gower's distance compares.

    A length's or count's range is that of the middle sets of the collection (the limit
    ``resemblance-middle``), so that one very large button, or a slip of the pen, does not make all
    others alike. A feature that is absent has no terms, so that two buttons without it are not
    compared for it.
    """
    keys = set_keys(buttons).to_numpy()
    found: list[Measured | Named] = []
    for field in compared:
        if field.kind == "length":
            low, best, high = length_bounds(buttons, field.field)
            found.append(Measured(low, high, _range(best, keys)))
        elif field.kind == "count":
            low, high = (
                floats(buttons, f"{field.field}_low"),
                floats(buttons, f"{field.field}_high"),
            )
            low = np.where(np.isnan(low) & ~np.isnan(high), 0.0, low)
            open_end = np.isnan(high) & ~np.isnan(low)
            found.append(Measured(low, np.where(open_end, np.inf, high), _range(low, keys)))
        else:
            told = answers(buttons, field.field, as_written=True)
            has = told.has.drop(columns=ABSENT, errors="ignore").to_numpy(dtype=bool)
            found.append(Named(has, told.examined))
    return found


def nearest_records(buttons: pd.DataFrame, row: int, n_records: int | None = None) -> Nearest:
    """Find the records most like one record.

    Parameters
    ----------
    buttons
        One row per button.
    row
        The record's place, as :func:`buttonstudy.study.one_button.record.find_record` gives it.
    n_records
        How many to list; the limit ``nearest-records`` if not given.

    Notes
    -----
    Gower 1971, Biometrics 27:857. Lengths and counts that overlap are at no distance. Of records
    as near as each other, those with more fields compared come first. Records with fewer fields
    compared than the limit ``resemblance-fewest-fields`` are left out.
    """
    compared = compared_fields()
    parts = features(buttons, compared)
    distance, number = gower_distances(parts, row)
    keys = set_keys(buttons).to_numpy()
    others = keys != keys[row]
    enough = others & (number >= limit("resemblance-fewest-fields"))
    wanted = int(limit("nearest-records")) if n_records is None else n_records
    order = np.lexsort((-number, np.round(distance, 9)))
    order = order[enough[order]]
    _, first = np.unique(keys[order], return_index=True)
    chosen = order[np.sort(first)][:wanted]
    table = _described(buttons, compared, parts, row, chosen)
    table["distance"], table["compared"] = distance[chosen], number[chosen]
    table["set_size"] = np.bincount(keys)[keys[chosen]] if len(chosen) else 0
    sets = len(np.unique(keys[others]))
    return Nearest(
        table[list(NEAREST_COLUMNS)],
        _examined(parts, row),
        sets,
        sets - len(np.unique(keys[enough])),
    )


def _described(
    buttons: pd.DataFrame,
    compared: Sequence[Field],
    parts: Sequence[Measured | Named],
    row: int,
    chosen: NDArray[np.int64],
) -> pd.DataFrame:
    """Say who the chosen records are, and where they agree with the record and differ."""
    kept = buttons.iloc[[row, *chosen]]
    agrees: list[list[str]] = [[] for _ in chosen]
    differs: list[list[str]] = [[] for _ in chosen]
    for field, part in zip(compared, parts):
        distance, told = part.distance(row)
        said = said_of(kept, field)
        for place, record in enumerate(chosen):
            if not told[record]:
                continue
            if distance[record] <= _ALIKE:
                agrees[place].append(field.label)
            else:
                differs[place].append(f"{field.label}: {said[0]} / {said[place + 1]}")
    return pd.DataFrame(
        {
            "rank": np.arange(1, len(chosen) + 1),
            "button_id": texts(buttons, "button_id")[chosen],
            "set_id": texts(buttons, "set_id")[chosen],
            "file": texts(buttons, "file")[chosen],
            "record": chosen,
            "agrees": ["; ".join(labels) for labels in agrees],
            "differs": ["; ".join(labels) for labels in differs],
        }
    )


def _examined(parts: Sequence[Measured | Named], row: int) -> int:
    """Count the fields of a record that can be compared with others'."""
    return sum(
        bool(part.examined[row]) if isinstance(part, Named) else not np.isnan(part.low[row])
        for part in parts
    )


def _range(values: Floats, keys: NDArray[np.int64]) -> float:
    """Give the range of the middle sets, one value each; of all, where those are alike."""
    known = np.isfinite(values)
    if not known.any():
        return 0.0
    _, first = np.unique(keys[known], return_index=True)
    heard = values[known][first]
    outside = (1 - limit("resemblance-middle") / 100) / 2
    low, high = np.quantile(heard, [outside, 1 - outside], method="nearest")
    return float(high - low) or float(np.ptp(heard))
