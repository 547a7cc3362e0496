"""Dates before what the button is made of."""

import pytest

from buttonstudy.schemes import vocabulary
from buttonstudy.schemes.findings import earliest_dates

# field, term, the year before which it cannot be, by the source named in earliest_dates.csv
PUBLISHED = [
    ("attachment", "cloth tuft", 1825),  # EB 1911 s.v. button: flexible shank, Sanders junior
    ("cover_drawn_up", "crimped in metal back", 1802),  # Girl's Own Paper, 9 Oct. 1886
    ("mould_material", "celluloid", 1862),  # late 19th c.: threadreaderapp; the year from memory
    ("mould_material", "casein", 1897),  # c. 1900: threadreaderapp; patents from memory
]


@pytest.mark.parametrize(("field", "term", "year"), PUBLISHED)
def test_a_date_wholly_before_the_material_is_told_and_one_that_reaches_it_is_not(
    findings, field, term, year
):
    def told(to):
        return [kind for kind, _ in findings({field: term, "year_from": to - 30, "year_to": to})]

    assert told(year - 6) == ["date-before-material"]
    assert told(year - 5) == []  # the source may be off by five years
    assert told(year + 20) == []


def test_a_material_named_with_others_counts_and_a_state_does_not(findings):
    early = {"year_from": 1780, "year_to": 1800}
    told = findings({"mould_material": "celluloid; metal", **early}, whole=True)
    assert told["problem"][0].startswith(
        "The button is dated to 1800 at the latest, and mould material celluloid is noted: "
    )
    assert findings({"mould_material": "not examined", **early}) == []
    assert findings({"mould_material": "celluloid"}) == []


def test_the_terms_are_the_vocabularys():
    for one in earliest_dates():
        assert one.term in {term.term for term in vocabulary().terms(one.field)}
