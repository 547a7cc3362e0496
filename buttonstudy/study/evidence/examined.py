"""What was looked at, how often, and what was left closed.

Before any share is told, a reader should see how much of the survey each field rests on. Inside
features can be seen only on buttons that somebody opened, often because they were ruined anyway.
"""

from collections.abc import Sequence

import numpy as np
import pandas as pd

from buttonstudy.schemes import Field, fields
from buttonstudy.study.evidence.answers import (
    ABSENT,
    ANSWERED,
    NOT_EXAMINED,
    NOT_RECORDED,
    STATES,
    UNCLEAR,
    answers,
)
from buttonstudy.study.evidence.sets import collapse, set_keys

__all__ = ["EXAMINED_COLUMNS", "examined_by_field"]

_COUNTED = ("examined", "absent", "not_examined", "unclear", "not_recorded")
EXAMINED_COLUMNS = (
    "field",
    "label",
    "inside",
    "sets",
    *_COUNTED,
    "buttons",
    *(f"buttons_{counted}" for counted in _COUNTED),
)
_KINDS = ("term", "count", "length")


def examined_by_field(buttons: pd.DataFrame, names: Sequence[str] | None = None) -> pd.DataFrame:
    """Count for each field the sets and buttons that were examined, and those that were not.

    Parameters
    ----------
    buttons
        One row per button.
    names
        Base names of the fields wanted, in this order; every field that takes a term, a count or
        a length if not given.

    Returns
    -------
    DataFrame
        :data:`EXAMINED_COLUMNS`, one row per field. ``sets`` = ``examined`` + ``not_examined`` +
        ``unclear`` + ``not_recorded``, a set being examined if any of its buttons was.
        ``absent`` are those of the examined sets on whose examined buttons the feature is always
        absent. The same for buttons in ``buttons`` and ``buttons_...``.

    Examples
    --------
    >>> buttons = pd.DataFrame({"padding": ["wool", "absent", "not examined", None]})
    >>> table = examined_by_field(buttons, ["padding"])
    >>> table[["sets", "examined", "absent", "not_examined", "not_recorded"]].values.tolist()
    [[4, 2, 1, 1, 1]]
    """
    known = {known.field: known for known in fields()}
    wanted = names or [name for name, known_field in known.items() if known_field.kind in _KINDS]
    keys = set_keys(buttons).to_numpy()
    listed = [
        _row(buttons, keys, known.get(name, Field(name, "term", False, False, name, "")))
        for name in wanted
    ]
    return pd.DataFrame(listed, columns=list(EXAMINED_COLUMNS))


def _row(buttons: pd.DataFrame, keys: np.ndarray, field: Field) -> dict[str, object]:
    found = answers(buttons, field.field)
    sets = collapse(keys, found, keys.max(initial=-1) + 1)
    absent = found.has.get(ABSENT, pd.Series(False, index=found.has.index))
    all_absent = sets.shares.get(ABSENT, pd.Series(0.0, index=sets.shares.index)) == 1
    of_sets = {state: int((sets.state == state).sum()) for state in STATES}
    of_buttons = {state: int((found.state == code).sum()) for code, state in enumerate(STATES)}
    return {
        "field": field.field,
        "label": field.label,
        "inside": field.inside,
        "sets": len(sets.state),
        **_counts(of_sets, int(all_absent.sum()), ""),
        "buttons": len(buttons),
        **_counts(of_buttons, int(absent.sum()), "buttons_"),
    }


def _counts(number: dict[str, int], absent: int, prefix: str) -> dict[str, int]:
    return {
        f"{prefix}examined": number[ANSWERED],
        f"{prefix}absent": absent,
        f"{prefix}not_examined": number[NOT_EXAMINED],
        f"{prefix}unclear": number[UNCLEAR],
        f"{prefix}not_recorded": number[NOT_RECORDED],
    }
