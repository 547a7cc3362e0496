import pandas as pd

from buttonstudy.draw.section.facts import Layers, Said, facts_of


def test_a_record_with_nothing_in_it_has_nothing_recorded():
    facts = facts_of(pd.DataFrame({"row": [7]}))
    assert (facts.name, facts.date, facts.lengths) == ("row 7", "", {})
    assert facts.said["mould_material"] == Said((), "not recorded")
    assert facts.layers == Layers(0, None, "not recorded")


def test_what_is_inside_a_button_that_was_not_opened_was_not_examined(row):
    hidden = {"mould_material": None, "attachment": None, "cover_layers_low": None}
    facts = facts_of(row(opened="not opened", **hidden, cover_layers_state=None))
    assert facts.said["mould_material"].state == "not examined"
    assert facts.said["attachment"].state == "not recorded"
    assert facts.layers.state == "not examined"


def test_several_terms_are_kept_and_states_are_no_terms(row):
    facts = facts_of(row(mould_material="bone; wood", padding="absent", hole_fill="unclear"))
    assert facts.said["mould_material"].terms == ("bone", "wood")
    assert (facts.said["padding"].words, facts.absent("padding")) == ("none", True)
    assert facts.in_state("unclear") == ["hole fill"]


def test_bounds_of_a_coarse_reading_are_told(row):
    facts = facts_of(row(diameter_mm_low=16.0, diameter_mm_high=20.0))
    assert facts.lengths["diameter"].words == "18 mm (16 to 20)"
    # 18 mm / 0.635 mm: a button line is 1/40 inch, references in units.csv
    assert facts.lengths["diameter"].in_lines == "28.3 lines"


def test_dates_are_worded(row):
    assert facts_of(row()).date == "1820–1840"
    assert facts_of(row(year_to=None)).date == "not before 1820"
    assert facts_of(row(year_from=None)).date == "not after 1840"
    assert facts_of(row(year_to=1820)).date == "1820"


def test_a_hole_that_is_filled_or_measured_is_not_told_as_not_recorded(row):
    nothing = {"mould_hole": None, "hole_fill": None, "hole_diameter_mm": None}
    bounds = {"hole_diameter_mm_low": None, "hole_diameter_mm_high": None}
    assert "mould hole" in facts_of(row(**nothing, **bounds)).in_state("not recorded")
    for seen in ({"hole_fill": "wax"}, {"hole_diameter_mm": 3.0}):
        facts = facts_of(row(**(nothing | bounds | seen)))
        assert "mould hole" not in facts.in_state("not recorded")
