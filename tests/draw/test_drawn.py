from io import BytesIO

import matplotlib
import pytest

from buttonstudy import draw, study
from buttonstudy.draw.drawn import not_drawn
from buttonstudy.draw.style import house_style


def _figure(buttons):
    return draw.size_distribution(study.size_histogram(buttons), source="invented.csv").figure


def _bytes(figure, kind):
    content = BytesIO()
    with house_style():
        figure.savefig(content, format=kind, metadata={"Date": None} if kind == "svg" else None)
    return content.getvalue()


def test_a_missing_figure_says_why():
    drawn = not_drawn("sizes", "no button has a size")
    assert drawn.figure is None
    assert drawn.caption == "There is no figure here: no button has a size."


@pytest.mark.parametrize("kind", ["png", "svg"])
def test_the_same_numbers_give_the_same_file(buttons, kind):
    assert _bytes(_figure(buttons), kind) == _bytes(_figure(buttons), kind)


def test_drawing_leaves_pyplot_and_its_settings_alone(buttons):
    import matplotlib.pyplot as plt

    before = dict(matplotlib.rcParams)
    _figure(buttons)
    assert plt.get_fignums() == []
    assert dict(matplotlib.rcParams) == before


def test_a_saved_picture_has_the_width_that_was_asked_for(buttons):
    from PIL import Image

    drawn = draw.size_distribution(study.size_histogram(buttons), "a5-column")
    with house_style():
        content = BytesIO()
        drawn.figure.savefig(content, format="png")
    width, _ = Image.open(content).size
    assert abs(width / 300 * 25.4 - 57) < 0.1  # 300 dots per inch


def test_every_figure_is_reached_from_the_package():
    assert all(callable(getattr(draw, name)) for name in draw.__all__)
    with pytest.raises(AttributeError, match="has no 'pie'; it has Drawn, at_least_figure"):
        draw.pie  # noqa: B018
