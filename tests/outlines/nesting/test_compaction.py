"""Shapes that lie on a strip are pushed together: nearer its start, never too near each other, never off it."""

from __future__ import annotations

import random
from math import cos, pi, sin

import pytest
import shapely

from service.craft.outlines import Outline
from service.craft.outlines.affine import Affine
from service.craft.outlines.model import Line, Ring
from service.craft.outlines.polygons import to_polygon
from workers.outlines.nesting.bodies import MOST_CORNERS, make_body, measure_least_gap
from workers.outlines.nesting.compaction import HAIR_MM, compact


def polygon(*corners: tuple[float, float]) -> Outline:
    first, *rest = corners
    return Outline("leek", (Ring(first, tuple(Line(corner) for corner in rest)),))


def box(left: float, top: float, width: float, height: float) -> Outline:
    return polygon((left, top), (left + width, top), (left + width, top + height), (left, top + height))


def length(outlines: list[Outline]) -> float:
    return max(outline.box_mm[3] for outline in outlines)


def least_distance(outlines: list[Outline]) -> float:
    """Source: shapely's distance of every two."""
    shapes = [to_polygon(outline) for outline in outlines]
    return min(a.distance(b) for n, a in enumerate(shapes) for b in shapes[:n])


def test_boxes_one_above_the_other_close_up_to_the_spacing() -> None:
    """Worked by hand: 30 + 4 + 20 + 4 + 10 mm, from the start of the strip."""
    laid = [box(0, 5, 50, 30), box(2, 60, 48, 20), box(1, 90, 49, 10)]
    assert length(compact(laid, [False] * 3, 50, 4)) == pytest.approx(68, abs=0.2)


def test_a_bar_that_may_turn_lies_down_and_one_that_may_not_keeps_its_turn() -> None:
    """Worked by hand: a bar of 60 x 10 mm lying aslant ends 10 mm from the start; unturned it is as high as before."""
    bar = box(0, 0, 60, 10).moved(Affine.moving(10, 0) @ Affine.turning(30))
    high = bar.box_mm[3] - bar.box_mm[1]
    assert length(compact([bar], [True], 80, 5)) == pytest.approx(10, abs=0.3)
    (kept,) = compact([bar.moved(Affine.moving(0, 7))], [False], 80, 5)
    assert length([kept]) == pytest.approx(high, abs=0.2)
    assert kept.box_mm[3] - kept.box_mm[1] == pytest.approx(high, abs=1e-9)


def test_a_corner_in_a_bay_keeps_from_both_its_sides() -> None:
    """Worked by hand: a square of 25 mm stands on its corner, 35.36 mm high, in a notch 30 mm deep with sides at right
    angles. Its tip ends 4 x √2 = 5.66 mm above the bottom, and its upper corner at the strip's start.
    """
    notched = polygon((0, 0), (30, 30), (60, 0), (60, 40), (0, 40)).moved(Affine.moving(0, 50))
    square = box(0, 0, 25, 25).moved(Affine.moving(30, 3) @ Affine.turning(45))
    pressed = compact([notched, square], [False, False], 60, 4)
    assert length(pressed) == pytest.approx(35.36 + 5.66 + 10, abs=0.2)
    assert least_distance(pressed) >= 4 - HAIR_MM


def draw(chance: random.Random, size: float) -> Outline:
    """Corners at even angles at distances of their own: points and bays."""
    count = chance.randint(3, 30)
    ways = [(2 * pi * n / count, size * chance.uniform(0.15, 0.5)) for n in range(count)]
    return polygon(*((out * cos(turn), out * sin(turn)) for turn, out in ways))


def scatter(seed: int, spacing: float) -> list[Outline]:
    """Shapes one below the other at chance places across, the spacing and more apart."""
    chance = random.Random(seed)
    laid: list[Outline] = []
    at = 0.0
    for _ in range(chance.randint(2, 9)):
        outline = draw(chance, chance.uniform(20, 90))
        left, top, right, bottom = outline.box_mm
        laid.append(outline.moved(Affine.moving(chance.uniform(0, 100 - right + left) - left, at - top)))
        at += bottom - top + spacing
    return laid


@pytest.mark.parametrize("seed", range(24))
def test_what_is_pushed_together_is_shorter_and_legal(seed: int) -> None:
    """Source: shapely's distances and the shapes' own boxes."""
    spacing, free = (0.5, 3.0, 8.0)[seed % 3], seed % 2 == 0
    laid = scatter(seed, spacing)
    pressed = compact(laid, [free] * len(laid), 100, spacing)
    assert length(pressed) < length(laid)
    assert least_distance(pressed) >= spacing - HAIR_MM
    assert min(o.box_mm[0] for o in pressed) >= -HAIR_MM
    assert max(o.box_mm[2] for o in pressed) <= 100 + HAIR_MM
    for before, after in zip(laid, pressed, strict=True):
        assert to_polygon(after).area == pytest.approx(to_polygon(before).area, rel=1e-6)
        if not free:
            x, y = after.rings[0].start[0] - before.rings[0].start[0], after.box_mm[1] - before.box_mm[1]
            moved = shapely.affinity.translate(to_polygon(before), x, y)
            assert to_polygon(after).symmetric_difference(moved).area < 1e-6


def test_the_same_shapes_are_pushed_to_the_same_places() -> None:
    laid = scatter(5, 3.0)
    assert compact(laid, [True] * len(laid), 100, 3.0) == compact(laid, [True] * len(laid), 100, 3.0)


def test_what_lies_as_near_as_it_may_stays_where_it_is() -> None:
    """Nothing is moved for no gain: two boxes that fill the strip come back as they were given."""
    laid = [box(0, 0, 50, 30), box(0, 34, 50, 30)]
    assert compact(laid, [False] * 2, 50, 4) == laid


def test_shapes_that_lie_too_near_are_given_back_where_they_cannot_be_shortened_legally() -> None:
    """What compaction is handed it never makes worse."""
    laid = [box(0, 0, 50, 30), box(0, 31, 50, 30)]
    assert compact(laid, [False] * 2, 50, 4) == laid


def test_the_gap_counts_what_a_body_leaves_out_of_a_jagged_edge() -> None:
    """Source: shapely: the true distance of two jagged shapes is no less than the gap of their bodies says."""
    ways = [(2 * pi * n / 4000, 30 + (0.4 if n % 2 else -0.4)) for n in range(4000)]
    leaf = polygon(*((out * cos(turn), out * sin(turn)) for turn, out in ways))
    laid = [leaf, leaf.moved(Affine.moving(66, 3))]
    bodies = [make_body(outline, may_turn=True) for outline in laid]
    assert all(len(body.corners) <= MOST_CORNERS for body in bodies)
    gap = measure_least_gap(bodies, 20)
    assert 3 < gap <= least_distance(laid) < gap + 4
    assert measure_least_gap(bodies, 2) == 2


def test_a_body_carries_its_outline_where_its_corners_went() -> None:
    """Source: shapely's area of what only one of the two covers."""
    leaf = draw(random.Random(1), 60)
    body = make_body(leaf, may_turn=True).pushed(3, -4, 12).pushed(1, 1, -5)
    carried = to_polygon(body.carry(leaf))
    assert carried.symmetric_difference(shapely.Polygon(body.corners)).area < 0.01 * carried.area
