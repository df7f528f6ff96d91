"""Where a blade has to turn hard: the tightest curve and the sharpest corner of a shape, as it is cut."""

from __future__ import annotations

from dataclasses import dataclass
from math import acos, degrees, inf

import numpy as np
from numpy.typing import NDArray

from service.craft.outlines import Cubic, Outline, Ring
from service.craft.outlines.affine import Point

TIGHT_MM = 0.5
"""Common practice, no source: a dragged blade follows curves of about half a millimetre, and lifts to turn in less."""

SHARP_DEGREES = 25.0
"""Common practice, no source: cloth frays at points under about 25 degrees, and a blade may pull them along."""

ALONG = np.linspace(0.0, 1.0, 33)
SMALLEST_LENGTH = 1e-9


@dataclass(frozen=True)
class BladeTurns:
    """The least radius of a curve in mm, and the sharpest corner in degrees inside it; infinite and 180 without any."""

    radius_mm: float
    corner_degrees: float

    @property
    def hard(self) -> bool:
        """Whether either is worth a slower blade."""
        return self.radius_mm < TIGHT_MM or self.corner_degrees < SHARP_DEGREES


def find_blade_turns(outline: Outline) -> BladeTurns:
    """The hardest turns of all rings. A turn of 180 degrees back on itself is a corner of 0."""
    radii, corners = [inf], [180.0]
    for ring in outline.rings:
        tangents = []
        for start, segment in _walk(ring):
            points = np.array([start, *segment])
            if len(points) == 4:
                radii.append(_least_radius(points))
            ends = _directions(points)
            if ends is not None:
                tangents.append(ends)
        corners += [
            _corner(before[1], after[0])
            for before, after in zip(tangents, [*tangents[1:], *tangents[:1]], strict=True)
        ]
    return BladeTurns(min(radii), min(corners))


def _walk(ring: Ring) -> list[tuple[Point, tuple[Point, ...]]]:
    """Every segment with the point it starts from, the straight way back to the start among them."""
    here, found = ring.start, []
    for segment in ring.segments:
        found.append((here, tuple(segment.points) if isinstance(segment, Cubic) else (segment.points[-1],)))
        here = segment.points[-1]
    return [*found, (here, (ring.start,))]


def _directions(points: NDArray[np.float64]) -> tuple[NDArray[np.float64], NDArray[np.float64]] | None:
    """Unit vectors along its beginning and its end; None for a segment of no length."""
    steps = np.diff(points, axis=0)
    lengths = np.hypot(*steps.T)
    real = steps[lengths > SMALLEST_LENGTH]
    if not len(real):
        return None
    return real[0] / np.hypot(*real[0]), real[-1] / np.hypot(*real[-1])


def _corner(before: NDArray[np.float64], after: NDArray[np.float64]) -> float:
    return 180.0 - degrees(acos(float(np.clip(before @ after, -1.0, 1.0))))


def _least_radius(points: NDArray[np.float64]) -> float:
    """Of a cubic, at even steps of its parameter; a curve that is straight has no radius."""
    steps = np.diff(points, axis=0)
    t = ALONG[:, None]
    first = 3 * ((1 - t) ** 2 * steps[0] + 2 * t * (1 - t) * steps[1] + t**2 * steps[2])
    second = 6 * ((1 - t) * (steps[1] - steps[0]) + t * (steps[2] - steps[1]))
    cross = np.abs(first[:, 0] * second[:, 1] - first[:, 1] * second[:, 0])
    bent = cross > SMALLEST_LENGTH
    speed = np.hypot(first[:, 0], first[:, 1])
    return float(np.min(speed[bent] ** 3 / cross[bent], initial=inf))
