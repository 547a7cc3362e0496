import pytest

from buttonstudy.draw.lettering import lettering
from buttonstudy.draw.sheet import KeyEntry, Sheet
from buttonstudy.draw.style import house_style, ink, print_size


def _sheet(key=(), note="What is counted."):
    return Sheet(print_size("a5-column"), "A title", note, "invented.csv", key)


def _key(*names):
    return [KeyEntry(ink("deep"), name) for name in names]


def test_a_figure_is_as_wide_as_its_place_and_as_high_as_its_parts():
    with house_style():
        low, high = _sheet().open(20), _sheet().open(50)
    assert low.get_size_inches()[0] * 25.4 == pytest.approx(57)
    grown = (high.get_size_inches()[1] - low.get_size_inches()[1]) * 25.4
    assert grown == pytest.approx(30)


def test_axes_stand_where_they_are_put():
    sheet = _sheet()
    with house_style():
        figure = sheet.open(30)
        box = sheet.axes(5, 10, 40, 20).get_position()
    width, height = figure.get_size_inches() * 25.4
    assert box.width * width == pytest.approx(40)
    assert box.height * height == pytest.approx(20)
    assert box.x0 * width == pytest.approx(sheet.left_mm + 5)


def test_longer_notes_and_keys_leave_less_room():
    assert _sheet(note="What is counted. " * 9).room_mm < _sheet().room_mm
    assert _sheet(_key("one", "two")).room_mm < _sheet().room_mm
    assert _sheet(_key(*["a longer entry"] * 6)).room_mm < _sheet(_key("one", "two")).room_mm


def test_there_is_no_figure_before_the_sheet_is_open():
    with pytest.raises(RuntimeError, match="The sheet is not open yet"):
        _ = _sheet().figure


def test_an_empty_text_writes_nothing():
    sheet = _sheet()
    with house_style():
        figure = sheet.open(10)
        before = len(figure.texts)
        sheet.text(0, 0, lettering("", 20))
    assert len(figure.texts) == before
