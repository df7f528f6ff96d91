"""What sewn thread hides: distances from sample points to the nearest stitch of a finish."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import shapely

from workers.stitches.pieces import Points
from workers.stitches.settings import StitchSettings

SAMPLE_MM = 0.15
"""Lines are looked at every so often: finer than a thread is thick."""

RAW_CORNER = 2.2
"""A line at an inset cuts a corner of 71 degrees, the sharpest it does not follow, at so many insets from its tip:
cos 35.5° / (0.7 tan 35.5°) + sin 35.5°.
"""

BARE_PLACES = 5
"""So many bare places of one line are named; the rest are like them."""


@dataclass(frozen=True)
class Surface:
    """The stitches of a finish, found by place, and how near a point must lie to count as covered."""

    tree: shapely.STRtree
    reach_mm: float


def finish_surface(segments: Points, edge: str, settings: StitchSettings) -> Surface:
    """The covering surface of a finish.

    Satin hides what its thread lies over. Open finishes hold what lies close enough to one of their stitches:
    half the way between two swings, between two bites, or the inset of a line inside the edge and what the
    piece may be out of place.
    """
    reach = {
        "zigzag": settings.zigzag_spacing_mm / 2,
        "blanket": settings.blanket_pitch_mm / 2 + settings.thread_mm / 2,
        "raw": RAW_CORNER * settings.raw_inset_mm + settings.displacement_mm + settings.thread_mm / 2,
    }.get(edge, settings.thread_mm / 2)
    return Surface(shapely.STRtree(np.asarray(shapely.linestrings(segments))), reach)


def covered_share(surface: Surface, samples: Points) -> tuple[float, Points]:
    """The share of the points that the surface covers, and some of those it does not."""
    if not len(surface.tree.geometries):
        return 0.0, samples[:BARE_PLACES]
    (_, _), distance = surface.tree.query_nearest(
        shapely.points(samples), return_distance=True, all_matches=False
    )
    bare = samples[distance > surface.reach_mm + 1e-6]
    spread = (
        bare[np.linspace(0, len(bare) - 1, min(len(bare), BARE_PLACES)).astype(int)] if len(bare) else bare
    )
    return 1 - len(bare) / len(samples), spread
