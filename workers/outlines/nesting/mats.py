"""Shapes on mats of one size: a strip as wide as the mat is solved, what lies on its first mat stays, and so on."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from service.craft.outlines import Outline
from service.craft.outlines.affine import Affine
from service.craft.outlines.polygons import to_polygon
from workers.outlines.nesting.compaction import compact
from workers.outlines.nesting.gaps import SOME_TURNS, Gaps
from workers.outlines.nesting.strip import StripItem, StripProblem, TookTooLong, solve_strip
from workers.outlines.nesting.taken import OVERREACH_MM, find_room_taken
from workers.outlines.shelves import BoxItem, lay_boxes
from workers.patience import Left, endless

MOST_AT_ONCE = 48
"""So many shapes are solved at once; a mat that would hold more small ones is filled as far as these go."""

LEAST_SECONDS = 20.0
"""By the clock of who asked, for check and files: with less left nothing is nested."""

ENOUGH = 0.62
"""A strip so much shorter than rows of the boxes is short enough: the search for the last per cent takes longest."""

MOST_STARTS, FEWEST_STARTS = 4, 2
SHAPES_SEARCHED = 40
"""Layouts are searched for anew until so many shapes were laid in all of them, and the shortest is taken."""

SHORT_MM = 100.0
"""On a strip no longer than this another start would save a millimetre or two of cloth, which nobody sees."""

MOST_STRIPS = 6
"""So many strips are solved for one cloth and mat; what is left then is for the caller to lay in another way."""

CLOSE_MM = 1e-6

EASE_MM = 0.01
"""The strip is wider by this, so that a shape as wide as the mat has room for the last digit."""


@dataclass(frozen=True)
class Shape:
    """An outline (mm) and the turns it may lie in, degrees; no turns: any."""

    outline: Outline
    turns: tuple[float, ...]


@dataclass(frozen=True)
class Nested:
    """Where a shape lies: on which mat, and its outline there; the mat's usable room begins at (0, 0)."""

    mat: int
    outline: Outline


def nest(
    shapes: Sequence[Shape], width_mm: float, height_mm: float, *, spacing_mm: float, left: Left = endless
) -> tuple[dict[int, Nested], list[int]]:
    """Places by the shape's number, and the numbers of those that were left out, on mats of this usable room.

    Every shape must fit the room in one of its turns at least. The same shapes give the same places; `TookTooLong`
    where what is `left` does not last for that.
    """
    rest = list(range(len(shapes)))
    placed: dict[int, Nested] = {}
    for mat in range(MOST_STRIPS):
        if not rest:
            break
        chosen = _choose(shapes, rest, width_mm * height_mm)
        laid = _lay_strip([shapes[i] for i in chosen], width_mm, height_mm, spacing_mm, left)
        if laid is None:
            break
        on_mat = {i: outline for i, outline in zip(chosen, laid, strict=True) if outline}
        others = [i for i in rest if i not in on_mat]
        on_mat |= _fill_gaps(shapes, others, on_mat, (width_mm, height_mm, spacing_mm), left)
        placed |= {i: Nested(mat, outline) for i, outline in on_mat.items()}
        rest = [i for i in rest if i not in on_mat]
    return placed, rest


def _count_seconds(left: Left) -> float:
    """What may be waited now, by the clock of who asked."""
    seconds = left() - LEAST_SECONDS
    if seconds <= 0:
        raise TookTooLong
    return seconds


def _fill_gaps(
    shapes: Sequence[Shape],
    others: Sequence[int],
    laid: Mapping[int, Outline],
    room: tuple[float, float, float],
    left: Left,
) -> dict[int, Outline]:
    """What else goes on a mat (width, height, spacing), the largest first: so the last mat has least to hold."""
    gaps = Gaps(*room)
    gaps.take(laid.values())
    found: dict[int, Outline] = {}
    free = room[0] * room[1] - sum(_area(outline) for outline in laid.values())
    refused: set[tuple[object, ...]] = set()
    for i in sorted(others, key=lambda i: (-_area(shapes[i].outline), i)):
        area, alike = _area(shapes[i].outline), (shapes[i].outline.rings, shapes[i].turns)
        if area > free or alike in refused:
            continue
        _count_seconds(left)
        place = gaps.place(shapes[i].outline, shapes[i].turns)
        if place is None:
            refused.add(alike)
        else:
            found[i], free = place, free - area
    return found


def _area(outline: Outline) -> float:
    return to_polygon(outline).area


