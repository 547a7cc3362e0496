import pytest

from buttonstudy.draw.panels import Panel, Row, plan_panels
from buttonstudy.draw.sheet import Sheet
from buttonstudy.draw.style import house_style, print_size


def _plan(size, panels, rows, label="bone", foot_mm=6.0, **options):
    listed = tuple(Row(f"{label} {place}", "12 of 39", place == rows - 1) for place in range(rows))
    sheet = Sheet(print_size(size), "Title", "Note", "invented.csv")
    return sheet, plan_panels(
        sheet, [Panel(f"panel {place}", listed) for place in range(panels)], foot_mm, **options
    )


# print size, panels -> panels side by side
SIDE_BY_SIDE = {
    ("a5-column", 4): 1,
    ("a5-page", 1): 1,
    ("a5-page", 4): 2,
    ("a4-page", 3): 3,
    ("a4-page", 4): 2,
}


@pytest.mark.parametrize(("case", "columns"), SIDE_BY_SIDE.items())
def test_panels_stand_side_by_side_where_the_page_is_wide_enough(case, columns):
    size, panels = case
    assert _plan(size, panels, 3)[1].columns == columns


def test_panels_that_do_not_fit_are_counted():
    sheet, plan = _plan("a5-page", 40, 9)
    assert plan.left_out == 40 - len(plan.panels) > 0
    assert plan.body_mm <= sheet.room_mm


def test_rows_that_do_not_fit_are_counted_and_the_last_one_stays():
    sheet, plan = _plan("a5-page", 1, 90)
    kept = plan.panels[0].rows
    assert plan.rows_left_out == 90 - len(kept) > 0
    assert kept[-1].label == "bone 89"
    assert plan.body_mm <= sheet.room_mm


def test_a_long_label_takes_a_share_of_the_width_only():
    sheet, plan = _plan("a5-column", 1, 3, label="wound over a former of uncertain stuff" * 2)
    assert plan.label_mm < 0.45 * sheet.width_mm
    assert plan.axes_mm > 0.2 * sheet.width_mm


def test_rows_stand_at_their_place_in_millimetres():
    sheet, plan = _plan("a5-page", 1, 3)
    with house_style():
        (placed,) = plan.place(sheet)
    height = placed.axes.get_position().height * sheet.figure.get_size_inches()[1] * 25.4
    assert placed.axes.get_ylim() == pytest.approx((height, 0))
    assert list(placed.middles) == sorted(placed.middles)
    assert placed.middles[-1] < height


def test_room_for_a_scale_is_added_above_and_below():
    _, without = _plan("a5-page", 1, 3)
    _, with_head = _plan("a5-page", 1, 3, head_mm=7.0)
    assert with_head.body_mm - without.body_mm == pytest.approx(7)
