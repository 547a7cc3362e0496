import pytest

from buttonstudy.publish.errors import CallError
from buttonstudy.publish.record_form import form_fields
from buttonstudy.schemes import fields, vocabulary
from buttonstudy.survey.headings import field_of


@pytest.mark.parametrize("unit", ["mm", "cm", "in", "lines", "Paris lines"])
def test_every_heading_is_recognised_with_its_unit(unit):
    for one in form_fields([], unit, vocabulary()):
        stated = unit if one.field.kind == "length" else ""
        assert field_of(one.heading) == (one.field.field, stated)


def test_fields_stand_in_the_order_of_the_record_with_the_number_first():
    form = form_fields(["thread", "diameter"], "mm", vocabulary())
    assert [one.field.field for one in form] == ["button_id", "diameter", "thread"]
    assert len(form_fields([], "mm", vocabulary())) == len(fields())


def test_every_inside_feature_can_be_absent_not_examined_or_unclear():
    for one in form_fields([], "mm", vocabulary()):
        if one.field.inside:
            assert one.choices[-3:] == ("absent", "not examined", "unclear")
        if one.field.kind in ("id", "text", "date"):
            assert one.choices == ()


def test_a_state_that_the_vocabulary_takes_for_a_term_is_not_offered():
    form = form_fields(["cover_condition"], "mm", vocabulary())
    assert form[1].states == ("not examined", "unclear")


WRONG = [
    (["diametre"], "mm", "There is no field called diametre. Did you mean diameter?"),
    ([], "mmm", "There is no unit called mmm. Did you mean mm?"),
]


@pytest.mark.parametrize(("names", "unit", "says"), WRONG)
def test_an_unknown_name_is_told_with_the_nearest(names, unit, says):
    with pytest.raises(CallError, match=f"^{says[:-1]}"):
        form_fields(names, unit, vocabulary())


def test_words_taught_for_opening_leave_all_its_answers_to_choose_from(tmp_path):
    own = tmp_path / "words.csv"
    own.write_text("field,term,synonyms\nopened,opened,auf\n", encoding="utf-8")
    _, opened = form_fields(["opened"], "mm", vocabulary(own))
    assert opened.choices == ("opened", "partly opened", "not opened")
