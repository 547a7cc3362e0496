"""What got opened against what did not, on what both show from outside.

If opened sets look like the unopened ones, what was found inside may stand for all. If opened
ones are more often worn through or felt-covered, it may not, and the shares are reweighted by
what differs (:mod:`buttonstudy.study.shares.reweighted`).
"""

from collections.abc import Sequence

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from buttonstudy.schemes import OPENED, PeriodScheme, fields, limit
from buttonstudy.study.comparison.effects import newcombe
from buttonstudy.study.comparison.shuffling import shuffle_answers
from buttonstudy.study.comparison.together import enough_shuffles, holm
from buttonstudy.study.evidence.columns import Floats, texts
from buttonstudy.study.evidence.dating import UNDATED, period_weights
from buttonstudy.study.evidence.patterns import grouped_rows
from buttonstudy.study.evidence.sets import field_evidence, set_dates, set_keys
from buttonstudy.study.shares.latent_model import SEED

__all__ = ["OPENED_COLUMNS", "opened_compared", "opened_sets", "visible_fields"]

OPENED_COLUMNS = (
    "field",
    "term",
    "opened",
    "opened_with",
    "opened_share",
    "unopened",
    "unopened_with",
    "unopened_share",
    "difference",
    "low",
    "high",
    "as_large",
    "shuffles",
    "chance",
    "chance_together",
    "differs",
)

*_OPENED, _CLOSED = OPENED


def opened_compared(
    buttons: pd.DataFrame,
    visible: Sequence[str] | None = None,
    scheme: PeriodScheme | None = None,
    shuffles: int | None = None,
    seed: int = SEED,
) -> pd.DataFrame:
    """Compare opened with unopened sets in each trait that both show from outside.

    Parameters
    ----------
    buttons
        One row per button.
    visible
        Base names of the fields to compare; those that can be seen without opening if not given.
    scheme
        Periods to compare the dates by as well; not compared if not given.
    shuffles, seed
        As for :func:`buttonstudy.study.comparison.periods.compare_periods`.

    Returns
    -------
    DataFrame
        :data:`OPENED_COLUMNS`, one row per trait that occurs: how many opened sets show a clear
        answer and how many of these have the trait, the same of the unopened, the ``difference``
        (opened less unopened) with Newcombe's interval, the shuffles, and ``differs``: the
        chance, after Holm's correction for all traits compared, is below the limit
        ``differs-at-chance``. Dates have the field "date" and the periods as terms, each set
        counting by aoristic weight. No rows where no set, or every set, was opened.

    Examples
    --------
    >>> buttons = pd.DataFrame(
    ...     {
    ...         "opened": ["opened"] * 12 + ["not opened"] * 12,
    ...         "cover_condition": ["worn"] * 11 + ["sound"] * 13,
    ...     }
    ... )
    >>> table = opened_compared(buttons)
    >>> table[["term", "opened_with", "unopened_with", "differs"]].values.tolist()
    [['sound', 1.0, 12.0, True], ['worn', 11.0, 0.0, True]]
    """
    keys = set_keys(buttons)
    opened, closed = opened_sets(buttons, keys)
    rows = []
    if opened.any() and closed.any():
        traits = _visible_traits(buttons, keys, visible, scheme)
        number = enough_shuffles(len(traits)) if shuffles is None else shuffles
        for field, term, answer in traits:
            use = (opened | closed) & ~np.isnan(answer)
            rows.append(_row(field, term, opened[use], answer[use], number, seed))
    table = pd.DataFrame(rows, columns=list(OPENED_COLUMNS))
    table["chance_together"] = holm(table["chance"].to_numpy(dtype=np.float64))
    table["differs"] = table["chance_together"] < limit("differs-at-chance")
    return table.astype({"as_large": "Int64", "shuffles": "Int64"})


def opened_sets(
    buttons: pd.DataFrame, keys: pd.Series
) -> tuple[NDArray[np.bool_], NDArray[np.bool_]]:
    """Say which sets had a button opened, wholly or in part, and which were left closed.

    Sets of which neither was written are in neither.
    """
    number = int(keys.max()) + 1 if len(keys) else 0
    said, codes = texts(buttons, "opened"), keys.to_numpy()
    opened = np.bincount(codes[np.isin(said, _OPENED)], minlength=number) > 0
    closed = np.bincount(codes[said == _CLOSED], minlength=number) > 0
    return opened, closed & ~opened


def visible_fields() -> tuple[str, ...]:
    """Name the fields of terms that can be seen without opening a button."""
    return tuple(field.field for field in fields() if field.kind == "term" and not field.inside)


def _visible_traits(
    buttons: pd.DataFrame,
    keys: pd.Series,
    visible: Sequence[str] | None,
    scheme: PeriodScheme | None,
) -> list[tuple[str, str, Floats]]:
    dates = set_dates(buttons, keys)
    found = []
    for field in visible_fields() if visible is None else visible:
        shares = field_evidence(buttons, keys, field).shares
        found += [(field, str(term), shares[term].to_numpy(dtype=float)) for term in shares]
    if scheme is not None:
        weights = period_weights(dates["year_from"], dates["year_to"], scheme)
        dated = weights[UNDATED].to_numpy() == 0
        for period in scheme.periods:
            spread = np.where(dated, weights[period.label].to_numpy(), np.nan)
            if np.nansum(spread) > 0:
                found.append(("date", period.label, spread))
    return found


def _row(
    field: str,
    term: str,
    opened: NDArray[np.bool_],
    answer: Floats,
    shuffles: int,
    seed: int,
) -> dict[str, object]:
    counts = [float(len(answer[part])) for part in (opened, ~opened)]
    having = [float(answer[part].sum()) for part in (opened, ~opened)]
    shares = [yes / sets if sets else np.nan for yes, sets in zip(having, counts)]
    low, high = newcombe(having[1], counts[1], having[0], counts[0])
    sides, side = grouped_rows(np.stack([opened, ~opened], axis=1).astype(np.float64))
    dealt = shuffle_answers(sides, side, answer, None, shuffles, seed)
    row: dict[str, object] = {
        "field": field,
        "term": term,
        "opened": int(counts[0]),
        "opened_with": having[0],
        "opened_share": shares[0],
        "unopened": int(counts[1]),
        "unopened_with": having[1],
        "unopened_share": shares[1],
        "difference": shares[0] - shares[1],
        "low": low,
        "high": high,
    }
    if dealt is not None:
        row |= {"as_large": dealt.as_large, "shuffles": dealt.shuffles, "chance": dealt.chance}
    return row
