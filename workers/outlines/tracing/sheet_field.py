"""What lies where on a calibration sheet in a picture: the square to measure, and the shapes in the field."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from service.craft.calibration import SQUARE_MM
from workers.outlines.tracing.points import Points
from workers.outlines.tracing.sheet_marks import LEAST_POINTS, FoundSheet

SQUARE_SLACK_MM = 0.3
"""Off by more, the sheet was bent, or the printer changed its shape."""

NEAR_MM = 2.0


def measured_square(found: FoundSheet, lines: Sequence[Points]) -> tuple[float, float] | None:
    """Width and height of the printed square by the plane, in mm, or None where it is hidden.

    The square is a line of its own width round 50 mm, so outer and inner edge are averaged.
    """
    left, top = found.sheet.square
    wanted = np.array([left, top, left + SQUARE_MM, top + SQUARE_MM])
    boxes = []
    for line in lines:
        if len(line) < LEAST_POINTS:
            continue
        at = found.plane.to_mm(line)
        box = np.concatenate([at.min(axis=0), at.max(axis=0)])
        if np.abs(box - wanted).max() < NEAR_MM:
            boxes.append(box)
    if len(boxes) != 2:
        return None
    mean = np.mean(boxes, axis=0)
    return float(mean[2] - mean[0]), float(mean[3] - mean[1])


def say_square(measured: tuple[float, float] | None) -> list[str]:
    """What the square says about the sheet."""
    if measured is None:
        return ["the square of the calibration sheet is hidden: its size was not checked"]
    size = f"the square of the calibration sheet measures {measured[0]:.2f} x {measured[1]:.2f} mm"
    if max(abs(side - SQUARE_MM) for side in measured) > SQUARE_SLACK_MM:
        return [f"{size} instead of 50: the sheet was not flat, or was not printed evenly; measure it"]
    return [size]


def part_by_field(found: FoundSheet, lines: Sequence[Points]) -> tuple[list[int], int]:
    """Which lines lie within the field, and how many others lie over its border."""
    left, top, right, foot = found.sheet.field
    inside: list[int] = []
    crossing = 0
    for number, line in enumerate(lines):
        x, y = found.plane.to_mm(line).T
        within = (x > left) & (x < right) & (y > top) & (y < foot)
        if within.all():
            inside.append(number)
        elif within.any():
            crossing += 1
    return inside, crossing
