"""Satin and zigzag: needle points that swing from rail to rail over the raw edge."""

from __future__ import annotations

import numpy as np
import shapely
from numpy.typing import NDArray

from workers.stitches.curves import Floats, begin_near, close_path
from workers.stitches.guides import Guide
from workers.stitches.pieces import Points
from workers.stitches.rails import Lines, draw_lines, each_rail
from workers.stitches.running import drop_short, sew_running
from workers.stitches.settings import StitchSettings

OVERLAP_LINES = 6
OVERLAP_MM = 1.2
"""The band goes on over its own start by this many lines or this far, whichever is less: no gap opens where it closes,
and an open zigzag does not become a knot there."""

FILL_STEPS = 5.5
"""Lines farther apart than this many steps get lines between them. At the bluntest corner, 30 degrees, lines that are
clipped at its bisector stand 1 / sin 15° = 3.9 steps apart, and the other side fills what lies between.
"""

DEEPEST_PULL_BACK = 0.62
"""A short stitch gives up at most this share of its line."""

TOWARDS_MIDDLE = 0.7
"""A path inside the outline goes at most this share of the way to the middle of narrow cloth."""

NARROW_RUN = 4.0
"""A path inside the outline skips a corner's narrow part up to this many insets long (both sides together)."""

SPLIT_STAGGER = 0.2
"""Where stitches are split, neighbours are split this share of a part apart: no furrow down the band."""


def spread_order(count: int) -> Floats:
    """The van der Corput sequence in base 2: numbers in [0, 1) of which any run is evenly spread.

    Source: J. G. van der Corput, Verteilungsfunktionen, 1935 (the bits of the index mirrored).

    >>> spread_order(5).tolist()
    [0.0, 0.5, 0.25, 0.75, 0.125]
    """
    index = np.arange(count)
    bits = np.arange(16)
    return np.asarray((((index[:, None] >> bits) & 1) * 0.5 ** (bits + 1)).sum(axis=1))


def gaps_beside(points: Points) -> Floats:
    """For each point of one rail the mean distance to its two neighbours on that rail."""
    if len(points) < 2:
        return np.full(len(points), np.inf)
    gap = np.linalg.norm(np.diff(points, axis=0), axis=1)
    return np.asarray((np.concatenate([gap[:1], gap]) + np.concatenate([gap, gap[-1:]])) / 2)


def shorten_crowded(ends: Points, across: Points, settings: StitchSettings) -> Points:
    """The needle points of one rail, some drawn back along their line where they stand closer than `crowded_mm`.

    `across` are the other ends of the same lines. How far down its line a point stops follows its number in
    a spread order, so that at any depth the lines still there are about `inner_target_mm` apart.
    """
    near, far = gaps_beside(ends), gaps_beside(across)
    wanted = spread_order(len(ends)) * settings.inner_target_mm
    with np.errstate(divide="ignore", invalid="ignore"):
        back = np.where(near < wanted, (wanted - near) / np.maximum(far - near, 0.05), 0.0)
    back = np.clip(np.nan_to_num(back), 0.0, DEEPEST_PULL_BACK)
    back[(np.linalg.norm(across - ends, axis=1) < 1.2) | (near >= settings.crowded_mm)] = 0.0
    return np.asarray(ends + (across - ends) * back[:, None])


def fill_gaps(outer: Points, inner: Points, widest_mm: float) -> tuple[Points, Points]:
    """The ends of the lines, with lines put between neighbours that stand farther apart than `widest_mm` at an end.

    Blunt tips and places too small for the band to follow are crossed so, rather than left bare.
    """
    if len(outer) < 2:
        return outer, inner
    gaps = [np.linalg.norm(np.diff(ends, axis=0), axis=1) for ends in (outer, inner)]
    widest = np.maximum(gaps[0], gaps[1])
    parts = np.where(widest > widest_mm, np.ceil(FILL_STEPS * widest / widest_mm), 1).astype(int)
    number = np.repeat(np.arange(len(parts)), parts)
    within = np.arange(len(number)) - np.repeat(np.cumsum(parts) - parts, parts)
    at = np.append(number + within / parts[number], len(outer) - 1)
    index = np.arange(len(outer))
    filled = [
        np.stack([np.interp(at, index, ends[:, axis]) for axis in (0, 1)], axis=1) for ends in (outer, inner)
    ]
    return filled[0], filled[1]


def swing(lines: Lines, settings: StitchSettings, step_mm: float) -> Points:
    """Needle points from rail to rail: even lines end outside, odd lines inside. `step_mm` lies between lines."""
    outer, inner = fill_gaps(lines.reach(lines.outer), lines.reach(lines.inner), FILL_STEPS * step_mm)
    points = np.empty_like(outer)
    for first, ends, across in ((0, outer, inner), (1, inner, outer)):
        points[first::2] = shorten_crowded(ends[first::2], across[first::2], settings)
    return points


def split_long(points: Points, longest_mm: float) -> Points:
    """The needle points with every stitch over `longest_mm` divided; split places are staggered.

    >>> split_long(np.array([[0.0, 0.0], [8.0, 0.0]]), 7.0).tolist()
    [[0.0, 0.0], [3.2, 0.0], [8.0, 0.0]]
    """
    length = np.linalg.norm(np.diff(points, axis=0), axis=1)
    needed = np.ceil((1 + SPLIT_STAGGER) * length / longest_mm - 1e-9)
    parts = np.where(length > longest_mm, np.maximum(needed, 2), 1).astype(int)
    if (parts == 1).all():
        return points
    stitch = np.repeat(np.arange(len(parts)), parts)
    inside = np.arange(len(stitch)) - np.repeat(np.cumsum(parts) - parts, parts) + 1
    stagger = np.array([-SPLIT_STAGGER, SPLIT_STAGGER, 0.0])[stitch % 3] * (inside < parts[stitch])
    share = (inside + stagger) / parts[stitch]
    between = points[stitch] + (points[stitch + 1] - points[stitch]) * share[:, None]
    return np.vstack([points[:1], between])


