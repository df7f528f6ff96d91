"""Which edges of a stage are on the bias: cut across the threads, so that they stretch.

Cloth is cut along its threads with the ruler: a square's sides are straight grain, its diagonal is bias. A patch lies
with its grain along the unit's own edges, so what slants in the unit is bias; two kinds are cut another way round. A
side setting triangle has its long side along the threads, since that becomes the edge of the top, and half-square
triangles made four at a time have their outer edges on the bias.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from service.craft.units import (
    CornerSquares,
    FlyingGeese,
    HalfSquareTriangle,
    QuarterSquareTriangle,
    SquareInASquare,
)
from service.craft.units.flying_geese import CORNERS
from service.craft.units.flying_geese import FOUR as AT_ONCE
from service.craft.units.half_square_triangle import EIGHT, FOUR, TWO
from service.craft.units.quarter_square_triangle import TWO as IN_PAIRS
from service.craft.units.square_in_a_square import FLIPPED
from workers.sewing.works import ROTATIONS, Cut, Laid, Work

CLOSE = 1e-6
STRAIGHT = 0.05
"""The sine of the angle to the threads up to which an edge counts as straight: 3 degrees. Our own estimate."""

DIAGONAL_ROW = "diagonal row"


@dataclass(frozen=True)
class BiasEdge:
    """A stretch on the bias in a work's picture (inches): one side of the outline, or a seam of the work.

    `seam` is the seam's number, or None where the stretch lies on the outline; `length` is how much of it is bias.
    """

    start: complex
    end: complex
    length: float
    seam: int | None = None


@dataclass(frozen=True)
class BiasEdges:
    """The bias edges of a stage: what is sewn there, and what is left at its outside."""

    sewn: tuple[BiasEdge, ...]
    outer: tuple[BiasEdge, ...]


class BiasFinder:
    """Finds bias edges; the patches of a work are looked at once."""

    def __init__(self) -> None:
        self._seen: dict[Work, NDArray[np.complex128]] = {}

    def find(self, work: Work) -> BiasEdges:
        """The bias edges of one work."""
        edges = self._bias(work)
        seams = () if work.laid_on else work.seams
        sewn = [(_on_line(edges, s.start, s.end), s.start, s.end, i) for i, s in enumerate(seams)]
        corners = work.corners
        sides = zip(corners, [*corners[1:], corners[0]], strict=True)
        outer = [(_on_line(edges, a, b), a, b) for a, b in sides]
        return BiasEdges(
            tuple(BiasEdge(a, b, length, i) for length, a, b, i in sewn if length > CLOSE),
            tuple(BiasEdge(a, b, length) for length, a, b in outer if length > CLOSE),
        )

    def _bias(self, work: Work) -> NDArray[np.complex128]:
        """Every patch edge on the bias in the work's picture, a row each: start and end."""
        if work not in self._seen:
            found = [np.empty((0, 2), dtype=complex)]
            for item in work.items:
                if isinstance(item.piece, Work):
                    found.append(self._bias(item.piece) * ROTATIONS[item.eighths] + item.shift)
                else:
                    own = [edge for edge in _edges(item) if _is_bias(edge, _grain(work, item.piece))]
                    found.append(np.array(own, dtype=complex).reshape(-1, 2))
            self._seen[work] = np.concatenate(found)
        return self._seen[work]


def _edges(laid: Laid) -> Iterator[tuple[complex, complex]]:
    corners = [laid.place(corner) for corner in laid.piece.corners]
    return zip(corners, [*corners[1:], corners[0]], strict=True)


def _grain(work: Work, cut: Cut) -> complex:
    """The way of the threads of a work's own patch, in the work's picture."""
    half_turned = ROTATIONS[1]
    if work.kind == DIAGONAL_ROW and len(cut.corners) == 3:
        return half_turned
    if work.kind == HalfSquareTriangle.kind and work.facts["method"] == FOUR:
        return half_turned
    return 1 + 0j


def _is_bias(edge: tuple[complex, complex], grain: complex) -> bool:
    along = (edge[1] - edge[0]) / grain
    return min(abs(along.real), abs(along.imag)) > STRAIGHT * abs(along)


def _on_line(edges: NDArray[np.complex128], start: complex, end: complex) -> float:
    """How much of a line (inches) has an edge of the given ones on it, counted on its busier side."""
    if not len(edges) or start == end:
        return 0.0
    along = end - start
    places = (edges - start) / along
    flat = (np.abs(places.imag) * abs(along) < CLOSE).all(axis=1)
    real = np.sort(places.real[flat], axis=1).clip(0.0, 1.0)
    stretches = real[real[:, 1] - real[:, 0] > CLOSE]
    return _cover(stretches) * abs(along)


def _cover(stretches: NDArray[np.float64]) -> float:
    """How much of a line some stretches cover, overlaps counted once."""
    total, reached = 0.0, 0.0
    for low, high in sorted(map(tuple, stretches.tolist())):
        total += max(0.0, high - max(low, reached))
        reached = max(reached, high)
    return total


def is_sewn_before_cut(work: Work) -> bool:
    """Whether a work's slanting seams are sewn while its cloth is still whole, so that no bias edge lies open."""
    method = work.facts.get("method", "")
    ways: dict[str, tuple[str, ...]] = {
        HalfSquareTriangle.kind: (TWO, FOUR, EIGHT),
        QuarterSquareTriangle.kind: (IN_PAIRS,),
        FlyingGeese.kind: (CORNERS, AT_ONCE),
        SquareInASquare.kind: (FLIPPED,),
    }
    return work.kind == CornerSquares.kind or method in ways.get(work.kind, ())
