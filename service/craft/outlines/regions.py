"""From contours as drawn to closed rings: an outer one and its holes for every region.

Curves stay curves. Only where contours cross is the shape worked out anew from short straight chords.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from service.craft.outlines.affine import Point
from service.craft.outlines.contours import Contour
from service.craft.outlines.faults import OutlineUnreadable
from service.craft.outlines.joining import SAME_LINE_MM, find_doubles, join_ends
from service.craft.outlines.limits import CLOSING_GAP_MM, LARGEST_COORDINATE_MM, Limits
from service.craft.outlines.model import Line, Ring, Segment, count_chords, flatten
from service.craft.outlines.untangle import are_tangled, untangle

SAME_POINT_MM = 1e-3
"""Nearer than this, two ends are one: the difference is left by rounding in the drawing."""

SAME_SPOT_MM = 1e-6
"""A segment shorter than this is none."""

HAIR_MM = 0.1
"""No piece of cloth is as thin as this, but the gap between two lines that were meant to be one is."""

SMALLEST_AREA_MM2 = 1e-4
"""Less area than this, and a contour runs back on itself."""


Corners = tuple[Ring, NDArray[np.float64]]
"""A ring and the corners it is flattened into."""


@dataclass(frozen=True)
class Regions:
    """The rings of each region (outer first, clockwise; holes anticlockwise), what was done to them, and the lines
    that stayed open.
    """

    rings: tuple[tuple[Ring, ...], ...]
    notes: tuple[str, ...]
    left_open: tuple[Contour, ...] = ()


def find_regions(
    contours: Sequence[Contour], *, by_parity: bool, limits: Limits, as_lines: bool = False
) -> Regions:
    """The regions that contours enclose under the even-odd rule (`by_parity`) or the nonzero rule.

    `as_lines` says that only lines show: then a contour drawn twice is one, where a fill would cancel out.
    """
    notes: list[str] = []
    joined = join_ends([contour for contour in contours if contour.gap > CLOSING_GAP_MM])
    if joined.used:
        notes.append(
            f"{joined.used} lines were joined end to end; the widest gap closed was {joined.widest_mm:.2f} mm"
        )
    whole = [contour for contour in contours if contour.gap <= CLOSING_GAP_MM]
    closed = [ring for contour in [*whole, *joined.closed] if (ring := _close(contour, notes))]
    for contour in joined.left:
        _check_reach(contour)
    if len(closed) > limits.contours_of_a_shape:
        raise OutlineUnreadable(
            f"one shape has {len(closed):,} contours",
            right=f"at most {limits.contours_of_a_shape:,}: draw separate shapes as separate paths",
        )
    solid = _solid(closed, notes, limits)
    rings = _enclosed(_undoubled(solid, by_parity, as_lines, notes), by_parity, notes, limits)
    if solid and not rings:
        notes.append("by its fill rule its contours cancel each other out: nothing of it shows")
    return Regions(rings, tuple(notes), joined.left)


def say_open(contour: Contour) -> str:
    """The note on a line that encloses nothing."""
    return f"an open line was left out; its ends lie {contour.gap:.1f} mm apart, and an outline is closed"


def _solid(closed: list[Ring], notes: list[str], limits: Limits) -> list[Corners]:
    """The rings that enclose anything, each with the corners it is flattened into."""
    check_fineness(sum(map(count_ring_points, closed)), limits)
    flat = [(ring, flatten(ring)) for ring in closed]
    solid = [
        (ring, points) for ring, points in flat if abs(ring.area_mm2) > SMALLEST_AREA_MM2 or _folds(points)
    ]
    if len(solid) < len(closed):
        notes.append("a contour that encloses nothing was left out")
    return solid


def _undoubled(solid: list[Corners], by_parity: bool, as_lines: bool, notes: list[str]) -> list[Corners]:
    """The rings without those drawn a second time: as lines, or where a fill shows the same without them."""
    doubles = {} if by_parity and not as_lines else find_doubles([points for _, points in solid])
    dropped = set(doubles) if as_lines or _fills_the_same(solid, doubles) else set[int]()
    if dropped:
        count = "a contour" if len(dropped) == 1 else f"{len(dropped)} contours"
        notes.append(f"{count} drawn twice, no more than {SAME_LINE_MM} mm apart, taken once")
    return [pair for i, pair in enumerate(solid) if i not in dropped]


def _fills_the_same(solid: list[Corners], doubles: dict[int, int]) -> bool:
    """Whether windings stay nonzero where they were, when each ring is taken once.

    They do where all are drawn equally often and the same way round, or where none can cancel another out.
    """
    signs = [1 if ring.area_mm2 > 0 else -1 for ring, _ in solid]
    if any(signs[later] != signs[first] for later, first in doubles.items()):
        return False
    often = Counter(doubles.get(i, i) for i in range(len(solid)))
    if len(set(often.values())) == 1:
        return True
    return len(set(signs)) == 1 and all(shapely.Polygon(points).is_valid for _, points in solid)


def _enclosed(
    solid: list[Corners], by_parity: bool, notes: list[str], limits: Limits
) -> tuple[tuple[Ring, ...], ...]:
    if not solid:
        return ()
    rings, points = [ring for ring, _ in solid], [p for _, p in solid]
    if not are_tangled(points, limits):
        return _nested(rings, points, by_parity, notes)
    notes.append(
        "its outline crosses itself: it was put right, what was cut in straight steps of at most 0.01 mm off the curve"
    )
    untangled = untangle(points, by_parity=by_parity, limits=limits, originals=rings)
    kept = tuple(region for region in untangled if not _is_hair(region[0]))
    if len(kept) < len(untangled):
        count = len(untangled) - len(kept)
        notes.append(
            f"left out: {count} between lines that run over each other, thinner than {HAIR_MM} mm all along"
        )
    return kept


def _is_hair(ring: Ring) -> bool:
    """Whether a ring is no more than two drawings of one line leave between them: its mean width is a hair's."""
    points = flatten(ring)
    length = float(np.hypot(*(np.roll(points, -1, axis=0) - points).T).sum())
    return 2 * abs(ring.area_mm2) < HAIR_MM * length


