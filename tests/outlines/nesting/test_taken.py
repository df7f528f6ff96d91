"""The room a shape takes on a mat: all of it within half the spacing, hardly more, and few corners."""

from __future__ import annotations

from math import cos, pi, sin

import pytest
import shapely

from service.craft.outlines import Outline, flatten
from service.craft.outlines.model import Line, Ring
from workers.outlines.nesting.taken import MOST_CORNERS, OVERREACH_MM, WIDER_MM, find_room_taken, simplify


def ripples(nodes: int, amplitude_mm: float, waves: int) -> Outline:
    """A leaf of 40 by 24 mm whose edge goes in and out."""
    corners = []
    for n in range(nodes):
        turn = 2 * pi * n / nodes
        out = 1 + amplitude_mm / 20 * sin(waves * turn)
        corners.append((20 * out * cos(turn), 12 * out * sin(turn)))
    first, *rest = corners
    return Outline("leaf", (Ring(first, tuple(Line(corner) for corner in rest)),))


LEAVES = {
    "smooth": ripples(400, 0.0, 0),
    "traced": ripples(2000, 0.05, 180),
    "torn": ripples(2000, 1.0, 60),
    "coarse": ripples(7, 0.0, 0),
}


@pytest.mark.parametrize("half_mm", [0.5, 2.5, 10.0])
@pytest.mark.parametrize("leaf", LEAVES.values(), ids=LEAVES)
def test_the_room_holds_all_within_half_the_spacing_and_little_more(leaf: Outline, half_mm: float) -> None:
    """Source: shapely's buffer with rounds of 256 sides a quarter, of the shape as it is cut."""
    room = shapely.Polygon(find_room_taken(leaf, half_mm))
    shape = shapely.Polygon(flatten(leaf.rings[0]))
    assert room.is_valid
    assert room.buffer(1e-3).contains(shape.buffer(half_mm, quad_segs=256))
    assert shape.buffer(half_mm + OVERREACH_MM + WIDER_MM, quad_segs=256).contains(room)
    left, top, right, bottom = shape.bounds
    box = shapely.box(left - half_mm, top - half_mm, right + half_mm, bottom + half_mm)
    assert box.buffer(1e-6).contains(room)


def test_a_finely_drawn_edge_leaves_few_corners() -> None:
    """An ellipse has as many whether drawn with 400 nodes or traced with 2,000."""
    few, traced = (len(find_room_taken(LEAVES[name], 2.5)) for name in ("smooth", "traced"))
    assert few < 60
    assert traced < 60


@pytest.mark.parametrize("teeth_mm", [0.3, 0.8])
def test_a_jagged_edge_loses_its_teeth_and_says_by_how_much(teeth_mm: float) -> None:
    """The ring runs no further beside the one drawn than it says; source: shapely's Hausdorff distance."""
    jagged = shapely.Polygon(flatten(ripples(4000, teeth_mm, 2000 - 1).rings[0]))
    simple, left_out = simplify(jagged, 0.02)
    assert len(simple.exterior.coords) <= MOST_CORNERS
    assert jagged.exterior.hausdorff_distance(simple.exterior) <= left_out
    assert simple.buffer(left_out).contains(jagged)
