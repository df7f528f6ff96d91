"""Pinwheels: parts that go round a middle, so that no seam runs straight through and yet none has to turn a corner.

Every side of the middle goes on at one of its ends as far as the edge of the whole, at all sides the same way round.
The seam on the first of these lines is sewn part of the way, those on the others from end to end, and the first is
finished last: a partial seam (common practice).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import atan2, isclose, tau

from service.craft.planar.figures import Figure, Line, line_through

MOST_TRIED = 20_000
"""Lines put to a chain in one search: a count, so that the same block always gives the same answer."""

MOST_SIDES = 8
"""Sides that a middle may have."""


@dataclass(frozen=True)
class Pinwheel:
    """Parts in the order in which they are sewn on, and for each of them the line of its seam; the middle comes last.

    At the other side of a part's line lie the middle and the part before it (before the first, the last one).
    `parts` hold the figures' numbers.
    """

    lines: tuple[Line, ...]
    parts: tuple[tuple[int, ...], ...]


@dataclass(frozen=True)
class _Side:
    """A line that the middle may have a side on, with the figures (a bit each) at the middle's hand and over it."""

    line: Line
    towards: int
    inner: int
    outer: int

    @property
    def angle(self) -> float:
        """Which way the middle lies, seen from the line."""
        return atan2(self.line.b * self.towards, self.line.a * self.towards)

    def leads_to(self, other: _Side, turn: int) -> bool:
        """Whether the part here can end on the other line: what crosses this line lies beyond that one."""
        across = self.line.a * other.line.b - self.line.b * other.line.a
        if across * self.towards * other.towards * turn <= 0 or not self.outer & other.inner:
            return False
        return not other.inner & ~self.inner & ~self.outer


def find_pinwheel(figures: Sequence[Figure]) -> Pinwheel | None:
    """The pinwheel made by figures that cover a convex outline; None where they make none.

    Of several, the one with the fewest parts, then the one whose largest part is smallest.
    """
    sides = _list_sides(figures)
    found: list[tuple[tuple[int, int], list[int], list[_Side]]] = []
    for chain in _walk_chains(sides):
        parts = _take_apart(chain, (1 << len(figures)) - 1)
        if parts:
            found.append(((len(parts), max(part.bit_count() for part in parts)), parts, chain))
    if not found:
        return None
    _, parts, chain = min(found, key=lambda one: one[0])
    return Pinwheel(tuple(side.line for side in chain), tuple(map(_numbers_in, parts)))


def _list_sides(figures: Sequence[Figure]) -> list[_Side]:
    """Every line that figures lie on both sides of, taken with the middle at either hand."""
    lines = {line_through(p, q) for figure in figures for p, q in figure.edges()}
    found = []
    for line in sorted(lines, key=lambda line: (line.a, line.b, line.c)):
        low = high = 0
        for number, figure in enumerate(figures):
            places = [line.side(corner) for corner in figure.corners]
            low |= (max(places) <= 0) << number
            high |= (min(places) >= 0) << number
        if low and high:
            found += [_Side(line, -1, low, high), _Side(line, 1, high, low)]
    return found


def _walk_chains(sides: Sequence[_Side]) -> Iterator[list[_Side]]:
    """Sides that lead to each other once round, either way; each circle once, begun with its first side."""
    tried = 0
    for turn in (1, -1):
        after = [[j for j, other in enumerate(sides) if side.leads_to(other, turn)] for side in sides]
        waiting = [[number] for number in range(len(sides))]
        while waiting:
            chain = waiting.pop()
            tried += 1
            if tried > MOST_TRIED:
                return
            if chain[0] in after[chain[-1]] and _goes_once_round([sides[i] for i in chain], turn):
                yield [sides[i] for i in chain]
            elif len(chain) < MOST_SIDES:
                waiting += [[*chain, i] for i in after[chain[-1]] if i > chain[0] and i not in chain]


def _goes_once_round(chain: Sequence[_Side], turn: int) -> bool:
    angles = [side.angle * turn for side in chain]
    turned = sum(
        (after - before) % tau for before, after in zip(angles, [*angles[1:], angles[0]], strict=True)
    )
    return len(chain) > 2 and isclose(turned, tau)


def _take_apart(chain: Sequence[_Side], every: int) -> list[int]:
    """The figures of each part, the middle's last; nothing where a figure lies in none or in two."""
    middle = every
    for side in chain:
        middle &= side.inner
    parts = [side.outer & after.inner for side, after in zip(chain, [*chain[1:], chain[0]], strict=True)]
    parts.append(middle)
    left = every
    for part in parts:
        if not part or part & ~left:
            return []
        left &= ~part
    return [] if left else parts


def _numbers_in(part: int) -> tuple[int, ...]:
    return tuple(number for number in range(part.bit_length()) if part >> number & 1)
