"""Makes a table of estimates fit to be printed: no percentage where only counts may be told.

The study's tables keep every number, since other statistics start from them. What reaches a
reader goes through here first.
"""

import pandas as pd

__all__ = ["printed"]

_SHARES = ("share", "low", "high", "if_none", "if_all", "chance")
_FRACTIONS = (
    *_SHARES,
    "value",
    "change",
    "quantile",
    "share_up_to",
    "superiority",
    "superiority_low",
    "superiority_high",
    "smaller",
    "smaller_low",
    "smaller_high",
    "at_most",
    "distance",
    "differ",
    "would_tell",
)
_DIGITS = 3
_COUNT_DIGITS = 1


def printed(table: pd.DataFrame) -> pd.DataFrame:
    """Blank the shares of rows with few sets, and round the rest.

    Parameters
    ----------
    table
        A table of the study; the column ``few``, if there is one, marks the rows.

    Returns
    -------
    DataFrame
        The same columns. Shares and chances have three decimals, sums of weights one, sizes two;
        whole numbers and words stay as they are.

    Examples
    --------
    >>> printed(pd.DataFrame({"with_term": [2.04], "share": [0.51], "few": [True]}))
       with_term  share   few
    0        2.0   <NA>  True
    """
    shown = table.copy()
    for name in shown.columns[shown.dtypes == "float64"]:
        digits = 2 if "_mm" in str(name) else _COUNT_DIGITS
        digits = _DIGITS if name in _FRACTIONS else digits
        shown[name] = shown[name].astype("Float64").round(digits)
    if "few" in shown:
        few = shown["few"].astype("boolean").fillna(False)
        for name in (name for name in _SHARES[:-1] if name in shown):
            shown[name] = shown[name].mask(few)
    return shown
