"""Contours as they are drawn: runs of lines and cubics in user units, open or closed."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from service.craft.outlines.affine import Point
from service.craft.outlines.model import Cubic, Line, Segment

ARC_ERROR_MM = 0.0005
"""How far a cubic may leave the arc it stands for."""

QUARTER_ERROR = 2.73e-4
"""Largest radial error of one cubic for a quarter of a unit circle; falls with the angle's sixth power."""

POINTS_ALONG = 9

TOO_MANY = "more segments than one drawing may have"


@dataclass(frozen=True)
class Contour:
    """One run of segments. `closed` where the drawing closes it itself (Z, a rectangle, a polygon)."""

    start: Point
    segments: tuple[Segment, ...]
    closed: bool

    @property
    def gap(self) -> float:
        """How far its ends lie apart; nothing where the drawing closes it."""
        return 0.0 if self.closed else math.dist(self.start, self.segments[-1].end)


@dataclass
class Pen:
    """Collects contours while a shape is read. `unit_mm` is the size of a user unit: arcs follow it.

    More than `at_most` segments are a `ValueError`, raised while they are read.
    """

    unit_mm: float
    at_most: float = math.inf
    drawn: int = 0
    contours: list[Contour] = field(default_factory=list)
    here: Point = (0.0, 0.0)
    start: Point = (0.0, 0.0)
    _segments: list[Segment] = field(default_factory=list)

    def move(self, to: Point) -> None:
        """Begin another contour."""
        self._finish(closed=False)
        self.start = self.here = to

    def line(self, to: Point) -> None:
        """A straight segment."""
        self._add(Line(to))

    def cubic(self, control_1: Point, control_2: Point, to: Point) -> None:
        """A cubic segment."""
        self._add(Cubic(control_1, control_2, to))

    def quadratic(self, control: Point, to: Point) -> None:
        """A quadratic segment, as the cubic that is the same curve."""
        (x0, y0), (x1, y1), (x2, y2) = self.here, control, to
        self.cubic(
            (x0 + 2 * (x1 - x0) / 3, y0 + 2 * (y1 - y0) / 3),
            (x2 + 2 * (x1 - x2) / 3, y2 + 2 * (y1 - y2) / 3),
            to,
        )

    def arc(self, radii: Point, turn: float, large: bool, sweep: bool, to: Point) -> None:
        """An elliptical arc as SVG writes it (SVG 2, 9.5 and B.2), as cubics."""
        rx, ry = abs(radii[0]), abs(radii[1])
        if self.here == to:
            return
        if not (rx and ry):
            self.line(to)
            return
        for control_1, control_2, end in arc_cubics(
            self.here, to, (rx, ry), turn, large, sweep, self.unit_mm
        ):
            self.cubic(control_1, control_2, end)

    def close(self) -> None:
        """Close the contour; whatever follows without a move starts again where it started."""
        self._finish(closed=True)
        self.here = self.start

    def finished(self) -> list[Contour]:
        """All contours, the last one included."""
        self._finish(closed=False)
        return self.contours

    def _add(self, segment: Segment) -> None:
        self.drawn += 1
        if self.drawn > self.at_most:
            raise ValueError(TOO_MANY)
        self._segments.append(segment)
        self.here = segment.end

    def _finish(self, *, closed: bool) -> None:
        if self._segments:
            self.contours.append(Contour(self.start, tuple(self._segments), closed))
        self._segments = []


def points_along(start: Point, segments: Sequence[Segment]) -> NDArray[np.float64]:
    """Ends of segments and points between, (n, 2): so many a cubic, however long, that a bow is seen."""
    steering, here = [], start
    for segment in segments:
        between = segment.points[:-1] or (here, segment.end)
        steering.append((here, *between, segment.end))
        here = segment.end
    t = np.linspace(0, 1, POINTS_ALONG)[:, None]
    basis = np.concatenate([(1 - t) ** 3, 3 * (1 - t) ** 2 * t, 3 * (1 - t) * t * t, t**3], axis=1)
    return np.asarray(basis @ np.array(steering)).reshape(-1, 2)


def arc_cubics(
    start: Point, end: Point, radii: Point, turn: float, large: bool, sweep: bool, unit_mm: float
) -> list[tuple[Point, Point, Point]]:
    """The cubics (two control points and an end each) of an arc between two points.

    From end points to the centre as SVG 2, B.2.4 does it; radii too small to reach are enlarged (B.2.5).
    """
    cos, sin = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    half_x, half_y = (start[0] - end[0]) / 2, (start[1] - end[1]) / 2
    x, y = cos * half_x + sin * half_y, cos * half_y - sin * half_x
    reach = math.hypot(x / radii[0], y / radii[1])
    rx, ry = radii[0] * max(1.0, reach), radii[1] * max(1.0, reach)
    away = math.sqrt(max(0.0, 1 / max(reach, 1e-300) ** 2 - 1)) if reach < 1 else 0.0
    side = -away if large == sweep else away
    centre_x, centre_y = side * rx * y / ry, -side * ry * x / rx
    begin = math.atan2((y - centre_y) / ry, (x - centre_x) / rx)
    swept = (math.atan2((-y - centre_y) / ry, (-x - centre_x) / rx) - begin) % math.tau
    if not sweep:
        swept -= math.tau
    middle_x = cos * centre_x - sin * centre_y + (start[0] + end[0]) / 2
    middle_y = sin * centre_x + cos * centre_y + (start[1] + end[1]) / 2

    def on_page(unit: Point) -> Point:
        u, v = unit[0] * rx, unit[1] * ry
        return middle_x + cos * u - sin * v, middle_y + sin * u + cos * v

    pieces = [tuple(map(on_page, piece)) for piece in _unit_arc(begin, swept, max(rx, ry) * unit_mm)]
    # The last point is the one written down, not one that went through sines and back.
    return [(p[0], p[1], end if i == len(pieces) - 1 else p[2]) for i, p in enumerate(pieces)]


def _unit_arc(begin: float, swept: float, radius_mm: float) -> list[tuple[Point, Point, Point]]:
    quarters = abs(swept) / (math.pi / 2)
    count = max(
        1,
        math.ceil(quarters - 1e-9),
        math.ceil(quarters * (QUARTER_ERROR * radius_mm / ARC_ERROR_MM) ** (1 / 6)),
    )
    step = swept / count
    reach = 4 / 3 * math.tan(step / 4)
    pieces = []
    for i in range(count):
        a, b = begin + i * step, begin + (i + 1) * step
        (ca, sa), (cb, sb) = (math.cos(a), math.sin(a)), (math.cos(b), math.sin(b))
        pieces.append(((ca - reach * sa, sa + reach * ca), (cb + reach * sb, sb - reach * cb), (cb, sb)))
    return pieces
