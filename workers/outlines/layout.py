"""Outlines of one cloth on mats of one size: by their shapes or in rows of boxes, whichever takes less."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from service.craft.outlines import Outline
from service.craft.outlines.affine import Affine
from service.craft.outlines.polygons import to_polygon
from workers.outlines.nesting.check import find_layout_faults
from workers.outlines.nesting.mats import Shape, nest
from workers.outlines.nesting.strip import TookTooLong
from workers.outlines.nesting.taken import simplify
from workers.outlines.shelves import BoxItem, lay_boxes
from workers.patience import Left, endless

AS_PLACED = (0.0,)
QUARTER_TURNS = (0.0, 90.0, 180.0, 270.0)
"""Plain cloth: along or across the grain, which both hold; on the bias an edge stretches under the needle."""
ANY_TURN: tuple[float, ...] = ()
"""Where the maker does not mind the bias: felt, or cloth stiffened by web."""

BY_SHAPE, IN_ROWS = "by shape", "in rows"
IN_ROWS_FOR_NOW = "in rows, because laying by shape took too long"

WORTH_MM2 = 100.0
"""Rows are simpler to cut, so shapes must save a square of 10 mm at least."""


FULL_ENOUGH = 0.75
"""Rows whose cloth is covered so far by the pieces, each with half the spacing round it, are not worth nesting: circles
in rows cover 0.785, and any other order of a few circles saves nothing worth the computing.
"""


SIMPLER_MM = 0.05
"""Finely drawn edges take seconds to widen; the share they fill is the same to a thousandth."""


MOST_CORNERS = 2_000_000
"""Shapes with more corners and curves altogether go in rows: no hand drew them, and reading them takes minutes."""


@dataclass(frozen=True)
class Room:
    """The usable room of a mat, mm, and the least distance between pieces on it."""

    width_mm: float
    height_mm: float
    spacing_mm: float


@dataclass(frozen=True)
class Layout:
    """For each outline its mat and where it lies there; the room of a mat begins at (0, 0)."""

    way: str
    places: tuple[tuple[int, Outline], ...]

    @property
    def mats(self) -> int:
        """How many mats it takes."""
        return max(mat for mat, _ in self.places) + 1

    @property
    def cloth_mm2(self) -> float:
        """The boxes round what lies on each mat: the cloth that goes on it."""
        sides = [_box_sides([o for at, o in self.places if at == mat]) for mat in range(self.mats)]
        return sum(width * height for width, height in sides)


def lay_on_mats(
    outlines: Sequence[Outline], turns: tuple[float, ...], room: Room, left: Left = endless
) -> Layout:
    """The layout that takes fewer mats, or where these are equal less cloth; rows where they take no more.

    `turns` is `AS_PLACED`, `QUARTER_TURNS` or `ANY_TURN`. Every outline fits the room, which the caller has checked.
    A layout by shape that the check finds fault with is not used. Nor is one that was not done in time: then the way
    of the layout says so, for on another day it may be done.
    """
    rows = _lay_rows(outlines, turns, room)
    corners = sum(len(ring.segments) for outline in outlines for ring in outline.rings)
    if len(outlines) == 1 or corners > MOST_CORNERS or _fill(outlines, rows, room) > FULL_ENOUGH:
        return rows
    try:
        shapes = _lay_shapes(outlines, turns, room, left)
    except TookTooLong:
        return replace(rows, way=IN_ROWS_FOR_NOW)
    if shapes is None:
        return rows
    saved = rows.cloth_mm2 - shapes.cloth_mm2
    fewer = shapes.mats < rows.mats or (shapes.mats == rows.mats and saved > WORTH_MM2)
    return shapes if fewer else rows


def _fill(outlines: Sequence[Outline], rows: Layout, room: Room) -> float:
    """The share of the rows' cloth that the pieces take with half the spacing round them."""
    half = room.spacing_mm / 2
    taken = sum(simplify(to_polygon(outline), SIMPLER_MM)[0].buffer(half).area for outline in outlines)
    cloth = 0.0
    for mat in range(rows.mats):
        width, height = _box_sides([outline for at, outline in rows.places if at == mat])
        cloth += (width + room.spacing_mm) * (height + room.spacing_mm)
    return taken / cloth


def _lay_rows(outlines: Sequence[Outline], turns: tuple[float, ...], room: Room) -> Layout:
    may_turn = turns != AS_PLACED
    items = [BoxItem(outline.width_mm, outline.height_mm, may_turn) for outline in outlines]
    spots = lay_boxes(items, room.width_mm, room.height_mm, spacing=room.spacing_mm)
    places = []
    for outline, spot in zip(outlines, spots, strict=True):
        lying = _turned_to_origin(outline, 90.0 if spot.turned else 0.0)
        places.append((spot.mat, lying.moved(Affine.moving(spot.x, spot.y))))
    return Layout(IN_ROWS, tuple(places))


def _lay_shapes(
    outlines: Sequence[Outline], turns: tuple[float, ...], room: Room, patience: Left = endless
) -> Layout | None:
    """By shape; what the nesting leaves goes in rows on further mats. None where there is nothing or a fault."""
    shapes = [Shape(outline, turns) for outline in outlines]
    placed, left = nest(shapes, room.width_mm, room.height_mm, spacing_mm=room.spacing_mm, left=patience)
    if not placed:
        return None
    places = {i: (nested.mat, nested.outline) for i, nested in placed.items()}
    first = max(mat for mat, _ in places.values()) + 1
    if left:
        rest = _lay_rows([outlines[i] for i in left], turns, room)
        places |= {i: (first + mat, outline) for i, (mat, outline) in zip(left, rest.places, strict=True)}
    layout = Layout(BY_SHAPE, tuple(places[i] for i in range(len(outlines))))
    return None if list_faults(layout, outlines, turns, room) else layout


def list_faults(
    layout: Layout, outlines: Sequence[Outline], turns: tuple[float, ...], room: Room
) -> list[str]:
    """What the independent check says of every mat of a layout."""
    faults = []
    for mat in range(layout.mats):
        here = [i for i, (at, _) in enumerate(layout.places) if at == mat]
        faults += find_layout_faults(
            [layout.places[i][1] for i in here],
            [outlines[i] for i in here],
            [turns] * len(here),
            (0.0, 0.0, room.width_mm, room.height_mm),
            room.spacing_mm,
        )
    return faults


def _turned_to_origin(outline: Outline, degrees: float) -> Outline:
    lying = outline.moved(Affine.turning(degrees)) if degrees else outline
    left, top, _, _ = lying.box_mm
    return lying.moved(Affine.moving(-left, -top))


def _box_sides(outlines: Sequence[Outline]) -> tuple[float, float]:
    boxes = [outline.box_mm for outline in outlines]
    width = max(box[2] for box in boxes) - min(box[0] for box in boxes)
    return width, max(box[3] for box in boxes) - min(box[1] for box in boxes)
