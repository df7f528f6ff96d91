"""True corners of a traced edge: found where the line turns, put back where its two sides meet."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from workers.outlines.tracing.points import Points, resample, smooth
from workers.outlines.tracing.sides import Side, longest_side, meet
from workers.outlines.tracing.wedge import recess

STEP_MM = 0.045
"""Points along an edge; half a pixel at 300 dots an inch."""

SMOOTHING_MM = 0.1
"""Sigma of the smoothing along the edge: takes out noise, and the curve keeps its size."""

SMOOTHING_SHARE = 0.7
"""Of the blur of a coarse picture's edge: grain in it is as long as its pixels, and nothing smaller is seen."""

CHORD_MM = 0.8
"""The line's direction is compared over chords of this length to both sides."""

CANDIDATE_DEGREES = 25.0
"""Where the chords turn by more, a corner may be."""

CORNER_DEGREES = 18.0
"""Sides that meet under less of a turn are one smooth side."""

BLUR_REACH = 2.6
"""Up to so many sigmas from one side the other still moves it."""

SIDES_MM = (9.6, 4.8, 2.4)
LEAST_SIDE_MM = 0.22
"""Lengths of side that are looked at beside a corner, the longest that is one line or bow, and the least that says
where it runs."""

SLACK_SHARE, SLACK_MM = 0.35, 0.02
"""A corner may draw back by so much more or less than its blur explains; beyond that it is rounded."""


@dataclass(frozen=True)
class Corner:
    """A corner at `tip`; the edge's own points count up to `before` and again from `after` (whole numbers
    that may pass the end of the run). Between, `into` and `out_of` run along the two sides to the tip."""

    before: int
    after: int
    tip: Points
    into: Points
    out_of: Points


@dataclass(frozen=True)
class Traced:
    """A closed edge in even steps, in mm, and its corners in order."""

    points: Points
    step: float
    corners: tuple[Corner, ...]

    def polyline(self) -> Points:
        """The whole closed line, corners put back."""
        if not self.corners:
            return self.points
        return np.concatenate([run[:-1] for run in self.runs()])

    def runs(self) -> list[Points]:
        """The points from each corner to the next, both tips included; none where there is no corner."""
        count, found = len(self.points), []
        for here, following in zip(self.corners, self.corners[1:] + self.corners[:1], strict=True):
            end = following.before + (count if following.before <= here.before else 0)
            own = self.points[np.arange(here.after, max(here.after, end + 1)) % count]
            found.append(
                np.concatenate([here.tip[None], here.out_of, own, following.into, following.tip[None]])
            )
        return found


def trace_corners(
    points: Points,
    *,
    blur_mm: float,
    step: float = STEP_MM,
    joints: Points | None = None,
    unread_mm: float = 0.0,
) -> Traced:
    """The edge in even steps, smoothed, with every true corner put back. `points` in mm, closed.

    At `joints` other tones meet on the edge, which was not read nearer to them than `unread_mm`.
    """
    rough = resample(points, step)
    sigma = max(SMOOTHING_MM, SMOOTHING_SHARE * blur_mm) / step
    smoothed = smooth(rough, sigma)
    places = _find_turns(smooth(rough, 2.5 * sigma), step, max(CHORD_MM, 5 * blur_mm))
    corners = []
    for nth, place in enumerate(places):
        room = _room(places, nth, len(rough)) * step
        at_joint = _is_near(rough[place], joints, 2 * unread_mm)
        corner = _restore(rough, place, step, blur_mm, room, (unread_mm + 2 * step) * at_joint)
        if corner is not None:
            corners.append(corner)
    return Traced(smoothed, step, tuple(corners))


def _is_near(place: Points, joints: Points | None, within: float) -> bool:
    return joints is not None and bool((np.hypot(*(joints - place).T) < within).any())


def _find_turns(points: Points, step: float, chord: float) -> list[int]:
    """Where the direction over chords turns most, each at least half a chord from the next."""
    k = max(2, min(round(chord / step), len(points) // 6))
    back, ahead = points - np.roll(points, k, axis=0), np.roll(points, -k, axis=0) - points
    turn = np.abs(np.arctan2(back[:, 0] * ahead[:, 1] - back[:, 1] * ahead[:, 0], (back * ahead).sum(axis=1)))
    near = max(1, k // 2)
    ringed = np.concatenate([turn[-near:], turn, turn[:near]])
    highest = np.lib.stride_tricks.sliding_window_view(ringed, 2 * near + 1).max(axis=1)
    found: list[int] = []
    for place in np.flatnonzero((turn >= highest) & (turn > math.radians(CANDIDATE_DEGREES))).tolist():
        if not found or place - found[-1] > near:
            found.append(place)
    return found


def _room(places: list[int], nth: int, count: int) -> NDArray[np.float64]:
    """Steps to the corner before and to the one after."""
    before = (places[nth] - places[nth - 1] - 1) % count + 1
    after = (places[(nth + 1) % len(places)] - places[nth] - 1) % count + 1
    return np.array([before, after], dtype=np.float64)


def _restore(
    points: Points, place: int, step: float, blur: float, room: NDArray[np.float64], unread: float
) -> Corner | None:
    """The corner near a place, or None where the edge is only bent there."""
    wedge, found = 90.0, None
    for _ in range(3):
        clear = max(
            unread, 0.3 * blur, BLUR_REACH * blur / math.sin(math.radians(min(90.0, max(20.0, wedge))))
        )
        found = _sides(points, place, step, clear, room)
        if found is None:
            return None
        met = meet(*found[:2])
        if met is None:
            return None
        tip, turned = met
        if abs(180 - turned - wedge) < 2:
            break
        wedge = 180 - turned
    assert found is not None  # noqa: S101 # the loop ran
    into, out_of, start, end = found
    if turned < CORNER_DEGREES:
        return None
    around = points[np.arange(start, end + 1) % len(points)]
    drawn_back = float(np.hypot(*(around - tip).T).min())
    expected = recess(180 - turned) * blur
    if abs(drawn_back - expected) > SLACK_SHARE * expected + SLACK_MM + unread:
        return None
    return Corner(start, end, tip, into.towards(tip, step), out_of.towards(tip, step)[::-1])


def _sides(
    points: Points, place: int, step: float, clear: float, room: NDArray[np.float64]
) -> tuple[Side, Side, int, int] | None:
    """The two sides of a corner, read where the other side's blur does not reach, and where they begin."""
    sides: list[Side] = []
    starts: list[int] = []
    for direction, free in ((-1, room[0]), (1, room[1])):
        near = min(clear, free / 2 - LEAST_SIDE_MM / 2)
        reach = [min(length, free - 2 * near) for length in SIDES_MM]
        if near < 0.3 * clear or reach[-1] < LEAST_SIDE_MM:
            return None
        first, last = math.ceil(near / step), [math.floor((near + length) / step) for length in reach]
        if last[-1] - first < 4:
            return None
        run = points[(place + direction * np.arange(last[0], first - 1, -1)) % len(points)]
        sides.append(longest_side(run, [end - first + 1 for end in dict.fromkeys(last)]))
        starts.append(place + direction * first)
    return sides[0], sides[1], starts[0], starts[1]
