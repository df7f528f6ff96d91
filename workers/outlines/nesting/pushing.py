"""One push: the small moves and turns of all shapes at once that shorten a strip most, found as a linear program.

How far a corner keeps from an edge near it changes with the moves and turns of both shapes, and for small ones in
proportion. So each corner near another shape is a row: its distance, with what the moves do to it, is the least one or
more. The moves are kept small, for what a turn does beyond its proportion is then far less than a hair.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

import highspy
import numpy as np
from numpy.typing import NDArray

from workers.outlines.nesting.bodies import Body, Numbers, find_length

REACH = 2.5
"""Rows are made for corners no further beyond their least distance than so many of the longest moves."""

SHORTFALL_COSTS = 1000.0
"""What a millimetre less than the least distance costs, in millimetres of strip: turns bend, so a hair may be wanting
for one push, and is made good by the next.
"""

UPWARD = 1e-3
"""What a millimetre counts by which all the shapes go up that do not decide on the length: it makes room for the next
push.
"""


@dataclass(frozen=True)
class Strip:
    """How wide the strip is and how far apart shapes lie on it at least, mm; it starts at y = 0, and x = 0."""

    width_mm: float
    spacing_mm: float


@dataclass
class _Rows:
    """Rows of the program as they are gathered: each says that its terms come to a lowest number or more."""

    numbers: list[NDArray[np.int64]] = field(default_factory=list)
    columns: list[NDArray[np.int64]] = field(default_factory=list)
    factors: list[Numbers] = field(default_factory=list)
    lowest: list[Numbers] = field(default_factory=list)
    count: int = 0

    def add(self, lowest: Numbers, terms: Sequence[tuple[int, Numbers | float]]) -> None:
        """As many rows as there are lowest numbers, each with a factor for every column named."""
        numbers = np.arange(self.count, self.count + len(lowest))
        for column, factors in terms:
            self.numbers.append(numbers)
            self.columns.append(np.full(len(lowest), column))
            self.factors.append(np.broadcast_to(np.asarray(factors, np.float64), len(lowest)))
        self.lowest.append(lowest)
        self.count += len(lowest)


def push(bodies: Sequence[Body], strip: Strip, most_mm: float) -> list[Body] | None:
    """The bodies after one push, in which none goes or turns further than `most_mm` in x, in y, or by its arc.

    Their distances may fall short of the spacing by what turns do beyond proportion. None where the solver finds no
    answer.
    """
    length, shortfall = 3 * len(bodies), 3 * len(bodies) + 1
    rows = _Rows()
    for i, j in _list_near(bodies, strip.spacing_mm + REACH * most_mm):
        _keep_apart(rows, bodies, (i, j), strip.spacing_mm, most_mm, shortfall)
    for i, body in enumerate(bodies):
        _keep_on_strip(rows, i, body, strip.width_mm, most_mm, length)
    moves = _solve(rows, bodies, most_mm)
    if moves is None:
        return None
    return [body.pushed(*move) for body, move in zip(bodies, moves.tolist(), strict=True)]


def _list_near(bodies: Sequence[Body], reach: float) -> Iterator[tuple[int, int]]:
    """Pairs of bodies, each both ways round, whose boxes come as near as that."""
    boxes = np.array([body.box_mm for body in bodies])
    for i, (left, top, right, bottom) in enumerate(boxes):
        beside = (boxes[:, 0] < right + reach) & (boxes[:, 2] > left - reach)
        near = beside & (boxes[:, 1] < bottom + reach) & (boxes[:, 3] > top - reach)
        yield from ((i, int(j)) for j in np.flatnonzero(near) if j != i)


def _keep_apart(
    rows: _Rows,
    bodies: Sequence[Body],
    pair: tuple[int, int],
    spacing_mm: float,
    most_mm: float,
    shortfall: int,
) -> None:
    """Corners of the first body keep their distance from the edges of the second."""
    i, j = pair
    one, other = bodies[i], bodies[j]
    least = spacing_mm + one.off_mm + other.off_mm
    corners, feet = _find_near_corners(one.corners, other.corners, least + REACH * most_mm)
    if not len(corners):
        return
    apart = corners - feet
    distances = np.hypot(*apart.T)
    away = apart / np.maximum(distances, 1e-9)[:, None]
    rows.add(
        least - distances,
        [
            (3 * i, away[:, 0]),
            (3 * i + 1, away[:, 1]),
            (3 * i + 2, _turn_along(away, corners - one.pivot) / one.radius_mm),
            (3 * j, -away[:, 0]),
            (3 * j + 1, -away[:, 1]),
            (3 * j + 2, -_turn_along(away, feet - other.pivot) / other.radius_mm),
            (shortfall, 1.0),
        ],
    )


def _turn_along(directions: Numbers, from_pivot: Numbers) -> Numbers:
    """How far a small turn brings these points in their directions, in proportion to the turn."""
    return np.asarray(directions[:, 1] * from_pivot[:, 0] - directions[:, 0] * from_pivot[:, 1])


def _find_near_corners(corners: Numbers, ring: Numbers, reach: float) -> tuple[Numbers, Numbers]:
    """Corners within reach of a ring's edges, each with its foot on the nearest edge, and with one on every edge that
    it lies square to: in a bay it may go towards neither side.
    """
    corners = corners[((corners > ring.min(0) - reach) & (corners < ring.max(0) + reach)).all(1)]
    if not len(corners):
        return corners, corners
    starts, ends = ring, np.roll(ring, -1, 0)
    low, high = corners.min(0) - reach, corners.max(0) + reach
    near = ((np.maximum(starts, ends) > low) & (np.minimum(starts, ends) < high)).all(1)
    if not near.any():
        return corners[:0], corners[:0]
    starts, edges = starts[near], (ends - starts)[near]
    squares = np.maximum((edges * edges).sum(1), 1e-12)
    along = ((corners[:, None] - starts) * edges).sum(2) / squares
    feet = starts + np.clip(along, 0, 1)[..., None] * edges
    away = ((corners[:, None] - feet) ** 2).sum(2)
    wanted = (along > 0) & (along < 1)
    wanted[np.arange(len(corners)), away.argmin(1)] = True
    which, edge = np.nonzero(wanted & (away < reach * reach))
    return corners[which], feet[which, edge]


def _keep_on_strip(
    rows: _Rows, number: int, body: Body, width_mm: float, most_mm: float, length: int
) -> None:
    """Corners near the strip's sides and ends stay on it; what stands over by a hair already need not go back."""
    across, down, arc = 3 * number, 3 * number + 1, 3 * number + 2
    off = body.off_mm
    for column, axis, sign, limit in ((across, 0, 1, 0.0), (across, 0, -1, -width_mm), (down, 1, 1, 0.0)):
        places, turns = _find_outermost(body, axis, sign, most_mm)
        rows.add(np.minimum(limit + off - places, 0), [(column, float(sign)), (arc, turns)])
    places, turns = _find_outermost(body, 1, -1, most_mm)
    rows.add(off - places, [(down, -1.0), (arc, turns), (length, 1.0)])


