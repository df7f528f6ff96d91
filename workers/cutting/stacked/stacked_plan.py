"""The stacked plan of one cloth in inches, by the numbers of the cutting list."""

from __future__ import annotations

from collections import deque
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from service.craft.document import Project
from service.craft.fabric import Fabric
from workers.cutting.buying import cloth_to_buy
from workers.cutting.cuts import Cut
from workers.cutting.plan import ClothPlan, CutRun, PlannedStrip, cut_runs, pose
from workers.cutting.stacked.least_stacked import LeastStacked, least_stacked
from workers.cutting.strip_problem import Run, Strip, Strips
from workers.patience import Left, endless, share


@dataclass(frozen=True)
class PlannedColumn:
    """A column of a strip, `width` inches wide: its pieces lie one above the other, each run `count` of them."""

    width: Fraction
    runs: tuple[CutRun, ...]


@dataclass(frozen=True)
class StackedPlannedStrip:
    """One strip across the roll, `height` inches high, cut in columns from left to right."""

    height: Fraction
    columns: tuple[PlannedColumn, ...]


@dataclass(frozen=True)
class StackedPlan:
    """A cloth cut in strips with stacked pieces: inches along the roll, and what a plan without stacking takes.

    `lower_bound`: no plan is shorter whose strips are no higher than the highest of the plan without stacking.
    """

    fabric: Fabric
    strips: tuple[StackedPlannedStrip, ...]
    length: Fraction
    lower_bound: Fraction
    unstacked: Fraction

    @property
    def saves(self) -> Fraction:
        """Inches less than without stacking."""
        return self.unstacked - self.length


def plan_stacks(
    project: Project, plans: Sequence[ClothPlan], cuts: Sequence[Cut], left: Left = endless
) -> dict[str, StackedPlan]:
    """By cloth: the stacked plan where the document asks for it, else only where it saves a step of the shop."""
    stacked = {}
    for i, plan in enumerate(plans):
        mine = share(left, 1 / (len(plans) - i))
        own = {number: cut for number, cut in enumerate(cuts) if cut.fabric == plan.fabric.key}
        if project.cutting.stacked:
            stacked[plan.fabric.key] = plan_stacked(plan, own, thorough=True, left=mine)
        elif mine() > 0 and could_save(plan):
            found = plan_stacked(plan, own, thorough=False, left=mine)
            if cloth_to_buy(found.length, plan.fabric) < plan.buy:
                stacked[plan.fabric.key] = found
    return stacked


def could_save(plan: ClothPlan) -> bool:
    """Whether all the pieces, without any waste, would be bought in fewer steps of the shop."""
    no_waste = plan.area / plan.fabric.usable_width
    return cloth_to_buy(no_waste, plan.fabric) < plan.buy


def plan_stacked(
    plan: ClothPlan, cuts: dict[int, Cut], *, thorough: bool, left: Left = endless
) -> StackedPlan:
    """The stacked plan of one cloth; never longer than its tight plan."""
    problem, step, members = pose(plan.fabric.usable_width, cuts)
    known = _in_steps(plan.tight.strips, members, step)
    found = least_stacked(problem, known, thorough=thorough, left=left)
    return StackedPlan(
        fabric=plan.fabric,
        strips=_hand_out(found, members, cuts, step),
        length=found.length * step,
        lower_bound=found.lower_bound * step,
        unstacked=plan.tight.length,
    )


def _in_steps(strips: Sequence[PlannedStrip], members: list[list[int]], step: Fraction) -> Strips:
    size_of = {number: size for size, numbers in enumerate(members) for number in numbers}
    return tuple(
        Strip(int(s.height / step), tuple(Run(size_of[run.cut], run.count, run.turned) for run in s.runs))
        for s in strips
    )


def _hand_out(
    found: LeastStacked,
    members: list[list[int]],
    cuts: dict[int, Cut],
    step: Fraction,
) -> tuple[StackedPlannedStrip, ...]:
    """The strips in inches, each size's places given to the cuts that share it."""
    waiting = [deque([n, cuts[n].count] for n in numbers) for numbers in members]
    return tuple(
        StackedPlannedStrip(
            strip.height * step,
            tuple(
                PlannedColumn(c.width * step, cut_runs(Strip(c.width, c.runs), waiting))
                for c in strip.columns
            ),
        )
        for strip in found.strips
    )
