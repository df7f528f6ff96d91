"""The picture with what was traced drawn over it, to judge by: our own SVG, the picture made small and grey."""

from __future__ import annotations

import base64
import io
from html import escape

import numpy as np
from PIL import Image

from service.craft.outlines import Cubic, OutlineFile, Ring
from service.look.fonts import SANS
from service.look.palette import PRINT
from workers.outlines.tracing.picture import Picture
from workers.outlines.tracing.plane import Plane
from workers.outlines.tracing.points import Points

LONGEST_SIDE_PX = 1600
"""Enough to see where an edge lies, and a file that a page loads at once."""

JPEG_QUALITY = 72
FADED = 0.5
"""The picture stands back behind its outlines by this much."""


def draw_overlay(picture: Picture, plane: Plane, file: OutlineFile) -> str:
    """An SVG in pixels of the small picture: every ring, its nodes, and the name of each shape."""
    rows, columns = picture.grey.shape
    shrunk = max(1, -(-max(rows, columns) // LONGEST_SIDE_PX))
    small = Image.fromarray(np.clip(picture.grey, 0, 255).astype(np.uint8)).reduce(shrunk)
    share = 1 / (shrunk * picture.reduced)
    paths, nodes, names = [], [], []
    for shape in file.shapes:
        rings = [_in_pixels(ring, plane) * share for ring in shape.rings]
        paths.append(" ".join(_path(ring, at) for ring, at in zip(shape.rings, rings, strict=True)))
        nodes += [point for ring, at in zip(shape.rings, rings, strict=True) for point in _nodes(ring, at)]
        names.append((shape.name, (rings[0].min(axis=0) + rings[0].max(axis=0)) / 2))
    unit = max(small.size) / 400
    return "\n".join(
        [
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {small.width} {small.height}" '
            f'width="{small.width}" height="{small.height}">',
            f'<rect width="100%" height="100%" fill="{PRINT["paper"]}"/>',
            f'<image width="{small.width}" height="{small.height}" opacity="{FADED}" href="{_inline(small)}"/>',
            f'<g fill="none" stroke="{PRINT["rhubarb"]}" stroke-width="{unit * 0.35:.2f}">',
            *(f'<path d="{path}"/>' for path in paths),
            "</g>",
            f'<g fill="{PRINT["slate"]}">',
            *(f'<circle cx="{x:.2f}" cy="{y:.2f}" r="{unit * 0.7:.2f}"/>' for x, y in nodes),
            "</g>",
            f'<g font-family="{SANS}" font-size="{unit * 7:.1f}" text-anchor="middle" '
            f'fill="{PRINT["earth"]}" stroke="{PRINT["paper"]}" stroke-width="{unit * 1.6:.2f}" '
            f'stroke-linejoin="round" paint-order="stroke">',
            *(
                f'<text x="{x:.1f}" y="{y:.1f}" dy="0.35em">{escape(name, quote=False)}</text>'
                for name, (x, y) in names
            ),
            "</g>",
            "</svg>\n",
        ]
    )


def _in_pixels(ring: Ring, plane: Plane) -> Points:
    steering = [ring.start, *(point for segment in ring.segments for point in segment.points)]
    return plane.to_pixels(np.array(steering))


def _path(ring: Ring, at: Points) -> str:
    words = [f"M{at[0, 0]:.2f} {at[0, 1]:.2f}"]
    here = 1
    for segment in ring.segments:
        count = len(segment.points)
        numbers = " ".join(f"{x:.2f} {y:.2f}" for x, y in at[here : here + count])
        words.append(("C" if isinstance(segment, Cubic) else "L") + numbers)
        here += count
    return "".join(words) + "Z"


def _nodes(ring: Ring, at: Points) -> list[tuple[float, float]]:
    here, found = 0, []
    for segment in ring.segments:
        here += len(segment.points)
        found.append((float(at[here, 0]), float(at[here, 1])))
    return found


def _inline(small: Image.Image) -> str:
    out = io.BytesIO()
    small.save(out, "JPEG", quality=JPEG_QUALITY)
    return "data:image/jpeg;base64," + base64.b64encode(out.getvalue()).decode("ascii")
