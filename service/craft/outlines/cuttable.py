"""What of a shape is too thin, or bends too tightly, to be cut: said at upload, with the place."""

from __future__ import annotations

import shapely
from shapely import Polygon

from service.craft.outlines.model import Outline, flatten
from service.craft.outlines.tight_curves import find_tight_curves

THIN_MM = 1.5
"""A strip of cloth this narrow frays away under its own stitches. Common practice, no source."""

TIGHT_MM = 0.5
"""No blade and no scissors follow a smaller radius. Common practice, no source."""

TIP_SHARE = 3.0
"""What is thin for less than so many times its width is a tip, and every shape may have tips."""

COARSE_MM = 0.05
POINTS_AT_MOST = 20_000
PLACES_AT_MOST = 3


def say_limits(outline: Outline) -> list[str]:
    """A note for thin parts and one for tight curves, each with its first places; none where all can be cut."""
    notes = []
    if thin := _thin_places(outline):
        notes.append(f"{outline.name}: thinner than {THIN_MM} mm {_listed(thin)}")
    left, top, _, _ = outline.box_mm
    tight = [
        f"{curve.at[0] - left:.0f} mm from its left and {curve.at[1] - top:.0f} mm from its top"
        for curve in find_tight_curves(outline, inner_mm=TIGHT_MM, outer_mm=TIGHT_MM)
    ]
    if tight:
        notes.append(f"{outline.name}: a radius under {TIGHT_MM} mm, cut as a corner, {_listed(tight)}")
    return notes


def _thin_places(outline: Outline) -> list[str]:
    outer, *holes = (flatten(ring, tolerance_mm=COARSE_MM) for ring in outline.rings)
    if len(outer) + sum(map(len, holes)) > POINTS_AT_MOST:
        return []
    shape = Polygon(outer, holes)
    if not shape.is_valid:
        return []
    reached = shape.buffer(-THIN_MM / 2).buffer(THIN_MM / 2 + COARSE_MM)
    left, top, _, _ = outline.box_mm
    places = []
    for part in shapely.get_parts(shape.difference(reached)):
        x0, y0, x1, y1 = part.bounds
        if max(x1 - x0, y1 - y0) > TIP_SHARE * THIN_MM:
            x, y = part.centroid.x - left, part.centroid.y - top
            places.append(f"{x:.0f} mm from its left and {y:.0f} mm from its top")
    return places


def _listed(places: list[str]) -> str:
    shown = "; ".join(dict.fromkeys(places[:PLACES_AT_MOST]))
    return (
        shown if len(places) <= PLACES_AT_MOST else f"{shown}; and {len(places) - PLACES_AT_MOST} places more"
    )
