"""Lines across a work: how many seams the worst one crosses, and how many units that were trimmed on the way."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from service.craft.units.base import CuttingRules
from workers.sewing.trimming import find_room_to_trim
from workers.sewing.works import ROTATIONS, Laid, Work

Points = NDArray[np.complex128]
Floats = NDArray[np.float64]

CLOSE = 1e-6
"""Inches by which stretches may overlap and still only touch."""


@dataclass(frozen=True)
class Line:
    """A line across a work: the seams it crosses outside trimmed units, and what each such unit had to trim (inches).

    `own` is what the work itself is trimmed by at the end, or None where it is not.
    """

    seams: int
    trimmed: tuple[float, ...] = ()
    own: float | None = None


@dataclass(frozen=True)
class _Inside:
    """Seams by their ends, and the opposite corners of trimmed units with what they had to trim."""

    starts: Points
    ends: Points
    boxes: tuple[tuple[Points, float], ...]


class LineFinder:
    """Finds the worst lines across works; what lies inside is looked at where it lies."""

    def __init__(self, rules: CuttingRules) -> None:
        self._rules = rules
        self._seen: dict[Work, _Inside] = {}

    def find(self, work: Work) -> tuple[Line, Line]:
        """The level line and the upright one that cross most seams."""
        inside, own = self._look(work), find_room_to_trim(work, self._rules)
        return _worst(inside, 1j, own), _worst(inside, 1 + 0j, own)

    def _look(self, work: Work) -> _Inside:
        if work not in self._seen:
            own = () if work.laid_on else work.seams
            starts = [np.array([seam.start for seam in own], dtype=complex)]
            ends = [np.array([seam.end for seam in own], dtype=complex)]
            boxes: list[tuple[Points, float]] = []
            for item in work.items:
                if isinstance(item.piece, Work):
                    inner = self._look_into(item.piece, item)
                    starts.append(inner.starts)
                    ends.append(inner.ends)
                    boxes += inner.boxes
            self._seen[work] = _Inside(np.concatenate(starts), np.concatenate(ends), tuple(boxes))
        return self._seen[work]

    def _look_into(self, piece: Work, item: Laid) -> _Inside:
        """What a work inside brings to a line: its seams, or the unit as one piece where it is trimmed."""
        turn, room = ROTATIONS[item.eighths], find_room_to_trim(piece, self._rules)
        if room is not None:
            none = np.array([], dtype=complex)
            corners = np.array([item.place(corner) for corner in piece.corners], dtype=complex)
            return _Inside(none, none, ((corners, room),))
        inner = self._look(piece)
        return _Inside(
            inner.starts * turn + item.shift,
            inner.ends * turn + item.shift,
            tuple((corners * turn + item.shift, room) for corners, room in inner.boxes),
        )


def _worst(inside: _Inside, across: complex, own: float | None) -> Line:
    """The line square to which `across` lies: stretches are looked at by their shadow on that direction."""
    first, second = (_shadow(points, across) for points in (inside.starts, inside.ends))
    seams, place = find_most(first, second)
    shadows = [(_shadow(corners, across), room) for corners, room in inside.boxes]
    trimmed = [room for shadow, room in shadows if shadow.min() <= place <= shadow.max()]
    if not seams and shadows:
        # without a seam outside them, the units themselves decide where a line is looked at
        trimmed = [max(room for _, room in shadows)]
    return Line(seams, tuple(sorted(trimmed)), own)


def _shadow(points: Points, across: complex) -> Floats:
    return np.real(points * np.conj(across))


def find_most(first: Floats, second: Floats) -> tuple[int, float]:
    """The greatest number of stretches that overlap in one place, and such a place; touching is no overlap."""
    low, high = np.minimum(first, second) + CLOSE, np.maximum(first, second) - CLOSE
    real = low < high
    low, high = np.sort(low[real]), np.sort(high[real])
    if not len(low):
        return 0, 0.0
    begun = np.arange(1, len(low) + 1)
    over = begun - np.searchsorted(high, low, side="left")
    best = int(np.argmax(over))
    return int(over[best]), float(low[best])
