"""Curves that bend too tightly for scissors, a blade or a fold to follow; corners are none, they are cut as corners."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from service.craft.outlines.affine import Point
from service.craft.outlines.model import Cubic, Outline, Ring

SAMPLES = 24
"""Places looked at on each cubic."""

LEAST_TURN_DEGREES = 45.0
"""A tight stretch that turns by less is hardly seen."""

LEAST_RADIUS_MM = 0.02
"""What bends more tightly still is a corner that was drawn as a curve."""


@dataclass(frozen=True)
class TightCurve:
    """Where a curve is at its tightest (mm), its radius there, and whether the shape bends inwards."""

    at: Point
    radius_mm: float
    inner: bool


def find_tight_curves(outline: Outline, *, inner_mm: float, outer_mm: float) -> list[TightCurve]:
    """The tightest place of every stretch with a radius below `inner_mm` (bending inwards) or `outer_mm`."""
    return [
        tight
        for i, ring in enumerate(outline.rings)
        for tight in _look_along(ring, inner_mm, outer_mm, hole=i > 0)
    ]


def _look_along(ring: Ring, inner_mm: float, outer_mm: float, *, hole: bool) -> list[TightCurve]:
    """Outer rings run clockwise on the page (positive area), holes the other way: both have the shape to one side."""
    side = 1.0 if (ring.area_mm2 >= 0) is not hole else -1.0
    found: list[TightCurve] = []
    for here, segment in ring.pairs():
        if not isinstance(segment, Cubic):
            continue
        points, bends, turns = _sample(here, segment)
        bends, turns = side * bends, side * turns
        for inner, limit in ((True, inner_mm), (False, outer_mm)):
            bend = -bends if inner else bends
            tight = (bend > 1 / limit if limit else np.zeros(len(bend), dtype=bool)) & (
                bend < 1 / LEAST_RADIUS_MM
            )
            if tight.any() and abs(float(turns[tight].sum())) >= math.radians(LEAST_TURN_DEGREES):
                worst = int(np.argmax(np.where(tight, bend, 0)))
                place = (float(points[worst, 0]), float(points[worst, 1]))
                found.append(TightCurve(place, float(1 / bend[worst]), inner))
    return found


def _sample(
    here: Point, cubic: Cubic
) -> tuple[NDArray[np.float64], NDArray[np.float64], NDArray[np.float64]]:
    """Points along a cubic, the curvature there (1/mm, positive where it turns clockwise on the page), and how far
    it turns around each (radians).
    """
    p = np.array([here, *cubic.points])
    t = (np.arange(SAMPLES)[:, None] + 0.5) / SAMPLES
    u = 1 - t
    points = u**3 * p[0] + 3 * u**2 * t * p[1] + 3 * u * t**2 * p[2] + t**3 * p[3]
    first = 3 * (u**2 * (p[1] - p[0]) + 2 * u * t * (p[2] - p[1]) + t**2 * (p[3] - p[2]))
    second = 6 * (u * (p[2] - 2 * p[1] + p[0]) + t * (p[3] - 2 * p[2] + p[1]))
    speed = np.maximum(np.hypot(first[:, 0], first[:, 1]), 1e-9)
    bends = (first[:, 0] * second[:, 1] - first[:, 1] * second[:, 0]) / speed**3
    return points, bends, bends * speed / SAMPLES
