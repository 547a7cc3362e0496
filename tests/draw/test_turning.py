import pandas as pd
import pytest
from matplotlib.colors import to_hex

from buttonstudy.draw import turning_figure
from buttonstudy.draw.style import ink

ROW = {
    "field": "mould_material",
    "term": "bone",
    "sets": 90,
    "with_term": 31.0,
    "told": True,
    "direction": "came in",
    "turning_year": 1841.0,
    "low": 1832.0,
    "high": 1849.0,
    "share_before": 0.05,
    "share_after": 0.8,
    "earliest_from": 1828,
    "earliest_to": 1833,
    "latest_from": 1880,
    "latest_to": 1889,
}


def _drawn(*rows):
    return turning_figure(pd.DataFrame([ROW | row for row in rows]), source="invented.csv")


def _dots(drawn):
    (axes,) = drawn.figure.axes
    return [line for line in axes.lines if line.get_marker() == "o"]


def test_a_turning_year_stands_on_its_interval_before_the_sure_showings():
    drawn = _drawn({})
    (dot,) = _dots(drawn)
    assert dot.get_xdata()[0] == 1841
    (axes,) = drawn.figure.axes
    assert axes.collections[0].get_segments()[0][:, 0].tolist() == [1832, 1849]
    # To the end of the last year.
    assert (axes.patches[0].get_x(), axes.patches[0].get_width()) == (1828, 1890 - 1828)
    words = [text.get_text() for text in drawn.figure.texts]
    assert "came in 1841; 31 of 90" in words
    assert drawn.alt_text == (
        "When traits came in or went out. Mould material: bone: 31 of 90 sets, came in about 1841 "
        "(1832 to 1849), sure showings 1828 to 1889."
    )


def test_what_went_out_has_an_open_dot():
    came, went = _dots(_drawn({}, {"term": "wood", "direction": "went out"}))
    fills = [to_hex(dot.get_markerfacecolor()).upper() for dot in (came, went)]
    assert fills == [ink("ink").colour, ink("paper").colour]


def test_where_no_year_can_be_told_the_showings_stand_alone():
    drawn = _drawn({"told": False, "turning_year": None, "low": None, "high": None})
    assert _dots(drawn) == []
    assert "a year can be told for 0 of 1 trait." in drawn.caption
    assert not any("turning year" in text.get_text() for text in drawn.figure.texts)
    assert "no year can be told, sure showings 1828 to 1889" in drawn.alt_text


@pytest.mark.parametrize(
    ("table", "why"),
    [
        (pd.DataFrame([ROW])[:0], "no trait is asked for a turning year"),
        (
            pd.DataFrame([ROW | {"earliest_from": None}]),
            "no set with a date shows any of these traits",
        ),
    ],
)
def test_without_a_dated_showing_the_reason_stands(table, why):
    assert turning_figure(table).caption == f"There is no figure here: {why}."
