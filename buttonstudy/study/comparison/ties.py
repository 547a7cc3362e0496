"""One feature held against several others, so that what goes together can be seen at one look."""

from collections.abc import Sequence

import numpy as np
import pandas as pd

from buttonstudy.schemes import limit
from buttonstudy.study.comparison.association import ASSOCIATION_COLUMNS, associations

__all__ = ["TIE_COLUMNS", "ties_of"]

TIE_COLUMNS = ("field", "by", *ASSOCIATION_COLUMNS)


def ties_of(buttons: pd.DataFrame, field: str, by: Sequence[str], seed: int = 1) -> pd.DataFrame:
    """Hold each term of one field against the groups of several others.

    Parameters
    ----------
    buttons
        One row per button.
    field
        The field whose terms are asked about.
    by
        The fields that make the groups.
    seed
        Seed of the resampling where sets are mixed.

    Returns
    -------
    DataFrame
        :data:`TIE_COLUMNS`: ``field``, ``by`` and the columns of
        :func:`buttonstudy.study.comparison.association.associations`. Only pairs in which at
        least the limit ``tied-fewest-sets`` have the term and as many lack it, and as many are in
        the group and outside it. Those whose interval lies farthest from 1 come first.

    Examples
    --------
    >>> moulds = ["wood"] * 12 + ["bone"] * 12
    >>> fills = ["thread"] * 10 + ["open"] * 14
    >>> table = ties_of(
    ...     pd.DataFrame({"mould_material": moulds, "hole_fill": fills}),
    ...     "hole_fill",
    ...     ["mould_material"],
    ... )
    >>> table.set_index(["term", "group"]).loc[("thread", "wood"), ["both", "term_only"]].tolist()
    [10.0, 0.0]
    """
    least = limit("tied-fewest-sets")
    tables = [
        associations(buttons, field, name, fewest=least, seed=seed).assign(by=name) for name in by
    ]
    if not tables:
        return pd.DataFrame(columns=list(TIE_COLUMNS))
    kept = pd.concat(tables, ignore_index=True).assign(field=field)[list(TIE_COLUMNS)]
    with np.errstate(divide="ignore"):
        apart = np.fmax(np.log(kept["low"].astype(float)), -np.log(kept["high"].astype(float)))
    order = np.argsort(-np.nan_to_num(apart, nan=-np.inf), kind="stable")
    return kept.iloc[order].reset_index(drop=True)
