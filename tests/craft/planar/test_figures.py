"""Figures: corners in whole grid steps."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import Polygon

from service.craft.planar.figures import Line, NotAFigure, grid_step, line_through, make_figure, to_grid

POINTS = st.lists(st.tuples(st.integers(-9, 9), st.integers(-9, 9)), min_size=3, max_size=7)


def test_direction_and_starting_corner_do_not_matter():
    corners = [(0, 0), (4, 0), (4, 2), (0, 2)]
    rotated = corners[2:] + corners[:2]
    assert make_figure(corners) == make_figure(rotated) == make_figure(corners[::-1])


def test_a_point_on_a_straight_edge_is_no_corner():
    assert make_figure([(0, 0), (2, 0), (4, 0), (4, 2), (0, 2)]).corners == ((0, 0), (4, 0), (4, 2), (0, 2))


def test_a_point_named_twice_is_one_corner():
    assert make_figure([(1, 0), (1, 0), (2, 1), (1, 2), (1, 2), (0, 1), (0, 1)]).corners == (
        *((1, 0), (2, 1)),
        *((1, 2), (0, 1)),
    )


@pytest.mark.parametrize(
    "points",
    [[(0, 0), (1, 1), (2, 2)], [(0, 0), (2, 2), (2, 0), (0, 2)], [(0, 0), (1, 0)], [(0, 0)] * 4, []],
    ids=["on a line", "crossing", "two points", "one point", "nothing"],
)
def test_corners_without_an_area_of_their_own_are_no_figure(points):
    with pytest.raises(NotAFigure):
        make_figure(points)


@given(POINTS)
def test_a_figure_is_what_a_general_geometry_library_calls_a_simple_polygon(points):
    """Reference: Shapely 2 (`Polygon.is_valid`, `Polygon.area`), for corners that are true corners."""
    try:
        figure = make_figure(points)
    except NotAFigure:
        outline = Polygon(points)
        assert not outline.is_valid or outline.area == 0 or len(set(points)) < len(points)
    else:
        outline = Polygon(figure.corners)
        assert outline.is_valid
        assert outline.area * 2 == figure.doubled_area > 0


def test_a_line_is_the_same_from_both_ends_and_in_lowest_terms():
    assert line_through((0, 2), (4, 4)) == line_through((4, 4), (0, 2)) == Line(1, -2, -4)


def test_the_grid_is_as_fine_as_the_finest_point_needs():
    points = [(Fraction(1, 2), Fraction(3)), (Fraction(2, 3), Fraction(7, 8))]
    assert grid_step(points) == 24
    assert to_grid(points, 24) == ((12, 72), (16, 21))
