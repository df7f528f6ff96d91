"""Straight seams: a block taken apart along lines that no patch crosses, down to single patches.

Read backwards it is the order of sewing. Where no such line is left, the patches go round a middle and a seam is
sewn in two goes (`pinwheels`), or they meet so that a seam must be set in (stopped at a point and turned); either is
named.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from service.craft.planar.figures import Figure, Line
from service.craft.planar.pinwheels import Pinwheel, find_pinwheel

Direction = tuple[int, int]
"""(a, b) of all the lines a·x + b·y = c that run side by side."""

Numbers = npt.NDArray[np.int64]


@dataclass(frozen=True)
class Parting:
    """Figures taken apart along lines side by side: the lines by growing c, and the figures' numbers in each part."""

    lines: tuple[Line, ...]
    parts: tuple[tuple[int, ...], ...]


@dataclass(frozen=True)
class Seam:
    """Two parts joined along a line. `first` lies on the negative side of it."""

    line: Line
    first: Assembly
    second: Assembly


@dataclass(frozen=True)
class Ring:
    """Parts that go round a middle, which comes last: the first one's seam is sewn in two goes."""

    parts: tuple[Assembly, ...]


@dataclass(frozen=True)
class SetIn:
    """Parts that no straight seam takes apart: each is sewn up to a point, turned there, and sewn on."""

    figures: tuple[int, ...]


DEEPEST = 150
"""Seams one outside the other; a block that goes deeper is sewn by nobody, and would take long to look at."""


class TooDeep(ValueError):
    """A block with more seams one outside the other than anybody sews."""

    def __init__(self) -> None:
        super().__init__(f"more than {DEEPEST} seams lie one outside the other")


Assembly = int | Seam | Ring | SetIn
"""A single figure by its number, a seam between two parts, parts round a middle, or parts to be set in."""


def part(figures: Sequence[Figure], prefer: Direction | None = None) -> Parting | None:
    """All the lines of one direction that no figure crosses; None where no line serves.

    Level and upright lines come before slanting ones, so that squares and rectangles stay whole as long as can be;
    then the direction with the line that halves the figures best, then `prefer`. Figures must cover a convex
    outline. Time about directions x figures x log figures.
    """
    best: tuple[tuple[bool, int, bool, Direction], Direction, Numbers, Numbers] | None = None
    points = np.array([corner for figure in figures for corner in figure.corners], dtype=np.int64)
    starts = np.cumsum([0, *(len(figure.corners) for figure in figures[:-1])])
    for a, b in sorted({direction for figure in figures for direction in figure.directions}):
        order, cuts = _find_cuts(a * points[:, 0] + b * points[:, 1], starts)
        if len(cuts):
            off_half = int(np.abs(2 * cuts - len(figures)).min())
            rank = (bool(a and b), off_half, (a, b) != prefer, (a, b))
            if best is None or rank < best[0]:
                best = rank, (a, b), order, cuts
    if best is None:
        return None
    _, (a, b), order, cuts = best
    parts = [tuple(sorted(map(int, members))) for members in np.split(order, cuts)]
    firsts = [figures[order[cut]].corners for cut in cuts]
    lines = [Line(a, b, min(a * x + b * y for x, y in corners)) for corners in firsts]
    return Parting(tuple(lines), tuple(parts))


def _find_cuts(places: Numbers, starts: Numbers) -> tuple[Numbers, Numbers]:
    """The figures in order across a direction, and after how many of them a line runs between them."""
    low, high = np.minimum.reduceat(places, starts), np.maximum.reduceat(places, starts)
    order = np.lexsort((high, low))
    reached = np.maximum.accumulate(high[order])
    return order, np.flatnonzero(reached[:-1] <= low[order][1:]) + 1


def split(figures: Sequence[Figure]) -> Assembly:
    """How the figures are sewn together, two parts at a time; of lines side by side the middle ones last.

    Raises `TooDeep`.
    """
    # a node is a group of figures; children are put after their parents, so that going backwards finds them made
    groups: list[tuple[int, ...]] = [tuple(range(len(figures)))]
    depths = [0]
    partings: list[tuple[Parting | Pinwheel, int] | None] = []
    while len(partings) < len(groups):
        group, depth = groups[len(partings)], depths[len(partings)]
        if depth > DEEPEST:
            raise TooDeep
        here = [figures[i] for i in group]
        parting = (part(here) or find_pinwheel(here)) if len(group) > 1 else None
        partings.append(None if parting is None else (parting, len(groups)))
        if parting:
            groups += [tuple(group[i] for i in members) for members in parting.parts]
            depths += [depth + 1] * len(parting.parts)
    made: dict[int, Assembly] = {}
    for number in reversed(range(len(groups))):
        found = partings[number]
        if found is None:
            made[number] = groups[number][0] if len(groups[number]) == 1 else SetIn(groups[number])
        else:
            parting, begin = found
            parts = [made.pop(begin + i) for i in range(len(parting.parts))]
            made[number] = _join(parting.lines, parts) if isinstance(parting, Parting) else Ring(tuple(parts))
    return made[0]


def _join(lines: Sequence[Line], parts: Sequence[Assembly]) -> Assembly:
    """Parts side by side as a tree of seams, halved again and again."""
    if len(parts) == 1:
        return parts[0]
    half = len(parts) // 2
    first, second = _join(lines[: half - 1], parts[:half]), _join(lines[half:], parts[half:])
    return Seam(lines[half - 1], first, second)


def walk_seams(assembly: Assembly) -> Iterator[Seam | Ring | SetIn]:
    """Every seam, and what has more than one at once, the last one sewn first."""
    waiting = [assembly]
    while waiting:
        here = waiting.pop()
        if isinstance(here, Seam):
            yield here
            waiting += [here.second, here.first]
        elif isinstance(here, Ring):
            yield here
            waiting += here.parts[::-1]
        elif isinstance(here, SetIn):
            yield here


def set_in_groups(assembly: Assembly) -> list[tuple[int, ...]]:
    """The groups of figures that meet so that a seam must be set in."""
    return [found.figures for found in walk_seams(assembly) if isinstance(found, SetIn)]


def ring_groups(assembly: Assembly) -> list[tuple[int, ...]]:
    """The groups of figures that go round a middle, so that one seam is sewn in two goes."""
    return [tuple(sorted(_leaves(found))) for found in walk_seams(assembly) if isinstance(found, Ring)]


def _leaves(ring: Ring) -> Iterator[int]:
    """The figures in a ring."""
    waiting: list[Assembly] = [ring]
    while waiting:
        here = waiting.pop()
        if isinstance(here, int):
            yield here
        elif isinstance(here, SetIn):
            yield from here.figures
        else:
            waiting += here.parts if isinstance(here, Ring) else (here.first, here.second)
