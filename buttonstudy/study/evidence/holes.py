"""Only a mould with a hole has a hole to fill: who else counts would make every fill look rarer.

A solid metal or moulded core has no hole. To count it among the sets "without a fill" would say
something of moulds, and nothing of how holes were filled.
"""

import pandas as pd

from buttonstudy.study.evidence.answers import ABSENT
from buttonstudy.study.evidence.keys import set_keys
from buttonstudy.study.telling.words import number_of

__all__ = ["hole_findings", "moulds_with_holes"]


def moulds_with_holes(buttons: pd.DataFrame) -> pd.DataFrame:
    """Leave out buttons whose mould is known to have no hole.

    Parameters
    ----------
    buttons
        One row per button.

    Returns
    -------
    DataFrame
        The buttons whose mould has a hole, or may have one: neither `mould_hole` nor
        `hole_fill` says that there is none.
    """
    without = pd.Series(False, index=buttons.index)
    for field in ("mould_hole", "hole_fill"):
        if field in buttons:
            without |= (buttons[field] == ABSENT).fillna(False).astype(bool)
    return buttons[~without].reset_index(drop=True)


def hole_findings(buttons: pd.DataFrame) -> list[str]:
    """Say how many sets are left out because there was nothing to fill.

    A set with both kinds of mould is not left out whole, and is not counted here.
    """
    keys = set_keys(buttons)
    kept = moulds_with_holes(buttons.assign(_key=keys.to_numpy()))
    gone = keys.nunique() - kept["_key"].nunique()
    if not gone:
        return ["No mould is noted as without a hole, so that all sets are looked at."]
    were = "was" if gone == 1 else "were"
    return [
        f"{number_of(gone, 'set')} whose mould has no hole {were} left out below: there was "
        "nothing to fill. Sets of which nobody could see the mould stay among those without an "
        "answer."
    ]
