"""Records for the checks: a few rows of a survey, finished as `load_survey` finishes them."""

import pandas as pd
import pytest

from buttonstudy.schemes import size_classes
from buttonstudy.survey.checks import check_records
from buttonstudy.survey.finish import finish_records

_NUMBERS = ("_mm", "_low", "_high", "year_from", "year_to")


@pytest.fixture
def records():
    """Make records: ``records({"diameter_mm": 16}, {"mould_material": "wood"})``.

    A length alone stands for a reading give or take half a millimetre.
    """

    def make(*rows):
        filled = []
        for number, row in enumerate(rows, start=2):
            full = {"file": "a.csv", "sheet": "", "row": number, **row}
            for name, value in row.items():
                if name.endswith("_mm") and f"{name}_low" not in row:
                    full |= {f"{name}_low": value - 0.5, f"{name}_high": value + 0.5}
            full |= {
                f"{name}_wording": str(value)
                for name, value in row.items()
                if name in ("button_id", "found_inside") and value is not None
            }
            filled.append(full)
        frame = pd.DataFrame(filled)
        for name in frame:
            if not name.endswith(_NUMBERS) and name != "row":
                frame[name] = frame[name].astype("str")
        return finish_records(frame, size_classes("us-society"))

    return make


@pytest.fixture
def findings(records):
    """Give what is told of some records, as (kind, row) pairs, or all problems with ``whole``."""

    def tell(*rows, whole=False):
        problems = check_records(records(*rows))
        return problems if whole else list(zip(problems["kind"], problems["row"]))

    return tell
