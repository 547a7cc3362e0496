"""The sentences that the notebooks tell, from tables made by the functions they stand for."""

import pandas as pd
import pytest

import buttonstudy as bs
from buttonstudy.schemes import period_scheme

CENTURIES = period_scheme("centuries")
NOTHING = pd.DataFrame(columns=bs.load_survey("nowhere.csv").buttons.columns)


SIZES = (16.0, 17.0, 18.0, 19.1)  # 19.05 mm (3/4 in) is the edge of "small"


@pytest.fixture(scope="module")
def buttons(tmp_path_factory):
    """Thirteen buttons in twelve sets: A1 and A2 are one set."""
    lines = ["No,Set,Recorder,Diam (mm),Date,Mould,Hole fill,Layers,Opened"]
    lines += [f"A{n},A,Ann,15.0,1750,bone,open,1,yes" for n in (1, 2)]
    lines += [f"B{n},,Ann,{size},1760,wood,cloth plug,2,yes" for n, size in enumerate(SIZES)]
    lines += [f"C{n},,Ben,20.0,1850,bone,open,at least 2,yes" for n in range(2)]
    lines += [f"D{n},,Ben,,,,,,no" for n in range(5)]
    path = tmp_path_factory.mktemp("survey") / "survey.csv"
    path.write_text("\n".join(lines), encoding="utf-8")
    return bs.load_survey(path).buttons


def test_what_the_survey_holds_is_counted_in_buttons_and_sets(buttons):
    first, second = bs.study.survey_findings(buttons)
    assert first == (
        "The survey holds 13 button records in 12 sets, from 1 file by 2 named recorders."
    )
    assert "one piece of evidence" in second


def test_the_commonest_step_is_counted_over_all_hands():
    table = pd.DataFrame(
        {
            "recorder": ["A", "B", "C"],
            "step": ["2 lines", "0.1 mm", "0.1 mm"],
            "buttons": [92, 81, 27],
        }
    )
    first, _ = bs.study.precision_findings(table)
    assert first == (
        "Diameters of 200 buttons were read; the commonest step was 0.1 mm (108 buttons)."
    )


def test_size_classes_are_told_with_what_is_borderline(buttons):
    told = bs.study.class_findings(bs.study.size_class_counts(buttons))
    assert told == [
        "Commonest among the size classes: small (4 of 7 sets).",
        "The readings of 1 set reach over the edge of a class, so that their class is not sure.",
    ]


def test_no_borderline_reading_is_told_in_words(buttons):
    clear = buttons[buttons["diameter_mm"] != 19.1]
    told = bs.study.class_findings(bs.study.size_class_counts(clear))
    assert told[1] == "No reading reaches over the edge of a class."


def test_dates_are_told_with_what_cannot_be_placed(buttons):
    record = bs.study.record_by_period(buttons, CENTURIES)
    (only,) = bs.study.dating_findings(record)
    assert only == "Of 12 sets, 7 are dated wholly within one period and 5 cannot be placed."
    wide = buttons.assign(year_from=buttons["year_from"].mask(buttons["year_from"] > 1800, 1790))
    first, second = bs.study.dating_findings(bs.study.record_by_period(wide, CENTURIES))
    assert first.startswith("Of 12 sets, ")
    assert "describes the record" in second


def test_the_most_and_the_least_examined_are_named(buttons):
    table = bs.study.examined_by_field(buttons, ["hole_fill", "padding"])
    first, none, _ = bs.study.examined_findings(table)
    assert first == "Of 12 sets, hole fill was examined most often (7 sets)."
    assert none == "Not examined on any set: padding."


def test_fields_examined_alike_are_named_together():
    fields = ["hole_fill", "padding", "thread", "mould_hole", "mould_shape"]
    table = pd.DataFrame({"field": fields, "sets": 12, "examined": [7, 2, 2, 0, 0]})
    assert bs.study.examined_findings(table)[:2] == [
        "Of 12 sets, hole fill was examined most often (7 sets) and, of what was examined at all, "
        "padding and thread least often (2 sets).",
        "Not examined on any set: mould hole and mould shape.",
    ]
    same = bs.study.examined_findings(table.assign(examined=7))[0]
    assert same.endswith("mould hole and mould shape were examined most often (7 sets).")


