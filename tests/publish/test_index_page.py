import dataclasses

import pytest

from buttonstudy.publish.conventions import conventions
from buttonstudy.publish.index_page import (
    Link,
    Masthead,
    PageCard,
    index_page,
    problems_page,
)

MASTHEAD = Masthead("Buttons & <more>", (Link("a.html", "A"),), "Made today.", False, "")


@pytest.fixture
def index(survey):
    cards = [PageCard("a.html", "A <b>title</b>", "Of 3 sets, 2 (67 %) <i>.", b"", "")]
    shown = conventions("buttonstudy", "british-reigns", "us-society")
    return index_page(survey, MASTHEAD, cards, shown, {"Python": "3.11"})


def test_the_index_tells_what_was_surveyed_and_understood(index):
    assert "<dt>button records</dt><dd>4</dd>" in index
    assert "<dt>sets of matching buttons</dt><dd>3</dd>" in index
    assert "a.csv: 3 of 4 columns understood; not known: &lt;i&gt;Shelf&lt;/i&gt;" in index
    assert "<dt>named recorders</dt><dd>2</dd>" in index  # some records name nobody
    assert "3 not read, 1 to confirm, 1 for information." in index
    assert "ab" * 32 in index


def test_a_kind_told_in_several_words_is_shown_by_one_of_them(survey):
    problems = survey.problems.copy()
    problems.loc[1, "problem"] = "Another size has no unit."
    told = dataclasses.replace(survey, problems=problems)
    page = index_page(told, MASTHEAD, [], (), {})
    assert "Such as: This size has no unit." in page


def test_the_index_prints_the_conventions_in_force(index):
    for words in (
        "named <i>buttonstudy</i>",
        "named <i>british-reigns</i>",
        "named <i>us-society</i>",
    ):
        assert words in index
    assert "c. 1860" in index


def test_titles_and_leads_are_escaped(index):
    assert "A &lt;b&gt;title&lt;/b&gt;" in index
    assert "Of 3 sets, 2 (67\N{NO-BREAK SPACE}%) &lt;i&gt;." in index  # on one line
    assert "<more>" not in index


def test_every_problem_stands_on_the_page_of_problems(survey):
    page = problems_page(survey, MASTHEAD)
    assert page.count("<tbody>") == 3
    assert "&lt;b&gt;big&lt;/b&gt;" in page
    assert "Write the unit in the heading." in page


def test_what_can_be_accepted_is_told_with_its_code(survey):
    page = problems_page(survey, MASTHEAD)
    told = "accepted if it is right: <code>{}</code>"
    assert told.format("hundreds") in page
    assert told.format("heading") in page
    assert told.format("size-no-unit") not in page  # what was not read cannot be accepted


def test_very_many_problems_are_shortened_and_say_so(survey):
    many = survey.problems.iloc[[0] * 150].reset_index(drop=True)
    page = problems_page(dataclasses.replace(survey, problems=many), MASTHEAD)
    assert page.count("<tr>") == 101
    assert "The first 100 are shown; the others are in" in page


def test_a_survey_without_problems_says_so(survey):
    none = dataclasses.replace(survey, problems=survey.problems.iloc[:0])
    assert "There are none" in problems_page(none, MASTHEAD)
