"""The plain text: everything in its order, a paragraph a line."""

from buttonstudy.publish.newsletter.text import article_text


def test_everything_stands_in_its_order(article):
    text = article_text(article)
    first = article.parts[0]
    order = [
        "What 40 sets of buttons show\n============================\n",
        "The Tarn drawer\n",
        article.lead[0],
        "Size by period\n--------------\n",
        "[Figure 1 goes here: figures/newsletter-sizes-diameter-by-period, as .png, ",
        f"Caption: {first.caption}\n",
        f"Alternative text: {first.drawn.alt_text}\n",
        first.sentences[0],
        "Sources\n-------\n",
        "Credits\n-------\n",
        "How to cite\n-----------\n",
        "How this was done\n-----------------\n",
        "Before you open a button\n------------------------\n",
    ]
    places = [text.index(words) for words in order]
    assert places == sorted(places)


def test_invented_data_say_so_at_the_top(demo_article):
    assert article_text(demo_article).splitlines()[3] == demo_article.notice