def _choose(shapes: Sequence[Shape], left: Sequence[int], area: float) -> list[int]:
    """As many shapes as have the mat's area, large and small ones in equal shares, in their order."""
    areas = {i: _area(shapes[i].outline) for i in left}
    share = min(1.0, area / sum(areas.values()), MOST_AT_ONCE / len(left))
    falling = sorted(left, key=lambda i: (-areas[i], i))
    # Every one at which the share counted so far reaches another whole number: the largest always among them.
    steps = np.ceil(np.arange(len(falling)) * share - 1e-9)
    after = np.ceil((np.arange(len(falling)) + 1) * share - 1e-9)
    return sorted(i for i, here, there in zip(falling, steps, after, strict=True) if there > here)


def _lay_strip(
    shapes: Sequence[Shape], width_mm: float, height_mm: float, spacing_mm: float, left: Left = endless
) -> list[Outline | None] | None:
    """The outlines where they lie on the first mat, None for those beyond it; None if the strip was not solved.

    The shortest of some searches, each pushed together.
    """
    starts = max(FEWEST_STARTS, min(MOST_STARTS, SHAPES_SEARCHED // len(shapes)))
    enough_mm = ENOUGH * (_measure_rows(shapes, width_mm, spacing_mm) + spacing_mm)
    found: list[Outline] = []
    for start in range(1, starts + 1):
        seconds = _count_seconds(left)
        laid = _search_strip(shapes, (width_mm, height_mm, spacing_mm), enough_mm, seconds, start)
        if laid and (not found or _measure_length(laid) < _measure_length(found)):
            found = laid
        if not found or _measure_length(found) <= max(enough_mm, SHORT_MM):
            break
    return [o if o.box_mm[3] <= height_mm + CLOSE_MM else None for o in found] or None


def _search_strip(
    shapes: Sequence[Shape],
    room: tuple[float, float, float],
    enough_mm: float,
    seconds: float,
    start: int,
) -> list[Outline] | None:
    """The outlines where one search lays them on a strip beside a room (width, height, spacing), pushed together.

    The strip runs down the mat: its x is the mat's y, so rooms go to the solver a quarter turn back. They lie within
    half the spacing of the mat's sides, which the strip is wider by.
    """
    width_mm, height_mm, spacing_mm = room
    items = tuple(
        StripItem(
            tuple((y, -x) for x, y in find_room_taken(shape.outline, spacing_mm / 2)),
            _fitting_turns(shape, width_mm, height_mm),
        )
        for shape in shapes
    )
    problem = StripProblem(items, width_mm + spacing_mm + EASE_MM, enough_mm, seconds, start)
    places = solve_strip(problem)
    if places is None:
        return None
    laid = []
    for shape, place in zip(shapes, places, strict=True):
        along, across = place.move
        move = Affine.moving(round(width_mm + (spacing_mm + EASE_MM) / 2 - across, 2), round(along, 2))
        laid.append(shape.outline.moved(move @ Affine.turning(place.turn)))
    to_edge = Affine.moving(0, -min(outline.box_mm[1] for outline in laid))
    may_turn = [not shape.turns for shape in shapes]
    return compact([outline.moved(to_edge) for outline in laid], may_turn, width_mm, spacing_mm)


def _measure_length(laid: Sequence[Outline]) -> float:
    return max(outline.box_mm[3] for outline in laid)


def _measure_rows(shapes: Sequence[Shape], width_mm: float, spacing_mm: float) -> float:
    """The length of a strip on which the boxes of the shapes lie in rows."""
    boxes = [BoxItem(s.outline.width_mm, s.outline.height_mm, may_turn=s.turns != (0.0,)) for s in shapes]
    long_enough = sum(max(box.width, box.height) + spacing_mm for box in boxes)
    spots = lay_boxes(boxes, width_mm, long_enough, spacing=spacing_mm)
    sides = [box.width if spot.turned else box.height for box, spot in zip(boxes, spots, strict=True)]
    return max(spot.y + side for spot, side in zip(spots, sides, strict=True))


def _fitting_turns(shape: Shape, width_mm: float, height_mm: float) -> tuple[float, ...]:
    """The turns in which the shape fits the mat at all. A shape free to turn gets a list where some would not."""
    box = shape.outline
    across = float(np.hypot(box.width_mm, box.height_mm))
    if not shape.turns and across + 2 * OVERREACH_MM <= min(width_mm, height_mm):
        return ()
    room = width_mm + CLOSE_MM, height_mm + CLOSE_MM
    return tuple(turn for turn in shape.turns or SOME_TURNS if _fits(shape.outline, turn, room))


def _fits(outline: Outline, turn: float, room: tuple[float, float]) -> bool:
    box = outline.moved(Affine.turning(turn)) if turn else outline
    over = 2 * OVERREACH_MM if turn % 90 else 0.0
    return box.width_mm + over <= room[0] and box.height_mm + over <= room[1]