def count_ring_points(ring: Ring) -> int:
    """How many points a ring is flattened into."""
    return sum(count_chords(here, segment) for here, segment in ring.pairs())


def check_fineness(points: int, limits: Limits) -> None:
    """Refuse curves so large or so many that their points at true size would flood memory."""
    if points > limits.flattened_points:
        raise OutlineUnreadable(
            f"the outlines need {points:,} points at true size",
            right=f"at most {limits.flattened_points:,}: simpler or smaller outlines",
        )


def _folds(points: NDArray[np.float64]) -> bool:
    """Whether a contour of no net area still encloses some, as a figure of eight does."""
    return len(points) >= 4 and float(np.ptp(points, axis=0).min()) > SAME_POINT_MM and not _is_line(points)


def _is_line(points: NDArray[np.float64]) -> bool:
    return bool(np.linalg.svd(points - points.mean(axis=0), compute_uv=False)[1] < SAME_POINT_MM)


def _close(contour: Contour, notes: list[str]) -> Ring | None:
    _check_reach(contour)
    segments = _without_dots(contour)
    if not segments:
        return None
    end = segments[-1].end
    gap = math.dist(end, contour.start)
    if gap <= SAME_POINT_MM:
        segments[-1] = _ending(segments[-1], contour.start)
    else:
        segments.append(Line(contour.start))
        if not contour.closed:
            notes.append(f"its ends, {gap:.2f} mm apart, were joined")
    return Ring(contour.start, tuple(segments))


def _check_reach(contour: Contour) -> None:
    for point in (contour.start, *(point for segment in contour.segments for point in segment.points)):
        if not (abs(point[0]) <= LARGEST_COORDINATE_MM and abs(point[1]) <= LARGEST_COORDINATE_MM):
            raise OutlineUnreadable(
                f"it reaches to {_metres(point[0])} across and {_metres(point[1])} down",
                right="a drawing at true size, within 10 m of its origin",
            )


def _metres(mm: float) -> str:
    return f"{mm / 1000:,.1f} m" if abs(mm) < 1e12 else "an endless distance"


def _without_dots(contour: Contour) -> list[Segment]:
    kept: list[Segment] = []
    here = contour.start
    for segment in contour.segments:
        if any(math.dist(here, point) > SAME_SPOT_MM for point in segment.points):
            kept.append(segment)
            here = segment.end
    return kept


def _ending(segment: Segment, end: Point) -> Segment:
    return (
        Line(end) if isinstance(segment, Line) else type(segment)(segment.control_1, segment.control_2, end)
    )


def _nested(
    rings: list[Ring], points: list[NDArray[np.float64]], by_parity: bool, notes: list[str]
) -> tuple[tuple[Ring, ...], ...]:
    """Outer rings with their holes, for rings that do not cross.

    Going inward, the winding number changes by the direction of each ring; a ring matters where the
    region's inside begins or ends there.
    """
    areas = [ring.area_mm2 for ring in rings]
    order = sorted(range(len(rings)), key=lambda i: -abs(areas[i]))
    parents = _parents(points, order)
    winding: dict[int, int] = {-1: 0}
    owner: dict[int, int] = {-1: -1}
    regions: dict[int, list[Ring]] = {}
    for i in order:
        parent = parents[i]
        winding[i] = winding[parent] + (1 if by_parity or areas[i] > 0 else -1)
        inside, was_inside = (bool(w % 2 if by_parity else w) for w in (winding[i], winding[parent]))
        owner[i] = owner[parent]
        if inside and not was_inside:
            owner[i], regions[i] = i, [rings[i] if areas[i] > 0 else rings[i].reversed()]
        elif was_inside and not inside:
            regions[owner[parent]].append(rings[i] if areas[i] < 0 else rings[i].reversed())
            owner[i] = -1
        else:
            notes.append(
                "an inner contour runs the same way as the outer one and so is no hole: it was left out"
            )
    return tuple(tuple(region) for region in regions.values())


def _parents(points: list[NDArray[np.float64]], order: list[int]) -> dict[int, int]:
    """The smallest ring round each ring, or -1: one holds a smaller one if it holds any inner point of it."""
    polygons = [shapely.Polygon(p) for p in points]
    spots = np.array([polygon.representative_point().coords[0] for polygon in polygons]).reshape(-1, 2)
    parents = dict.fromkeys(order, -1)
    for rank, i in enumerate(order):
        smaller = order[rank + 1 :]
        if smaller:
            shapely.prepare(polygons[i])
            held = shapely.contains_xy(polygons[i], spots[smaller, 0], spots[smaller, 1])
            parents.update((j, i) for j, is_held in zip(smaller, held, strict=True) if is_held)
    return parents
