import numpy as np
import pytest
import shapely

from workers.stitches.nearness import Stitches


@pytest.mark.parametrize(("reach", "longest"), [(0.2, 4.0), (0.6, 2.0), (1.5, 9.0), (0.2, 0.0)])
def test_points_within_reach_are_those_shapely_measures_as_near(reach, longest):
    """Held against the distance to the union of all stitches, by another library."""
    chance = np.random.default_rng(7)
    start = chance.uniform(-30, 30, size=(400, 2))
    stitches = np.stack([start, start + chance.uniform(-longest, longest, size=(400, 2))], axis=1)
    points = chance.uniform(-45, 45, size=(4000, 2))
    lines = shapely.MultiLineString(list(stitches))
    near = shapely.distance(lines, shapely.points(points)) <= reach
    assert Stitches(stitches, reach).reach(points).tolist() == near.tolist()
    assert near.any() and not near.all()


def test_no_stitches_reach_nothing():
    assert not Stitches(np.zeros((0, 2, 2)), 1.0).reach(np.zeros((5, 2))).any()
