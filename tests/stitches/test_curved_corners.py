"""Corners between sides that bend at once: the edge keeps its width where nothing else lies near."""

from dataclasses import replace

import numpy as np
import pytest

from tests.stitches.shapes import circle
from workers.stitches.curves import reach_straight
from workers.stitches.hooping import plan_hoopings
from workers.stitches.passes import sew_piece
from workers.stitches.settings import Field
from workers.stitches.writing import write_hooping


@pytest.mark.parametrize("width_mm", [2.0, 3.5, 7.0, 10.0])
@pytest.mark.parametrize("name", ["crescent", "leaf", "star"])
def test_an_edge_of_any_width_passes_every_check_on_shapes_with_pointed_ends(piece, settings, name, width_mm):
    """Clipped at the straight bisector alone, a crescent of 7 mm satin lies bare beside its tips."""
    chosen = replace(settings, width_mm=width_mm)
    sewn = sew_piece(piece(name, settings=chosen), chosen)
    (hooping,) = plan_hoopings([sewn], Field(200, 200), settings)
    assert [check.name for check in write_hooping(hooping, settings).checks if not check.ok] == []


def test_a_side_runs_straight_until_it_has_turned_by_eleven_degrees():
    """0.2 radians of a circle of 20 mm are 4 mm, and the first half millimetre is looked at along its chord."""
    assert reach_straight(circle(20.0, 720)) == pytest.approx(4.25, abs=0.2)
    assert reach_straight(np.array([[0.0, 0.0], [30.0, 0.0], [30.0, 9.0]])) == 30.0
