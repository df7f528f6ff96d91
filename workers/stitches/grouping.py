"""Pieces into as few hoopings as the sewing field allows, with a bound below which no plan can go.

A hooping holds pieces whose common box fits the field. Whatever lies beneath a piece is sewn in the same hooping
or an earlier one. A search over all ways (branch and bound, a piece at a time from the bottom up) finds the least
number where there are few pieces; pieces of which no two fit one field together give the bound.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

Box = tuple[float, float, float, float]
Fits = Callable[[Box], bool]

MOST_SEARCHED = 60
"""More pieces than this are grouped as they come, without a search."""

MOST_STEPS = 20_000
"""The search takes so many steps at most, and then answers with the best plan found."""


@dataclass(frozen=True)
class Laid:
    """What the grouping knows of a piece: its sewn box, what it must not share a hooping with, what lies beneath.

    Parts of one `piece` are each sewn in a hooping of their own; 0 stands for a whole piece.
    """

    box: Box
    kept_apart: bool
    below: frozenset[int]
    piece: int = 0

    def goes_with(self, other: Laid) -> bool:
        """Whether nothing but room keeps two out of one hooping."""
        return self.kept_apart == other.kept_apart and not (self.piece and self.piece == other.piece)


@dataclass(frozen=True)
class Grouping:
    """Groups of piece numbers in sewing order, and the number of hoopings no plan can go below."""

    groups: tuple[tuple[int, ...], ...]
    at_least: int

    @property
    def proved(self) -> bool:
        """Whether no plan with fewer hoopings exists."""
        return len(self.groups) == self.at_least


def join_boxes(boxes: Sequence[Box]) -> Box:
    """The box round boxes."""
    x0, y0, x1, y1 = zip(*boxes, strict=True)
    return min(x0), min(y0), max(x1), max(y1)


def together(a: Laid, b: Laid, fits: Fits) -> bool:
    """Whether two pieces could share a hooping."""
    return a.goes_with(b) and fits(join_boxes([a.box, b.box]))


def bound_below(pieces: Sequence[Laid], fits: Fits) -> int:
    """The size of a set of pieces of which no two can share a hooping, grown from every piece in turn."""
    most = min(1, len(pieces))
    for first in range(len(pieces) if len(pieces) <= MOST_SEARCHED else 1):
        apart: list[Laid] = []
        for piece in (*pieces[first:], *pieces[:first]):
            if not any(together(piece, other, fits) for other in apart):
                apart.append(piece)
        most = max(most, len(apart))
    return most


def group_greedily(pieces: Sequence[Laid], fits: Fits) -> list[list[int]]:
    """Each hooping begun with the lowest piece left, taking in every piece that fits and whose beneath is sewn."""
    left, done, groups = list(range(len(pieces))), set[int](), list[list[int]]()
    while left:
        group: list[int] = []
        for n in list(left):
            joined = join_boxes([pieces[m].box for m in (*group, n)])
            alike = all(pieces[m].goes_with(pieces[n]) for m in group)
            if pieces[n].below <= done and alike and (not group or fits(joined)):
                group.append(n)
                done.add(n)
                left.remove(n)
        groups.append(group)
    return groups


def sort_groups(groups: Sequence[Sequence[int]], pieces: Sequence[Laid]) -> list[tuple[int, ...]] | None:
    """The groups in an order in which what lies beneath is sewn first; None where there is no such order."""
    of = {n: g for g, group in enumerate(groups) for n in group}
    wait = [
        {of[m] for n in group for m in pieces[n].below if m in of} - {g} for g, group in enumerate(groups)
    ]
    order: list[int] = []
    while len(order) < len(groups):
        ready = [g for g in range(len(groups)) if g not in order and wait[g] <= set(order)]
        if not ready:
            return None
        order.append(ready[0])
    return [tuple(groups[g]) for g in order]


class _Search:
    """Branch and bound: the next piece joins a group it fits, or begins one."""

    def __init__(self, pieces: Sequence[Laid], fits: Fits, best: list[tuple[int, ...]], enough: int) -> None:
        self.pieces, self.fits, self.best, self.enough = pieces, fits, best, enough
        self.steps = 0
        self.groups: list[list[int]] = []

    @property
    def whole(self) -> bool:
        """Whether every way was looked at, or ruled out."""
        return self.steps <= MOST_STEPS

    def go_on(self, n: int) -> None:
        """Place piece `n` and all after it in every way that may still be better than the best."""
        self.steps += 1
        if not self.whole or len(self.best) <= self.enough or len(self.groups) >= len(self.best):
            return
        if n == len(self.pieces):
            self.best = sort_groups(self.groups, self.pieces) or self.best
            return
        for group in list(self.groups):
            if self._may_join(group, n):
                group.append(n)
                if sort_groups(self.groups, self.pieces) is not None:
                    self.go_on(n + 1)
                group.pop()
        self.groups.append([n])
        self.go_on(n + 1)
        self.groups.pop()

    def _may_join(self, group: list[int], n: int) -> bool:
        alike = all(self.pieces[m].goes_with(self.pieces[n]) for m in group)
        return alike and self.fits(join_boxes([self.pieces[m].box for m in (*group, n)]))


def group_boxes(pieces: Sequence[Laid], fits: Fits) -> Grouping:
    """The fewest hoopings found, in sewing order; `pieces` come from the bottom up and each fits by itself."""
    found = [tuple(group) for group in group_greedily(pieces, fits)]
    at_least = bound_below(pieces, fits)
    if len(found) > at_least and len(pieces) <= MOST_SEARCHED:
        search = _Search(pieces, fits, found, at_least)
        search.go_on(0)
        found = search.best
        at_least = len(found) if search.whole else at_least
    return Grouping(tuple(found), at_least)
