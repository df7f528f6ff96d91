"""Where the middle of a hooping is marked on the top: on a mark of the ruler where there is room."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from workers.stitches.pieces import Points, SewnPiece, box_of

ON_THE_MARK_MM = 0.05
"""A place so near to a mark of the ruler is on it: half of what a needle moves at least."""


@dataclass(frozen=True)
class Ruler:
    """The marks of a ruler laid on the sewn top from its cut edges, which lie `edge_mm` outside its finished corner."""

    step_mm: float
    edge_mm: float

    def nearest(self, place: Points) -> Points:
        """The mark nearest to a place on the top (mm from the finished corner), on each axis."""
        return np.asarray(np.round((place + self.edge_mm) / self.step_mm) * self.step_mm - self.edge_mm)


def middles(group: list[SewnPiece], ruler: Ruler | None) -> Iterator[Points]:
    """Where the middle of a hooping may be, best first; the last, the middle of all stitches, takes the least room.

    The middle of a single piece serves however the piece is turned, so that one file can sew it in several places.
    """
    x0, y0, x1, y1 = box_of([p.points for sewn in group for p in sewn.passes])
    centre = np.array([(x0 + x1) / 2, (y0 + y1) / 2])
    if ruler is not None:
        for at in (np.array(sewn.piece.at_mm) for sewn in group if len(group) == 1 and sewn.piece.motif):
            if np.abs(ruler.nearest(at) - at).max() <= ON_THE_MARK_MM:
                yield at
        yield ruler.nearest(centre)
    yield centre


def middle_elsewhere(middle: tuple[float, float], one: SewnPiece, other: SewnPiece) -> tuple[float, float]:
    """Where the middle of one piece's hooping comes to lie when its file sews the same motif in another place."""
    angle = np.radians(other.piece.turn_degrees - one.piece.turn_degrees)
    turn = np.array([[np.cos(angle), -np.sin(angle)], [np.sin(angle), np.cos(angle)]])
    x, y = np.array(other.piece.at_mm) + turn @ (np.array(middle) - np.array(one.piece.at_mm))
    return float(x), float(y)
