"""How much of one cloth is enough for cuts wanted many times over, and how sure that is."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil
from typing import Protocol

from service.craft.fabric import SoldAs, StashPiece
from workers.cutting.cuts import Cut
from workers.cutting.least import least_strips
from workers.cutting.plan import pose
from workers.cutting.stock.least_bought import least_bought
from workers.cutting.stock.problem import Stock, StockProblem
from workers.cutting.strip_bound import area_bound
from workers.cutting.strip_problem import Problem, total_length
from workers.cutting.strip_rules import fit_rule, per_size_rule

EVEN = 60
"""Divides by two to six: strips that hold the pieces of so many makes are filled."""


@dataclass(frozen=True)
class Reach:
    """An amount of cloth that is enough, and one below which nothing is: inches of a roll, or pieces as sold."""

    amount: Fraction
    lower_bound: Fraction

    @property
    def proved(self) -> bool:
        """Whether nothing less is enough."""
        return self.amount == self.lower_bound

    def at_most(self, amount: Fraction) -> Reach:
        """The same, where a plan that takes so much is known besides."""
        return self if self.amount <= amount else replace(self, amount=amount)

    def at_least(self, amount: Fraction) -> Reach:
        """The same, taken no less than so."""
        return self if self.amount >= amount else replace(self, amount=amount)


NOTHING = Reach(Fraction(0), Fraction(0))


class Source(Protocol):
    """What is cut from. Equal ones give equal plans."""

    @property
    def most_at_once(self) -> int:
        """Pieces planned in one go. Beyond, their plan is cut again and again, and a last one for the rest."""
        ...

    def plan(self, cuts: Sequence[Cut], times: int, seconds: float) -> Reach:
        """The least found in about `seconds` for all cuts, so many times over. Every cut fits."""
        ...

    def bound(self, cuts: Sequence[Cut], times: int) -> Fraction:
        """What no plan can go below, found at once."""
        ...


@dataclass(frozen=True)
class Roll:
    """Cloth by the length, so many inches wide; pieces `at_home` are cut first."""

    width: Fraction
    at_home: tuple[StashPiece, ...] = ()
    one_way: bool = False

    most_at_once = 6000

    def plan(self, cuts: Sequence[Cut], times: int, seconds: float) -> Reach:
        """Inches of the roll."""
        problem, step = _pose(self.width, cuts, times)
        if seconds <= 0:
            # no time for a search: the better rule of thumb, all of it from the roll
            by_rule = min(total_length(per_size_rule(problem)), total_length(fit_rule(problem)))
            return Reach(by_rule * step, self.bound(cuts, times))
        if not self.at_home:
            least = least_strips(problem, seconds=seconds)
            return Reach(total_length(least.strips) * step, least.lower_bound * step)
        stock = tuple(
            Stock(int(piece.width / step), int(piece.length / step), piece.count, 0, not self.one_way)
            for piece in self.at_home
        )
        found = least_bought(StockProblem(problem.sizes, stock, problem.width), seconds=seconds)
        return Reach(found.cost * step, found.lower_bound * step)

    def bound(self, cuts: Sequence[Cut], times: int) -> Fraction:
        """The area of all pieces across the width; nothing where some may come from home."""
        problem, step = _pose(self.width, cuts, times)
        return Fraction(0) if self.at_home else area_bound(problem) * step


@dataclass(frozen=True)
class Pieces:
    """Cloth in pieces, cut already."""

    sold_as: SoldAs
    one_way: bool

    most_at_once = 2_000

    def plan(self, cuts: Sequence[Cut], times: int, seconds: float) -> Reach:
        """So many pieces."""
        problem, step = _pose(self.sold_as.width, cuts, times)
        piece = Stock(problem.width, int(self.sold_as.length / step), None, 1, not self.one_way)
        found = least_bought(StockProblem(problem.sizes, (piece,), None), seconds=seconds)
        return Reach(Fraction(found.cost), Fraction(found.lower_bound))

    def bound(self, cuts: Sequence[Cut], times: int) -> Fraction:
        """The area of all cuts in pieces."""
        area = times * sum((cut.area for cut in cuts), Fraction(0))
        return Fraction(ceil(area / (self.sold_as.width * self.sold_as.length)))


def find_reach(source: Source, cuts: Iterable[Cut], times: int, *, seconds: float) -> Reach:
    """The least cloth found in about `seconds` for all these cuts, so many times over.

    Every cut fits on the cloth. What is cut is a real plan: for many times over, full plans for as many as are
    planned in one go, and one for the rest.
    """
    listed = list(cuts)
    if not listed:
        return NOTHING
    together = min(times, _count_together(source, sum(cut.count for cut in listed)))
    rounds, rest = divmod(times, together)
    first = source.plan(listed, together, seconds / 2 if rest else seconds)
    if rounds == 1 and not rest:
        return first
    last = source.plan(listed, rest, seconds / 2).amount if rest else Fraction(0)
    return Reach(rounds * first.amount + last, source.bound(listed, times))


def _count_together(source: Source, pieces: int) -> int:
    """How many times so many pieces are planned in one go: an even number of times, where it can be."""
    most = max(1, source.most_at_once // pieces)
    return most - most % EVEN if most >= EVEN else most


def _pose(width: Fraction, cuts: Sequence[Cut], times: int) -> tuple[Problem, Fraction]:
    many = {number: replace(cut, count=cut.count * times) for number, cut in enumerate(cuts)}
    problem, step, _ = pose(width, many)
    return problem, step