def _find_outermost(body: Body, axis: int, sign: int, most_mm: float) -> tuple[Numbers, Numbers]:
    """Of the corners that may become the outermost one on a side: where they lie, and what a turn does to that."""
    places = sign * body.corners[:, axis]
    near = places <= places.min() + REACH * most_mm
    arms = (body.corners[near] - body.pivot)[:, 1 - axis]
    return places[near], sign * (arms if axis else -arms) / body.radius_mm


def _solve(rows: _Rows, bodies: Sequence[Body], most_mm: float) -> Numbers | None:
    """The moves of each body (x, y, arc) that shorten the strip most."""
    count = len(bodies)
    model = highspy.HighsLp()
    model.num_col_, model.num_row_ = 3 * count + 2, rows.count
    bounds = np.tile([most_mm, most_mm, most_mm], (count, 1))
    bounds[[not body.may_turn for body in bodies], 2] = 0.0
    costs = np.tile([0.0, UPWARD / count, 0.0], count)
    model.col_cost_ = np.append(costs, [1.0, SHORTFALL_COSTS])
    model.col_lower_ = np.append(-bounds.ravel(), [0.0, 0.0])
    model.col_upper_ = np.append(bounds.ravel(), [find_length(bodies) + 2 * most_mm, highspy.kHighsInf])
    model.row_lower_ = np.concatenate(rows.lowest)
    model.row_upper_ = np.full(rows.count, highspy.kHighsInf)
    numbers = np.concatenate(rows.numbers)
    order = np.argsort(numbers, kind="stable")
    model.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    model.a_matrix_.start_ = np.searchsorted(numbers[order], np.arange(rows.count + 1)).astype(np.int32)
    model.a_matrix_.index_ = np.concatenate(rows.columns)[order].astype(np.int32)
    model.a_matrix_.value_ = np.concatenate(rows.factors)[order]
    solver = _make_solver()
    solver.passModel(model)
    solver.run()
    if solver.getModelStatus() != highspy.HighsModelStatus.kOptimal:
        return None
    return np.asarray(solver.getSolution().col_value[: 3 * count]).reshape(count, 3)


def _make_solver() -> highspy.Highs:
    """HiGHS with one thread: instances with other numbers of threads in a process answer nothing."""
    solver = highspy.Highs()  # type: ignore[no-untyped-call]
    for name, value in {"output_flag": False, "threads": 1, "random_seed": 1}.items():
        solver.setOptionValue(name, value)
    return solver
