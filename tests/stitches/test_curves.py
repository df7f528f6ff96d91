import numpy as np
import pytest

from tests.stitches.shapes import ZOO, circle, leaf, square, star
from workers.stitches.curves import begin_near, clean_ring, find_corners, lengths_along, orient, start_at


@pytest.mark.parametrize(
    ("ring", "corners"),
    [
        (square(), 4),
        (star(), 10),
        (star(9, 24, 15), 18),
        (leaf(), 2),
        (leaf(50, 3), 2),
        (circle(), 0),
        (circle(2, 48), 0),
    ],
)
def test_corners_are_found_where_a_shape_has_them_and_nowhere_on_a_bend(ring, corners):
    assert len(find_corners(ring)) == corners


def test_corners_are_found_at_the_vertices_themselves():
    assert find_corners(square()) == [0, 1, 2, 3]


@pytest.mark.parametrize("name", ZOO)
def test_a_ring_begun_elsewhere_is_the_same_curve_of_the_same_length(name):
    ring = ZOO[name][0]
    begun = start_at(ring, find_corners(ring))
    whole = lengths_along(np.vstack([ring, ring[:1]]))[-1]
    assert lengths_along(np.vstack([begun, begun[:1]]))[-1] == pytest.approx(whole, abs=1e-6)


def test_a_ring_begins_in_the_middle_of_its_longest_side():
    begun = start_at(np.array([[0, 0], [10, 0], [10, 4], [0, 4.0]]), [0, 1, 2, 3])
    assert begun[0].tolist() == [5.0, 0.0]


def test_a_ring_can_begin_at_a_place_between_its_vertices():
    begun = begin_near(square(10), np.array([10.0, 3.0]))
    assert begun.tolist() == [[10, 3], [10, 10], [0, 10], [0, 0], [10, 0]]


def test_normals_point_onto_the_cloth_whichever_way_the_outline_was_drawn():
    for ring in (square(), square()[::-1]):
        for inside, sign in ((True, 1), (False, -1)):
            turned = orient(ring, cloth_inside=inside)
            along = turned[1] - turned[0]
            normal = np.array([-along[1], along[0]])
            to_middle = ring.mean(axis=0) - turned[0]
            assert np.sign(normal @ to_middle) == sign


@pytest.mark.parametrize(
    "bad", [np.zeros((5, 2)), np.array([[0, 0], [1, np.nan], [2, 2]]), np.zeros((3, 3)), np.zeros((0, 2))]
)
def test_what_is_no_ring_is_refused_in_words(bad):
    with pytest.raises(ValueError, match="a ring"):
        clean_ring(bad)
