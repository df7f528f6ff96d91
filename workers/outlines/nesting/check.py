"""Looks over a layout by other means than those that made it: distances between the outlines themselves."""

from __future__ import annotations

from collections.abc import Sequence

import shapely

from service.craft.outlines import Outline, flatten
from service.craft.outlines.affine import Affine

ROOM_FOR_ERROR_MM = 0.05
"""Chords stand in for curves, and places are rounded: half the width of a pencil line."""

SAME_MM = 0.05


def find_layout_faults(
    laid: Sequence[Outline],
    wanted: Sequence[Outline],
    turns: Sequence[tuple[float, ...]],
    room_mm: tuple[float, float, float, float],
    spacing_mm: float,
) -> list[str]:
    """What is wrong with the outlines laid on one mat, in words; nothing if the layout may be cut.

    `wanted` are the outlines unturned, `turns` what each may be turned by (empty: anything); `room_mm` is the mat less
    its margin: left, top, right, bottom.
    """
    shapes = [_region(outline) for outline in laid]
    left, top, right, bottom = room_mm
    room = shapely.box(left, top, right, bottom).buffer(ROOM_FOR_ERROR_MM, join_style="mitre")
    faults = [
        f"{o.name} leaves the mat's room" for o, s in zip(laid, shapes, strict=True) if not room.covers(s)
    ]
    for outline, shape, original, allowed in zip(laid, shapes, wanted, turns, strict=True):
        if allowed and not any(_is_turned_by(shape, original, turn) for turn in allowed):
            faults.append(f"{outline.name} is turned as it may not be")
        if not allowed and not _is_as_large(shape, _region(original)):
            faults.append(f"{outline.name} is no longer the shape it was")
    return faults + _find_near(laid, shapes, spacing_mm)


def _find_near(laid: Sequence[Outline], shapes: Sequence[shapely.Polygon], spacing_mm: float) -> list[str]:
    """Pairs that overlap or come too near, found by way of a tree of their boxes."""
    tree = shapely.STRtree(shapes)
    close = tree.query(shapes, predicate="dwithin", distance=spacing_mm - ROOM_FOR_ERROR_MM)
    return [f"{laid[a].name} lies too near {laid[b].name}" for a, b in close.T if a < b]


def _is_turned_by(shape: shapely.Polygon, original: Outline, turn: float) -> bool:
    """Whether a shape is the original turned by so many degrees and moved."""
    expected = _region(original.moved(Affine.turning(turn)))
    shift = [a - b for a, b in zip(shape.bounds, expected.bounds, strict=True)]
    if max(shift[0::2]) - min(shift[0::2]) > SAME_MM or max(shift[1::2]) - min(shift[1::2]) > SAME_MM:
        return False
    moved = shapely.affinity.translate(expected, shift[0], shift[1])
    return bool(shape.symmetric_difference(moved).area <= SAME_MM * expected.length)


def _is_as_large(shape: shapely.Polygon, expected: shapely.Polygon) -> bool:
    """Whether area and length of edge are those expected, which any turn leaves as they are."""
    off = abs(shape.area - expected.area), abs(shape.length - expected.length)
    return off[0] <= SAME_MM * expected.length and off[1] <= 0.01 * expected.length


def _region(outline: Outline) -> shapely.Polygon:
    """The cloth that a piece takes: its holes too, for what is cut out of them is waste."""
    return shapely.Polygon(flatten(outline.rings[0]))
