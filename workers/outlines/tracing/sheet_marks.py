"""The marks of the calibration sheet in a picture, and the plane they give."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from service.craft.calibration import SHEETS, CalibrationSheet
from service.craft.faults import Fault
from service.craft.tracing import CannotTrace
from workers.outlines.tracing.plane import Matrix, Plane
from workers.outlines.tracing.points import Points, resample, signed_area

LEAST_POINTS = 40
"""A mark with fewer points on its edge is too small to place."""

HOLE_SHARE, DOT_SHARE = 0.25, 1 / 16
SHARE_SLACK = 1.6
"""Areas of hole and dot against the mark's, and the factor by which blur may change them."""

OFF_CENTRE = 0.12
"""Hole and dot lie in the middle of a mark, within this share of its size."""

OVAL_SLACK = 0.06
"""Seen at a slant a ring is an ellipse: its area follows from its second moments within this share."""

MOST_MARKS = 8
MOST_UNLIKE = 4.0
"""Areas of two marks: at the worst slant that can be traced, one is seen twice as long as another."""


@dataclass(frozen=True)
class Mark:
    """A ring in the picture: its middle and area in pixels, and whether there is a dot in it."""

    x: float
    y: float
    area: float
    dotted: bool


@dataclass(frozen=True)
class FoundSheet:
    """A calibration sheet in the picture and the plane it gives."""

    sheet: CalibrationSheet
    plane: Plane


def find_marks(lines: Sequence[Points]) -> list[Mark]:
    """Everything among closed lines that looks like a mark of the sheet."""
    ovals = [(line, signed_area(line), _middle(line)) for line in lines if len(line) >= 8]
    outer = [one for one in ovals if one[1] > 0 and len(one[0]) >= LEAST_POINTS and _is_oval(one[0])]
    marks = []
    for _, area, middle in outer:
        inside = [
            (other / area)
            for _, other, at in ovals
            if abs(other) < area / 2 and math.dist(at, middle) < OFF_CENTRE * math.sqrt(area)
        ]
        if any(_is_share(-share, HOLE_SHARE) for share in inside):
            dotted = any(_is_share(share, DOT_SHARE) for share in inside)
            marks.append(Mark(float(middle[0]), float(middle[1]), area, dotted))
    return marks


def find_sheet(marks: Sequence[Mark]) -> FoundSheet | None:
    """The sheet whose marks these are; None where there are none at all.

    `CannotTrace` where some of the four are missing or do not belong together.
    """
    if not marks:
        return None
    largest = sorted(marks, key=lambda mark: -mark.area)[:MOST_MARKS]
    best: tuple[float, FoundSheet] | None = None
    for four in itertools.combinations(largest, 4):
        ring = _clockwise(four)
        sheet = _which_sheet(ring)
        if sheet is None or not _is_convex(ring) or not _alike(four):
            continue
        size = signed_area(np.array([(mark.x, mark.y) for mark in ring]))
        if best is None or size > best[0]:
            best = size, FoundSheet(sheet, _plane(_from_first(ring), sheet))
    if best is None:
        raise CannotTrace([Fault("/file", _say_missing(marks), ALL_FOUR)])
    return best[1]


ALL_FOUR = (
    "all four marks of the calibration sheet in the picture, sharp, with nothing lying on them; or dpi, or "
    "known_length with between, and a picture without the sheet"
)


def _alike(marks: Sequence[Mark]) -> bool:
    """However it is seen, a mark is not that much larger than another: a letter or a shape with a hole is."""
    areas = [mark.area for mark in marks]
    return max(areas) < MOST_UNLIKE * min(areas)


def _say_missing(marks: Sequence[Mark]) -> str:
    marks = max(([one for one in marks if _alike((one, mark))] for mark in marks), key=len)
    if len(marks) < 4:
        seen = "1 of the 4 marks" if len(marks) == 1 else f"{len(marks)} of the 4 marks"
        return f"{seen} of the calibration sheet can be seen"
    dots = sum(mark.dotted for mark in marks)
    return f"{len(marks)} marks are seen, {dots} of them with a dot: no calibration sheet has those"


def homography(pixels: Points, mm: Points) -> Matrix:
    """The homography that takes four points to four others (Hartley and Zisserman, 2004, section 4.1)."""
    rows = []
    for (x, y), (u, v) in zip(pixels, mm, strict=True):
        rows.append([x, y, 1, 0, 0, 0, -u * x, -u * y])
        rows.append([0, 0, 0, x, y, 1, -v * x, -v * y])
    solved = np.linalg.solve(np.array(rows, dtype=np.float64), np.asarray(mm, dtype=np.float64).ravel())
    return np.append(solved, 1.0).reshape(3, 3)


def _plane(ring: Sequence[Mark], sheet: CalibrationSheet) -> Plane:
    pixels = np.array([(mark.x, mark.y) for mark in ring])
    note = f"the scale comes from the calibration sheet ({sheet.paper}) in the picture"
    return Plane(homography(pixels, np.array(sheet.marks)), (note,))


def _clockwise(marks: Sequence[Mark]) -> list[Mark]:
    """In order round their middle, clockwise on the page."""
    x = sum(mark.x for mark in marks) / len(marks)
    y = sum(mark.y for mark in marks) / len(marks)
    return sorted(marks, key=lambda mark: math.atan2(mark.y - y, mark.x - x))


def _which_sheet(ring: Sequence[Mark]) -> CalibrationSheet | None:
    """By how many marks have a dot; two of them stand side by side."""
    count = sum(mark.dotted for mark in ring)
    if count == 2 and not any(ring[i].dotted and ring[i - 1].dotted for i in range(4)):
        return None
    return next((sheet for sheet in SHEETS if sheet.dotted == count), None)


def _from_first(ring: list[Mark]) -> list[Mark]:
    """Turned so that the upper left mark of the sheet comes first: the dotted one that follows an undotted one."""
    first = next(i for i in range(4) if ring[i].dotted and not ring[i - 1].dotted)
    return ring[first:] + ring[:first]


def _is_convex(ring: Sequence[Mark]) -> bool:
    def turns_right(i: int) -> bool:
        a, b, c = ring[i - 2], ring[i - 1], ring[i]
        return (b.x - a.x) * (c.y - b.y) - (b.y - a.y) * (c.x - b.x) > 0

    return all(turns_right(i) for i in range(4))


def _middle(line: Points) -> Points:
    """The middle of the area, for marks; of the points where there is hardly any area."""
    x, y = line[:, 0], line[:, 1]
    ahead_x, ahead_y = np.roll(x, -1), np.roll(y, -1)
    cross = x * ahead_y - ahead_x * y
    area = cross.sum() / 2
    if abs(area) < 1:
        return np.asarray(line.mean(axis=0))
    return np.asarray(np.array([((x + ahead_x) * cross).sum(), ((y + ahead_y) * cross).sum()]) / (6 * area))


def _is_oval(line: Points) -> bool:
    even = resample(line, 1.0)
    spread = np.cov(even.T)
    implied = 2 * math.pi * math.sqrt(max(float(np.linalg.det(spread)), 1e-12))
    return abs(signed_area(line) / implied - 1) < OVAL_SLACK


def _is_share(share: float, wanted: float) -> bool:
    return wanted / SHARE_SLACK < share < wanted * SHARE_SLACK
