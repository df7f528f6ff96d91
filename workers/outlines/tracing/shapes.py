"""From edges to shapes: which holes belong to which shape, and which bands of ink are lines that were drawn."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import shapely

from workers.outlines.tracing.corners import Traced, trace_corners
from workers.outlines.tracing.edges import PaperEdge
from workers.outlines.tracing.points import Points, perimeter, signed_area
from workers.outlines.tracing.strokes import close_gap, grow_face, middle_of_line, pen_width

SLIVER_MM = 1.0
"""A gap in a line that is this narrow was left where a line was drawn twice."""

SETTLED_BLUR_MM = 0.01
"""A line put in its place is not blurred any more."""


@dataclass(frozen=True)
class Found:
    """One shape: its outer edge and its holes, with their corners; the tone of a flat patch in words."""

    rings: tuple[Traced, ...]
    tone: str = ""


def find_shapes(edges: Sequence[PaperEdge], notes: list[str]) -> list[Found]:
    """Every shape; what was drawn as a line is the shape in the middle of that line."""
    found: list[Found] = []
    for outer, holes in _nest(edges):
        found += _from_ink(outer, holes, notes)
    return found


def _nest(edges: Sequence[PaperEdge]) -> list[tuple[PaperEdge, list[PaperEdge]]]:
    """Each edge round ink with the edges of its holes: a hole belongs to the smallest ink round it."""
    outer = sorted((edge for edge in edges if signed_area(edge.points) > 0), key=_area)
    nested: list[tuple[PaperEdge, list[PaperEdge]]] = [(edge, []) for edge in outer]
    polygons = [shapely.Polygon(edge.points) for edge in outer]
    for polygon in polygons:
        shapely.prepare(polygon)
    for edge in edges:
        if signed_area(edge.points) < 0:
            x, y = edge.points[0]
            size = _area(edge)
            for polygon, (ink, holes) in zip(polygons, nested, strict=True):
                if _area(ink) > size and shapely.contains_xy(polygon, x, y):
                    holes.append(edge)
                    break
    return nested


def _area(edge: PaperEdge) -> float:
    return abs(signed_area(edge.points))


def _from_ink(outer: PaperEdge, holes: list[PaperEdge], notes: list[str]) -> list[Found]:
    width = pen_width(outer.points, [hole.points for hole in holes])
    if width is not None:
        return _from_line(outer, holes, width, notes)
    joined = None if holes else close_gap(outer.points)
    if joined is not None:
        notes.append("the ends of a line that nearly meet were joined")
        closed = PaperEdge(joined[0], outer.blur_mm)
        gap_width = pen_width(*_as_line(joined))
        if gap_width is not None:
            return _from_line(closed, [PaperEdge(joined[1], outer.blur_mm)], gap_width, notes)
    rings = [trace_corners(edge.points, blur_mm=edge.blur_mm) for edge in (outer, *holes)]
    return [Found(tuple(rings))]


def _as_line(joined: tuple[Points, Points]) -> tuple[Points, list[Points]]:
    return joined[0], [joined[1]]


def _from_line(outer: PaperEdge, holes: list[PaperEdge], width: float, notes: list[str]) -> list[Found]:
    """The shape in the middle of a line; where lines part a shape into faces, each face up to the middle."""
    faces = [hole for hole in holes if 2 * _area(hole) / perimeter(hole.points) > SLIVER_MM]
    if len(faces) < len(holes):
        notes.append("a line that was drawn twice was taken for one")
    notes.append(f"a line {width:.1f} mm wide was followed along its middle")
    if len(faces) > 1:
        notes.append(
            f"lines part a shape into {len(faces)} faces: each is a shape, up to the middle of its lines"
        )
        edges = [grow_face(corrected(face), width) for face in faces]
    else:
        edges = [middle_of_line(corrected(outer), width)]
    return [Found((trace_corners(edge, blur_mm=SETTLED_BLUR_MM),)) for edge in edges if edge is not None]


def corrected(edge: PaperEdge) -> Points:
    """The edge with its corners put back: an offset would carry their loss on."""
    return trace_corners(edge.points, blur_mm=edge.blur_mm).polyline()
