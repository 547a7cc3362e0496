"""Only a mould with a hole has a hole to fill: who else counts would make every fill look rarer.

A solid metal or moulded core has no hole. To count it among the sets "without a fill" would say
something of moulds, and nothing of how holes were filled. So whoever asks about hole fills, by
period, beside another feature or of one button, asks the same buttons: those of :func:`asked_of`.
"""

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from buttonstudy.study.evidence.answers import ABSENT
from buttonstudy.study.evidence.columns import texts

__all__ = ["OF_HOLES", "asked_of", "may_be_asked", "moulds_with_holes"]

OF_HOLES = ("hole_fill", "hole_diameter")
"""The fields that can be asked only of moulds with a hole."""


def may_be_asked(buttons: pd.DataFrame, field: str) -> NDArray[np.bool_]:
    """Say of which buttons a field can be asked.

    Returns
    -------
    ndarray of bool
        Shape (n,): for one of :data:`OF_HOLES`, whether neither `mould_hole` nor `hole_fill` says
        that there is no hole; true of all for any other field.
    """
    if field not in OF_HOLES:
        return np.ones(len(buttons), dtype=bool)
    written = [texts(buttons, field) == ABSENT for field in ("mould_hole", "hole_fill")]
    return ~np.logical_or(*written)


def moulds_with_holes(buttons: pd.DataFrame) -> pd.DataFrame:
    """Leave out buttons whose mould is known to have no hole.

    Parameters
    ----------
    buttons
        One row per button.

    Returns
    -------
    DataFrame
        The buttons whose mould has a hole, or may have one, numbered anew.
    """
    return buttons[may_be_asked(buttons, OF_HOLES[0])].reset_index(drop=True)


def asked_of(buttons: pd.DataFrame, field: str) -> pd.DataFrame:
    """Give the buttons of which a field can be asked; all of them for most fields.

    Examples
    --------
    >>> buttons = pd.DataFrame({"mould_hole": ["absent", "pierced"], "hole_fill": [None, "wax"]})
    >>> len(asked_of(buttons, "hole_fill")), len(asked_of(buttons, "mould_hole"))
    (1, 2)
    """
    return moulds_with_holes(buttons) if field in OF_HOLES else buttons
