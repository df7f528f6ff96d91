"""The crosses on the placement drawing stand where the middles of the hoopings are."""

import math
import re

import numpy as np
import pytest

from service.craft.drawing import CrossView, draw_top
from service.craft.drawing.crosses import CLEAR_MM, LABEL_MM, LINE, draw_cross
from service.craft.drawing.sheet import Sheet
from service.craft.drawing.views import ClothView, PatchView, TopView


def square_top(side):
    patch = PatchView(((0.0, 0.0), (side, 0.0), (side, side), (0.0, side)), "leaf")
    return TopView("bed", side, side, "in", {"leaf": ClothView("leaf", "leaf", "#4d6b3a", 0)}, (patch,))


def numbers(path):
    return np.array(re.findall(r"-?[\d.]+", path), dtype=float).reshape(-1, 2)


def read_lines(svg, width):
    return [
        numbers(found)
        for found in re.findall(rf'<path d="([^"]+)"[^>]*stroke-width="{width}"', svg)
        if found.count("L") == 1
    ]


@pytest.mark.parametrize("turned", [0, 30, 90, 215])
@pytest.mark.parametrize("at", [(60.0, 40.0), (101.6, 133.35)])
def test_its_lines_cross_at_the_middle_and_its_arrow_points_to_the_upper_edge_of_the_hoop(at, turned):
    """A top of 8 in, 203.2 mm, is drawn about 86 mm high: a hundredth of the drawing is 0.024 mm of the top."""
    svg = draw_top(square_top(8.0), max_height_mm=95.0, legend=False, crosses=[CrossView(at, turned, "H1")])
    patch = next(numbers(d) for d in re.findall(r'<path d="([^"]+)"', svg) if len(numbers(d)) >= 4)
    left, top = patch.min(axis=0)
    scale = np.ptp(patch[:, 0]) / 203.2
    level, upright, *head = read_lines(svg, LINE.width_mm)
    for line in (level, upright):
        assert (line.mean(axis=0) - (left, top)) / scale == pytest.approx(at, abs=0.05)
    way = upright[1] - upright[0]
    up = np.array([-np.sin(np.radians(turned)), -np.cos(np.radians(turned))])
    assert way / np.linalg.norm(way) == pytest.approx(up, abs=0.01)
    assert all(side[1] == pytest.approx(upright[1]) for side in head) and len(head) == 2


@pytest.mark.parametrize("near", [(30.0, 22.4), (31.0, 20.0)])
def test_its_label_leaves_the_arrow_where_a_number_would_cover_it(near):
    sheet, cross = Sheet(60.0, 60.0, title="bed"), CrossView((0.0, 0.0), 0, "H2")
    assert draw_cross(sheet, (30.0, 30.0), cross) == pytest.approx((30.0, 30.0 - LABEL_MM))
    label = draw_cross(sheet, (30.0, 30.0), cross, [near])
    assert math.dist(label, near) >= CLEAR_MM and math.dist(label, (30.0, 30.0)) == pytest.approx(LABEL_MM)


def test_its_label_stands_where_most_room_is_left_if_no_end_is_free():
    ends = [(30.0, 22.4), (37.6, 30.0), (22.4, 30.0), (30.0, 40.5)]
    label = draw_cross(Sheet(60.0, 60.0, title="bed"), (30.0, 30.0), CrossView((0.0, 0.0), 0, "H2"), ends)
    assert label == pytest.approx((30.0, 30.0 + LABEL_MM))
