"""Checks of what heaps up, and of what is drawn on a piece: thread and needle holes in a square, areas and lines."""

from __future__ import annotations

import numpy as np
import shapely

from workers.stitches.cover import Looked, sample_stitches, share_check
from workers.stitches.covering import SAMPLE_MM, look_along
from workers.stitches.curves import close_path, sample_every
from workers.stitches.findings import MOST_PLACES, Check, Checked, at_point
from workers.stitches.nearness import Stitches
from workers.stitches.pieces import DETAIL, FINISH, UNDERLAY, DetailLine, Points, StitchPiece

SQUARE_MM = 1.0
MOST_THREAD_MM = 24.0
"""Millimetres of thread in a square millimetre of one piece, where satin is spaced by 0.4 mm: flat satin has 5, twice
that where it closes over its own start, and its underlay. Plain shapes come to 17.6, slits to 23.4 (measured; no
source)."""

MOST_HOLES = 24
"""Needle holes in a square millimetre of one piece: more cut the cloth out like a stamp. A tie alone has five, plain
shapes come to 18 (measured; no source)."""

ROUNDED_MM = 0.07
"""Rows lie as close as thread is thick; rounding to tenths moves each by up to this, which no eye sees."""

BEND_MM = 0.2
"""What a chord may leave the bend of a line by, and rounding."""

GRID_MM = 0.25
"""A filled area is looked at in points so far apart: six in the width of a stitch's thread and its neighbour's."""


def sum_squares(points: Points, weights: Points | None) -> tuple[float, Points]:
    """The largest sum of weights (or count) in a square, and the middle of that square."""
    if not len(points):
        return 0.0, np.zeros(2)
    squares = np.floor(points / SQUARE_MM).astype(np.int64)
    corner, columns = squares.min(axis=0), int(np.ptp(squares[:, 0])) + 1
    # one number a square, row by row: many times as quick to sort as pairs are
    numbers, inverse = np.unique((squares - corner) @ np.array([1, columns]), return_inverse=True)
    sums = np.bincount(inverse, weights=weights)
    row, column = divmod(int(numbers[int(np.argmax(sums))]), columns)
    return float(sums.max()), np.asarray((corner + [column, row] + 0.5) * SQUARE_MM)


def check_density(checked: Checked) -> Check:
    """No square millimetre of a piece holds more thread, or more needle holes, than cloth bears."""
    worst, places = 0.0, []
    for sewn in checked.hooping.sewn:
        piece = sewn.piece
        stitches = checked.segments(piece.name, UNDERLAY, FINISH, DETAIL)
        lengths = np.linalg.norm(stitches[:, 1] - stitches[:, 0], axis=1)
        parts = np.maximum(np.ceil(lengths / SAMPLE_MM).astype(int), 1)
        thread, there = sum_squares(sample_stitches(stitches), np.repeat(lengths / parts, parts))
        holes, hole = sum_squares(stitches[:, 1], None)
        limit = MOST_THREAD_MM * max(1.0, 0.4 / piece.settings.spacing_mm)
        worst = max(worst, thread / limit, holes / MOST_HOLES)
        if thread > limit:
            places.append(at_point(there, piece=piece.name, thread_mm=round(thread, 1)))
        if holes > MOST_HOLES:
            places.append(at_point(hole, piece=piece.name, holes=int(holes)))
    return Check("thread and holes do not heap up", not places, round(worst, 2), places[:MOST_PLACES], 1.0)


def check_details(checked: Checked) -> list[Check]:
    """Filled areas are covered, and lines are sewn where they are drawn; nothing where a hooping has no details."""
    looked = [look for s in checked.hooping.sewn for look in look_at_details(checked, s.piece)]
    return [share_check("details are sewn where they are drawn", looked)] if looked else []


def look_at_details(checked: Checked, piece: StitchPiece) -> list[Looked]:
    """Every detail of a piece, seen on what the file sews of them."""
    if not piece.details:
        return []
    stitches = checked.segments(piece.name, DETAIL)
    found = []
    for line in piece.details:
        reach = piece.settings.thread_mm / 2 + (ROUNDED_MM if line.sew == "fill" else BEND_MM)
        covered = look_along(Stitches(stitches, reach), places_of(line))
        found.append(
            Looked(covered, [at_point(p, piece=piece.name, detail=line.pointer) for p in covered.bare])
        )
    return found


def places_of(line: DetailLine) -> Points:
    """Where thread must be: along the line, or on a grid over the area."""
    if line.sew != "fill":
        paths = [close_path(path) if line.closed else path for path in line.paths]
        return np.vstack([sample_every(path, SAMPLE_MM) for path in paths])
    area = shapely.Polygon(line.paths[0], line.paths[1:])
    x0, y0, x1, y1 = area.bounds
    grid = np.meshgrid(np.arange(x0, x1, GRID_MM), np.arange(y0, y1, GRID_MM), indexing="ij")
    points = np.stack([axis.ravel() for axis in grid], axis=1)
    return points[shapely.contains_xy(area, points)]
