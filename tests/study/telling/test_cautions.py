import pandas as pd
import pytest

import buttonstudy as bs
from buttonstudy.schemes import cautions
from buttonstudy.study.telling.cautions import cautions_of

ALWAYS = tuple(one for one in cautions() if not one.applies_to)


@pytest.mark.parametrize("place", [place for one in cautions() for place in one.applies_to])
def test_a_caution_is_called_by_each_of_its_terms_in_any_field(place):
    field, term = place
    buttons = pd.DataFrame({field: pd.Categorical([f"other; {term}", None])})
    called = cautions_of(buttons)
    assert {one.hazard for one in cautions() if place in one.applies_to} <= {
        one.hazard for one in called
    }
    assert len(called) > len(ALWAYS)


def test_nothing_but_what_is_in_the_survey_calls_for_a_caution():
    assert cautions_of(pd.DataFrame({"cover_colour": ["not examined"]})) == ALWAYS
    assert cautions_of(pd.DataFrame({"notes": ["an ivory silk, leading to nothing"]})) == ALWAYS


@pytest.mark.parametrize("column", ["notes", "cover_material_wording", "Treatment"])
@pytest.mark.parametrize(
    "words",
    ["silk, (Arsenic??)", "Scheele’s green", "scheeles green", "Emerald-green", "paris  green"],
)
def test_a_hazard_that_the_survey_names_itself_calls_for_its_caution(column, words):
    (called,) = set(cautions_of(pd.DataFrame({column: [words, None]}))) - set(ALWAYS)
    assert called.hazard == "arsenic in greens"


def test_names_call_for_nothing():
    named = pd.DataFrame({"file": ["arsenic.csv"], "recorder_wording": ["Mercury"]})
    assert cautions_of(named) == ALWAYS


def test_cautions_are_paragraphs_that_name_their_hazard():
    plain, more = (
        bs.study.cautions_called_for(pd.DataFrame({"mould_material": [terms]}))
        for terms in ("bone", "bone; ivory")
    )
    assert set(plain) < set(more)
    assert any(one.startswith("Ivory and the law: ") for one in more)
