"""Cut shapes: the allowance all round, tips trimmed so that they end where the neighbour ends."""

import math
from fractions import Fraction

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely import affinity

from service.craft.planar.figures import NotAFigure, make_figure
from service.craft.planar.naming import TemplateNames, letter
from service.craft.planar.templates import cut_outline, measure_box

S = 0.25
NEAR = pytest.approx
POINTS = st.lists(st.tuples(st.integers(0, 12), st.integers(0, 12)), min_size=3, max_size=6)


def box_of(points):
    return measure_box(points, Fraction(1, 64))


def test_a_rectangle_grows_by_the_allowance_on_every_side():
    assert cut_outline([(0, 0), (4, 0), (4, 3), (0, 3)], S) == [
        (-S, -S), (4 + S, -S), (4 + S, 3 + S), (-S, 3 + S),
    ]  # fmt: skip


def test_a_half_square_triangle_trimmed_is_as_wide_as_the_square_beside_it():
    """Trimmed at its tips, its short sides end where those of a square of that finished size end: f + 2s."""
    assert box_of(cut_outline([(0, 0), (4, 0), (0, 4)], S)) == (Fraction(9, 2), Fraction(9, 2))


@pytest.mark.parametrize("degrees", [20, 30, 45, 60, 75, 89])
def test_a_tip_ends_where_the_patch_beside_it_ends(degrees):
    """A patch and its neighbour along a straight outer edge: laid on each other along their seam, right sides
    together, their cut edges end in one point, and the tip of the sharp one stays on the neighbour's cloth (but
    for a crumb between 60 and 90 degrees, where both ends of the tip cannot have it so)."""
    far = 40.0
    angle = math.radians(degrees)
    tip = (0.0, 0.0)
    inner = (far * math.cos(angle), far * math.sin(angle))
    sharp = shapely.Polygon(cut_outline([tip, (far, 0.0), inner], S))
    blunt = shapely.Polygon(cut_outline([(-far, 0.0), tip, inner], S))
    # folded over along the seam, which runs from the tip to the inner point
    turned = affinity.rotate(blunt, -degrees, origin=tip)
    folded = affinity.rotate(affinity.scale(turned, 1, -1, origin=tip), degrees, origin=tip)
    near = shapely.box(-2, -2, 2, 2)
    crumb = S**2 / 7 if 60 < degrees < 90 else 1e-9
    assert sharp.intersection(near).difference(folded).area < crumb
    ends = [point for point in cut_outline([(-far, 0.0), tip, inner], S) if math.hypot(*point) < 2]
    mirrored = [affinity.rotate(shapely.Point(x, y), -degrees, origin=tip) for x, y in ends]
    flipped = [affinity.rotate(shapely.Point(p.x, -p.y), degrees, origin=tip) for p in mirrored]
    assert min(sharp.exterior.distance(point) for point in flipped) == NEAR(0, abs=1e-9)


@pytest.mark.parametrize("degrees", [15, 30, 45, 60, 80])
def test_cloth_is_left_beyond_every_point(degrees):
    """However sharp, what is left beyond the corner is never less than the allowance across."""
    angle = math.radians(degrees)
    shape = shapely.Polygon(cut_outline([(0, 0), (40, 0), (40 * math.cos(angle), 40 * math.sin(angle))], S))
    assert shape.exterior.distance(shapely.Point(0, 0)) == NEAR(S)


@given(POINTS)
def test_the_seam_line_lies_an_allowance_inside_the_cut_line_all_along(points):
    """Against Shapely: nowhere nearer than the allowance, and inside the untrimmed mitred shape."""
    try:
        corners = make_figure(points).corners
    except NotAFigure:
        return
    outline = shapely.Polygon(cut_outline(corners, S))
    finished = shapely.Polygon(corners)
    assert outline.is_valid
    assert outline.exterior.distance(finished) == NEAR(S, abs=1e-6)
    assert finished.buffer(S, join_style="mitre", mitre_limit=1000).buffer(1e-6).covers(outline)


@given(POINTS, st.integers(0, 3), st.booleans())
def test_turned_and_mirrored_shapes_have_turned_and_mirrored_cut_lines(points, turns, mirror):
    try:
        corners = list(make_figure(points).corners)
    except NotAFigure:
        return
    moved = [(-x, y) if mirror else (x, y) for x, y in corners]
    for _ in range(turns):
        moved = [(-y, x) for x, y in moved]
    first = shapely.Polygon(cut_outline(corners, S))
    second = shapely.Polygon(cut_outline(make_figure(moved).corners, S))
    assert first.area == NEAR(second.area)
    assert sorted(box_of(first.exterior.coords)) == sorted(box_of(second.exterior.coords))


def test_an_edge_shorter_than_the_allowance_in_a_hollow_is_bridged():
    """A notch a sixteenth deep and wide: the cut line passes over it, and is still an outline."""
    notch = [(0, 0), (4, 0), (4, 4), (2.06, 4), (2.06, 3.9), (2, 3.9), (2, 4), (0, 4)]
    outline = shapely.Polygon(cut_outline(notch, S))
    assert outline.is_valid
    assert outline.covers(shapely.Polygon(notch))


def test_a_box_is_rounded_up_but_not_for_noise():
    assert measure_box([(0, 0), (3.5 + 1e-13, 2.51)], Fraction(1, 8)) == (Fraction(7, 2), Fraction(21, 8))


def test_a_shape_is_found_again_on_another_grid_turned_and_mirrored():
    names, kite = TemplateNames(), [(0, 0), (5, 0), (6, 3), (1, 4)]
    first, over = names.find(make_figure(kite), 8)
    assert (first.letter, over) == ("A", False)
    finer = make_figure([(-3 * y, 3 * x) for x, y in kite])
    assert names.find(finer, 24) == (first, False)
    assert names.find(make_figure([(-x, y) for x, y in kite]), 8) == (first, True)
    assert names.find(make_figure(kite), 4)[0].letter == "B"


def test_letters_go_on_after_z():
    assert [letter(n) for n in (0, 25, 26, 51, 52)] == ["A", "Z", "AA", "AZ", "BA"]
