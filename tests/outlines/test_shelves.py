"""Boxes on mats: inside, apart, and all of them."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import box

from workers.outlines.shelves import BoxItem, lay_boxes

sides = st.floats(1, 90)
items = st.lists(st.builds(BoxItem, sides, sides, st.booleans()), max_size=25)


@given(items)
def test_every_box_lies_inside_its_mat_and_apart_from_the_others(boxes: list[BoxItem]) -> None:
    """Source: shapely's distance between rectangles; a mat of 100 x 120 mm, 5 mm between boxes."""
    spots = lay_boxes(boxes, 100, 120, spacing=5)
    laid = []
    for item, spot in zip(boxes, spots, strict=True):
        assert not spot.turned or item.may_turn
        width, height = (item.height, item.width) if spot.turned else (item.width, item.height)
        laid.append((spot.mat, box(spot.x, spot.y, spot.x + width, spot.y + height)))
    for i, (mat, one) in enumerate(laid):
        assert box(-1e-9, -1e-9, 100 + 1e-9, 120 + 1e-9).contains(one)
        assert all(one.distance(other) >= 5 - 1e-9 for there, other in laid[:i] if there == mat)


@given(items)
def test_mats_are_filled_from_the_first_on_and_none_is_empty(boxes: list[BoxItem]) -> None:
    used = {spot.mat for spot in lay_boxes(boxes, 100, 120, spacing=5)}
    assert used == set(range(len(used)))


def test_a_full_mat_is_followed_by_another() -> None:
    """Worked by hand: boxes of 45 with 5 between them go two by two on 100 x 120."""
    assert [spot.mat for spot in lay_boxes([BoxItem(45, 45)] * 5, 100, 120, spacing=5)] == [0, 0, 0, 0, 1]


def test_a_box_that_only_fits_turned_is_turned() -> None:
    assert lay_boxes([BoxItem(110, 30, may_turn=True)], 100, 120, spacing=5)[0].turned


def test_a_box_larger_than_the_mat_is_an_error() -> None:
    with pytest.raises(ValueError, match="fits no mat"):
        lay_boxes([BoxItem(110, 30)], 100, 120, spacing=5)
