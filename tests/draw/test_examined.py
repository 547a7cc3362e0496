import pandas as pd

from buttonstudy.draw import examined_figure
from buttonstudy.study import examined_by_field

BUTTONS = pd.DataFrame({"padding": ["wool", "wool", "absent", "unclear", "not examined", None]})


def test_a_row_parts_the_sets_by_what_became_of_them():
    drawn = examined_figure(examined_by_field(BUTTONS, ["padding", "thread"]))
    (axes,) = drawn.figure.axes
    pieces = [(patch.get_x(), patch.get_width()) for patch in axes.patches]
    assert pieces == [(0, 2), (2, 1), (3, 1), (4, 1), (5, 1), (0, 6)]
    words = [text.get_text() for text in drawn.figure.texts]
    assert {"Padding*", "3 of 6", "0 of 6", "not recorded"} <= set(words)
    assert drawn.alt_text == (
        "What was examined, on how many sets. Sets examined, of all: Padding 3 of 6, absent on 1; "
        "Thread 0 of 6."
    )


def test_states_that_do_not_occur_are_not_in_the_key():
    drawn = examined_figure(examined_by_field(BUTTONS[:2], ["padding"]))
    words = [text.get_text() for text in drawn.figure.texts]
    assert "examined, there" in words
    assert not {"could not be told", "not examined", "not recorded"} & set(words)


def test_no_buttons_are_said_in_words():
    drawn = examined_figure(examined_by_field(BUTTONS[:0]))
    assert drawn.figure is None
    assert drawn.caption == "There is no figure here: there are no buttons."
