from itertools import combinations, pairwise

import pytest

from buttonstudy.draw.shelves import Box, packed

SIZES = [10, 40, 7, 90, 30, 30, 30, 12, 55, 8, 8, 8, 8, 100]


@pytest.mark.parametrize(("width", "height"), [(100, 130), (120, 150), (190, 260)])
def test_boxes_stay_on_the_page_and_apart(width, height):
    boxes = [Box(size, size, 10) for size in SIZES]
    placed = packed(boxes, width, height)
    assert sorted(one.number for one in placed) == list(range(len(SIZES)))
    for one in placed:
        box = boxes[one.number]
        assert one.left >= 0
        assert one.left + box.width <= width
        assert one.foot - box.above >= 0
        assert one.foot + box.below <= height
    for one, other in combinations(placed, 2):
        a, b = boxes[one.number], boxes[other.number]
        beside = one.left + a.width <= other.left or other.left + b.width <= one.left
        over = one.foot + a.below <= other.foot - b.above
        assert one.page != other.page or beside or over
    assert all(one.page <= other.page for one, other in pairwise(placed))


def test_alike_boxes_keep_their_order():
    placed = packed([Box(20, size, 10) for size in (10, 20, 15, 12, 18, 20, 11)], 66, 70)
    assert [one.number for one in placed] == list(range(7))


def test_no_page_but_the_last_keeps_an_empty_third_where_something_fits():
    # Each third row is too tall for what is left of its page.
    boxes = [Box(100, size, 5) for size in (60, 90, 30, 80, 30, 30, 95, 30)]
    placed = packed(boxes, 100, 130)
    for page in range(placed[-1].page):
        ends = [one.foot + boxes[one.number].below for one in placed if one.page == page]
        waiting = [one.number for one in placed if one.page > page]
        fits = min(boxes[number].above + 5 for number in waiting)
        assert max(ends) > 130 * 2 / 3 or max(ends) + 3 + fits > 130


def test_what_is_over_is_dealt_out_between_rows_and_boxes():
    placed = packed([Box(27, 20, 13)] * 16, 130, 140)
    assert sorted({one.left for one in placed}) == pytest.approx([0, 34.3, 68.7, 103], abs=0.1)
    feet = sorted({one.foot for one in placed if one.page == 0})
    assert [after - before for before, after in pairwise(feet)] == pytest.approx(
        [44.0] * 2, abs=0.1
    )


def test_nothing_to_place_is_no_page():
    assert packed([], 100, 100) == []
