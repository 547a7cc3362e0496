"""The tables behind the findings: kinds, slips, earliest dates of materials."""

import re
from pathlib import Path

import pytest

import buttonstudy.survey.checks as checks
from buttonstudy.schemes import fields
from buttonstudy.schemes.findings import earliest_dates, finding_kinds, slips
from buttonstudy.schemes.tables import rows


def test_every_kind_is_told_by_a_check():
    folder = Path(checks.__file__).parent
    source = "".join(path.read_text(encoding="utf-8") for path in folder.glob("*.py"))
    told = set(re.findall(r'"([a-z]+(?:-[a-z]+)+)"', source))
    of_photographs = {kind for kind in finding_kinds() if kind.startswith("photo")}  # elsewhere
    assert set(finding_kinds()) - of_photographs <= told


@pytest.mark.parametrize(
    "table", ["findings", "slips", "earliest_dates", "medium_terms", "bare_insides"]
)
def test_every_row_has_its_source(table):
    assert all(row["source"] for row in rows(table))


def test_each_kind_has_a_level_a_rule_and_something_to_do():
    for kind in finding_kinds().values():
        assert kind.level in ("to confirm", "for information")
        assert kind.rule.endswith(".")
        assert kind.what_to_do.endswith(".")


def test_slips_come_in_pairs_and_are_exact():
    # 1 inch = 25.4 mm exactly, 1 button line = 1/40 inch = 0.635 mm (GNU units definitions)
    factors = [slip.factor for slip in slips()]
    for factor in (10, 25.4, 2.54, 1 / 0.635):
        assert min(abs(one / factor - 1) for one in factors) < 1e-9
        assert min(abs(one * factor - 1) for one in factors) < 1e-9


def test_dates_are_of_fields_of_the_record():
    assert {one.field for one in earliest_dates()} <= {one.field for one in fields()}
    assert all(1700 < one.year < 2000 and one.within >= 0 for one in earliest_dates())
