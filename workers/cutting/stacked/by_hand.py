"""Stacking as at the table: the tallest first, each on the first column or in the first strip that has room."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from workers.cutting.stacked.stacks import Column, StackedStrip
from workers.cutting.stock.problem import Way
from workers.cutting.strip_problem import Problem, Run

MOST_PIECES = 2000
"""Of more pieces it takes too long: the time grows with pieces times columns."""


@dataclass
class _Column:
    width: int
    room: int
    ways: list[Way] = field(default_factory=list)

    def close(self) -> Column:
        """The column with equal pieces together."""
        counts = {way: self.ways.count(way) for way in dict.fromkeys(self.ways)}
        return Column(self.width, tuple(Run(way.size, count, way.turned) for way, count in counts.items()))


@dataclass
class _Strip:
    height: int
    room: int
    columns: list[_Column] = field(default_factory=list)


def stack_by_hand(problem: Problem, ways: Sequence[Way]) -> tuple[StackedStrip, ...] | None:
    """Strips with every piece, lying as `ways` have it, one for each size; None where there are too many pieces."""
    if sum(problem.sizes[way.size].count for way in ways) > MOST_PIECES:
        return None
    strips: list[_Strip] = []
    for way in sorted(ways, key=lambda one: (-one.along, -one.across, one.size)):
        for _ in range(problem.sizes[way.size].count):
            column = _find_room(strips, way) or _open(strips, way, problem.width)
            column.ways.append(way)
            column.room -= way.along
    return tuple(StackedStrip(s.height, tuple(column.close() for column in s.columns)) for s in strips)


def _find_room(strips: Sequence[_Strip], way: Way) -> _Column | None:
    """The narrowest column begun that has room for a piece, in the first strip that has such a one."""
    for strip in strips:
        fitting = [c for c in strip.columns if way.across <= c.width and way.along <= c.room]
        if fitting:
            return min(fitting, key=lambda column: column.width)
    return None


def _open(strips: list[_Strip], way: Way, width: int) -> _Column:
    """A new column in the first strip that has room for it, or in a new strip."""
    strip = next((s for s in strips if way.across <= s.room and way.along <= s.height), None)
    if strip is None:
        strip = _Strip(way.along, width)
        strips.append(strip)
    strip.room -= way.across
    strip.columns.append(_Column(way.across, strip.height))
    return strip.columns[-1]
