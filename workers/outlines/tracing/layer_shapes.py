"""From flat patches to shapes; drawn lines between flat tones are followed along their middle."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely

from workers.outlines.tracing.corners import trace_corners
from workers.outlines.tracing.edges import PaperEdge
from workers.outlines.tracing.layers import Layer
from workers.outlines.tracing.points import perimeter
from workers.outlines.tracing.shapes import SETTLED_BLUR_MM, SLIVER_MM, Found, corrected
from workers.outlines.tracing.strokes import grow_face, pen_width

FILLS = 0.9
"""A patch that covers so much of what a line encloses is what was coloured in."""

PAPER_TONE = "paper within a line"


def find_layer_shapes(layers: Sequence[Layer], notes: list[str]) -> list[Found]:
    """A shape for every patch; of a drawn line the faces that it encloses, each up to the middle of the line."""
    widths = [pen_width(layer.edges[0].points, [hole.points for hole in layer.edges[1:]]) for layer in layers]
    found: list[Found] = []
    fills = {n: layer for n, (layer, width) in enumerate(zip(layers, widths, strict=True)) if width is None}
    for layer, width in zip(layers, widths, strict=True):
        if width is not None:
            notes.append(f"a line {width:.1f} mm wide round flat tones was followed along its middle")
            found += _faces(layer, width, fills)
    return found + [_shape(layer.edges, layer.tone) for layer in fills.values()]


def _shape(edges: Sequence[PaperEdge], tone: str) -> Found:
    rings = [
        trace_corners(edge.points, blur_mm=edge.blur_mm, joints=edge.joints, unread_mm=edge.unread_mm)
        for edge in edges
    ]
    return Found(tuple(rings), tone)


def _faces(line: Layer, width: float, fills: dict[int, Layer]) -> list[Found]:
    """What a line encloses; a patch that fills a face is taken out of `fills`, and its holes are kept."""
    found = []
    for face in line.edges[1:]:
        grown = grow_face(corrected(face), width)
        if grown is None or 2 * abs(_area(face)) / perimeter(face.points) <= SLIVER_MM:
            continue
        inside = [n for n, fill in fills.items() if _lies_in(fill, face)]
        filling = next((n for n in inside if abs(_area(fills[n].edges[0])) > FILLS * abs(_area(face))), None)
        if filling is None and inside:
            continue  # several patches lie in it: each is a shape as it is
        rings = [trace_corners(grown, blur_mm=SETTLED_BLUR_MM)]
        tone = PAPER_TONE
        if filling is not None:
            fill = fills.pop(filling)
            rings += _shape(fill.edges[1:], "").rings
            tone = fill.tone
        found.append(Found(tuple(rings), tone))
    return found


def _area(edge: PaperEdge) -> float:
    return float(shapely.Polygon(edge.points).area)


def _lies_in(layer: Layer, face: PaperEdge) -> bool:
    polygon = shapely.Polygon(face.points)
    points = layer.edges[0].points
    shapely.prepare(polygon)
    return bool(np.mean(shapely.contains_xy(polygon.buffer(face.blur_mm), points[:, 0], points[:, 1])) > 0.9)
