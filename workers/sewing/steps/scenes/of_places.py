"""Scenes of where a piece lies on the whole top: measured from its left and its upper edge."""

from __future__ import annotations

from collections.abc import Iterator

from shapely import affinity, box
from shapely.geometry.base import BaseGeometry

from service.craft.drawing.scenes import ROOM_MM, Piece, Scene
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
"""Corners of patches up to which the whole top is drawn; of a larger one its edge alone."""

SMALL_SHARE = 0.12
"""Of the top's shorter side, the box that stands for a piece whose outline is not shown."""

DOWN_SHARE, ACROSS_SHARE = 0.15, 0.3
"""Where on the measuring lines their labels lead, so that these lead past the piece."""

LAID, DRAWN, AGAIN, PINNED = ("lay", "draw", "sew", "pin")
TOLD = {
    LAID: "The piece in its place on the whole top",
    DRAWN: "Where on the whole top the placement line is drawn",
    AGAIN: "The next piece in its place on the whole top",
    PINNED: "The piece pinned in its place on the whole top",
}


def show_place(what: str, one: PieceLesson) -> Scene:
    """A piece where it lies, with what it lies on; `what` is one of `TOLD`."""
    lesson, piece = one.lesson, one.piece
    area, at = _lay(one), _find_place(one)
    across, down = map(lesson.length, one.measured)
    drawn = what == DRAWN
    return Scene(
        f"{TOLD[what]}: {across} from the left edge, {down} from the upper edge",
        (
            *_draw_ground(lesson),
            *_draw_lower(one),
            *(() if drawn else draw_area(area, piece.fabric)),
        ),
        (
            *(draw_edges(area, "drawn") if drawn else ()),
            ("drawn", ((0.0, at[1]), at)),
            ("drawn", ((at[0], 0.0), at)),
        ),
        pins=(at,) if what == PINNED else (),
        labels=(
            ((at[0], at[1] * DOWN_SHARE), f"{down} down"),
            ((at[0] * ACROSS_SHARE, at[1]), f"{across} across"),
            *(((at, OWN_PATTERN),) if one.owned else ()),
        ),
    )


def _find_place(one: PieceLesson) -> Point:
    x, y = one.piece.at
    return float(x), float(y)


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


def _draw_ground(lesson: Lesson) -> Iterator[Piece]:
    """The top's cloths; its edge alone where they have too many corners for a small picture."""
    ground = lesson.ground
    if sum(map(count_corners, ground.areas.values())) > MOST_CORNERS:
        yield from draw_area(box(0, 0, ground.width, ground.height), "")
        return
    for cloth, area in ground.areas.items():
        yield from draw_area(area, cloth)


def _draw_lower(one: PieceLesson) -> Iterator[Piece]:
    """What it lies on, as far as that may be shown."""
    for lower, outline in one.find_lower():
        yield from draw_area(_in_inches(place(lower, outline), _near(one.lesson)), lower.fabric)
