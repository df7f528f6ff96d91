"""From traced edges to the contours of our own model: straight lines and cubics, few nodes."""

from __future__ import annotations

import numpy as np

from service.craft.outlines.affine import Point
from service.craft.outlines.contours import Contour
from service.craft.outlines.model import Cubic, Line, Segment
from workers.outlines.tracing.corners import Traced
from workers.outlines.tracing.fitting import fit_run, unit
from workers.outlines.tracing.joining import join_curves
from workers.outlines.tracing.points import Points, smooth

TOLERANCE_MM = 0.03
"""How far a curve may leave the traced points; with the tracing itself that keeps a shape within 0.05 mm."""

EVERY = 3
"""Fitted is every third of the traced points: between them the line is smooth already."""

LEAVING_POINTS = 4
"""Half a millimetre: nearer, a slip of a hundredth turns the direction."""

DECIMALS = 4
"""Coordinates are kept to a ten-thousandth of a millimetre."""


def draw_contour(traced: Traced, *, tolerance: float = TOLERANCE_MM) -> Contour:
    """The closed contour through a traced edge."""
    curves: list[Points] = []
    if traced.corners:
        for run in traced.runs():
            thin = _thin(run)
            fitted = fit_run(thin, _leaving(thin), _leaving(thin[::-1]), tolerance)
            curves += join_curves(thin, fitted, tolerance, closed=False)
    else:
        run = _from_flattest(traced)
        # the ends lie on the smooth closed curve: both run along its tangent there
        along = unit(run[1] - run[-2])
        curves = join_curves(run, fit_run(run, along, -along, tolerance), tolerance, closed=True)
    start = _point(curves[0][0])
    segments: list[Segment] = [_segment(curve) for curve in curves]
    return Contour(start, (*segments[:-1], _ended(segments[-1], start)), closed=True)


def _thin(run: Points) -> Points:
    if len(run) <= 2 * EVERY:
        return run
    places = np.linspace(0, len(run) - 1, max(4, (len(run) - 1) // EVERY + 1)).round().astype(int)
    return np.asarray(run[places])


def _leaving(run: Points) -> Points:
    """The direction in which a run leaves its first point, from a parabola through it and two points further on."""
    apart = min(LEAVING_POINTS, (len(run) - 1) // 2)
    if apart < 1:
        return unit(run[1] - run[0])
    return unit(4 * run[apart] - 3 * run[0] - run[2 * apart])


def _from_flattest(traced: Traced) -> Points:
    """The whole run, closed, starting where it bends least."""
    points = smooth(traced.points, 3)[::EVERY]
    calm = smooth(points, 4)
    bend = np.abs(np.roll(calm, 1, axis=0) + np.roll(calm, -1, axis=0) - 2 * calm).sum(axis=1)
    first = int(np.argmin(bend))
    turned = np.roll(points, -first, axis=0)
    return np.concatenate([turned, turned[:1]])


def _segment(curve: Points) -> Segment:
    if len(curve) == 2:
        return Line(_point(curve[1]))
    return Cubic(_point(curve[1]), _point(curve[2]), _point(curve[3]))


def _ended(segment: Segment, end: Point) -> Segment:
    return Line(end) if isinstance(segment, Line) else Cubic(segment.control_1, segment.control_2, end)


def _point(row: Points) -> Point:
    return round(float(row[0]), DECIMALS), round(float(row[1]), DECIMALS)