def lap_lines(lines: Lines, lap_mm: float, outer: float, inner: float) -> Lines:
    """The lines carried on past their clips by `lap_mm`, so that two sides meet without a gap between."""
    return Lines(
        lines.foot,
        lines.normal,
        lines.beyond,
        np.maximum(lines.outer - lap_mm, -outer),
        np.minimum(lines.inner + lap_mm, inner),
    )


def finish_lines(
    guide: Guide, start: Floats, outlines: shapely.MultiLineString, edge: str, settings: StitchSettings
) -> Lines:
    """The stitch lines of an edge finish round one ring from near `start` on; open finishes take them too.

    `outlines` holds the guides of every ring of the piece; normals point onto the cloth.
    """
    outer, inner = settings.outside_mm(edge), settings.inside_mm(edge)
    step = settings.spacing_of(edge) / 2
    return draw_lines(guide, start, outlines, outer=outer, inner=inner, step=step)


def sew_finish(lines: Lines, edge: str, settings: StitchSettings) -> Points:
    """The needle points of a satin or zigzag finish over its lines, closed over its own start."""
    lines = lap_lines(lines, settings.lap_mm, settings.outside_mm(edge), settings.inside_mm(edge))
    step = settings.spacing_of(edge) / 2
    overlap = min(OVERLAP_LINES, max(2, round(OVERLAP_MM / step)), len(lines) // 4)
    again = np.arange(len(lines) + overlap) % len(lines)
    points = swing(lines.take(again), settings, step)
    points = drop_short(points, least_mm=settings.shortest_mm + 0.15)
    return split_long(points, settings.longest_stitch_mm(edge))


def sew_underlay(lines: Lines, edge: str, settings: StitchSettings) -> Points:
    """The needle points beneath a finish: along the inner rail, along the outer one, zigzag if it is wide.

    The runs along the two sides go opposite ways, so that their pull cancels.
    """
    width = settings.width_of(edge)
    kind = settings.underlay_of(width)
    inset = width if kind == "middle run" else settings.underlay_inset_mm + settings.pull_mm
    rails = [rail_path(rail) for rail in each_rail(lines, inset)]
    chosen = rails[:1] if kind == "middle run" else [rails[1], rails[0][::-1]]
    loops: list[Points] = []
    for path in chosen:
        begun = begin_near(path, loops[-1][-1]) if loops else path
        loops.append(sew_running(begun, settings, length_mm=settings.underlay_mm))
    if kind == "edge runs and zigzag":
        every = max(1, round(settings.underlay_zigzag_mm / settings.spacing_of(edge)))
        rail_ends = list(each_rail(lines, inset))
        few = np.arange(0, len(lines), every)
        loops.append(np.where((np.arange(len(few)) % 2 == 0)[:, None], rail_ends[0][few], rail_ends[1][few]))
    points = drop_short(np.vstack(loops), least_mm=settings.shortest_mm + 0.15)
    return split_long(points, settings.longest_stitch_mm(edge))


def inset_path(lines: Lines, inset_mm: float) -> Points:
    """The ring inside the outline by `inset_mm`, or most of the way to the middle where the cloth is narrower."""
    there, points = inset_points(lines, inset_mm)
    return rail_path(points[there])


def inset_points(lines: Lines, inset_mm: float) -> tuple[NDArray[np.bool_], Points]:
    """Which lines take part in a path inside the outline, and where it crosses each.

    A plain corner is turned at its inset; only a long narrow tip is followed inward to its end. Lines beyond a
    corner that do not reach the path take no part.
    """
    inset = np.minimum(inset_mm, TOWARDS_MIDDLE * np.maximum(lines.inner, 0.0))
    there = (lines.outer <= inset) & (inset <= lines.inner)
    there[there] = ~brief_runs(inset[there] < inset_mm, lines.foot[there], NARROW_RUN * inset_mm)
    return there, lines.reach(inset)


def brief_runs(marked: NDArray[np.bool_], feet: Points, least_mm: float) -> NDArray[np.bool_]:
    """Which marked feet of a ring belong to an unbroken run of marked ones shorter than `least_mm`."""
    brief = np.zeros(len(marked), dtype=bool)
    if marked.all() or not marked.any():
        return brief
    first = int(np.flatnonzero(~marked)[0])
    order = np.roll(np.arange(len(marked)), -first)
    steps = np.linalg.norm(feet[order] - feet[np.roll(order, 1)], axis=1)
    edges = np.diff(np.concatenate([[0], marked[order].astype(int), [0]]))
    for begin, end in zip(np.flatnonzero(edges == 1), np.flatnonzero(edges == -1), strict=True):
        brief[order[begin:end]] = steps[begin:end].sum() < least_mm
    return brief


def rail_path(rail: Points) -> Points:
    """A rail as a ring with only the vertices that its form needs."""
    path = ease_path(close_path(rail))[:-1]
    return path if len(path) >= 3 else rail


def ease_path(points: Points, *, tolerance_mm: float = 0.08) -> Points:
    """An open line with only the vertices that its form needs (Douglas and Peucker, in shapely)."""
    return np.asarray(shapely.get_coordinates(shapely.simplify(shapely.linestrings(points), tolerance_mm)))
