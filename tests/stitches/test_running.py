import numpy as np
import pytest
import shapely

from tests.stitches.shapes import ZOO, circle, square, star
from workers.stitches.running import drop_short, sew_running, tie_in, tie_off


def lengths(points):
    return np.linalg.norm(np.diff(points, axis=0), axis=1)


def test_stitches_on_a_straight_side_are_equal_and_no_longer_than_asked(settings):
    sewn = lengths(sew_running(square(40), settings, length_mm=2.5))
    assert sewn == pytest.approx(np.full(64, 2.5))


@pytest.mark.parametrize("ring", [square(41), star()])
def test_every_corner_has_a_needle_point(settings, ring):
    sewn = sew_running(ring, settings)
    for corner in ring:
        assert np.linalg.norm(sewn - corner, axis=1).min() < 1e-9


@pytest.mark.parametrize("radius", [3.0, 5.0, 20.0])
def test_a_chord_leaves_a_bend_by_no_more_than_the_bound(settings, radius):
    """Sagitta of a circle: r - sqrt(r² - (c/2)²)."""
    longest = lengths(sew_running(circle(radius), settings)).max()
    assert radius - np.sqrt(radius**2 - (longest / 2) ** 2) <= settings.chord_off_mm * 1.1


@pytest.mark.parametrize("name", ZOO)
def test_a_running_stitch_stays_on_the_outline_and_closes(settings, name):
    ring = ZOO[name][0]
    sewn = sew_running(ring, settings)
    assert sewn[0] == pytest.approx(sewn[-1])
    line = shapely.LinearRing(ring)
    assert max(line.distance(p) for p in shapely.points(sewn)) < 1e-6
    assert lengths(sewn).min() >= settings.shortest_mm


def test_short_stitches_go_and_both_ends_stay():
    rng = np.random.default_rng(7)
    for _ in range(50):
        points = np.cumsum(rng.uniform(0, 0.6, size=(60, 2)), axis=0)
        kept = drop_short(points, least_mm=0.55)
        assert (kept[0] == points[0]).all() and (kept[-1] == points[-1]).all()
        assert lengths(kept).min() >= 0.55
        assert lengths(kept).max() < 1.8


def test_ties_are_small_stitches_that_end_where_they_began(settings):
    points = np.array([[0, 0], [5, 0], [5, 5.0]])
    tied = tie_off(tie_in(points, settings), settings)
    assert lengths(tied)[:4] == pytest.approx(np.full(4, 0.6))
    assert lengths(tied)[-4:] == pytest.approx(np.full(4, 0.6))
    assert tied[4].tolist() == [0, 0] and tied[-1].tolist() == [5, 5]
