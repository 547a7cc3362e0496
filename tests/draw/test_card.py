import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg

from buttonstudy.draw.card import CardLine, card_figures
from buttonstudy.draw.paper import paper
from buttonstudy.schemes import SchemeError

TERMS = tuple(f"term number {n}" for n in range(120))
LINES = [
    CardLine("Button no.", (), (), False),
    CardLine("Mould diameter (Paris lines)", ("absent", "not examined", "unclear"), (), True),
    *[
        CardLine(f"Feature {n}", ("absent", "not examined", "unclear"), TERMS, n % 2 == 0)
        for n in range(26)
    ],
]


def texts(figure):
    renderer = FigureCanvasAgg(figure).get_renderer()
    return [(one.get_text(), one.get_window_extent(renderer)) for one in figure.axes[0].texts]


@pytest.mark.parametrize("name", ["A5", "A4"])
def test_nothing_on_a_card_overlaps_or_leaves_the_page(name):
    on = paper(name)
    for figure in card_figures(LINES, on):
        assert figure.get_size_inches() * 25.4 == pytest.approx((on.width_mm, on.height_mm))
        placed = texts(figure)
        page = figure.bbox
        for number, (words, box) in enumerate(placed):
            assert page.x0 < box.x0 < box.x1 < page.x1, words
            assert page.y0 < box.y0 < box.y1 < page.y1, words
            for other, beside in placed[:number]:
                assert not box.overlaps(beside), (words, other)


def test_every_line_and_box_has_its_words():
    words = [text for text, _ in texts(card_figures(LINES[:3], paper("A5"))[0])]
    assert {"Button no.", "Feature 0"} <= set(words)
    assert words.count("not examined") == 2


def test_terms_that_do_not_fit_go_on_to_another_page():
    _, *backs = card_figures(LINES, paper("A5"))
    assert len(backs) > 1
    labels = [text for figure in backs for text, _ in texts(figure) if text.startswith("Feature")]
    assert labels == [f"Feature {n}" for n in range(26)]
    assert len(card_figures(LINES[:2], paper("A5"))) == 1


def test_an_unknown_paper_is_told_with_those_there_are():
    with pytest.raises(SchemeError, match='no paper called "A6". Use one of: A5, A4'):
        paper("A6")
