"""Members of one set that differ in size or date."""

import pytest


def a_set(*members, name="s1"):
    return [{"set_id": name, **member} for member in members]


def sizes(*values):
    return a_set(*({"diameter_mm": value} for value in values))


SIZES = [
    (sizes(16, 16, 16.5), []),
    (sizes(16, 16, 17), []),  # within both readings
    (sizes(16, 16, 21), [("set-sizes-differ", 4)]),
    (sizes(21, 16, 16), [("set-sizes-differ", 2)]),
    (sizes(15, 23), [("set-sizes-differ", 2)]),  # a waistcoat's and a coat's
    (sizes(16, 16, 160), [("set-size-slip", 4)]),
    (sizes(1.6, 16), [("set-size-slip", 2)]),
    (sizes(16), []),
    ([{"diameter_mm": 16}, {"diameter_mm": 30}], []),  # no set
    ([{"set_id": "s", "diameter_mm": 16}, {"set_id": "s", "diameter_mm": 30, "file": "b.csv"}], []),
]


@pytest.mark.parametrize(("rows", "told"), SIZES)
def test_a_set_is_told_once_at_the_member_that_differs_most(findings, rows, told):
    assert [one for one in findings(*rows) if one[0].startswith("set-")] == told


def test_the_slip_and_the_other_button_are_named(findings):
    told = findings(*sizes(16, 16, 25.2), whole=True).iloc[0]
    assert told["problem"].startswith(
        "In set s1 this button has 25.2 mm, and that of a.csv, row 2 16 mm. Perhaps button lines "
        "stand where millimetres should."
    )
    assert told["level"] == "for information"  # two sizes of one pattern may differ as much


def test_only_slips_of_the_unit_that_was_read_are_named(findings):
    told = findings(  # 7/8 in beside 5/8 in
        *a_set(
            {"diameter_mm": 22.2, "diameter_unit": "in"},
            {"diameter_mm": 15.9, "diameter_unit": "in"},
        ),
        whole=True,
    ).iloc[0]
    assert "Perhaps" not in told["problem"]


DATES = [
    ([(1800, 1820), (1815, 1830)], []),
    ([(1800, 1820), (1820, 1830)], []),
    ([(1800, 1820), (1821, 1830)], [("set-dates-differ", 3)]),
    ([(1840, 1850), (1800, 1820), (1815, 1860)], [("set-dates-differ", 2)]),
    ([(1800, 1820), (None, None)], []),
]


@pytest.mark.parametrize(("years", "told"), DATES)
def test_members_of_a_set_must_have_a_year_in_common(findings, years, told):
    assert findings(*a_set(*({"year_from": a, "year_to": b} for a, b in years))) == told
