"""Parts of a shape that are too thin to be cut from cloth and sewn round."""

from __future__ import annotations

import shapely
from shapely.geometry import Polygon

from service.craft.outlines import Outline, flatten

THIN_MM = 1.5
"""A strip of cloth this narrow frays away under its own stitches (common practice, no source)."""

TIP_SHARE = 3.0
"""What is thin for less than so many times its width is a tip, and every shape may have tips."""

COARSE_MM = 0.05


def say_thin_parts(outline: Outline) -> list[str]:
    """A note for each thin part: what a disc of `THIN_MM` cannot reach, longer than a tip."""
    outer, *holes = (flatten(ring, tolerance_mm=COARSE_MM) for ring in outline.rings)
    shape = Polygon(outer, holes)
    if not shape.is_valid:
        return []
    reached = shape.buffer(-THIN_MM / 2).buffer(THIN_MM / 2 + COARSE_MM)
    notes = []
    for part in shapely.get_parts(shape.difference(reached)):
        left, top, right, foot = part.bounds
        if max(right - left, foot - top) > TIP_SHARE * THIN_MM:
            x, y = part.centroid.x - outline.box_mm[0], part.centroid.y - outline.box_mm[1]
            where = f"{x:.0f} mm from its left and {y:.0f} mm from its top"
            notes.append(f"{outline.name}: thinner than {THIN_MM} mm {where}")
    return notes
