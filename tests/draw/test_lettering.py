import pytest
from hypothesis import given
from hypothesis import strategies as st

from buttonstudy.draw.lettering import drawable, has_gaps, lettering, line_height_mm, width_mm

# text, width in mm -> lines
BROKEN = [
    ("bone", 30, "bone"),
    ("", 30, ""),
    ("wood and bone and horn", 20, "wood and bone\nand horn"),
    ("gutta-percha/vulcanite", 20, "gutta-percha/\nvulcanite"),
    ("share, 95 % interval", 13, "share,\n95 %\ninterval"),
    ("at most 16 mm wide", 14, "at most\n16 mm\nwide"),
    ("Donaudampfschiffknopf", 20, "Donaudampfsc\nhiffknopf"),
]


@pytest.mark.parametrize(("text", "within", "lines"), BROKEN)
def test_text_is_broken_between_words_then_after_marks_then_within_a_word(text, within, lines):
    assert lettering(text, within).text == lines


@given(text=st.text(max_size=90), within=st.floats(4, 120))
def test_no_line_is_wider_than_its_place_and_no_letter_is_lost(text, within):
    broken = lettering(text, within)
    assert broken.width_mm <= within + 1e-9
    joined = broken.text.replace("\n", "").replace(" ", "")
    assert joined == drawable(text).replace(" ", "")


def test_the_height_is_that_of_the_lines():
    assert lettering("wood and bone and horn", 20).height_mm == 2 * line_height_mm()


def test_wider_letters_and_bold_ones_take_more_room():
    assert width_mm("mmm") > width_mm("iii") > 0
    assert width_mm("bone", bold=True) > width_mm("bone")
    assert width_mm("bone", 14) == pytest.approx(2 * width_mm("bone", 7))


def test_letters_that_the_typeface_lacks_are_open_boxes():
    assert drawable("釦 bone") == "▯ bone"
    assert drawable("пуговица κουμπί") == "пуговица κουμπί"
    assert [has_gaps("bone"), has_gaps("bone", "釦")] == [False, True]


def test_controls_and_line_breaks_never_reach_a_figure():
    assert drawable("bone\x00\n\twood\u202e") == "bone wood"
