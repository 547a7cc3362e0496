"""The article before it takes a form: numbered, harmless, and saying nothing twice."""

from types import SimpleNamespace

from buttonstudy.draw.drawn import Drawn
from buttonstudy.publish.newsletter.article import Article, Part, harmless
from buttonstudy.study.telling.words import WIDE_DATES_SHARED, wilson_words

FIGURE = SimpleNamespace()


def part(name, caption, *sentences, figure=FIGURE):
    return Part(name, name.title(), Drawn(figure, caption, "A picture.", name), sentences)


def made(*parts, notice="", **told):
    empty = dict.fromkeys(("lead", "method", "sources", "credits", "citation", "cautions"), ())
    words = {"title": "T", "survey": "S", "notice": notice, "size": "a5-column", "parts": parts}
    return harmless(Article(**(empty | words | told)))


def test_figures_are_numbered_and_those_not_drawn_are_not():
    article = made(part("a", "One."), part("b", "None here.", figure=None), part("c", "Two."))
    assert [one.number for one in article.parts] == [1, 0, 2]
    assert [one.caption for one in article.parts] == [
        "Figure 1. One.",
        "None here.",
        "Figure 2. Two.",
    ]


def test_nothing_is_said_twice():
    article = made(
        part("a", "One.", "Same.", "Own."), part("b", "Two.", "Same."), method=("M", "M")
    )
    assert [one.sentences for one in article.parts] == [("Same.", "Own."), ()]
    assert article.method == ("M",)


def test_periods_are_listed_once_here_and_always_in_a_figures_own_caption():
    article = made(
        part("a", "One. Periods: early, 1800–1810."), part("b", "Two. Periods: early, 1800–1810.")
    )
    assert article.parts[1].caption == "Figure 2. Two. Periods as in Figure 1."
    assert article.parts[1].drawn.caption == "Two. Periods: early, 1800–1810."


def test_a_caption_leaves_out_what_the_box_on_method_says():
    caption = f"Moulds: 9 sets, c. 1840. {WIDE_DATES_SHARED} Two. {wilson_words()}"
    method = "Sets with wide dates are shared out over the periods that their dates allow."
    article = made(part("a", caption), method=(method,))
    assert article.parts[0].caption == f"Figure 1. Moulds: 9 sets, c. 1840. Two. {wilson_words()}"
    assert article.parts[0].drawn.caption == caption  # which may be printed alone
    assert made(part("a", caption)).parts[0].caption == f"Figure 1. {caption}"


def test_other_periods_are_listed_again():
    article = made(part("a", "One. Periods: early."), part("b", "Two. Periods: late."))
    assert article.parts[1].caption == "Figure 2. Two. Periods: late."


def test_what_stands_in_a_table_is_looked_for_in_the_report():
    article = made(
        part(
            "a",
            "One. 4 further terms in the table only.",
            "Also, with intervals in the table: 1830.",
        )
    )
    assert article.parts[0].caption == "Figure 1. One. 4 further terms in the full report only."
    assert article.parts[0].sentences == ("Also, with intervals in the full report: 1830.",)


def test_signs_that_no_document_can_hold_are_taken_out():
    article = made(title="A\x00B\x1b[31m", sources=("x\ny\ud800.csv",), lead=("\u202eabc",))
    assert article.title == "A\ufffdB\ufffd[31m"
    assert article.sources == ("x y\ufffd.csv",)
    assert article.lead == ("\ufffdabc",)


def test_each_figure_of_invented_data_says_so_itself():
    article = made(part("a", "One."), notice="All invented.")
    drawn = article.parts[0].drawn
    assert drawn.caption == "One. Invented data, evidence of nothing."
    assert drawn.alt_text == "A picture. Invented data, evidence of nothing."
