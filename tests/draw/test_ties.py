import math

import pandas as pd
import pytest
from matplotlib.colors import to_hex

from buttonstudy.draw import ties_figure
from buttonstudy.draw.style import ink
from buttonstudy.study import ties_of


def _survey(both, first, second, neither):
    fills = ["felt"] * (both + first) + ["open"] * (second + neither)
    moulds = ["wood"] * both + ["bone"] * first + ["wood"] * second + ["bone"] * neither
    return pd.DataFrame({"hole_fill": fills, "mould_material": moulds})


def _drawn(*cells):
    table = ties_of(_survey(*cells), "hole_fill", ["mould_material"])
    pair = (table["term"] == "felt") & (table["group"] == "wood")
    return ties_figure(table[pair], source="invented.csv")


def _dot(drawn):
    (axes,) = drawn.figure.axes
    (dot,) = [line for line in axes.lines if line.get_marker() == "o"]
    return dot.get_xdata()[0], to_hex(dot.get_markerfacecolor()).upper()


def _arrows(drawn):
    (axes,) = drawn.figure.axes
    return [line.get_marker() for line in axes.lines if line.get_marker() in ("<", ">")]


def test_a_tie_stands_on_a_scale_of_times_with_its_counts():
    # Fisher's twins of convicts, as in R's help page of fisher.test: conditional odds ratio
    # 0.04693661, 95 % interval 0.003325764 to 0.363182271.
    drawn = _drawn(2, 15, 10, 3)
    place, fill = _dot(drawn)
    assert math.exp(place) == pytest.approx(0.04693661, rel=1e-4)
    assert fill == ink("ink").colour
    interval = drawn.figure.axes[0].collections[0].get_segments()[0][:, 0]
    assert math.exp(interval[1]) == pytest.approx(0.363182271, rel=1e-4)
    assert _arrows(drawn) == ["<"]  # 0.0033 lies beyond the scale
    assert "2 of 12; 15 of 18" in [text.get_text() for text in drawn.figure.texts]
    assert "“felt” with mould material wood: 0.05 (from 0.00 up to 0.36)" in drawn.alt_text


def test_an_interval_that_holds_one_has_an_open_dot():
    assert _dot(_drawn(12, 12, 12, 12))[1] == ink("paper").colour


def test_an_open_interval_ends_in_an_arrowhead():
    assert _arrows(_drawn(12, 12, 12, 12)) == []
    assert _arrows(_drawn(12, 0, 12, 24)) == [">"]
    assert _arrows(_drawn(0, 24, 12, 12)) == ["<"]


def test_without_a_pair_the_reason_stands():
    nothing = ties_of(_survey(1, 1, 1, 1), "hole_fill", ["mould_material"])
    assert ties_figure(nothing).caption == (
        "There is no figure here: no pair of features is known on enough sets."
    )
