"""Gaps of a mat: filled before another mat is begun, and never too near what lies there."""

from __future__ import annotations

import pytest
import shapely

from service.craft.outlines import Outline, flatten
from service.craft.outlines.model import Line, Ring
from workers.outlines.layout import ANY_TURN, AS_PLACED
from workers.outlines.nesting.gaps import Gaps
from workers.outlines.nesting.mats import Shape, nest


def polygon(name: str, *corners: tuple[float, float]) -> Outline:
    first, *rest = corners
    return Outline(name, (Ring(first, tuple(Line(corner) for corner in rest)),))


def bed(width: float, height: float) -> Outline:
    return polygon("bed", (0, 0), (width, 0), (width, height), (0, height))


def region(outline: Outline) -> shapely.Polygon:
    return shapely.Polygon(flatten(outline.rings[0]))


FRAME = polygon("frame", (0, 0), (100, 0), (100, 20), (20, 20), (20, 100), (0, 100))


@pytest.mark.parametrize("turns", [AS_PLACED, ANY_TURN])
def test_a_piece_goes_into_the_gap_and_keeps_its_distance(turns: tuple[float, ...]) -> None:
    """Source: shapely's distance; a hook leaves 80 x 80 mm of a mat of 100 x 100."""
    gaps = Gaps(100, 100, 5)
    gaps.take([FRAME])
    laid = gaps.place(bed(70, 70), turns)
    assert laid is not None
    assert shapely.box(-0.01, -0.01, 100.01, 100.01).contains(region(laid))
    assert region(laid).distance(region(FRAME)) >= 5


def test_a_piece_that_no_gap_takes_is_left() -> None:
    gaps = Gaps(100, 100, 5)
    gaps.take([FRAME])
    assert gaps.place(bed(76, 76), AS_PLACED) is None


def test_what_was_placed_is_no_gap_any_more() -> None:
    gaps = Gaps(100, 100, 5)
    gaps.take([FRAME])
    placed = [gaps.place(bed(30, 30), AS_PLACED) for _ in range(5)]
    laid = [region(outline) for outline in placed if outline is not None]
    assert len(laid) == 4
    assert all(a.distance(b) >= 5 for n, a in enumerate(laid) for b in laid[:n])


def test_small_pieces_fill_the_first_mats_before_another_is_begun() -> None:
    """Three large hooks take mats of their own; all the small beds fit beside the first ones.

    Source for the distance: shapely.
    """
    hook = polygon("hook", (0, 0), (98, 0), (98, 30), (30, 30), (30, 98), (0, 98))
    shapes = [Shape(hook, AS_PLACED)] * 3 + [Shape(bed(25, 25), AS_PLACED)] * 8
    placed, left = nest(shapes, 110, 110, spacing_mm=5)
    assert left == []
    mats = [placed[i].mat for i in range(11)]
    assert sorted(mats[:3]) == [0, 1, 2]
    assert set(mats[3:]) == {0, 1}
    for i in range(11):
        for j in range(i):
            if mats[i] == mats[j]:
                assert region(placed[i].outline).distance(region(placed[j].outline)) >= 4.95
