"""Hatch lines lie inside their shape, evenly, and follow the cloth's lightness."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString, MultiLineString, Polygon

from service.craft.drawing.hatch import hatch_lines
from service.craft.drawing.styles import hatch_spacing_mm

L_SHAPE = [(0, 0), (30, 0), (30, 10), (10, 10), (10, 30), (0, 30)]


@given(
    st.lists(st.tuples(st.floats(1, 40), st.floats(1, 40)), min_size=3, max_size=3),
    st.floats(0, 179),
    st.floats(0.4, 5),
)
@settings(max_examples=60, deadline=None)
def test_lines_stay_inside_any_triangle(corners, degrees, spacing):
    """Held against shapely, which knows nothing of how the lines were made."""
    shape = Polygon(corners).buffer(1e-6)
    for line in hatch_lines([[corners]], spacing_mm=spacing, degrees=degrees):
        assert LineString(line).within(shape.buffer(1e-6))


@pytest.mark.parametrize("degrees", [0, 20, 45, 110, 160])
def test_length_times_spacing_is_the_area(degrees):
    """Parallel lines of spacing s are s-wide slices of the shape, so their length times s is its area."""
    lines = hatch_lines([[L_SHAPE]], spacing_mm=0.05, degrees=degrees)
    length = sum(math.dist(*line) for line in lines)
    assert length * 0.05 == pytest.approx(Polygon(L_SHAPE).area, rel=0.005)


def test_a_hole_is_left_bare():
    outer, hole = [(0, 0), (20, 0), (20, 20), (0, 20)], [(5, 5), (15, 5), (15, 15), (5, 15)]
    lines = MultiLineString(hatch_lines([[outer, hole]], spacing_mm=1, degrees=45))
    assert lines.intersection(Polygon(hole).buffer(-0.001)).length == 0
    assert lines.length == pytest.approx(300, rel=0.02)


def test_neighbouring_patches_of_one_cloth_share_their_lines():
    left, right = [(0, 0), (5, 0), (5, 4), (0, 4)], [(5, 0), (9, 0), (9, 4), (5, 4)]
    assert hatch_lines([[left], [right]], spacing_mm=2, degrees=0) == [((0, 1), (9, 1)), ((0, 3), (9, 3))]


def test_no_shape_and_no_size_give_no_lines():
    assert hatch_lines([], spacing_mm=1, degrees=45) == []
    assert hatch_lines([[[(3, 3), (3, 3), (3, 3)]]], spacing_mm=1, degrees=45) == []


def test_darker_cloth_has_a_closer_hatch_and_white_has_none():
    greys = [hatch_spacing_mm(f"#{level:02x}{level:02x}{level:02x}") for level in range(0, 240, 16)]
    assert greys == sorted(greys)
    assert len(set(greys)) == len(greys)
    assert hatch_spacing_mm("#ffffff") is None
