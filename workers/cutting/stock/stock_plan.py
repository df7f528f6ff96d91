"""A cloth cut from what is at home, and from pieces as they are sold: in inches, by the numbers of the cutting list."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from service.craft.document import Project
from service.craft.fabric import Fabric, SoldAs
from workers.cutting.buying import longest_for_the_same
from workers.cutting.cuts import Cut
from workers.cutting.plan import ClothPlan, PlannedStrip, cut_runs, pose
from workers.cutting.stock.least_bought import LeastBought, least_bought
from workers.cutting.stock.problem import Stock, StockProblem
from workers.cutting.strip_problem import Strip
from workers.patience import Left, endless, share

SECONDS = 30.0
"""Every search of one cloth ends after so long at the latest, whatever it has found; most are done in one."""


@dataclass(frozen=True)
class CutPiece:
    """A piece of cloth and the strips cut from it: `copy` of the stash's entry `number`, or of those sold.

    `width` lies across the cloth and `length` along it, in inches. The strips run across it; along it where `turned`.
    """

    number: int
    copy: int
    width: Fraction
    length: Fraction
    turned: bool
    strips: tuple[PlannedStrip, ...]

    @property
    def sides(self) -> tuple[Fraction, Fraction]:
        """How long its strips can be, and how high all of them together."""
        return (self.length, self.width) if self.turned else (self.width, self.length)


def roll_piece(fabric: Fabric, length: Fraction, strips: tuple[PlannedStrip, ...]) -> CutPiece:
    """What is bought from the roll for a length, as one piece: washed and cut straight."""
    return CutPiece(0, 0, fabric.usable_width, longest_for_the_same(length, fabric), False, strips)


def followed_piece(plan: ClothPlan) -> CutPiece:
    """What is bought from the roll for the plan that is followed."""
    return roll_piece(plan.fabric, plan.followed.length, plan.followed.strips)


@dataclass(frozen=True)
class StashPlan:
    """What is cut from the stash; what is still cut from the roll (inches), or from pieces still to be bought.

    `lower_bound`: no plan needs less of the roll (inches) or, where the cloth is sold in pieces, fewer of them.
    """

    pieces: tuple[CutPiece, ...]
    roll: tuple[PlannedStrip, ...]
    bought: tuple[CutPiece, ...]
    lower_bound: Fraction

    @property
    def enough(self) -> bool:
        """Whether nothing is to be bought."""
        return not self.roll and not self.bought

    @property
    def length(self) -> Fraction:
        """Inches that are still cut from the roll."""
        return sum((strip.height for strip in self.roll), Fraction(0))


@dataclass(frozen=True)
class SoldPlan:
    """The pieces to buy of a cloth that is sold cut already; no plan does with fewer than `lower_bound`.

    `too_large` names the cuts that no such piece holds: they need the roll.
    """

    sold_as: SoldAs
    pieces: tuple[CutPiece, ...]
    lower_bound: int
    too_large: tuple[int, ...]


@dataclass(frozen=True)
class StockPlan:
    """What the pieces at home give of a cloth, and how many to buy as it is sold; None where it has none of them."""

    stash: StashPlan | None
    sold: SoldPlan | None


@dataclass(frozen=True)
class _Posed:
    """A cloth's problem in whole steps, and how to come back from it."""

    problem: StockProblem
    step: Fraction
    members: list[list[int]]
    sides: tuple[tuple[Fraction, Fraction], ...]

    def hand_out(
        self, found: LeastBought, cuts: dict[int, Cut]
    ) -> tuple[tuple[CutPiece, ...], tuple[PlannedStrip, ...]]:
        """The pieces with their strips in inches, and the strips from the roll."""
        waiting = [deque([n, cuts[n].count] for n in numbers) for numbers in self.members]

        def planned(strips: Iterable[Strip]) -> tuple[PlannedStrip, ...]:
            ordered = sorted(strips, key=lambda strip: -strip.height)
            return tuple(PlannedStrip(s.height * self.step, cut_runs(s, waiting)) for s in ordered)

        pieces = tuple(
            CutPiece(s.stock, s.copy, *self.sides[s.stock], s.turned, planned(s.strips)) for s in found.sheets
        )
        return pieces, planned(found.roll)


