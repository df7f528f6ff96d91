"""A part of a piece's edge, sewn in a hooping of its own: the stretches of its outline between the lines of a split."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
import shapely
from numpy.typing import NDArray

from service.craft.outlines.split_parts import LAP_MM, widen
from workers.stitches.curves import close_path, lengths_along
from workers.stitches.lines_along import sew_open_running, sew_thrice
from workers.stitches.open_edges import sew_blanket
from workers.stitches.pieces import DetailLine, Points, SplitPart, StitchPiece
from workers.stitches.rails import Lines, each_rail
from workers.stitches.running import drop_short
from workers.stitches.satin import ease_path, inset_points, lap_lines, split_long, swing
from workers.stitches.settings import LINES_INSIDE, StitchSettings

DEMANDED_MM = 1.0
"""Each file covers the edge so far beyond the line by itself, out of place as far as any piece may be; what is left of
the lap makes up for hoopings that come apart."""

SHORTEST_STRETCH_MM = 2.0
"""A stretch of the outline shorter than this has no placement line and no tack-down of its own: the edge covers it."""

Numbers = NDArray[np.int64]


@dataclass(frozen=True)
class Path:
    """A line to sew along: open, or a ring without its first point again."""

    points: Points
    closed: bool

    @property
    def whole(self) -> Points:
        """The line with a ring's first point at its end too."""
        return close_path(self.points) if self.closed else self.points


def region_of(part: SplitPart, beyond_mm: float = 0.0) -> shapely.Geometry:
    """The room between the lines of a part, and a strip beyond them."""
    return widen(shapely.Polygon(part.region), beyond_mm) if beyond_mm else shapely.Polygon(part.region)


def stretches_of(ring: Points, region: shapely.Geometry) -> list[Path]:
    """What of a ring lies in a region, in the ring's own direction."""
    line = shapely.LineString(close_path(ring))
    if shapely.covers(region, line):
        return [Path(ring, closed=True)]
    inside = shapely.line_merge(shapely.intersection(line, region), directed=True)
    parts = [
        shapely.get_coordinates(part) for part in shapely.get_parts(inside) if part.geom_type == "LineString"
    ]
    return [Path(points, closed=False) for points in parts if len(points) > 1]


def list_edges(piece: StitchPiece) -> list[Points]:
    """The lines that the finish of a piece must cover: all of its rings, or what a part is to cover by itself."""
    if piece.part is None:
        return [close_path(ring) for ring in piece.rings]
    region = region_of(piece.part, DEMANDED_MM)
    return [path.whole for ring in piece.rings for path in stretches_of(ring, region)]


def placement_paths(ring: Points, part: SplitPart) -> list[Path]:
    """The stretches of a ring that have a placement line in this part."""
    paths = stretches_of(ring, region_of(part))
    return [path for path in paths if lengths_along(path.whole)[-1] >= SHORTEST_STRETCH_MM]


def count_edges(piece: StitchPiece) -> int:
    """How many placement lines a piece has in its hooping."""
    if piece.part is None:
        return len(piece.rings)
    return sum(len(placement_paths(ring, piece.part)) for ring in piece.rings)


def runs_in(lines: Lines, region: shapely.Geometry) -> list[Numbers]:
    """The runs of neighbouring lines round a ring whose feet lie in a region; one run of all where none lies outside.

    Gaps and runs of under a millimetre, as where a line of a split grazes a corner, go with what is round them.
    """
    inside = np.asarray(shapely.contains_xy(region, lines.foot))
    if inside.all():
        return [np.arange(len(lines))]
    steps = np.linalg.norm(lines.foot - np.roll(lines.foot, 1, axis=0), axis=1)
    inside = smooth(smooth(inside, steps, value=False), steps, value=True)
    return list_runs(inside)


def list_runs(marked: NDArray[np.bool_]) -> list[Numbers]:
    """The runs of marked entries of a ring, each as its indices in order.

    >>> [run.tolist() for run in list_runs(np.array([True, False, True, True]))]
    [[2, 3, 0]]
    """
    if marked.all():
        return [np.arange(len(marked))]
    first = int(np.flatnonzero(~marked)[0]) if len(marked) else 0
    order = np.roll(np.arange(len(marked)), -first)
    edges = np.diff(np.concatenate([[0], marked[order].astype(int), [0]]))
    begins, ends = np.flatnonzero(edges == 1), np.flatnonzero(edges == -1)
    return [order[begin:end] for begin, end in zip(begins, ends, strict=True)]


