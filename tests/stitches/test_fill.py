"""Filled areas: cover, travel and stitch lengths, on every shape of the zoo and in three directions."""

from itertools import pairwise

import numpy as np
import pytest
import shapely

from tests.stitches.shapes import ZOO
from workers.stitches.fill import TooBrokenUp, sew_fill
from workers.stitches.settings import USUAL

ANGLES = (0, 35, 90)
CASES = [(name, angle) for name in ZOO for angle in ANGLES]


def filled(name, angle):
    area = shapely.Polygon(ZOO[name][0], ZOO[name][1:])
    runs = sew_fill(area, angle, USUAL)
    return area, runs, np.concatenate([np.stack([r[:-1], r[1:]], axis=1) for r in runs])


@pytest.mark.parametrize(("name", "angle"), CASES)
def test_a_fill_covers_997_in_a_thousand_and_its_needle_never_leaves_the_area(name, angle):
    """Thread 0.4 mm wide (E. Campbell). Rows reach out by the pull, and round a mitred tip by twice that."""
    area, runs, stitches = filled(name, angle)
    thread = shapely.union_all(shapely.buffer(shapely.linestrings(stitches), 0.2, quad_segs=4))
    assert thread.intersection(area).area / area.area >= 0.997
    room = area.buffer(USUAL.pull_mm + 0.05, join_style="mitre", mitre_limit=2.0)
    outside = shapely.length(shapely.difference(shapely.linestrings(stitches), room))
    assert outside.max() < 0.3
    assert len(runs) == 1


@pytest.mark.parametrize(("name", "angle"), [c for c in CASES if not c[0].startswith("tiny")])
def test_hardly_a_stitch_of_a_fill_is_short_and_none_is_longer_than_said(name, angle):
    _, _, stitches = filled(name, angle)
    lengths = np.linalg.norm(stitches[:, 1] - stitches[:, 0], axis=1)
    assert (lengths < 0.7).mean() < 0.02
    assert lengths.min() >= USUAL.shortest_mm and lengths.max() <= USUAL.longest_fill_mm


def test_needle_points_of_neighbouring_rows_do_not_line_up():
    """A furrow shows where rows are pierced at the same place; here five rows go by before that comes again."""
    _, _, stitches = filled("square", 0)
    inner = stitches[:, 1][(np.abs(stitches[:, 1] - 20) < 14).all(axis=1)]
    rows = {}
    for x, y in inner.round(3):
        rows.setdefault(y, set()).add(round(float(x) % USUAL.fill_stitch_mm, 2))
    heights = sorted(rows)
    assert len(heights) > 50
    assert all(rows[a].isdisjoint(rows[b]) for a, b in pairwise(heights))


def test_an_area_like_lace_is_refused():
    holes = [shapely.box(x, y, x + 1.5, y + 1.5) for x in range(0, 60, 3) for y in range(0, 60, 3)]
    lace = shapely.box(-2, -2, 61, 61).difference(shapely.union_all(holes))
    with pytest.raises(TooBrokenUp, match="sections"):
        sew_fill(lace, 0, USUAL)