def test_shares_are_told_as_counts_where_sets_are_few_and_unexamined_sets_beside_them(buttons):
    told = bs.study.share_findings(
        bs.study.shares_by_period(buttons, "mould_material", CENTURIES), "mould_material"
    )
    assert told[0] == (
        "Of 12 sets in this survey, 7 were examined for mould material; the others have no answer "
        "(5 not examined)."
    )
    assert told[1].startswith("Of the 7 examined, 4 had “wood”")
    assert not any("%" in sentence for sentence in told)
    assert told[-1] == (
        "Commonest among the examined sets of each period with enough: 18th century, “wood” (4 of 5)."
    )


def test_one_field_by_another_is_told_group_by_group(buttons):
    table = bs.study.shares_crossed(buttons, "hole_fill", "mould_material")
    told = bs.study.crossed_findings(table, "hole_fill", "mould_material")
    assert told[1] == (
        "Of no mould material are there enough sets to say which hole fill is the commonest."
    )
    twice = pd.concat([buttons, buttons.assign(file="again.csv")], ignore_index=True)
    table = bs.study.shares_crossed(twice, "hole_fill", "mould_material")
    told = bs.study.crossed_findings(table, "hole_fill", "mould_material")
    assert "“wood”: “cloth plug” (" in told[1]
    assert "“bone”: “open” (" in told[1]


def test_heaping_is_told_for_each_hand(buttons):
    told = bs.study.heaping_findings(bs.study.heaping_by_recorder(buttons))
    assert told == ["Too few readings to judge: Ann, Ben."]
    table = bs.study.heaping_by_recorder(buttons)
    sure = table.iloc[[0]].assign(recorder="Cy", readings=40, on_round=40, few=False)
    told = bs.study.heaping_findings(pd.concat([table, sure], ignore_index=True))
    assert len(told) == 2
    assert "by Cy" in told[0]
    assert told[1] == "Too few readings to judge: Ann, Ben."


@pytest.mark.parametrize(
    ("told", "says"),
    [
        (lambda: bs.study.precision_findings(bs.study.precision_table(NOTHING)), "No diameter"),
        (
            lambda: bs.study.size_findings(
                bs.study.size_quantiles(NOTHING), bs.study.sizes_by_period(NOTHING, CENTURIES)
            ),
            "No diameter",
        ),
        (lambda: bs.study.class_findings(bs.study.size_class_counts(NOTHING)), "No set"),
        (lambda: bs.study.heaping_findings(bs.study.heaping_by_recorder(NOTHING)), "No diameter"),
        (lambda: bs.study.examined_findings(bs.study.examined_by_field(NOTHING)), "Nothing was"),
        (
            lambda: bs.study.share_findings(
                bs.study.shares_by_period(NOTHING, "padding", CENTURIES), "padding"
            ),
            "No set was examined for padding",
        ),
        (
            lambda: bs.study.crossed_findings(
                bs.study.shares_crossed(NOTHING, "hole_fill", "padding"), "hole_fill", "padding"
            ),
            "No set was examined for both hole fill and padding",
        ),
    ],
)
def test_where_there_is_nothing_to_tell_it_is_said(told, says):
    assert told()[0].startswith(says)


def test_dates_with_a_question_mark_are_told_by_sets():
    buttons = pd.DataFrame(
        {
            "file": "a.csv",
            "set_id": ["1", "1", "2", "3"],
            "recorder": "Teal",
            "date_basis": ["uncertain decade", "uncertain decade", "decade", None],
        }
    )
    _, _, doubted = bs.study.survey_findings(buttons)
    assert doubted.startswith("1 set has a date marked as uncertain, with a question mark")
    assert len(bs.study.survey_findings(buttons.assign(date_basis="decade"))) == 2


def test_steps_and_classes_that_are_as_common_are_named_together():
    steps = pd.DataFrame({"step": ["1 mm", "0.1 mm", "1/8 in"], "buttons": [12, 12, 3]})
    assert bs.study.precision_findings(steps)[0] == (
        "Diameters of 27 buttons were read; the commonest steps were 1 mm and 0.1 mm "
        "(12 buttons each)."
    )
    classes = {"size_class": ["small", "medium"], "sets": [4.2, 4.0], "borderline_sets": [0, 0]}
    assert bs.study.class_findings(pd.DataFrame(classes))[0] == (
        "Commonest among the size classes: small and medium (about 4 each of about 8 sets)."
    )
