"""Whether patches cover a block exactly: no gap, no overlap.

The boundary of a sum of patches decides it. Patches cover the block once everywhere if and only if their
edges, each with its direction, cancel along every line but for the edge of the block. So edges are laid out
line by line and added up; what is left over is a gap or an overlap, and where it is left over says where.
O(n log n), exact in whole numbers.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

from service.craft.planar.figures import Figure, GridPoint, Line, line_through, make_figure


@dataclass(frozen=True)
class Leftover:
    """A stretch of an edge that has no partner: whose edge (None: the block's own), from where to where."""

    figure: int | None
    start: GridPoint
    end: GridPoint


Mark = tuple[int, int, GridPoint, int | None]
"""A place along a line, the change of the sum there, the point, the figure it belongs to."""


def find_leftovers(figures: Sequence[Figure], width: int, height: int) -> list[Leftover]:
    """Edges without a partner in a block of that size (grid steps), one a line at most; empty if it is covered."""
    block = make_figure([(0, 0), (width, 0), (width, height), (0, height)])
    marks: dict[Line, list[Mark]] = defaultdict(list)
    for number, figure in enumerate(figures):
        for p, q in figure.edges():
            _lay_out(marks, p, q, number)
    for p, q in block.edges():
        _lay_out(marks, q, p, None)
    found = [left for line in marks.values() if (left := _first_leftover(line))]
    return sorted(found, key=lambda left: (left.start[::-1], left.end[::-1]))


def _lay_out(marks: dict[Line, list[Mark]], p: GridPoint, q: GridPoint, number: int | None) -> None:
    line = line_through(p, q)
    # +1 where an edge starts and -1 where it ends: the sum in between is the edge's direction, whichever it is
    marks[line] += [(line.along(p), 1, p, number), (line.along(q), -1, q, number)]


def _first_leftover(marks: list[Mark]) -> Leftover | None:
    """The first stretch of a line along which the directed edges do not add up to nothing."""
    marks.sort(key=lambda mark: mark[0])
    total, start = 0, None
    for i, (place, change, point, number) in enumerate(marks):
        if total and start is not None and place > start[0]:
            return Leftover(start[2], start[1], point)
        total += change
        if i + 1 == len(marks) or marks[i + 1][0] > place:
            start = (place, point, _owner(marks, place, total, number)) if total else None
    return None


def _owner(marks: list[Mark], place: int, total: int, otherwise: int | None) -> int | None:
    """A figure whose edge runs on from that place in the direction that is left over."""
    direction = 1 if total > 0 else -1
    open_edges: list[int | None] = []
    for where, change, _, number in marks:
        if where > place:
            break
        if change == direction:
            open_edges.append(number)
        elif number in open_edges:
            open_edges.remove(number)
    named = [number for number in open_edges if number is not None]
    return named[-1] if named else otherwise
