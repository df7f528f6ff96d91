"""The line a band follows: the outline with its corners kept and everything smaller than the thread can show eased.

A band three millimetres wide cannot follow a step of half a millimetre: its stitches would turn on the spot.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from workers.stitches.curves import (
    close_path,
    find_corners,
    lengths_along,
    points_at,
    sides_between,
    turn_between,
)
from workers.stitches.pieces import Points

EASE_MM = 0.75
"""Places between corners are averaged over this length on both sides; a bend of radius r draws in by ease²/6r."""

STEP_MM = 0.15
LASTING_MM = 1.5
LASTING_SHARE = 0.5
"""A corner's turn lasts: this share of it is still there over a millimetre and a half. A small step turns back."""


@dataclass(frozen=True)
class Guide:
    """A ring to lay a band along, and which of its points are corners."""

    ring: Points
    corners: tuple[int, ...]


def lasting_corners(ring: Points, *, degrees: float) -> list[int]:
    """The corners whose turn is still there when looked at from farther off."""
    corners = find_corners(ring, degrees=degrees)
    path = close_path(ring)
    along = lengths_along(path)
    reach = min(LASTING_MM, float(along[-1]) / 8)

    def turn_at(corner: int, over: float) -> float:
        at = along[corner]
        before, after = np.mod([at - over, at + over], along[-1])
        places = points_at(path, along, np.array([before, after]))
        return float(turn_between(ring[corner] - places[0], places[1] - ring[corner]))

    turns = {corner: (turn_at(corner, min(0.15, reach)), turn_at(corner, reach)) for corner in corners}
    return [
        corner for corner, (near, far) in turns.items() if far * np.sign(near) > LASTING_SHARE * abs(near)
    ]


def ease(places: Points, reach: int, *, round_trip: bool) -> Points:
    """The moving average over `reach` places on both sides; ends of an open line stay where they are."""
    reach = min(reach, (len(places) - 1) // 2)
    if reach < 1:
        return places
    if round_trip:
        padded = np.concatenate([places[-reach:], places, places[:reach]])
    else:
        padded = np.pad(places, ((reach, reach), (0, 0)), mode="reflect", reflect_type="odd")
    summed = np.concatenate([np.zeros((1, 2)), np.cumsum(padded, axis=0)])
    return np.asarray((summed[2 * reach + 1 :] - summed[: -2 * reach - 1]) / (2 * reach + 1))


def ease_side(side: Points, *, round_trip: bool) -> Points:
    """An open side, or a whole ring with its first point again at the end, eased; without its last point."""
    along = lengths_along(side)
    count = max(2, int(np.ceil(along[-1] / STEP_MM)))
    places = points_at(side, along, np.linspace(0, along[-1], count + 1))
    reach = round(EASE_MM / (along[-1] / count))
    if round_trip:
        return ease(places[:-1], reach, round_trip=True)
    return ease(places, reach, round_trip=False)[:-1]


def make_guide(ring: Points, *, degrees: float) -> Guide:
    """The guide of a ring: every side between lasting corners eased, the corners where they were."""
    corners = lasting_corners(ring, degrees=degrees)
    sides = sides_between(ring, corners or [0])
    eased = [ease_side(side, round_trip=not corners) for side in sides]
    starts = np.cumsum([0, *(len(side) for side in eased[:-1])])
    return Guide(np.vstack(eased), tuple(int(i) for i in starts) if corners else ())
