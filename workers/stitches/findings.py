"""What checks work on and what they say."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from workers.stitches.pieces import Hooping, Points
from workers.stitches.reading import Reading
from workers.stitches.record import Ints
from workers.stitches.settings import StitchSettings

MOST_PLACES = 20
"""A check names so many places at most."""


@dataclass(frozen=True)
class Check:
    """One check: its name, whether it holds, the value measured, where it does not hold, and its limit."""

    name: str
    ok: bool
    value: float
    where: list[dict[str, object]] = field(default_factory=list)
    limit: float | None = None


@dataclass(frozen=True)
class Checked:
    """What the checks look at: the hooping's plan for names and outlines, the file for everything sewn.

    `ranges` are the first and last record of each pass of the hooping, both included.
    """

    hooping: Hooping
    reading: Reading
    ranges: tuple[tuple[int, int], ...]
    settings: StitchSettings

    def sewn_in(self, number: int) -> Points:
        """The needle points of one pass as the file has them, the place it starts from included."""
        first, last = self.ranges[number]
        return np.vstack(
            [self.reading.starts_mm[first : first + 1], self.reading.points_mm[first : last + 1]]
        )

    def settings_of(self, number: int) -> StitchSettings:
        """The settings of the piece that a pass sews: threads of other weights are thicker or thinner."""
        name = self.hooping.passes[number].piece
        return next((s.piece.settings for s in self.hooping.sewn if s.piece.name == name), self.settings)

    def segments(self, piece: str, *kinds: str) -> Points:
        """The stitches of a piece's passes of these kinds, shape (n, 2, 2)."""
        passes = self.hooping.passes
        found = [self.sewn_in(i) for i, p in enumerate(passes) if p.piece == piece and p.kind in kinds]
        if not found:
            return np.zeros((0, 2, 2))
        return np.concatenate([np.stack([points[:-1], points[1:]], axis=1) for points in found])

    @property
    def record_lengths_mm(self) -> Points:
        """How far each record moves, millimetres."""
        return np.asarray(np.linalg.norm(self.reading.points_mm - self.reading.starts_mm, axis=1))


def at_point(point: Points, **more: object) -> dict[str, object]:
    """A place in the field for a report: millimetres from its middle, x right and y down."""
    return {"x_mm": round(float(point[0]), 1), "y_mm": round(float(point[1]), 1), **more}


def at_records(checked: Checked, records: Ints) -> list[dict[str, object]]:
    """The first few of these records with their places."""
    return [at_point(checked.reading.points_mm[i], record=int(i)) for i in records[:MOST_PLACES]]
