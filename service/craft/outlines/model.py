"""Outlines: closed curves of straight lines and cubic curves, in millimetres, x right and y down."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np
from numpy.typing import NDArray

from service.craft.outlines.affine import Affine, Point

Box = tuple[float, float, float, float]
"""Left, top, right, bottom."""

FLATTEN_TOLERANCE_MM = 0.01
"""A tenth of the step of a hoop machine: nobody can cut or sew the difference."""


@dataclass(frozen=True)
class Line:
    """A straight segment to `end`."""

    end: Point

    @property
    def points(self) -> tuple[Point, ...]:
        """Every point that steers the segment, its start left out."""
        return (self.end,)

    def moved(self, by: Affine) -> Line:
        """The segment under an affine map."""
        return Line(by.apply(self.end))


@dataclass(frozen=True)
class Cubic:
    """A cubic Bézier segment to `end`."""

    control_1: Point
    control_2: Point
    end: Point

    @property
    def points(self) -> tuple[Point, ...]:
        """Every point that steers the segment, its start left out."""
        return self.control_1, self.control_2, self.end

    def moved(self, by: Affine) -> Cubic:
        """The segment under an affine map: control points move like points."""
        return Cubic(by.apply(self.control_1), by.apply(self.control_2), by.apply(self.end))


Segment = Line | Cubic


@dataclass(frozen=True)
class Ring:
    """A closed curve. Where the last segment does not end at `start`, a straight line closes it."""

    start: Point
    segments: tuple[Segment, ...]

    def pairs(self) -> Iterator[tuple[Point, Segment]]:
        """Each segment with the point it starts from, the closing line included."""
        here = self.start
        for segment in self.segments:
            yield here, segment
            here = segment.end
        if here != self.start:
            yield here, Line(self.start)

    @cached_property
    def box_mm(self) -> Box:
        """The smallest upright box, exact for curves too (not the box of their control points).

        Kept once found: shapes are sorted and compared by it again and again, and a traced one has thousands of nodes.
        """
        xs, ys = [self.start[0]], [self.start[1]]
        for here, segment in self.pairs():
            for axis, found in ((0, xs), (1, ys)):
                found.append(segment.end[axis])
                if isinstance(segment, Cubic):
                    found.extend(_extremes(here[axis], *(p[axis] for p in segment.points)))
        return min(xs), min(ys), max(xs), max(ys)

    @property
    def area_mm2(self) -> float:
        """The enclosed area by Green's theorem, exact for curves; positive where it runs clockwise."""
        return sum(_area_beside(here, segment) for here, segment in self.pairs())

    def moved(self, by: Affine) -> Ring:
        """The ring under an affine map: a cubic stays a cubic."""
        return Ring(by.apply(self.start), tuple(segment.moved(by) for segment in self.segments))

    def reversed(self) -> Ring:
        """The same curve, run the other way round."""
        back: list[Segment] = []
        for here, segment in self.pairs():
            if isinstance(segment, Cubic):
                back.append(Cubic(segment.control_2, segment.control_1, here))
            else:
                back.append(Line(here))
        return Ring(self.start, tuple(reversed(back)))


@dataclass(frozen=True)
class Outline:
    """One shape: its outer ring first (clockwise on the page), then its holes (anticlockwise)."""

    name: str
    rings: tuple[Ring, ...]

    @property
    def box_mm(self) -> Box:
        """The smallest upright box: left, top, right, bottom."""
        return self.rings[0].box_mm

    @property
    def width_mm(self) -> float:
        """How wide the box is."""
        return self.box_mm[2] - self.box_mm[0]

    @property
    def height_mm(self) -> float:
        """How high the box is."""
        return self.box_mm[3] - self.box_mm[1]

    @property
    def area_mm2(self) -> float:
        """The area of the shape without its holes."""
        areas = [abs(ring.area_mm2) for ring in self.rings]
        return areas[0] - sum(areas[1:])

    def moved(self, by: Affine) -> Outline:
        """The outline under an affine map, run the other way where it is mirrored: it stays clockwise."""
        rings = (ring.moved(by) for ring in self.rings)
        return Outline(self.name, tuple(r.reversed() for r in rings) if by.determinant < 0 else tuple(rings))


