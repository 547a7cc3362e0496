"""Trade sizes: the even line nearest to a button's size, with an honest "between".

A covered button was sold by its mould's size, so the mould's diameter is used where it is known
and the finished diameter elsewhere; the record says which.
"""

from collections.abc import Mapping

import numpy as np
import numpy.typing as npt
import pandas as pd

from buttonstudy.readings.lengths.trade_lines import nearest_trade_lines


def trade_sizes(lengths: Mapping[str, pd.Series]) -> dict[str, pd.Series]:
    """Give each record's trade size in lines and what it was taken from.

    Parameters
    ----------
    lengths
        ``diameter_mm`` and ``mould_diameter_mm`` with their ``_low`` and ``_high``, in mm.

    Returns
    -------
    dict
        ``trade_lines``, such as ``"24"`` or ``"24–26"`` where the reading covers both, and
        ``trade_lines_from``: ``"mould"`` or ``"finished button"``.
    """
    by_mould = lengths["mould_diameter_mm"].notna().to_numpy()
    known = by_mould | lengths["diameter_mm"].notna().to_numpy()
    ends = np.column_stack(
        [
            np.where(
                by_mould,
                _plain(lengths[f"mould_diameter_mm{end}"]),
                _plain(lengths[f"diameter_mm{end}"]),
            )
            for end in ("_low", "", "_high")
        ]
    )
    frame = pd.DataFrame(np.round(ends, 6))
    codes = frame.groupby(list(frame), sort=False, dropna=False).ngroup().to_numpy()
    distinct = frame.to_numpy()[np.unique(codes, return_index=True)[1]]
    names = [
        None if np.isnan(row).any() else nearest_trade_lines(*map(float, row)) or None
        for row in distinct
    ]
    source = np.where(by_mould, 0, 1)
    return {
        "trade_lines": pd.Series(pd.array(names, dtype="str").take(codes)),
        "trade_lines_from": pd.Series(
            pd.Categorical.from_codes(
                np.where(known, source, -1), categories=pd.Index(["mould", "finished button"])
            )
        ),
    }


def _plain(values: pd.Series) -> npt.NDArray[np.float64]:
    return values.to_numpy(dtype=float, na_value=np.nan)
