"""Cautions: shown for the materials that call for them, short, sourced, and never the last word."""

import pytest

from buttonstudy.schemes import cautions, cautions_for, vocabulary

ALWAYS = {
    "opening any button",
    "blades and needles",
    "dust and old pesticides",
    "local codes and licensed practice",
}

CALLED_FOR = [
    ("cover_colour", "green", "arsenic in greens"),
    ("cover_condition", "shattered", "weighted and shattered silk"),
    ("cover_material", "silk", "weighted and shattered silk"),
    ("mould_material", "celluloid", "cellulose nitrate"),
    ("mould_material", "lead", "lead"),
    ("decoration", "gilding", "mercury"),
    ("cover_condition", "mouldy", "mould growth"),
    ("mould_material", "ivory", "ivory and the law"),
    ("mould_material", "tortoiseshell", "tortoiseshell and other protected species"),
]


def test_every_caution_names_known_terms_and_has_a_source() -> None:
    for caution in cautions():
        assert caution.source
        assert caution.says.endswith(".")
        for field, term in caution.applies_to:
            assert vocabulary().term(field, term) is not None, (caution.hazard, field, term)


def test_some_cautions_hold_for_every_button_that_is_opened() -> None:
    assert {one.hazard for one in cautions_for({})} == ALWAYS


@pytest.mark.parametrize(("field", "term", "hazard"), CALLED_FOR)
def test_a_material_calls_for_its_caution(field: str, term: str, hazard: str) -> None:
    called = {one.hazard for one in cautions_for({field: [term, "something else"]})}
    assert hazard in called - ALWAYS


def test_harmless_terms_call_for_nothing_more() -> None:
    assert {one.hazard for one in cautions_for({"mould_material": ["bone"]})} == ALWAYS


def test_a_term_of_another_field_calls_for_nothing() -> None:
    assert {one.hazard for one in cautions_for({"thread": ["ivory", "green"]})} == ALWAYS


def test_the_law_is_told_as_published_and_local_codes_come_last() -> None:
    # UK Ivory Act 2018, in force 6 June 2022; owning is not dealing: bada.org, APHA guidance.
    told = {one.hazard: one.says for one in cautions()}
    assert "Ivory Act 2018 (in force since 6 June 2022)" in told["ivory and the law"]
    assert "Owning it is not dealing; selling and swapping are." in told["ivory and the law"]
    assert "CITES" in told["tortoiseshell and other protected species"]
    assert cautions()[-1].hazard == "local codes and licensed practice"
    assert "go first" in cautions()[-1].says