@dataclass(frozen=True)
class OpenLine:
    """A line drawn inside a `shape` (its name) that encloses nothing: a vein, a crease. It can be sewn as a detail."""

    name: str
    shape: str
    start: Point
    segments: tuple[Segment, ...]

    def moved(self, by: Affine) -> OpenLine:
        """The line under an affine map."""
        moved = tuple(segment.moved(by) for segment in self.segments)
        return OpenLine(self.name, self.shape, by.apply(self.start), moved)


@dataclass(frozen=True)
class OutlineFile:
    """What was read from one upload: its name, the checksum of its bytes, its shapes, the open lines drawn in them, and
    notes in words.
    """

    name: str
    sha256: str
    shapes: tuple[Outline, ...]
    notes: tuple[str, ...] = ()
    lines: tuple[OpenLine, ...] = ()


def flatten(ring: Ring, *, tolerance_mm: float = FLATTEN_TOLERANCE_MM) -> NDArray[np.float64]:
    """The ring as an (n, 2) array of corners, nowhere further than `tolerance_mm` from the curve.

    Closed without repeating the first point. The number of chords of a cubic follows from its largest
    second derivative: n = sqrt(3/4 · max |second difference| / tolerance).

    >>> flatten(Ring((0.0, 0.0), (Line((2.0, 0.0)), Line((2.0, 1.0)), Line((0.0, 0.0))))).tolist()
    [[0.0, 0.0], [2.0, 0.0], [2.0, 1.0]]
    """
    rows: list[Point] = [ring.start]
    for here, segment in ring.pairs():
        if isinstance(segment, Cubic):
            rows.extend(chords(here, segment, tolerance_mm=tolerance_mm))
        else:
            rows.append(segment.end)
    kept = [row for row, before in zip(rows[1:], rows, strict=False) if row != before]
    return np.array(kept[-1:] + kept[:-1] if kept else rows, dtype=np.float64)


def flatten_line(line: OpenLine, *, tolerance_mm: float = FLATTEN_TOLERANCE_MM) -> NDArray[np.float64]:
    """An open line as an (n, 2) array of points, both ends included, nowhere further off than `tolerance_mm`.

    >>> flatten_line(OpenLine("vein", "leaf", (0.0, 0.0), (Line((2.0, 0.0)), Line((2.0, 1.0))))).tolist()
    [[0.0, 0.0], [2.0, 0.0], [2.0, 1.0]]
    """
    rows: list[Point] = [line.start]
    for segment in line.segments:
        if isinstance(segment, Cubic):
            rows.extend(chords(rows[-1], segment, tolerance_mm=tolerance_mm))
        else:
            rows.append(segment.end)
    return np.array(
        [rows[0], *(row for row, before in zip(rows[1:], rows, strict=False) if row != before)],
        dtype=np.float64,
    )


def count_chords(here: Point, segment: Segment, *, tolerance_mm: float = FLATTEN_TOLERANCE_MM) -> int:
    """How many chords a segment from `here` is flattened into."""
    if isinstance(segment, Line):
        return 1
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = here, *segment.points
    bend = max(math.hypot(ax - 2 * bx + cx, ay - 2 * by + cy), math.hypot(bx - 2 * cx + dx, by - 2 * cy + dy))
    return max(1, math.ceil(math.sqrt(0.75 * bend / tolerance_mm)))


def chords(here: Point, cubic: Cubic, *, tolerance_mm: float = FLATTEN_TOLERANCE_MM) -> list[Point]:
    """The corners that `flatten` puts on a cubic from `here`: its start left out, its end included."""
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = here, *cubic.points
    count = count_chords(here, cubic, tolerance_mm=tolerance_mm)
    points: list[Point] = []
    for step in range(1, count):
        t, u = step / count, 1 - step / count
        w, x, y, z = u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t
        points.append((w * ax + x * bx + y * cx + z * dx, w * ay + x * by + y * cy + z * dy))
    return [*points, cubic.end]