def plan_stocks(project: Project, cuts: Sequence[Cut], left: Left = endless) -> dict[str, StockPlan]:
    """Every cloth that something is cut from, by its key."""
    own = {key: {n: cut for n, cut in enumerate(cuts) if cut.fabric == key} for key in project.fabrics}
    return {
        key: plan_stock(project.fabrics[key], some, share(left, 1 / (len(own) - i)))
        for i, (key, some) in enumerate(own.items())
        if some
    }


def plan_stock(fabric: Fabric, cuts: dict[int, Cut], left: Left = endless) -> StockPlan:
    """All that can be said of the cuts of one cloth, by their number in the cutting list, besides its roll."""
    return StockPlan(plan_stash(fabric, cuts, share(left, 0.5)), plan_sold(fabric, cuts, left))


def plan_stash(fabric: Fabric, cuts: dict[int, Cut], left: Left = endless) -> StashPlan | None:
    """The cuts of one cloth from its stash, so that least is still to buy; None where there is no stash.

    A cloth sold in pieces is bought in pieces, where they hold every cut.
    """
    if not fabric.stash:
        return None
    sold = fabric.sold_as if fabric.sold_as and not too_large(fabric.sold_as, cuts) else None
    posed = _pose(fabric, cuts, at_home=True, sold=sold)
    found = least_bought(posed.problem, seconds=SECONDS, left=left)
    pieces, roll = posed.hand_out(found, cuts)
    at_home = len(fabric.stash)
    return StashPlan(
        pieces=tuple(piece for piece in pieces if piece.number < at_home),
        roll=roll,
        bought=tuple(replace(piece, number=0) for piece in pieces if piece.number >= at_home),
        lower_bound=found.lower_bound * (posed.step if sold is None else Fraction(1)),
    )


def plan_sold(fabric: Fabric, cuts: dict[int, Cut], left: Left = endless) -> SoldPlan | None:
    """How many pieces to buy of a cloth that is sold cut already; None where it is not."""
    if fabric.sold_as is None:
        return None
    large = too_large(fabric.sold_as, cuts)
    fitting = {number: cut for number, cut in cuts.items() if number not in large}
    if not fitting:
        return SoldPlan(fabric.sold_as, (), 0, large)
    posed = _pose(fabric, fitting, at_home=False, sold=fabric.sold_as)
    found = least_bought(posed.problem, seconds=SECONDS, left=left)
    pieces, _ = posed.hand_out(found, fitting)
    return SoldPlan(fabric.sold_as, pieces, found.lower_bound, large)


def too_large(sold_as: SoldAs, cuts: Mapping[int, Cut]) -> tuple[int, ...]:
    """The cuts that fit on no piece as it is sold, in any way they may lie."""

    def fits(cut: Cut) -> bool:
        ways = [(cut.width, cut.height), *([(cut.height, cut.width)] if cut.may_turn else [])]
        return any(w <= sold_as.width and h <= sold_as.length for w, h in ways)

    return tuple(number for number, cut in cuts.items() if not fits(cut))


def _pose(fabric: Fabric, cuts: dict[int, Cut], *, at_home: bool, sold: SoldAs | None) -> _Posed:
    """The problem with the stash, with pieces to buy, or both; with the roll where no pieces are bought."""
    problem, step, members = pose(fabric.usable_width, cuts)
    may_turn = not fabric.one_way
    stash = fabric.stash if at_home else ()
    stock = [Stock(int(s.width / step), int(s.length / step), s.count, 0, may_turn) for s in stash]
    sides: Sequence[tuple[Fraction, Fraction]] = [(s.width, s.length) for s in stash]
    if sold:
        stock.append(Stock(int(sold.width / step), int(sold.length / step), None, 1, may_turn))
        sides = [*sides, (sold.width, sold.length)]
    roll = None if sold else problem.width
    return _Posed(StockProblem(problem.sizes, tuple(stock), roll), step, members, tuple(sides))
