"""The rows of a fill: where they cross an area, and where the needle goes in along them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from workers.stitches.curves import Floats
from workers.stitches.pieces import Points
from workers.stitches.settings import StitchSettings

STAGGER = (0.0, 0.4, 0.8, 0.2, 0.6)
"""How far the needle points of five rows one above the other are shifted, in stitch lengths: no two neighbours meet."""


@dataclass(frozen=True)
class Row:
    """One row's way across the area: its number from the lowest, its height, from where to where."""

    number: int
    y: float
    left: float
    right: float


def cut_rows(rings: Sequence[Points], settings: StitchSettings) -> list[Row]:
    """The rows that cross closed rings (last point as the first), by the even-odd rule, from low to high."""
    starts = np.vstack([ring[:-1] for ring in rings])
    ends = np.vstack([ring[1:] for ring in rings])
    height = float(starts[:, 1].max() - starts[:, 1].min())
    count = max(1, int(np.ceil(height / settings.fill_row_mm)))
    step = height / count
    first = float(starts[:, 1].min()) + step / 2
    low, high = np.minimum(starts[:, 1], ends[:, 1]), np.maximum(starts[:, 1], ends[:, 1])
    begin = np.ceil((low - first) / step - 1e-12).astype(int)
    crossings = np.maximum(np.ceil((high - first) / step - 1e-12).astype(int) - begin, 0)
    side = np.repeat(np.arange(len(crossings)), crossings)
    within = np.arange(crossings.sum()) - np.repeat(np.cumsum(crossings) - crossings, crossings)
    number = begin[side] + within
    y = first + number * step
    run = ends[side] - starts[side]
    x = starts[side, 0] + (y - starts[side, 1]) / run[:, 1] * run[:, 0]
    order = np.lexsort((x, number))
    number, x, y = number[order], x[order], y[order]
    return [
        Row(int(number[i]), float(y[i]), float(x[i]), float(x[i + 1]))
        for i in range(0, len(x) - 1, 2)
        if number[i] == number[i + 1] and x[i + 1] - x[i] > 1e-6
    ]


def points_between(row: Row, settings: StitchSettings) -> Floats:
    """The needle points of a row between its ends, from left to right."""
    length, room = settings.fill_stitch_mm, settings.shortest_fill_mm
    shift = STAGGER[row.number % len(STAGGER)] * length
    first = np.ceil((row.left + room - shift) / length)
    last = np.floor((row.right - room - shift) / length)
    return np.asarray(shift + np.arange(first, last + 1) * length)


def sew_rows(rows: Sequence[Row], settings: StitchSettings, start: Floats | None) -> Points:
    """The needle points of rows sewn to and fro, beginning at the end nearer to `start`."""
    first = rows[0]
    to_right = start is None or abs(start[0] - first.left) <= abs(start[0] - first.right)
    points = []
    for row in rows:
        x = np.concatenate([[row.left], points_between(row, settings), [row.right]])
        points.append(np.stack([x if to_right else x[::-1], np.full(len(x), row.y)], axis=1))
        to_right = not to_right
    return np.vstack(points)
