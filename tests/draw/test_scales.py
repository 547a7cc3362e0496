from matplotlib.figure import Figure

from buttonstudy.draw.lettering import width_mm
from buttonstudy.draw.scales import count_scale, fitting_step, size_scales, ticks_between


def _axes():
    return Figure(figsize=(4, 2)).add_subplot()


def test_steps_leave_room_between_labels():
    for length in (15, 30, 60, 120):
        step = fitting_step(0, 250, length)
        assert step / 250 * length >= width_mm("250") + 1.9


def test_whole_numbers_are_the_finest_step():
    assert fitting_step(0, 3, 200) == 1


def test_ticks_are_the_multiples_between_the_ends():
    assert ticks_between(7.3, 21, 5) == [10, 15, 20]
    assert ticks_between(-2, 2, 2) == [-2, 0, 2]


def test_a_size_axis_has_millimetres_below_and_a_tick_at_every_even_line_above():
    axes = _axes()
    axes.set_xlim(10, 20)
    size_scales(axes, 60)
    assert axes.get_xticklabels()[0].get_text() == "10"
    (above,) = axes.child_axes
    marked = sorted([*above.get_xticks(), *above.get_xticks(minor=True)])
    # 16 lines are 10.16 mm, 30 lines 19.05 mm (1 line = 1/40 inch, GNU units definitions)
    assert {round(place / 0.635, 6) for place in marked} == {16, 18, 20, 22, 24, 26, 28, 30}


def test_counts_start_at_nought():
    axes = _axes()
    count_scale(axes, 12, 50)
    assert axes.get_xlim()[0] == 0
    assert axes.get_xlim()[1] > 12
