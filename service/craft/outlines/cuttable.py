"""What of a shape is too thin, or bends too tightly, to be cut: said at upload, with the place."""

from __future__ import annotations

import math
from collections.abc import Iterable

import numpy as np
import shapely
from shapely import Polygon

from service.craft.outlines.model import Outline, flatten
from service.craft.outlines.tight_curves import find_tight_curves

THIN_MM = 1.5
"""A strip of cloth this narrow frays away under its own stitches. Common practice, no source."""

TIGHT_MM = 0.5
"""No blade and no scissors follow a smaller radius. Common practice, no source."""

TOO_DENSE = (
    f"its edge turns too often within {THIN_MM} mm to look for thin parts, and no blade follows it: "
    "draw it with fewer turns"
)

TIP_SHARE = 3.0
"""What is thin for less than so many times its width is a tip, and every shape may have tips."""

COARSE_MM = 0.05
"""An edge is looked at as exactly as this: steps and ripples below it are no parts of their own."""

ROUND_STEPS = 4
"""Chords to a quarter of the disc: it is 0.015 mm off, well within what is coarse."""

NEIGHBOURS_AT_MOST = 300_000
"""Pairs of neighbours in all shapes of a drawing that are looked through: some seconds of sums, which grow with their
number. A saw's edge of a thousand teeth round a plate has a tenth of that."""

PASSING_SHARE = 0.2
"""Sides that only pass by each other cost so much less than corners do."""

PLACES_AT_MOST = 3


def say_limits(outlines: Iterable[Outline]) -> list[str]:
    """Notes on the shapes of a drawing: thin parts and tight curves, each with its first places; none where all can
    be cut.
    """
    listed = list(outlines)
    return [*say_thin_parts(listed), *(note for outline in listed for note in _say_tight(outline))]


def say_thin_parts(outlines: Iterable[Outline]) -> list[str]:
    """A note for each shape with parts thinner than `THIN_MM`, and for one whose edge is too dense to find them."""
    notes = []
    left = float(NEIGHBOURS_AT_MOST)
    for outline in outlines:
        shape = _coarsely(outline)
        if shape is None:
            continue
        neighbours = _count_neighbours(shape)
        if neighbours > left:
            notes.append(f"{outline.name}: {TOO_DENSE}")
            continue
        left -= neighbours
        if thin := _thin_places(shape, outline):
            notes.append(f"{outline.name}: thinner than {THIN_MM} mm {_listed(thin)}")
    return notes


def _say_tight(outline: Outline) -> list[str]:
    left, top, _, _ = outline.box_mm
    tight = [
        f"{curve.at[0] - left:.0f} mm from its left and {curve.at[1] - top:.0f} mm from its top"
        for curve in find_tight_curves(outline, inner_mm=TIGHT_MM, outer_mm=TIGHT_MM)
    ]
    return (
        [f"{outline.name}: a radius under {TIGHT_MM} mm, cut as a corner, {_listed(tight)}"] if tight else []
    )


def _coarsely(outline: Outline) -> Polygon | None:
    """The shape with no more corners than are needed to find what is thin; None where it is no sound polygon."""
    outer, *holes = (flatten(ring, tolerance_mm=COARSE_MM / 2) for ring in outline.rings)
    shape = Polygon(outer, holes).simplify(COARSE_MM / 2)
    return shape if isinstance(shape, Polygon) and shape.is_valid and not shape.is_empty else None


def _count_neighbours(shape: Polygon) -> float:
    """How many pairs of corners, and of sides, lie within `THIN_MM`: what paring the shape down takes time by."""
    if shape.length > THIN_MM * NEIGHBOURS_AT_MOST:
        return math.inf
    sides = shapely.segmentize(shape, THIN_MM)
    return _pairs_within(shape) + PASSING_SHARE * _pairs_within(sides)


def _pairs_within(shape: Polygon) -> float:
    squares = np.floor(shapely.get_coordinates(shape) / THIN_MM)
    _, counts = np.unique(squares, axis=0, return_counts=True)
    return float((counts.astype(np.float64) ** 2).sum())


def _thin_places(shape: Polygon, outline: Outline) -> list[str]:
    pared = shape.buffer(-THIN_MM / 2, quad_segs=ROUND_STEPS)
    reached = pared.buffer(THIN_MM / 2 + COARSE_MM, quad_segs=ROUND_STEPS)
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
