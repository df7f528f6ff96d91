"""Stitches taken out of the middle of an edge are missed, whatever other thread lies there."""

import numpy as np
import pytest
import shapely

from tests.stitches.test_guides import jagged
from tests.stitches.test_mutations import fails, without
from workers.stitches.check_gaps import bare_between, check_gaps, join_split, lines_off, wide_steps
from workers.stitches.passes import sew_piece
from workers.stitches.pieces import FINISH

MISSING = "no stitches are missing in the edge"


def finishes(checked):
    return [n for n, one in enumerate(checked.hooping.passes) if one.kind == FINISH]


@pytest.mark.parametrize("count", [8, 12])
@pytest.mark.parametrize("name", ["letter a", "letter e", "ring", "leek", "circle"])
def test_stitches_missing_between_full_ones_are_found_all_round(write, settings, name, count):
    """Every place where the stitches before and after the gap are full ones, far from its corners or near."""
    checked, _ = write(name)
    for number in finishes(checked):
        first, last = checked.ranges[number]
        points = checked.sewn_in(number)
        full = np.linalg.norm(np.diff(points, axis=0), axis=1) > settings.width_mm
        for at in range(8, last - first - count - 8, 23):
            if full[at - 3 : at + count + 3].all():
                kinds, places, ranges = without(checked, first + at, first + at + count)
                assert MISSING in fails(checked, kinds, places, ranges), (number, at)


@pytest.mark.parametrize("seed", range(8))
def test_outlines_of_nothing_but_corners_have_no_false_alarm(piece, settings, seed):
    for edge in ("satin", "zigzag"):
        sewn = sew_piece(piece("bean", (jagged(seed),), edge=edge), settings)
        for one in sewn.passes:
            if one.kind == FINISH:
                turns = join_split(one.points)
                spacing, width = settings.spacing_of(edge), settings.width_of(edge)
                assert not len(wide_steps(turns, spacing, width)) and not len(bare_between(turns, spacing))


def test_a_hole_in_what_the_stitches_sweep_over_is_found_where_it_is():
    rows = np.arange(0.0, 10.0, 0.4)
    swung = np.stack([np.repeat(rows, 2), np.tile([0.0, 3.9], len(rows))], axis=1)
    assert not len(bare_between(swung, 0.4))
    torn = swung[(swung[:, 0] < 4) | (swung[:, 0] > 6)]
    assert np.abs(bare_between(torn, 0.4)[:, 0] - 5).max() < 1


def test_a_line_inside_thin_cloth_is_none_and_outside_it_goes_round():
    strip = shapely.box(0, 0, 20, 0.8)
    assert sum(len(line) for line in lines_off(strip, -0.5)) == 0
    (round_,) = lines_off(strip, 0.5)
    assert shapely.LineString(round_).length == pytest.approx(41.6 + np.pi, abs=0.05)


def test_edges_that_do_not_swing_are_not_asked(write):
    checked, _ = write("star", "blanket")
    assert check_gaps(checked) == []
    satin, _ = write("star")
    assert [check.ok for check in check_gaps(satin)] == [True, True]
