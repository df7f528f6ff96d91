"""How thin a shape gets: where a blade, or the hand that peels the piece off the mat, may tear it."""

from __future__ import annotations

import shapely

from service.craft.outlines import Outline
from service.craft.outlines.polygons import to_polygon

STEP_MM = 0.25
SIMPLER_MM = 0.01
"""Far below a step; outlines of thousands of corners would take minutes otherwise."""

FINEST_MM = 0.002
"""What goes of an edge at each step, so that arcs do not gather corners; paring goes so much deeper, to be below."""

QUARTER_SEGMENTS = 8
"""Straight sides for a quarter of the arcs that paring makes round corners: a thousandth of a millimetre off."""

WIDEST_MM = 10.0
"""Nothing tears that is wider, so the search ends there."""

THIN_MM = 3.0
"""Common practice, no source: cloth with web holds together under a blade from about 3 mm on."""

TIP_MM2 = 4.0
"""Parts smaller than a square of 2 mm that come off are tips, which taper to nothing in any leaf."""


def find_thinnest_mm(outline: Outline) -> float:
    """The width at which the shape falls apart, a hole breaks open, or nothing is left, to half a millimetre below.

    10 mm stands for that or more. The shape is pared down from its edge all round, holes too.
    What tapers to a tip does not count.
    """
    left = to_polygon(outline).simplify(SIMPLER_MM)
    pared = STEP_MM
    while 2 * pared < WIDEST_MM:
        # Off what is left, not off the whole: a jagged edge is smooth after the first steps.
        left = left.buffer(-STEP_MM - FINEST_MM, quad_segs=QUARTER_SEGMENTS).simplify(FINEST_MM)
        parts = [part for part in shapely.get_parts(left) if _is_more_than_a_tip(part, pared)]
        if len(parts) != 1 or shapely.get_num_interior_rings(parts[0]) < len(outline.rings) - 1:
            return 2 * (pared - STEP_MM)
        pared += STEP_MM
    return WIDEST_MM


def _is_more_than_a_tip(part: shapely.Polygon, pared: float) -> bool:
    """Whether this part was large enough before it was pared."""
    return bool(part.area > TIP_MM2 or part.buffer(pared).area > TIP_MM2)
