"""The stitch lines of a band along an outline, before they become needle points.

A line stands on the outline (`foot`) along its normal, from `outer` (negative, off the cloth) to `inner`
(positive, onto the cloth). Lines advance at a constant step on the rail that leads. At a corner each side
runs straight on past it and is clipped at the bisector, so stitches never fan; where lines from two parts
of the outline would meet, they are clipped half way between them (the medial axis).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from workers.stitches.curves import (
    Floats,
    end_direction,
    lengths_along,
    points_at,
    reach_straight,
    sample_every,
    sides_between,
    turn_between,
)
from workers.stitches.guides import Guide
from workers.stitches.pieces import Points

SMOOTH_MM = 0.4
"""Directions are averaged over this length on both sides, so that facets of a bend do not show."""

GRID_MM = 0.05
TIP_SHARE = 1.25
"""A side runs on past a sharp corner by at most this many band halves: the tip is blunt, not a long spike."""

CORNER_ZONE = 1.6
"""The bisector clips lines within this many band widths of its corner, and where both sides are straight; farther away
the medial axis does."""

NEARER_SHARE = 0.97
"""A place cuts a line only where it is nearer than this share of the way to the line's own foot: facets of a
flattened bend and smoothed directions must not."""

LEAST_LINE_MM = 0.3
PLACE_MM = 0.4
"""The outlines are looked at every so often: 2 mm away that makes an error of 0.2² / (2 · 2) = 0.01 mm."""

Mask = NDArray[np.bool_]
Chosen = NDArray[np.bool_] | NDArray[np.int64]


@dataclass(frozen=True)
class Lines:
    """Stitch lines: feet (n, 2), unit normals (n, 2) onto the cloth, reach outward and inward.

    `beyond` is how far the foot lies past the end of its side.
    """

    foot: Points
    normal: Points
    beyond: Floats
    outer: Floats
    inner: Floats

    def __len__(self) -> int:
        return len(self.foot)

    def take(self, index: Chosen) -> Lines:
        """The lines chosen by a numpy index."""
        parts = (self.foot, self.normal, self.beyond, self.outer, self.inner)
        return Lines(*(part[index] for part in parts))

    def reach(self, at: Floats) -> Points:
        """The points at signed distances from the feet."""
        return self.foot + self.normal * at[:, None]


def join_lines(parts: list[Lines]) -> Lines:
    """All lines in order."""
    names = ("foot", "normal", "beyond", "outer", "inner")
    return Lines(*(np.concatenate([getattr(part, name) for part in parts]) for name in names))


@dataclass(frozen=True)
class Side:
    """The outline between two corners, the turn (radians, left positive) at its start and end, and how far from there
    this side and the one beyond the corner run straight on (mm). A ring without corners is one `round_trip` side.
    """

    path: Points
    turn_before: float = 0.0
    turn_after: float = 0.0
    round_trip: bool = False
    straight_before: float = np.inf
    straight_after: float = np.inf


def sides_of(ring: Points, corners: list[int]) -> list[Side]:
    """The sides of a ring with the turn at each corner; without corners the ring is one side."""
    if not corners:
        return [Side(np.vstack([ring, ring[:1]]), round_trip=True)]
    paths = sides_between(ring, corners)
    starts = np.array([end_direction(path, at_end=False) for path in paths])
    ends = np.array([end_direction(path, at_end=True) for path in paths])
    before = turn_between(np.roll(ends, 1, axis=0), starts)
    leaving = np.array([reach_straight(path) for path in paths])
    arriving = np.array([reach_straight(path[::-1]) for path in paths])
    straight = np.minimum(np.roll(arriving, 1), leaving)
    ends_of = zip(paths, before, np.roll(before, -1), straight, np.roll(straight, -1), strict=True)
    return [Side(p, float(a), float(b), False, float(c), float(d)) for p, a, b, c, d in ends_of]


def run_on(turn: float, outer: float, inner: float) -> float:
    """How far a side runs on past a corner with this turn, in millimetres."""
    half = outer if turn > 0 else inner
    return half * min(float(np.tan(min(abs(turn) / 2, 1.5))), TIP_SHARE)


def headings_along(path: Points, along: Floats, grid: Floats, *, round_trip: bool) -> Floats:
    """The smoothed direction of travel in radians at each grid place, continuous."""
    steps = np.diff(path, axis=0)
    angle = np.unwrap(np.arctan2(steps[:, 1], steps[:, 0]))
    middle = (along[1:] + along[:-1]) / 2
    whole = 0.0
    if round_trip:
        whole = float(angle[-1] - angle[0] + turn_between(steps[-1], steps[0]))
        angle = np.concatenate([[angle[-1] - whole], angle, [angle[0] + whole]])
        middle = np.concatenate([[middle[-1] - along[-1]], middle, [middle[0] + along[-1]]])
    there = np.interp(grid, middle, angle)
    step = grid[1] - grid[0]
    k = min(max(1, int(SMOOTH_MM / step)), max(1, (len(grid) - 1) // 2))
    if round_trip:
        padded = np.concatenate([there[-k - 1 : -1] - whole, there, there[1 : k + 1] + whole])
    else:
        padded = np.pad(there, k, mode="reflect", reflect_type="odd")
    summed = np.concatenate([[0.0], np.cumsum(padded)])
    return np.asarray((summed[2 * k + 1 :] - summed[: -2 * k - 1]) / (2 * k + 1))


def lines_on_side(side: Side, outer: float, inner: float, step: float) -> Lines:
    """Lines along one side, its run-ons included, the leading rail advancing by `step` a line."""
    before = run_on(side.turn_before, outer, inner)
    after = run_on(side.turn_after, outer, inner)
    path = side.path
    if before > 1e-6:
        path = np.vstack([path[0] - before * end_direction(side.path, at_end=False), path])
    if after > 1e-6:
        path = np.vstack([path, path[-1] + after * end_direction(side.path, at_end=True)])
    along = lengths_along(path)
    grid = np.linspace(0, along[-1], max(8, int(along[-1] / GRID_MM) + 2))
    heading = headings_along(path, along, grid, round_trip=side.round_trip)
    bend = np.gradient(heading, grid)
    lead = np.maximum(1 + bend * outer, 1 - bend * inner)
    gone = np.concatenate([[0.0], np.cumsum((lead[1:] + lead[:-1]) / 2 * np.diff(grid))])
    count = max(2, round(float(gone[-1]) / step))
    at = np.interp(np.linspace(0, gone[-1], count + 1)[: count if side.round_trip else None], gone, grid)
    angle = np.interp(at, grid, heading)
    beyond = np.maximum(np.maximum(before - at, at - (along[-1] - after)), 0.0)
    normal = np.stack([-np.sin(angle), np.cos(angle)], axis=1)
    full = np.ones(len(at))
    lines = Lines(points_at(path, along, at), normal, beyond, -outer * full, inner * full)
    zone = CORNER_ZONE * (outer + inner)
    first, last = before + min(zone, side.straight_before), along[-1] - after - min(zone, side.straight_after)
    lines = clip_at_bisector(lines, side.path[0], side, at < first, at_end=False)
    return clip_at_bisector(lines, side.path[-1], side, at > last, at_end=True)


def clip_at_bisector(lines: Lines, corner: Floats, side: Side, near: Mask, *, at_end: bool) -> Lines:
    """The lines cut where they would cross the bisector of the corner at one end of their side."""
    turn = side.turn_after if at_end else side.turn_before
    if side.round_trip or abs(turn) < 1e-6:
        return lines
    direction = end_direction(side.path, at_end=at_end)
    half = turn / 2 if at_end else -turn / 2
    away = np.array(
        [
            direction[0] * np.cos(half) - direction[1] * np.sin(half),
            direction[0] * np.sin(half) + direction[1] * np.cos(half),
        ]
    )
    away = away if at_end else -away
    past = (lines.foot - corner) @ away
    rate = lines.normal @ away
    with np.errstate(divide="ignore", invalid="ignore"):
        cross = -past / rate
    outer = np.where(near & (rate < -1e-9), np.maximum(lines.outer, cross), lines.outer)
    inner = np.where(near & (rate > 1e-9), np.minimum(lines.inner, cross), lines.inner)
    return Lines(lines.foot, lines.normal, lines.beyond, outer, inner)


def clip_half_way(lines: Lines, outlines: shapely.MultiLineString) -> Lines:
    """The lines cut where another part of the outlines is clearly nearer than their own foot.

    Source: the medial axis as the centres of empty circles (H. Blum, A transformation for extracting new
    descriptors of shape, 1967). A point at t along a line lies sqrt(b² + t²) from its own part of the outline
    (b: how far the foot stands beyond its corner) and sqrt(d² - 2 t n·d + t²) from a place d away from the foot.
    "Clearly nearer" is by `NEARER_SHARE`, which gives a quadratic in t whose smaller root is where to cut.
    """
    line, away = places_near(lines, outlines)
    along = np.einsum("ij,ij->i", lines.normal[line], away)
    constant = np.einsum("ij,ij->i", away, away) - (NEARER_SHARE * lines.beyond[line]) ** 2
    outer, inner = lines.outer.copy(), lines.inner.copy()
    slack = 1 - NEARER_SHARE**2
    for end in (outer, inner):
        there = np.abs(end[line])
        toward = np.sign(end[line]) * along
        found = np.flatnonzero(slack * there**2 - 2 * toward * there + constant < 0)
        b, c = toward[found], constant[found]
        root = (b - np.sqrt(np.maximum(b**2 - slack * c, 0.0))) / slack
        shortest = np.abs(end)
        np.minimum.at(shortest, line[found], np.maximum(root, 0.0))
        end[:] = np.sign(end) * shortest
    return Lines(lines.foot, lines.normal, lines.beyond, outer, inner)


def places_near(lines: Lines, outlines: shapely.MultiLineString) -> tuple[NDArray[np.int64], Points]:
    """Pairs of a line's number and a way from its foot to a place on the outlines that may cut it short."""
    places = np.vstack([sample_every(shapely.get_coordinates(part), PLACE_MM) for part in outlines.geoms])
    reach = np.maximum(np.abs(lines.outer), np.abs(lines.inner))
    half = (reach + np.hypot(lines.beyond, reach))[:, None]
    boxes = shapely.box(*(lines.foot - half).T, *(lines.foot + half).T)
    line, place = shapely.STRtree(np.asarray(shapely.points(places))).query(boxes)
    return line, places[place] - lines.foot[line]


def draw_lines(
    guide: Guide, start: Floats, outlines: shapely.MultiLineString, *, outer: float, inner: float, step: float
) -> Lines:
    """All lines round a guide whose normal points onto the cloth, clipped, from the one nearest to `start` on.

    `outlines` holds every guide of the piece; lines with nothing left between the clips are gone.
    """
    sides = sides_of(guide.ring, list(guide.corners))
    lines = join_lines([lines_on_side(side, outer, inner, step) for side in sides])
    lines = lines.take(lines.inner - lines.outer > 1e-6)
    lines = clip_half_way(lines, outlines)
    lines = lines.take(lines.inner - lines.outer > LEAST_LINE_MM)
    off = np.linalg.norm(lines.foot - start, axis=1) + np.where(lines.beyond > 0, np.inf, 0.0)
    return lines.take(np.roll(np.arange(len(lines)), -int(np.argmin(off)) if len(off) else 0))


def each_rail(lines: Lines, inset: float) -> Iterator[Points]:
    """The outer and the inner rail, both drawn in by `inset` but never past the middle of the band."""
    middle = (lines.outer + lines.inner) / 2
    yield lines.reach(np.minimum(lines.outer + inset, middle))
    yield lines.reach(np.maximum(lines.inner - inset, middle))
