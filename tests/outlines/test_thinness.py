"""The thinnest part of a shape: necks and narrow stems, never tips."""

from __future__ import annotations

import numpy as np
import pytest
import shapely

from service.craft.outlines import Outline
from service.craft.outlines.model import Line, Ring
from workers.outlines.thinness import WIDEST_MM, find_thinnest_mm


def outline(shape: shapely.Polygon) -> Outline:
    rings = [list(ring.coords)[:-1] for ring in (shape.exterior, *shape.interiors)]
    return Outline("shape", tuple(Ring(first, tuple(map(Line, rest))) for first, *rest in rings))


@pytest.mark.parametrize("width", [1.0, 2.0, 4.5, 8.0])
def test_the_neck_between_two_beans_is_found(width: float) -> None:
    """Worked by hand: two squares of 20 mm joined by a bar of known width, to half a millimetre."""
    beans = [shapely.box(0, 0, 20, 20), shapely.box(30, 0, 50, 20), shapely.box(19, 10, 31, 10 + width)]
    found = find_thinnest_mm(outline(shapely.union_all(beans)))
    assert width - 0.5 <= found <= width


def test_a_stem_is_as_thin_as_it_is_wide() -> None:
    assert 5.5 <= find_thinnest_mm(outline(shapely.box(0, 0, 6.1, 80))) <= 6.1


def test_the_rim_round_a_hole_counts() -> None:
    ring = shapely.Point(0, 0).buffer(20).difference(shapely.Point(5, 0).buffer(13))
    assert 1.0 <= find_thinnest_mm(outline(ring)) <= 2.0


def test_the_tip_of_a_leaf_is_no_thin_part() -> None:
    leaf = shapely.Point(0, 0).buffer(40).intersection(shapely.Point(50, 0).buffer(40))
    assert find_thinnest_mm(outline(leaf)) == WIDEST_MM


def test_a_jagged_edge_is_pared_as_any_other() -> None:
    """A hostile edge: two thousand corners, in and out by a millimetre. Source: shapely's own paring of the whole."""
    turns = np.linspace(0, 2 * np.pi, 2000, endpoint=False)
    out = 12 * (1 + 0.08 * np.cos(371 * turns)) * (1 + 0.3 * np.cos(2 * turns))
    shape = shapely.Polygon(np.c_[out * np.cos(turns), out * np.sin(turns)]).buffer(0)
    found = find_thinnest_mm(outline(shape))
    parts = [shapely.get_parts(shape.buffer(-width / 2)) for width in (found - 0.05, found + 0.55)]
    counts = [sum(part.buffer(found / 2).area > 4.0 for part in some) for some in parts]
    assert counts[0] == 1 or found == WIDEST_MM
    assert counts[1] != 1 or found == WIDEST_MM
