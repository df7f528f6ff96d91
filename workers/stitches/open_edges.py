"""Edge finishes that leave cloth to be seen: blanket stitch over the edge, and a line inside a raw edge."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import shapely
from numpy.typing import NDArray

from workers.stitches.curves import begin_near
from workers.stitches.lines_along import sew_open_running, sew_thrice
from workers.stitches.pieces import Points
from workers.stitches.rails import Lines
from workers.stitches.running import drop_short, sew_running
from workers.stitches.satin import ease_path, inset_path, rail_path
from workers.stitches.settings import StitchSettings


def sew_blanket(lines: Lines, settings: StitchSettings, *, closed: bool = True) -> Points:
    """Blanket stitch: a spine just outside the raw edge, and at each of its points a bite onto the cloth and back.

    Pitch and bite are common practice (trade tables, no source). Lines that are not `closed` are a stretch of a ring.
    """
    outer, inner = lines.reach(lines.outer), lines.reach(lines.inner)
    pitch = settings.blanket_pitch_mm
    if closed:
        spine = sew_running(rail_path(outer), settings, length_mm=pitch)
    else:
        spine = sew_open_running(ease_path(outer), replace(settings, running_mm=pitch))
    nearest = shapely.STRtree(np.asarray(shapely.points(outer))).nearest(shapely.points(spine))
    bites = inner[nearest]
    bitten = spread_bites(bites, settings.blanket_pitch_mm / 2)
    points = np.stack([spine, np.where(bitten[:, None], bites, spine), spine], axis=1).reshape(-1, 2)
    points = points[np.repeat(bitten, 3) | (np.arange(len(points)) % 3 == 0)]
    return drop_short(points, least_mm=settings.shortest_mm + 0.15)


def spread_bites(bites: Points, least_mm: float) -> NDArray[np.bool_]:
    """Which bites to sew, so that no two in a row end closer than `least_mm`: inside corners would bunch them."""
    kept = np.zeros(len(bites), dtype=bool)
    last: Points | None = None
    for number, bite in enumerate(bites):
        if last is None or float(np.linalg.norm(bite - last)) >= least_mm:
            kept[number], last = True, bite
    return kept


def sew_raw(lines: Lines, edge: str, settings: StitchSettings) -> Points:
    """The line that holds a raw or turned edge: twice round, inside by the inset, less where it is thin.

    A triple run goes round once, each stitch forward, back and forward.
    """
    path = inset_path(lines, settings.inset_mm(edge))
    if edge == "triple run":
        return sew_thrice(sew_running(path, settings, length_mm=settings.running_mm))
    first = sew_running(path, settings, length_mm=settings.running_mm)
    again = sew_running(begin_near(path, first[-1]), settings, length_mm=settings.running_mm)
    return drop_short(np.vstack([first, again]), least_mm=settings.shortest_mm + 0.15)
