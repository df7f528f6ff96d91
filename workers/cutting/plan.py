"""The plan of one cloth: its strips, how little it could be, what to buy."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from math import gcd, lcm

from service.craft.fabric import Fabric
from workers.cutting.cuts import Cut
from workers.cutting.least import least_strips
from workers.cutting.strip_problem import Problem, Size, Strip, Strips, total_length

# A search for less cloth ends after about so long on one cloth, whatever it has found.
SECONDS = 2.0


@dataclass(frozen=True)
class CutRun:
    """`count` pieces of one cut (by its number in the cutting list), side by side in a strip."""

    cut: int
    count: int
    turned: bool


@dataclass(frozen=True)
class PlannedStrip:
    """One strip across the roll, `height` inches high."""

    height: Fraction
    runs: tuple[CutRun, ...]


@dataclass(frozen=True)
class ClothPlan:
    """One cloth: strips in the order they are cut, and lengths in inches.

    `lower_bound` is a length no plan can go below; where `length` equals it the plan is proved to be the
    shortest. `per_size_rule` and `fit_rule` are what rules of thumb take.
    """

    fabric: Fabric
    strips: tuple[PlannedStrip, ...]
    length: Fraction
    lower_bound: Fraction
    per_size_rule: Fraction
    fit_rule: Fraction
    area: Fraction

    @property
    def proved(self) -> bool:
        """Whether nothing shorter can exist."""
        return self.length == self.lower_bound

    @property
    def used_share(self) -> Fraction:
        """The share of the cloth that ends up in pieces."""
        return self.area / (self.length * self.fabric.usable_width)


def plan_cloth(fabric: Fabric, cuts: dict[int, Cut]) -> ClothPlan:
    """Strips for the cuts of one cloth, by their number in the cutting list, in the least cloth that is found.

    Every cut fits on the cloth. The bound says how sure it is that nothing shorter exists.
    """
    problem, step, members = pose(fabric.usable_width, cuts)
    least = least_strips(problem, seconds=SECONDS)
    return ClothPlan(
        fabric=fabric,
        strips=hand_out(least.strips, members, cuts, step),
        length=total_length(least.strips) * step,
        lower_bound=least.lower_bound * step,
        per_size_rule=total_length(least.by_size) * step,
        fit_rule=total_length(least.by_fit) * step,
        area=sum((cut.area for cut in cuts.values()), Fraction(0)),
    )


def pose(usable_width: Fraction, cuts: dict[int, Cut]) -> tuple[Problem, Fraction, list[list[int]]]:
    """The problem in whole steps, the step in inches, and which cuts share each size.

    The step divides every side, so that nothing is rounded but the cloth's width, downwards: sides side by
    side come to whole steps.
    """
    sizes: dict[tuple[Fraction, Fraction, bool], list[int]] = {}
    for number, cut in cuts.items():
        sizes.setdefault((cut.width, cut.height, cut.may_turn), []).append(number)
    step = common_step(side for width, height, _ in sizes for side in (width, height))
    posed = tuple(
        Size(int(w / step), int(h / step), sum(cuts[n].count for n in members), may_turn)
        for (w, h, may_turn), members in sizes.items()
    )
    return Problem(int(usable_width / step), posed), step, list(sizes.values())


def common_step(lengths: Iterable[Fraction]) -> Fraction:
    """The longest length that goes into all of them without rest.

    >>> common_step([Fraction(7, 2), Fraction(3, 8), Fraction(5)])
    Fraction(1, 8)
    """
    listed = list(lengths)
    under = lcm(*(value.denominator for value in listed))
    return Fraction(gcd(*(int(value * under) for value in listed)), under)


def hand_out(
    strips: Strips, members: list[list[int]], cuts: dict[int, Cut], step: Fraction
) -> tuple[PlannedStrip, ...]:
    """The same strips in inches, the tallest first, each size's places given to the cuts that share it."""
    waiting = [deque([n, cuts[n].count] for n in numbers) for numbers in members]
    planned = []
    for strip in sorted(strips, key=lambda s: -s.height):
        planned.append(PlannedStrip(strip.height * step, _cut_runs(strip, waiting)))
    return tuple(planned)


def _cut_runs(strip: Strip, waiting: list[deque[list[int]]]) -> tuple[CutRun, ...]:
    runs = []
    for run in strip.runs:
        left, queue = run.count, waiting[run.size]
        while left:
            number, still = queue[0]
            taken = min(left, still)
            runs.append(CutRun(number, taken, run.turned))
            left -= taken
            queue[0][1] -= taken
            if not queue[0][1]:
                queue.popleft()
    return tuple(runs)
