"""Scenes of points that are marked on the back before seams are set in: where a seam begins, stops or turns."""

from __future__ import annotations

from collections.abc import Iterable

from shapely import Point as Place
from shapely import Polygon, unary_union
from shapely.geometry.base import BaseGeometry

from service.craft.drawing.scenes import Piece, Scene
from service.craft.language import phrase
from service.craft.outlines.affine import Point
from service.craft.units import EightPointedStar, Hexagons, Polygons
from workers.sewing.plan import Stage
from workers.sewing.steps.scenes.of_stage import APART, middle_of, patches_of, point, say_one
from workers.sewing.works import Cut

SET_IN = (EightPointedStar.kind, Hexagons.kind, Polygons.kind)
"""Work that is sewn from mark to mark."""

NEAR = 1e-3
"""Inches within which two corners are one."""

MOST_MEETING = 4
"""Patches that meet at most at a marked point: where more do, seams run on through the middle, as in a star."""

INSET = 0.12
"""How far inside the corner a mark is drawn, in shares of the way to the middle of its patch."""


def show_marked(stage: Stage) -> Scene | None:
    """The patches apart, their backs up, a dot at every corner that is marked; None for work that is not set in."""
    if stage.work.kind not in SET_IN:
        return None
    cuts = patches_of(stage)
    whole = unary_union([Polygon([point(at) for at in cut.corners]).buffer(NEAR) for cut in cuts])
    width = float(stage.work.width)
    centre = complex(width, float(stage.work.height)) / 2
    pieces, marks = [], []
    for cut in cuts:
        middle = middle_of(cut.corners)
        away = (middle - centre) * APART
        pieces.append(Piece([_mirrored(at + away, width) for at in cut.corners], cut.fabric, back=True))
        marks += [
            _mirrored(at + (middle - at) * INSET + away, width)
            for at in cut.corners
            if _is_inside(at, whole) and _count_meeting(at, cuts) <= MOST_MEETING
        ]
    if not marks:
        return None
    labels = (
        (max(marks), phrase("mark")),
        ((max(at[0] for piece in pieces for at in piece.points), 0.0), phrase("back up")),
    )
    alt = phrase(
        "The patches of {one}, backs up, with a mark where each seam begins or turns",
        one=say_one(stage),
    )
    return Scene(alt, tuple(pieces), marks=tuple(marks), labels=labels)


def _mirrored(place: complex, width: float) -> Point:
    """A place as it lies where the work is seen from the back."""
    return width - place.real, place.imag


def _is_inside(place: complex, whole: BaseGeometry) -> bool:
    """Whether a corner lies inside the work and not on its edge."""
    return bool(whole.boundary.distance(Place(place.real, place.imag)) > 2 * NEAR)


def _count_meeting(place: complex, cuts: Iterable[Cut]) -> int:
    return sum(any(abs(at - place) < NEAR for at in cut.corners) for cut in cuts)