def _extremes(p0: float, p1: float, p2: float, p3: float) -> list[float]:
    """The values where a cubic turns back along one axis: the roots of its derivative inside it."""
    a, b, c = p3 - p0 + 3 * (p1 - p2), 2 * (p0 - 2 * p1 + p2), p1 - p0
    if abs(a) <= 1e-12 * (abs(b) + abs(c)):
        roots = [-c / b] if b else []
    else:
        inside = b * b - 4 * a * c
        # The second root from the first by their product: subtracting like numbers would lose digits.
        q = -0.5 * (b + math.copysign(math.sqrt(inside), b)) if inside >= 0 else 0.0
        roots = [q / a, c / q if q else 0.0] if inside >= 0 else []
    return [
        (1 - t) ** 3 * p0 + 3 * (1 - t) ** 2 * t * p1 + 3 * (1 - t) * t * t * p2 + t**3 * p3
        for t in roots
        if 0 < t < 1
    ]


def _area_beside(here: Point, segment: Segment) -> float:
    (x0, y0) = here
    if isinstance(segment, Line):
        x1, y1 = segment.end
        return (x0 * y1 - x1 * y0) / 2
    (x1, y1), (x2, y2), (x3, y3) = segment.points
    return (
        (6 * (x0 * y1 - x1 * y0) + 3 * (x0 * y2 - x2 * y0) + (x0 * y3 - x3 * y0))
        + (3 * (x1 * y2 - x2 * y1) + 3 * (x1 * y3 - x3 * y1) + 6 * (x2 * y3 - x3 * y2))
    ) / 20


def to_json(file: OutlineFile) -> dict[str, Any]:
    """The outline file as it is stored and handed to jobs (DEVELOPERS.md)."""
    shapes = [
        {"name": shape.name, "box_mm": list(shape.box_mm), "rings": [_ring_to_json(r) for r in shape.rings]}
        for shape in file.shapes
    ]
    stored = {"name": file.name, "sha256": file.sha256, "shapes": shapes, "notes": list(file.notes)}
    lines = [
        {"name": line.name, "shape": line.shape, **_run_to_json(line.start, line.segments)}
        for line in file.lines
    ]
    return {**stored, "lines": lines} if lines else stored


def from_json(raw: Mapping[str, Any]) -> OutlineFile:
    """Read what `to_json` wrote; a `KeyError` or `ValueError` where it is something else."""
    shapes = tuple(
        Outline(shape["name"], tuple(_ring_from_json(ring) for ring in shape["rings"]))
        for shape in raw["shapes"]
    )
    lines = tuple(
        OpenLine(line["name"], line["shape"], ring.start, ring.segments)
        for line in raw.get("lines", ())
        for ring in [_ring_from_json(line)]
    )
    return OutlineFile(raw["name"], raw["sha256"], shapes, tuple(raw.get("notes", ())), lines)


def _ring_to_json(ring: Ring) -> dict[str, Any]:
    return _run_to_json(ring.start, ring.segments)


def _run_to_json(start: Point, run: tuple[Segment, ...]) -> dict[str, Any]:
    segments = [
        [
            "C" if isinstance(segment, Cubic) else "L",
            *(number for point in segment.points for number in point),
        ]
        for segment in run
    ]
    return {"start": list(start), "segments": segments}


def _ring_from_json(raw: Mapping[str, Any]) -> Ring:
    x, y = raw["start"]
    return Ring((float(x), float(y)), tuple(_segment_from_json(segment) for segment in raw["segments"]))


def _segment_from_json(raw: list[Any]) -> Segment:
    numbers = [float(number) for number in raw[1:]]
    match raw[0], numbers:
        case "L", [x, y]:
            return Line((x, y))
        case "C", [x1, y1, x2, y2, x, y]:
            return Cubic((x1, y1), (x2, y2), (x, y))
    raise ValueError(f'a segment is ["L", x, y] or ["C", x1, y1, x2, y2, x, y], not {raw!r:.80}')
