"""The article in a notebook, in the order in which a reader will meet it."""

from html import escape
from typing import TYPE_CHECKING

from buttonstudy.publish.newsletter.article import CAUTION_LEAD, Article
from buttonstudy.publish.showing import Shown, ShownRecord, show

if TYPE_CHECKING:
    from buttonstudy.publish.page import Page

__all__ = ["show_newsletter"]


def show_newsletter(article: Article, page: "Page") -> None:
    """Show an article on a page, which numbers its figures and saves them.

    Parameters
    ----------
    article
        What `draft_newsletter` gave.
    page
        The notebook's page, called ``newsletter``.
    """
    if article.notice:
        page.note(article.notice)
    _heading(article.title, 2)
    page.say(article.survey)
    for sentence in article.lead:
        page.say(sentence)
    for part in article.parts:
        _heading(part.heading, 3)
        page.figure(part.drawn)
        for sentence in part.sentences:
            page.say(sentence)
    for heading, sentences in article.boxes:
        _heading(heading, 3)
        if heading == CAUTION_LEAD:
            page.caution(*sentences)
            continue
        for sentence in sentences:
            page.say(sentence)


def _heading(words: str, level: int) -> None:
    html = f"<h{level}>{escape(words)}</h{level}>"
    show(Shown(words, ShownRecord(kind="heading"), html=html))
