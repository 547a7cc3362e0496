"""The article in its notebook."""

from buttonstudy.publish import page as page_module
from buttonstudy.publish.newsletter import showing
from buttonstudy.publish.newsletter.showing import show_newsletter
from buttonstudy.publish.page import Page


def test_the_notebook_shows_the_article_in_its_order(article, monkeypatch):
    things = []
    monkeypatch.setattr(page_module, "show", things.append)
    monkeypatch.setattr(showing, "show", things.append)
    show_newsletter(article, Page("newsletter"))
    kinds = [thing.record["kind"] for thing in things]
    assert kinds[:6] == ["heading", "say", "say", "heading", "figure", "caption"]
    assert kinds[-2:] == ["heading", "caution"]
    texts = [thing.text for thing in things]
    assert texts[0] == article.title
    figures = [thing.record for thing in things if thing.record["kind"] == "figure"]
    assert [one["alt"] for one in figures] == [part.drawn.alt_text for part in article.parts]
    assert [one["name"] for one in figures] == [part.stem for part in article.parts]


def test_words_of_a_survey_are_escaped(survey, draft, monkeypatch):
    things = []
    monkeypatch.setattr(page_module, "show", things.append)
    monkeypatch.setattr(showing, "show", things.append)
    show_newsletter(draft(survey, title="<b>x</b>"), Page("newsletter"))
    assert things[0].html == "<h2>&lt;b&gt;x&lt;/b&gt;</h2>"
