"""A cloth's problem in one standing order: equal sizes together, every way a size can lie, the lowest first."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from functools import cached_property
from math import gcd

from workers.cutting.strip_problem import Problem

# Numbers in a table of prices over the width, 8 bytes each.
MOST_CELLS = 6_000_000


@dataclass(frozen=True)
class Way:
    """One way of laying a size (by its number in the field): `across` and `along` in the field's units.

    `lying` are the same two in the problem's steps.
    """

    size: int
    across: int
    along: int
    lying: tuple[int, int]


@dataclass(frozen=True)
class Pattern:
    """What one strip holds: its height, and how many pieces of each way (by its number), the lowest first."""

    height: int
    counts: tuple[tuple[int, int], ...]


@dataclass(frozen=True)
class Field:
    """One cloth without what does not matter: the order of its sizes, and what divides all lengths.

    `ways` are sorted by rising height; a unit along the roll is `step` steps. `members` are the problem's own numbers
    of the sizes that share a place.
    """

    width: int
    step: int
    demand: tuple[int, ...]
    ways: tuple[Way, ...]
    members: tuple[tuple[int, ...], ...]

    @cached_property
    def most(self) -> tuple[int, ...]:
        """Of each way, how many pieces a strip can hold that are wanted."""
        return tuple(min(self.width // way.across, self.demand[way.size]) for way in self.ways)

    def made(self, pattern: Pattern) -> dict[int, int]:
        """How many pieces of each size a strip of that pattern gives."""
        found: dict[int, int] = {}
        for way, count in pattern.counts:
            size = self.ways[way].size
            found[size] = found.get(size, 0) + count
        return found


class Rounding(Enum):
    """Widths in a coarser unit: wider, so that what fits there does fit; narrower, so that nothing is lost."""

    WIDER = 1
    NARROWER = 0


def lay_out(problem: Problem, coarser: int = 1, rounding: Rounding = Rounding.WIDER) -> Field:
    """The field of a problem: the same for the same sizes in whatever order they come.

    Widths are in units of what divides them all; `coarser`: in units so many times that, rounded.
    """
    groups: dict[tuple[tuple[int, int], ...], list[int]] = {}
    for number, size in enumerate(problem.sizes):
        lyings = sorted(way[:2] for way in size.ways(problem.width))
        groups.setdefault(tuple(lyings), []).append(number)
    keys = sorted(groups)
    step = gcd(*(along for key in keys for _, along in key))
    unit = gcd(*(across for key in keys for across, _ in key)) * coarser
    width, more = problem.width // unit, (unit - 1) * rounding.value
    ways = [
        Way(number, min(max((across + more) // unit, 1), width), along // step, (across, along))
        for number, key in enumerate(keys)
        for across, along in key
    ]
    return Field(
        width=width,
        step=step,
        demand=tuple(sum(problem.sizes[n].count for n in groups[key]) for key in keys),
        ways=tuple(sorted(ways, key=lambda way: (way.along, way.across, way.size, way.lying))),
        members=tuple(tuple(groups[key]) for key in keys),
    )


def coarseness(problem: Problem) -> int:
    """How much coarser widths must be taken so that the table over the width stays within `MOST_CELLS`; mostly 1."""
    field = lay_out(problem)
    rows = sum(most.bit_length() for most in field.most)
    return -(-rows * field.width // MOST_CELLS)
