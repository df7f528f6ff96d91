"""The shape that each applique piece is cut in: its finished shape, what lies under others, what is turned under."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

import shapely
from shapely import LineString, MultiLineString, Polygon
from shapely.geometry.base import BaseGeometry
from shapely.ops import linemerge, unary_union

from service.craft.applique import AppliqueRules
from service.craft.outlines.affine import Affine, Point
from service.craft.outlines.laid_pieces import LaidPieces, lay_pieces
from service.craft.outlines.model import Outline
from service.craft.outlines.polygons import to_rings
from service.craft.outlines.underlap import ROUND_STEPS, TOUCH_MM, Underlap, extend_under
from service.craft.pieces import TURNED, Piece
from service.craft.tracks import MM_PER_INCH

STRAIGHT_WITHIN_MM = 0.005
"""How far the chords of an allowance may leave its round corners and parallels."""


Run = tuple[Point, ...]
"""Corners of an open line."""

SHORTEST_RUN_MM = 0.2

PINHOLE_MM2 = 0.05


@dataclass(frozen=True)
class CutShape:
    """A piece as it is cut, mm on the top. `finished` is its outline as it shows, or would without the pieces on it.

    `underlaps` says what was added under which piece; `under` are the stretches of the cut edge that lie under others,
    as runs of corners. `outline` is `finished` itself where nothing is added.
    """

    finished: Outline
    outline: Outline
    underlaps: tuple[tuple[str, Underlap], ...] = ()
    under: tuple[Run, ...] = ()


def make_cut_shapes(
    pieces: Iterable[Piece], outlines: Mapping[str, Outline], rules: AppliqueRules
) -> dict[str, CutShape]:
    """The cut shape of every piece by name; `outlines` has its outline as drawn."""
    listed = [piece for piece in pieces if piece.name in outlines]
    laid = lay_pieces(listed, outlines)
    return {piece.name: _cut_shape(piece, laid, rules) for piece in listed}


def unplacing(piece: Piece, width_mm: float, height_mm: float) -> Affine:
    """The map from the top back to a piece before it is turned and laid, its finished box from (0, 0).

    The box is `width_mm` by `height_mm` at the piece's own scale.
    """
    x, y = (float(length * MM_PER_INCH) for length in piece.at)
    to_corner = Affine.moving(width_mm / 2, height_mm / 2)
    return to_corner @ Affine.turning(-float(piece.turn)) @ Affine.moving(-x, -y)


def _cut_shape(piece: Piece, laid: LaidPieces, rules: AppliqueRules) -> CutShape:
    finished, shapes = laid.placed[piece.name], laid.sound
    if piece.name not in shapes:
        return CutShape(finished, finished)
    shape = shapes[piece.name]
    uppers = [pair.upper for pair in laid.overlaps.pairs if pair.lower == piece.name and not pair.hidden]
    underlaps = extend_under(shape, {upper: shapes[upper] for upper in uppers}, rules.underlap_mm)
    cover = unary_union([shapes[upper].buffer(TOUCH_MM) for upper in uppers])
    allowance = _turn_under(shape, cover, rules.turning_mm) if piece.edge == TURNED else None
    added = [*(found.added for _, found in underlaps), *([allowance] if allowance is not None else [])]
    if not added:
        return CutShape(finished, finished, under=_runs(shape, cover))
    cut = _in_one(shape.union(unary_union(added)))
    outline = Outline(finished.name, to_rings(cut, finished.rings))
    return CutShape(finished, outline, underlaps, _runs(cut, cover))


def _runs(shape: Polygon, cover: BaseGeometry) -> tuple[Run, ...]:
    """The stretches of a shape's edge that lie under others."""
    found = shape.boundary.intersection(cover)
    lines = [part for part in shapely.get_parts(found) if isinstance(part, LineString) and part.length]
    merged = linemerge(MultiLineString(lines)) if lines else MultiLineString()
    return tuple(
        tuple((float(x), float(y)) for x, y in part.coords)
        for part in shapely.get_parts(merged)
        if part.length > SHORTEST_RUN_MM
    )


def _turn_under(shape: Polygon, cover: BaseGeometry, turning_mm: float) -> BaseGeometry:
    """The strip along the edge that is turned under, on both sides of it: all but what lies under other pieces."""
    open_edge = shape.boundary.difference(cover)
    strip = open_edge.buffer(turning_mm, quad_segs=ROUND_STEPS)
    return strip.simplify(STRAIGHT_WITHIN_MM)


def _in_one(shape: BaseGeometry) -> Polygon:
    """The largest part without pinholes: parts and holes that small are left by sums of shapes that share edges."""
    largest = max((p for p in shapely.get_parts(shape) if isinstance(p, Polygon)), key=lambda p: p.area)
    holes = [hole for hole in largest.interiors if Polygon(hole).area > PINHOLE_MM2]
    return Polygon(largest.exterior, holes)
