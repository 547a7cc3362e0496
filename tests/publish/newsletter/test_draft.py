"""A survey becomes an article, with the kit's own sentences and the cautions it calls for."""

import dataclasses
import re

import pytest

from buttonstudy import study
from buttonstudy.publish.errors import CallError
from buttonstudy.publish.newsletter.figures import figure_choices
from buttonstudy.schemes import SchemeError
from buttonstudy.study.telling.words import WIDE_DATES_SHARED, wilson_words
from buttonstudy.survey.load import load_survey


def test_sentences_are_those_of_the_notebooks(article, survey):
    from buttonstudy.schemes import period_scheme

    shares = study.shares_by_period(
        survey.buttons, "mould_material", period_scheme("british-reigns")
    )
    assert list(article.parts[1].sentences) == study.share_findings(shares, "mould_material")
    assert article.lead == (study.survey_findings(survey.buttons)[0],)


def test_the_article_says_how_numbers_were_got_and_what_they_cannot_say(article):
    method = " ".join(article.method)
    assert "Matching buttons of one set are one piece of evidence" in method
    assert "95 % Wilson intervals" in method
    assert "Dates were read by the convention “buttonstudy”." in method
    assert method.endswith("not of the buttons of a period.")


def test_what_the_box_on_method_says_is_left_out_of_real_captions(article):
    for stock, matter in ((WIDE_DATES_SHARED, "wide dates are"), (wilson_words(), "Wilson")):
        own = [part for part in article.parts if stock in part.drawn.caption]
        assert own
        assert not any(matter in part.caption for part in own)
        assert sum(matter in sentence for sentence in article.method) == 1
    sizes, moulds = article.parts
    assert "buttons sharing its weight." in sizes.caption
    assert moulds.caption.startswith("Figure 2. Mould material by period: 40 sets examined")


FIGURE = "sizes-diameter-by-period"


def test_an_article_calls_the_survey_as_its_files_do_unless_told_otherwise(survey, draft):
    called = dataclasses.replace(survey, sources=survey.sources.assign(survey_name="Tarn's fen"))
    assert draft(called, [FIGURE]).survey == "Tarn's fen"
    assert draft(called, [FIGURE], survey_name="Other").survey == "Other"
    assert draft(survey, [FIGURE]).survey == "tarn.csv"


def test_periods_of_the_survey_s_own_are_called_so_unless_they_have_a_title(
    survey, draft, tmp_path
):
    own = tmp_path / "my-periods.csv"
    own.write_text("label,year_from,year_to\nBefore the bridge,1700,1900\n")
    method = draft(survey, [FIGURE], period_scheme=str(own)).method
    assert "Periods: the survey's own, as the figures' captions give them." in method
    own.write_text("title,label,year_from,year_to\nOur bridges,Before,1700,1900\n")
    assert "Periods: Our bridges." in draft(survey, [FIGURE], period_scheme=str(own)).method


def test_sentences_on_method_are_whole_and_none_is_two(article):
    for choice in figure_choices().values():
        for sentence in choice.method:
            assert sentence == sentence.strip()
            assert sentence.endswith(".")
            assert not re.search(r"[.!?] [A-Z]", sentence)


def test_cautions_are_those_that_the_survey_calls_for(article):
    hazards = [one.partition(":")[0] for one in article.cautions]
    assert "Arsenic in greens" in hazards
    assert "Cellulose nitrate" not in hazards
    assert hazards[-1] == "Local codes and licensed practice"


def test_titles_are_true_of_the_survey(article, survey, draft, tmp_path):
    assert article.title == "What 40 sets of buttons show"
    assert draft(survey, title="Of moulds").title == "Of moulds"
    one = tmp_path / "one.csv"
    one.write_text("No,Diam (mm),Date\n1,16,1830\n", encoding="utf-8")
    assert draft(load_survey([one])).title == "What one button shows"


def test_a_real_survey_carries_no_notice_and_the_invented_one_does(article, demo_article):
    assert article.notice == ""
    assert demo_article.notice.startswith("Invented data: ")
    for part in demo_article.parts:
        drawn = " ".join(text.get_text() for text in part.drawn.figure.texts)
        assert "Invented data" in " ".join(drawn.split())


def test_names_that_are_none_are_told(survey, draft):
    with pytest.raises(CallError, match="There is no figure called 'x'"):
        draft(survey, ["x"])
    with pytest.raises(SchemeError, match='no print size called "a6-page"'):
        draft(survey, size="a6-page")


def test_what_is_compared_and_how_moulds_without_a_hole_count_is_as_in_the_report(draft, tmp_path):
    fills = ["wax", "open", "wax", "open", "absent"]
    rows = (f"{row},{1790 + 70 * (row % 2)},{fills[row % 5]},bone,yes\n" for row in range(60))
    path = tmp_path / "fills.csv"
    path.write_text("No,Date,Hole fill,Mould,Opened\n" + "".join(rows), encoding="utf-8")
    names = ["comparison-estimated-shares", "fills-hole-fill-by-period", "comparison-two-periods"]
    told = {
        "compare": ["hole_fill"],
        "earlier": "Georgian before the Regency",
        "later": "Mid Victorian",
    }
    article = draft(load_survey([path]), names, **told)
    estimated, counted, between = article.parts
    assert "at most 48 examined sets" in estimated.drawn.caption
    assert "48 sets examined of 48" in counted.drawn.caption
    assert between.drawn.caption.startswith("Mid Victorian against Georgian")
    assert "Hole fill: none" not in estimated.drawn.alt_text


def test_dates_with_a_question_mark_are_told_first(draft, tmp_path):
    path = tmp_path / "asked.csv"
    path.write_text("No,Date,Mould\n1,1790s?,bone\n2,1800,wood\n", encoding="utf-8")
    article = draft(load_survey([path]))
    assert article.lead[0].startswith("The survey holds 2 button records")
    assert article.lead[1].startswith("1 set has a date marked as uncertain")
