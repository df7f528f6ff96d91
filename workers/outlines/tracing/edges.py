"""All edges of a picture that could be shapes, in mm; what was left out is counted in words."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
import shapely

from service.craft.faults import Fault
from service.craft.tracing import SPECK_MM, CannotTrace
from workers.outlines.tracing.counting import count_of
from workers.outlines.tracing.ink import settle_edge
from workers.outlines.tracing.iso_lines import TooManyEdges, find_iso_lines
from workers.outlines.tracing.picture import Picture
from workers.outlines.tracing.plane import Plane
from workers.outlines.tracing.points import Points, resample, signed_area

MOST_EDGE_POINTS = 2_000_000
MOST_EDGES = 300
"""More shapes and holes than this on one sheet are a pattern, not pieces."""

RIM_PX = 2.0
"""A shape this near to the rim of the picture runs out of it."""

RESAMPLED_PX = 0.7


@dataclass(frozen=True)
class PaperEdge:
    """A closed edge in mm (clockwise round ink), the sigma of its blur in mm, and where other tones meet on it.

    So near to such a joint (`unread_mm`) the edge was not read.
    """

    points: Points
    blur_mm: float
    joints: Points = field(default_factory=lambda: np.zeros((0, 2)))
    unread_mm: float = 0.0


def find_iso_lines_of(field: np.ndarray, level: float) -> list[Points]:
    """All closed lines in an evened field, in its pixels (0, 0 the middle of the first)."""
    rimmed = np.pad(field, 1, constant_values=1.0)
    try:
        lines = find_iso_lines(rimmed, level, most_points=MOST_EDGE_POINTS)
    except TooManyEdges as why:
        right = "plain shapes on plain paper, without hatching, screen dots or cloth"
        raise CannotTrace([Fault("/file", f"the picture has {why.count:,} points on edges", right)]) from why
    return [line - 1.0 for line in lines]


def find_edges(
    field: np.ndarray, lines: list[Points], picture: Picture, plane: Plane, notes: list[str]
) -> list[PaperEdge]:
    """The edges of shapes and holes: no specks, nothing that the rim cuts off."""
    large, specks = _without_specks(lines, picture, plane)
    kept, cut = _inside_the_rim(large, picture)
    if specks:
        notes.append(f"{count_of(specks, 'speck')} smaller than {SPECK_MM:g} mm left out")
    if cut:
        notes.append(f"left out: {count_of(cut, 'dark patch')} cut off by the picture's rim")
    if len(kept) > MOST_EDGES:
        detail = f"the picture has {len(kept):,} edges of shapes and holes"
        raise CannotTrace([Fault("/file", detail, f"at most {MOST_EDGES}: a sheet for each group of shapes")])
    settled = [settle_edge(field, resample(line, RESAMPLED_PX)) for line in kept]
    faint = sum(edge is None for edge in settled)
    if faint:
        notes.append(f"{count_of(faint, 'faint patch')} left out")
    found = []
    for edge in settled:
        if edge is not None:
            at = (edge.points + 0.5) * picture.reduced
            size = plane.mm_per_pixel(at.mean(axis=0)) * picture.reduced
            found.append(PaperEdge(plane.to_mm(at), edge.blur_px * size))
    return found


def _without_specks(lines: list[Points], picture: Picture, plane: Plane) -> tuple[list[Points], int]:
    large: list[Points] = []
    specks = 0
    for line in lines:
        # a run of n points between pixels is no longer than n diagonals: most specks are told by that
        spread = np.ptp(line, axis=0).max() * picture.reduced
        size = spread * plane.mm_per_pixel((line[0] + 0.5) * picture.reduced)
        if size < SPECK_MM:
            specks += 1
        else:
            large.append(line)
    return large, specks


def _inside_the_rim(lines: list[Points], picture: Picture) -> tuple[list[Points], int]:
    """The lines that do not touch the rim, and no hole of one that does; how many were cut off."""
    rows, columns = picture.grey.shape
    far = np.array([columns - 1, rows - 1]) - RIM_PX
    inner = [line for line in lines if (line > RIM_PX).all() and (line < far).all()]
    cut = sum(signed_area(line) > 0 for line in lines) - sum(signed_area(line) > 0 for line in inner)
    round_ink = [shapely.Polygon(line) for line in inner if signed_area(line) > 0]
    for polygon in round_ink:
        shapely.prepare(polygon)
    kept = [
        line
        for line in inner
        if signed_area(line) > 0 or any(shapely.contains_xy(p, line[0, 0], line[0, 1]) for p in round_ink)
    ]
    return kept, cut
