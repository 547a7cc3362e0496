"""One invented record, and changes to it; nothing here stands for a real button."""

from collections.abc import Callable

import pandas as pd
import pytest

from buttonstudy.draw.section.anatomy import Anatomy, anatomy_of
from buttonstudy.draw.section.facts import Facts, facts_of

RECORD = {
    "button_id": "T/1",
    "file": "invented.csv",
    "row": 2,
    "diameter_mm": 18.0,
    "diameter_mm_low": 17.5,
    "diameter_mm_high": 18.5,
    "mould_diameter_mm": 16.0,
    "hole_diameter_mm": 4.0,
    "height_mm": 6.0,
    "year_from": 1820,
    "year_to": 1840,
    "opened": "opened",
    "mould_material": "wood",
    "mould_shape": "domed",
    "mould_hole": "pierced",
    "hole_fill": "open",
    "padding": "absent",
    "cover_material": "silk",
    "cover_thickness": "thin",
    "cover_layers_low": 2,
    "cover_layers_high": 2,
    "cover_layers_state": "counted",
    "cover_drawn_up": "gathered on a running thread",
    "thread": "linen",
    "back_finish": "bare",
    "attachment": "thread shank",
}


def record(**changes: object) -> pd.DataFrame:
    """Make a table of one row; a change to None takes a field away."""
    kept = {name: value for name, value in (RECORD | changes).items() if value is not None}
    return pd.DataFrame([kept])


@pytest.fixture(scope="session")
def made() -> Callable[..., tuple[Facts, Anatomy]]:
    def make(**changes: object) -> tuple[Facts, Anatomy]:
        facts = facts_of(record(**changes))
        body = anatomy_of(facts)
        assert body is not None
        return facts, body

    return make


@pytest.fixture(scope="session")
def row() -> Callable[..., pd.DataFrame]:
    return record
