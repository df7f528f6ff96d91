"""Scenes of where a piece lies on the top: measured from its left and its upper edge."""

from __future__ import annotations

from collections.abc import Iterator

from shapely import Polygon, affinity, box
from shapely.geometry.base import BaseGeometry

from service.craft.drawing.scenes import ROOM_MM, Piece, Scene
from service.craft.language import mark, phrase
from service.craft.measure import MM_PER_INCH
from service.craft.outlines import Outline, place
from service.craft.outlines.affine import Point
from workers.sewing.steps.pieces import PieceLesson
from workers.sewing.steps.scenes.areas import count_corners, draw_area, draw_edges, flatten_outline
from workers.sewing.steps.scenes.motifs import OWN_PATTERN
from workers.sewing.steps.step import Lesson

SEEN_MM = 0.12
"""What is smaller than that on paper is not seen."""

MOST_CORNERS = 400
"""Corners of patches up to which they are drawn; of more the edge of them all alone."""

SMALL_SHARE = 0.12
"""Of the top's shorter side, the box that stands for a piece whose outline is not shown."""

DOWN_SHARE, ACROSS_SHARE = 0.15, 0.3
"""Where on the measuring lines their labels lead, so that these lead past the piece."""

SEEN_AROUND, LEAST_SEEN, SHAPE = 4.0, 6.0, 1.5
"""The part of the top that is seen: so many times as high as the piece, so many inches at least, and its shape."""

LAID, DRAWN, AGAIN, PINNED = ("lay", "draw", "sew", "pin")
TOLD = {
    LAID: mark("The piece in its place on the top"),
    DRAWN: mark("Where on the top the placement line is drawn"),
    AGAIN: mark("The next piece in its place on the top"),
    PINNED: mark("The piece pinned in its place on the top"),
}


def show_place(what: str, one: PieceLesson) -> Scene:
    """A piece where it lies, with what it lies on; `what` is one of `TOLD`."""
    lesson, piece = one.lesson, one.piece
    area, at = _lay(one), _find_place(one)
    seen = _look(one, area)
    left, top, _, _ = seen.bounds
    across, down = map(lesson.length, one.measured)
    drawn = what == DRAWN
    return Scene(
        phrase(
            "{told}: {across} from the left edge, {down} from the upper edge",
            told=phrase(TOLD[what]),
            across=across,
            down=down,
        ),
        (
            *_draw_ground(lesson, seen),
            *_draw_lower(one, seen),
            *(() if drawn else draw_area(area.intersection(seen), piece.fabric)),
        ),
        (
            *(draw_edges(area, "drawn") if drawn else ()),
            ("drawn", ((left, at[1]), at)),
            ("drawn", ((at[0], top), at)),
        ),
        pins=(at,) if what == PINNED else (),
        labels=(
            ((at[0], top + (at[1] - top) * DOWN_SHARE), phrase("{down} down", down=down)),
            ((left + (at[0] - left) * ACROSS_SHARE, at[1]), phrase("{across} across", across=across)),
            *(((at, phrase(OWN_PATTERN)),) if one.owned else ()),
        ),
    )


def _find_place(one: PieceLesson) -> Point:
    x, y = one.piece.at
    return float(x), float(y)


def _look(one: PieceLesson, area: BaseGeometry) -> Polygon:
    """The part of the top that is seen: of a large one what lies round the piece, so that this is seen at all."""
    ground = one.lesson.ground
    _, upper, _, lower = area.bounds
    high = min(max(LEAST_SEEN, SEEN_AROUND * (lower - upper)), max(ground.height, ground.width / SHAPE))
    wide = high * SHAPE
    x, y = _find_place(one)
    left = min(max(0.0, x - wide / 2), max(0.0, ground.width - wide))
    top = min(max(0.0, y - high / 2), max(0.0, ground.height - high))
    return box(left, top, min(ground.width, left + wide), min(ground.height, top + high))


def _near(lesson: Lesson) -> float:
    """Inches of the top that are not seen on paper."""
    return SEEN_MM * max(lesson.ground.width / ROOM_MM[0], lesson.ground.height / ROOM_MM[1])


def _lay(one: PieceLesson) -> BaseGeometry:
    """The piece in inches on the top; a box where its outline is not shown."""
    outline = one.lesson.outlines.get(one.name)
    if outline is not None and not one.owned:
        return _in_inches(place(one.piece, outline), _near(one.lesson))
    x, y = _find_place(one)
    half = SMALL_SHARE * min(one.lesson.ground.width, one.lesson.ground.height)
    return box(x - half, y - half, x + half, y + half)


def _in_inches(outline: Outline, near: float) -> BaseGeometry:
    factor = 1 / float(MM_PER_INCH)
    return affinity.scale(flatten_outline(outline), factor, factor, origin=(0, 0)).simplify(near)


def _draw_ground(lesson: Lesson, seen: Polygon) -> Iterator[Piece]:
    """The top's cloths; its edge alone where they have too many corners for a small picture."""
    areas = {cloth: area.intersection(seen) for cloth, area in lesson.ground.areas.items()}
    if sum(map(count_corners, areas.values())) > MOST_CORNERS:
        yield from draw_area(seen, "")
        return
    for cloth, area in areas.items():
        yield from draw_area(area, cloth)


def _draw_lower(one: PieceLesson, seen: Polygon) -> Iterator[Piece]:
    """What it lies on, as far as that may be shown."""
    for lower, outline in one.find_lower():
        area = _in_inches(place(lower, outline), _near(one.lesson))
        yield from draw_area(area.intersection(seen), lower.fabric)
