from itertools import combinations, pairwise

import pytest

from buttonstudy.draw.shelves import Box, packed

SIZES = [10, 40, 7, 90, 30, 30, 30, 12, 55, 8, 8, 8, 8, 100]


@pytest.mark.parametrize(("width", "height"), [(100, 130), (120, 150), (190, 260)])
def test_boxes_stay_on_the_page_in_order_and_apart(width, height):
    boxes = [Box(size, size, 10) for size in SIZES]
    placed = packed(boxes, width, height)
    assert [one.number for one in placed] == list(range(len(SIZES)))
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


def test_nothing_to_place_is_no_page():
    assert packed([], 100, 100) == []
