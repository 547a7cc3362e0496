import pytest

from buttonstudy.publish.describing import (
    Holdings,
    holdings,
    level_counts,
    one_line,
    problem_groups,
    row_ranges,
)

RANGES = [([], ""), ([3], "3"), ([2, 1, 2], "1–2"), ([9, 4, 5, 6, 12], "4–6, 9, 12")]
LINES = [
    ("a\tb\r\nc", "a b c"),
    ("\x1b]0;title\x07x", "\ufffd]0;title\ufffdx"),
    ("abc\u202egnp.exe", "abc\ufffdgnp.exe"),
    ("x" * 100, "x" * 79 + "…"),
]


def test_matching_buttons_are_one_set_and_a_button_without_set_is_its_own(survey):
    assert holdings(survey) == Holdings(files=1, buttons=4, sets=3, recorders=2)


def test_every_problem_is_in_exactly_one_group(survey):
    groups = problem_groups(survey.problems)
    assert sorted(index for group in groups for index in group.rows.index) == list(
        survey.problems.index
    )
    assert [(group.level, group.kind, len(group.rows)) for group in groups] == [
        ("not read", "size-no-unit", 3),
        ("to confirm", "hundreds", 1),
        ("for information", "heading", 1),
    ]


def test_levels_are_counted_gravest_first(survey):
    assert level_counts(survey.problems) == {
        "not read": 3,
        "to confirm": 1,
        "for information": 1,
    }


@pytest.mark.parametrize(("rows", "words"), RANGES)
def test_row_numbers_are_told_in_few_words(rows, words):
    assert row_ranges(rows) == words


@pytest.mark.parametrize(("text", "line"), LINES)
def test_text_of_a_survey_cannot_steer_a_terminal(text, line):
    assert one_line(text) == line