def smooth(marked: NDArray[np.bool_], steps: NDArray[np.float64], *, value: bool) -> NDArray[np.bool_]:
    """The marks of a ring with runs of `value` shorter than a millimetre turned over."""
    smoothed = marked.copy()
    for run in list_runs(marked == value):
        if len(run) < len(marked) and steps[run].sum() < 1.0:
            smoothed[run] = not value
    return smoothed


def inset_paths(lines: Lines, part: SplitPart, inset_mm: float) -> list[Path]:
    """The stretches inside the outline by an inset that lie in this part."""
    there, points = inset_points(lines, inset_mm)
    paths = []
    for run in runs_in(lines, region_of(part)):
        kept = points[run[there[run]]]
        if len(kept) > 2 and lengths_along(kept)[-1] >= SHORTEST_STRETCH_MM:
            paths.append(Path(ease_path(kept), closed=len(run) == len(lines)))
    return paths


def finish_runs(lines: Lines, part: SplitPart) -> list[Lines]:
    """The lines of the finish of this part, run by run, with the lap beyond the split."""
    return [lines.take(run) for run in runs_in(lines, region_of(part, LAP_MM)) if len(run) > 2]


def sew_open_edge(lines: Lines, edge: str, settings: StitchSettings) -> Points:
    """The needle points of an edge finish along an open run of its lines, from its first to its last."""
    if edge == "blanket":
        return sew_blanket(lines, settings, closed=False)
    if edge in LINES_INSIDE:
        there, points = inset_points(lines, settings.inset_mm(edge))
        run = sew_open_running(ease_path(points[there]), settings)
        return sew_thrice(run) if edge == "triple run" else np.vstack([run, run[-2::-1]])
    lines = lap_lines(lines, settings.lap_mm, settings.outside_mm(edge), settings.inside_mm(edge))
    points = swing(lines, settings, settings.spacing_of(edge) / 2)
    points = drop_short(points, least_mm=settings.shortest_mm + 0.15)
    return split_long(points, settings.longest_stitch_mm(edge))


def sew_open_underlay(lines: Lines, edge: str, settings: StitchSettings) -> Points:
    """The needle points beneath an open run of a satin edge: they end where it begins.

    The runs along the two sides go opposite ways, so that their pull cancels.
    """
    width = settings.width_of(edge)
    kind = settings.underlay_of(width)
    inset = width if kind == "middle run" else settings.underlay_inset_mm + settings.pull_mm
    rails = list(each_rail(lines, inset))
    short = replace(settings, running_mm=settings.underlay_mm)
    loops = [
        sew_open_running(ease_path(rail), short) for rail in (rails[:1] if kind == "middle run" else rails)
    ]
    if kind == "edge runs and zigzag":
        every = max(1, round(settings.underlay_zigzag_mm / settings.spacing_of(edge)))
        few = np.arange(0, len(lines), every)
        loops.append(np.where((np.arange(len(few)) % 2 == 0)[:, None], rails[0][few], rails[1][few]))
    backwards = [(len(loops) - n) % 2 == 1 for n in range(len(loops))]
    turned = [loop[::-1] if back else loop for loop, back in zip(loops, backwards, strict=True)]
    points = drop_short(np.vstack(turned), least_mm=settings.shortest_mm + 0.15)
    return split_long(points, settings.longest_stitch_mm(edge))


def clip_detail(line: DetailLine, part: SplitPart) -> list[DetailLine]:
    """What of a detail is sewn in this part: areas end at the split, lines go on by the lap."""
    if line.sew == "fill":
        area = shapely.intersection(shapely.Polygon(line.paths[0], line.paths[1:]), region_of(part))
        areas = [one for one in shapely.get_parts(area) if one.geom_type == "Polygon" and one.area > 1.0]
        return [
            replace(
                line,
                paths=tuple(shapely.get_coordinates(ring)[:-1] for ring in (one.exterior, *one.interiors)),
            )
            for one in areas
        ]
    region = region_of(part, LAP_MM / 2)
    paths = [one for path in line.paths for one in clip_path(path, line.closed, region)]
    return [replace(line, paths=(one.points,), closed=one.closed) for one in paths]


def clip_path(path: Points, closed: bool, region: shapely.Geometry) -> list[Path]:
    """What of a line lies in a region, where it is long enough to sew."""
    if closed:
        found = stretches_of(path, region)
    else:
        inside = shapely.get_parts(shapely.intersection(shapely.LineString(path), region))
        found = [
            Path(shapely.get_coordinates(one), closed=False)
            for one in inside
            if one.geom_type == "LineString"
        ]
    return [one for one in found if lengths_along(one.whole)[-1] >= SHORTEST_STRETCH_MM]
