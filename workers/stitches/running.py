"""Running stitches: equal steps between true corners, shorter in tight bends; and the ties that hold the thread."""

from __future__ import annotations

import numpy as np

from workers.stitches.curves import (
    Floats,
    close_path,
    find_corners,
    lengths_along,
    points_at,
    sides_between,
    turn_between,
)
from workers.stitches.pieces import Points
from workers.stitches.settings import StitchSettings


def stitch_densities(side: Points, along: Floats, settings: StitchSettings, length_mm: float) -> Floats:
    """Stitches a millimetre for each segment of a side: more where a chord would leave a bend by too much.

    A chord of length c over a bend of curvature k leaves it by k c² / 8 (sagitta of a circle).
    """
    steps = np.diff(along)
    headings = np.diff(side, axis=0)
    turns = np.abs(turn_between(headings[:-1], headings[1:])) if len(headings) > 1 else np.zeros(0)
    bend = np.zeros(len(steps))
    if len(turns):
        between = turns / np.maximum((steps[:-1] + steps[1:]) / 2, 1e-9)
        bend[:-1] = between
        bend[1:] = np.maximum(bend[1:], between)
    most = 1 / (settings.shortest_mm + 0.4)
    return np.minimum(np.maximum(1 / length_mm, np.sqrt(bend / (8 * settings.chord_off_mm))), most)


def sew_side(side: Points, settings: StitchSettings, length_mm: float) -> Points:
    """Needle points from the start of an open side up to, and without, its end."""
    along = lengths_along(side)
    density = stitch_densities(side, along, settings, length_mm)
    counted = np.concatenate([[0.0], np.cumsum(density * np.diff(along))])
    steps = max(1, int(np.ceil(counted[-1] - 1e-6)))
    at = np.interp(np.linspace(0, counted[-1], steps + 1)[:-1], counted, along)
    return points_at(side, along, at)


def sew_running(ring: Points, settings: StitchSettings, *, length_mm: float = 2.5) -> Points:
    """A running stitch once round a ring from its first point back to it, hitting every corner."""
    corners = find_corners(ring, degrees=settings.corner_degrees)
    stops = sorted({0, *corners})
    sewn = [sew_side(side, settings, length_mm) for side in sides_between(ring, stops)]
    return drop_short(close_path(np.vstack(sewn)), least_mm=settings.shortest_mm + 0.15)


def drop_short(points: Points, *, least_mm: float) -> Points:
    """The needle points without those that would make a stitch shorter than `least_mm`; both ends stay.

    Of a run of short stitches every second point goes, until none is left.

    >>> drop_short(np.array([[0, 0], [1, 0], [1.1, 0], [2, 0.0]]), least_mm=0.5).tolist()
    [[0.0, 0.0], [1.0, 0.0], [2.0, 0.0]]
    """
    while len(points) > 2:
        short = np.linalg.norm(np.diff(points, axis=0), axis=1) < least_mm
        drop = np.concatenate([[False], short])
        if drop[-1]:
            drop[-1], drop[-2] = False, True
        drop[0] = False
        run = np.arange(len(drop)) - np.maximum.accumulate(np.where(drop, -1, np.arange(len(drop))))
        drop &= run % 2 <= 1
        drop &= ~np.concatenate([[False], drop[:-1]]) | (run == 1)
        if not drop.any():
            return points
        points = points[~drop]
    return points


def tie_points(start: Floats, towards: Floats, settings: StitchSettings) -> Points:
    """The needle points of a tie: small stitches from `start` towards a point and back; ends on `start`."""
    way = towards - start
    length = float(np.linalg.norm(way))
    step = way / length * settings.tie_mm if length > 1e-9 else np.array([settings.tie_mm, 0.0])
    at = np.arange(settings.tie_count + 1) % 2
    return start + at[:, None] * step


def tie_in(points: Points, settings: StitchSettings) -> Points:
    """The points with a tie at their start."""
    return np.vstack([tie_points(points[0], points[1], settings), points[1:]])


def tie_off(points: Points, settings: StitchSettings) -> Points:
    """The points with a tie at their end."""
    return np.vstack([points[:-1], tie_points(points[-1], points[-2], settings)])
