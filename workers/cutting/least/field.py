"""A cloth's problem in one standing order: equal sizes together, every way a size can lie, the lowest first."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from math import gcd

from workers.cutting.strip_problem import Problem


@dataclass(frozen=True)
class Way:
    """One way of laying a size (by its number in the field): `across` and `along` in the field's units."""

    size: int
    across: int
    along: int


@dataclass(frozen=True)
class Pattern:
    """What one strip holds: its height, and how many pieces of each way (by its number), the lowest first."""

    height: int
    counts: tuple[tuple[int, int], ...]


@dataclass(frozen=True)
class Field:
    """One cloth without what does not matter: the order of its sizes, and what divides all lengths.

    `ways` are sorted by rising height; a unit along the roll is `step` steps, one across the roll `step_across`.
    `members` are the problem's own numbers of the sizes that share a place.
    """

    width: int
    step: int
    step_across: int
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


def lay_out(problem: Problem) -> Field:
    """The field of a problem: the same for the same sizes in whatever order they come."""
    groups: dict[tuple[tuple[int, int], ...], list[int]] = {}
    for number, size in enumerate(problem.sizes):
        lyings = sorted(way[:2] for way in size.ways(problem.width))
        groups.setdefault(tuple(lyings), []).append(number)
    keys = sorted(groups)
    step = gcd(*(along for key in keys for _, along in key))
    step_across = gcd(*(across for key in keys for across, _ in key))
    ways = [
        Way(number, across // step_across, along // step)
        for number, key in enumerate(keys)
        for across, along in key
    ]
    return Field(
        width=problem.width // step_across,
        step=step,
        step_across=step_across,
        demand=tuple(sum(problem.sizes[n].count for n in groups[key]) for key in keys),
        ways=tuple(sorted(ways, key=lambda way: (way.along, way.across, way.size))),
        members=tuple(tuple(groups[key]) for key in keys),
    )
