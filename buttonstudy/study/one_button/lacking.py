"""What a record lacks, and which of it would tell most about the button.

A field tells much if sets differ in it, and if many other sets were examined for it: then knowing
it would set the button apart, or beside its likes. To open a button only to fill a field destroys
what is to be studied, so inside features are marked as such.
"""

import numpy as np
import pandas as pd

from buttonstudy.schemes import Field, limit
from buttonstudy.study.evidence.answers import answers
from buttonstudy.study.evidence.holes import may_be_asked
from buttonstudy.study.evidence.keys import set_keys
from buttonstudy.study.one_button.gower import Measured, Named, gower_distances
from buttonstudy.study.one_button.record import compared_fields, said_of
from buttonstudy.study.one_button.resemblance import features

__all__ = ["LACKING_COLUMNS", "lacking_fields"]

LACKING_COLUMNS = (
    "field",
    "label",
    "inside",
    "state",
    "examined",
    "sets",
    "differ",
    "would_tell",
)


def lacking_fields(buttons: pd.DataFrame, row: int, *, seed: int = 1) -> pd.DataFrame:
    """List the fields that a record does not answer, those that would tell most first.

    Parameters
    ----------
    buttons
        One row per button.
    row
        The record's place, as :func:`buttonstudy.study.one_button.record.find_record` gives it.
    seed
        Seed of the choice of sets compared, where they are more than the limit
        ``telling-pairs``.

    Returns
    -------
    DataFrame
        :data:`LACKING_COLUMNS`: ``inside`` (seen only where the button is open), ``state``
        ("not examined", "unclear" or "not recorded"), ``examined`` (other sets with a clear
        answer) of ``sets``, ``differ`` (how far two of these, taken at random, differ on
        average: 0 not at all, 1 wholly; missing below two sets) and ``would_tell`` (``differ``
        times the share of sets examined). What a mould without a hole can have no answer to is
        not listed.

    Notes
    -----
    ``differ`` is the quadratic entropy of Rao 1982 (Theoretical Population Biology 21:24) with
    the distances of Gower 1971; for single terms it is the index of Simpson 1949 (Nature
    163:688). One record of each set is heard, the first that was examined.
    """
    keys = set_keys(buttons).to_numpy()
    sets = len(np.unique(keys)) - 1
    rng = np.random.default_rng(seed)
    rows = []
    for field in compared_fields():
        part = _part(buttons, field)
        known = part.examined if isinstance(part, Named) else ~np.isnan(part.low)
        asked = may_be_asked(buttons, field.field)
        if known[row] or not asked[row]:
            continue
        heard = np.flatnonzero(known & asked & (keys != keys[row]))
        _, first = np.unique(keys[heard], return_index=True)
        differ = _difference(part, heard[first], rng)
        rows.append(
            {
                "field": field.field,
                "label": field.label,
                "inside": field.inside,
                "state": said_of(buttons.iloc[[row]], field)[0],
                "examined": len(first),
                "sets": sets,
                "differ": differ,
                "would_tell": np.nan_to_num(differ) * len(first) / max(sets, 1),
            }
        )
    table = pd.DataFrame(rows, columns=list(LACKING_COLUMNS))
    ordered = table.sort_values("would_tell", ascending=False, kind="stable")
    return ordered.reset_index(drop=True)


def _part(buttons: pd.DataFrame, field: Field) -> Measured | Named:
    """Give a field's values; "absent" is an answer here, as good as any other."""
    if field.kind != "term":
        return features(buttons, [field])[0]
    told = answers(buttons, field.field)
    return Named(told.has.to_numpy(dtype=bool), told.examined)


def _difference(part: Measured | Named, heard: np.ndarray, rng: np.random.Generator) -> float:
    """Give the mean distance of two records taken at random."""
    most = int(limit("telling-pairs"))
    if len(heard) > most:
        heard = np.sort(rng.choice(heard, most, replace=False))
    if len(heard) < 2:
        return float("nan")
    kept = (
        Named(part.has[heard], part.examined[heard])
        if isinstance(part, Named)
        else Measured(part.low[heard], part.high[heard], part.span)
    )
    total = sum(float(np.nansum(gower_distances([kept], place)[0])) for place in range(len(heard)))
    return total / (len(heard) * (len(heard) - 1))
