"""Lines along a path, open or closed: running stitches, triple run, and satin of a given width."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import shapely

from workers.stitches.curves import (
    Floats,
    close_path,
    end_direction,
    lengths_along,
    orient,
    turn_between,
)
from workers.stitches.guides import ease_side, make_guide
from workers.stitches.pieces import Points
from workers.stitches.rails import Lines, Side, draw_lines, join_lines, lines_on_side
from workers.stitches.running import drop_short, sew_running, sew_side
from workers.stitches.satin import OVERLAP_LINES, lap_lines, split_long, swing
from workers.stitches.settings import StitchSettings

TO_BE_SURE_MM = 0.15
"""Needle points are rounded to tenths: a stitch that must not be too short is planned so much longer."""


def corners_of_line(path: Points, degrees: float) -> list[int]:
    """The inner vertices of an open polyline where it turns by more than `degrees` at once."""
    steps = np.diff(path, axis=0)
    turns = np.abs(turn_between(steps[:-1], steps[1:]))
    return [int(i) + 1 for i in np.flatnonzero(turns > np.radians(degrees))]


def sides_of_line(path: Points, degrees: float) -> list[Points]:
    """The parts of an open polyline between its corners."""
    ends = [0, *corners_of_line(path, degrees), len(path) - 1]
    return [path[a : b + 1] for a, b in pairwise(ends)]


def sew_open_running(path: Points, settings: StitchSettings) -> Points:
    """A running stitch from one end of a line to the other, hitting every corner."""
    sides = sides_of_line(path, settings.corner_degrees)
    sewn = [sew_side(side, settings, settings.running_mm) for side in sides]
    return drop_short(np.vstack([*sewn, path[-1:]]), least_mm=settings.shortest_mm + TO_BE_SURE_MM)


def sew_line(path: Points, settings: StitchSettings, *, closed: bool) -> Points:
    """A running stitch along a line, or once round a ring."""
    return (
        sew_running(path, settings, length_mm=settings.running_mm)
        if closed
        else sew_open_running(path, settings)
    )


def sew_thrice(points: Points) -> Points:
    """Every stitch sewn forward, back and forward again: a bold line that does not pull out.

    >>> sew_thrice(np.array([[0.0, 0.0], [2.0, 0.0], [4.0, 0.0]]))[:, 0].tolist()
    [0.0, 2.0, 0.0, 2.0, 4.0, 2.0, 4.0]
    """
    trips = np.stack([points[1:], points[:-1], points[1:]], axis=1).reshape(-1, 2)
    return np.vstack([points[:1], trips])


def satin_lines(path: Points, settings: StitchSettings, *, closed: bool, width_mm: float) -> Lines:
    """The stitch lines of a satin line, half its width on either side of the path."""
    half, step = width_mm / 2 + settings.pull_mm, settings.spacing_mm / 2
    degrees = settings.corner_degrees
    if closed:
        guide = make_guide(orient(path, cloth_inside=True), degrees=degrees)
        outlines = shapely.MultiLineString([shapely.LineString(close_path(guide.ring))])
        return draw_lines(guide, path[0], outlines, outer=half, inner=half, step=step)
    sides = open_sides(path, degrees)
    lines = join_lines([lines_on_side(side, half, half, step) for side in sides])
    return lines.take(lines.inner - lines.outer > 1e-6)


def open_sides(path: Points, degrees: float) -> list[Side]:
    """The sides of an open line, eased, with the turn at each corner between them."""
    parts = sides_of_line(path, degrees)
    eased = [np.vstack([ease_side(part, round_trip=False), part[-1:]]) for part in parts]
    turns: list[Floats] = [
        turn_between(end_direction(a, at_end=True), end_direction(b, at_end=False))
        for a, b in pairwise(eased)
    ]
    around = [0.0, *(float(turn) for turn in turns), 0.0]
    return [Side(part, around[n], around[n + 1]) for n, part in enumerate(eased)]


def sew_satin_line(path: Points, settings: StitchSettings, *, closed: bool, width_mm: float) -> Points:
    """A satin line over a run along its middle. The run goes one way and the satin back, so their pull cancels.

    A line too narrow for the needle to swing in is sewn as a triple run.
    """
    run = sew_line(path, settings, closed=closed)
    if width_mm < settings.narrowest_line_mm or float(lengths_along(run)[-1]) < width_mm / 2:
        return sew_thrice(run)
    lines = satin_lines(path, settings, closed=closed, width_mm=width_mm)
    half = width_mm / 2 + settings.pull_mm
    lines = lap_lines(lines, settings.lap_mm, half, half)
    order = np.arange(len(lines))[::-1]
    if closed:
        order = np.append(order, order[:OVERLAP_LINES])
    band = swing(lines.take(order), settings, settings.spacing_mm / 2)
    joined = drop_short(np.vstack([run, band]), least_mm=settings.shortest_mm + TO_BE_SURE_MM)
    return split_long(joined, settings.longest_line_mm(width_mm))
