"""From pixels to millimetres: a scale, or a plane seen at a slant. Only points are moved."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from service.craft.faults import Fault
from service.craft.tracing import LEAST_DPI, MOST_DPI, THREE_WAYS, CannotTrace, TracingAsked
from workers.outlines.tracing.points import Points

MM_PER_INCH = 25.4

LEAST_APART_PX = 100

Matrix = NDArray[np.float64]


@dataclass(frozen=True)
class Plane:
    """A homography from pixels of the file (0, 0 the corner of the first) to mm, and how it came about."""

    matrix: Matrix
    notes: tuple[str, ...] = ()

    def to_mm(self, pixels: Points) -> Points:
        """Where points of the picture lie on the sheet."""
        return move(self.matrix, pixels)

    def to_pixels(self, mm: Points) -> Points:
        """Where points of the sheet lie in the picture."""
        return move(np.asarray(np.linalg.inv(self.matrix), dtype=np.float64), mm)

    def mm_per_pixel(self, at: Points) -> float:
        """How large a pixel is near a point of the picture: the root of the area it covers."""
        corners = self.to_mm(at + np.array([[0.0, 0.0], [1.0, 0.0], [0.0, 1.0]]))
        (ax, ay), (bx, by) = corners[1] - corners[0], corners[2] - corners[0]
        return math.sqrt(abs(float(ax * by - ay * bx)))


def move(matrix: Matrix, points: Points) -> Points:
    """Points under a homography."""
    whole = points @ matrix[:, :2].T + matrix[:, 2]
    return np.asarray(whole[:, :2] / whole[:, 2:])


def scaled(mm_per_pixel: float, *notes: str) -> Plane:
    """A plane seen straight on."""
    return Plane(np.diag([mm_per_pixel, mm_per_pixel, 1.0]), notes)


def stated_plane(asked: TracingAsked, width: int, height: int) -> Plane | None:
    """The plane that the form states; None where it states none. `CannotTrace` with every fault in it."""
    faults = list(_faults(asked, width, height))
    if faults:
        raise CannotTrace(faults)
    if asked.dpi is not None:
        return scaled(MM_PER_INCH / asked.dpi)
    if asked.known_length_mm is not None and asked.between is not None:
        return scaled(asked.known_length_mm / math.dist(*asked.between))
    return None


def _faults(asked: TracingAsked, width: int, height: int) -> list[Fault]:
    found: list[Fault] = []
    known = asked.known_length_mm is not None or asked.between is not None
    if asked.dpi is not None and known:
        found.append(Fault("/dpi", "dpi and known_length both state the scale", "one of them"))
    if known and asked.between is None:
        found.append(Fault("/between", "known_length stands without between", "two points: [[x, y], [x, y]]"))
    if known and asked.known_length_mm is None:
        found.append(Fault("/known_length", "between stands without known_length", 'a length: "100 mm"'))
    if asked.dpi is not None:
        found += _fineness("/dpi", asked.dpi)
    if asked.between is not None:
        found += _between_faults(asked, width, height)
    return found


def _between_faults(asked: TracingAsked, width: int, height: int) -> list[Fault]:
    assert asked.between is not None  # noqa: S101 # asked by the caller
    inside = all(0 <= x <= width and 0 <= y <= height for x, y in asked.between)
    if not inside:
        right = f"points within its {width} x {height} pixels, as it is seen upright"
        return [Fault("/between", "a point lies outside the picture", right)]
    apart = math.dist(*asked.between)
    if apart < LEAST_APART_PX:
        right = f"points at least {LEAST_APART_PX} pixels apart: a slip of one pixel then changes no size"
        return [Fault("/between", f"the points lie {apart:.0f} pixels apart", right)]
    if asked.known_length_mm is None:
        return []
    return _fineness("/known_length", apart / asked.known_length_mm * MM_PER_INCH)


def _fineness(pointer: str, dpi: float) -> list[Fault]:
    if LEAST_DPI <= dpi <= MOST_DPI:
        return []
    detail = f"the picture would have {dpi:,.0f} dots an inch"
    return [Fault(pointer, detail, f"from {LEAST_DPI:.0f} to {MOST_DPI:.0f}: 300 is right for a scan")]


def no_scale() -> CannotTrace:
    """Nothing says how large the picture is."""
    return CannotTrace([Fault("/dpi", "nothing says how large the picture is", THREE_WAYS)])
