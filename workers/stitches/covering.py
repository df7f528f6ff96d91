"""What sewn thread hides: distances from sample points to the nearest stitch of a finish."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from workers.stitches.nearness import Stitches
from workers.stitches.pieces import Points
from workers.stitches.settings import LINES_INSIDE, StitchSettings

SAMPLE_MM = 0.15
"""Lines are looked at every so often: finer than a thread is thick."""

RAW_CORNER = 2.2
"""A line at an inset cuts a corner of 71 degrees, the sharpest it does not follow, at so many insets from its tip:
cos 35.5° / (0.7 tan 35.5°) + sin 35.5°.
"""

BARE_PLACES = 5
"""So many bare places of one line are named; the rest are like them."""


def finish_surface(segments: Points, edge: str, settings: StitchSettings) -> Stitches:
    """The covering surface of a finish.

    Satin hides what its thread lies over. Open finishes hold what lies close enough to one of their stitches:
    half the way between two swings, between two bites, or the inset of a line inside the edge and what the
    piece may be out of place.
    """
    reach = {
        "zigzag": settings.zigzag_spacing_mm / 2,
        "blanket": settings.blanket_pitch_mm / 2 + settings.thread_mm / 2,
        **{
            line: RAW_CORNER * settings.inset_mm(line) + settings.displacement_mm + settings.thread_mm / 2
            for line in LINES_INSIDE
        },
    }.get(edge, settings.thread_mm / 2)
    return Stitches(segments, reach)


@dataclass(frozen=True)
class Covered:
    """How much of a line is covered (a share), some places that are not, and the longest stretch without (mm)."""

    share: float
    bare: Points
    longest_gap_mm: float


def look_along(surface: Stitches, samples: Points) -> Covered:
    """What of a line the surface covers, looked at in points `SAMPLE_MM` apart."""
    open_ = ~surface.reach(samples)
    bare = samples[open_]
    spread = (
        bare[np.linspace(0, len(bare) - 1, min(len(bare), BARE_PLACES)).astype(int)] if len(bare) else bare
    )
    return Covered(1 - len(bare) / len(samples), spread, longest_run(open_) * SAMPLE_MM)


def longest_run(marked: NDArray[np.bool_]) -> int:
    """The most marked entries one after the other.

    >>> longest_run(np.array([True, False, True, True, False]))
    2
    """
    edges = np.diff(np.concatenate([[0], marked.astype(int), [0]]))
    return int(np.max(np.flatnonzero(edges == -1) - np.flatnonzero(edges == 1), initial=0))
