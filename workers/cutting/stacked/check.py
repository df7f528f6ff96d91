"""Looks over stacked plans: lays every piece on a plane, and sees that nothing lies on another or out of its column."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from workers.cutting.buying import cloth_to_buy
from workers.cutting.cuts import Cut
from workers.cutting.plane import Block, find_trouble
from workers.cutting.stacked.stacked_plan import PlannedColumn, StackedPlan


def check_stacks(cuts: Sequence[Cut], plans: Mapping[str, StackedPlan]) -> list[str]:
    """What is wrong with the stacked plans, in sentences; empty where all can be cut so."""
    return [
        f'"{key}", stacked: {wrong}' for key, plan in plans.items() for wrong in check_stacked(cuts, plan)
    ]


def check_stacked(cuts: Sequence[Cut], plan: StackedPlan) -> list[str]:
    """What is wrong with one: every piece of the cloth comes out once, the right way up, strip by strip."""
    made = Counter[int]()
    for strip in plan.strips:
        for column in strip.columns:
            for run in column.runs:
                made[run.cut] += run.count
    due = {n: cut.count for n, cut in enumerate(cuts) if cut.fabric == plan.fabric.key}
    found = [
        f"cut {n}: {made[n]} are cut, {due.get(n, 0)} are in the list"
        for n in sorted({*made, *due})
        if made[n] != due.get(n, 0)
    ]
    found += _check_turns(cuts, plan)
    found += find_trouble(list(_lay(cuts, plan)), plan.fabric.usable_width, plan.length)
    found += _check_columns(cuts, plan)
    if plan.length != sum((strip.height for strip in plan.strips), Fraction(0)):
        found.append("the strips do not come to the length that is given")
    if not plan.lower_bound <= plan.length <= plan.unstacked:
        found.append("the length lies below its bound, or above that without stacking")
    if cloth_to_buy(plan.length, plan.fabric) > cloth_to_buy(plan.unstacked, plan.fabric):
        found.append("more is bought than without stacking")
    return found


def _check_turns(cuts: Sequence[Cut], plan: StackedPlan) -> Iterator[str]:
    runs = {run for strip in plan.strips for column in strip.columns for run in column.runs}
    for run in sorted(runs, key=lambda one: (one.cut, one.count)):
        if run.turned and (plan.fabric.one_way or not cuts[run.cut].may_turn):
            yield f"cut {run.cut} lies turned, and must not"


def _lay(cuts: Sequence[Cut], plan: StackedPlan) -> Iterator[Block]:
    """Every piece where it lies, runs as one block; a column takes its whole width, and a wider piece reaches over."""
    top = Fraction(0)
    for strip in plan.strips:
        left = Fraction(0)
        for column in strip.columns:
            yield from _lay_column(cuts, column, left, top)
            left += column.width
        top += strip.height


def _lay_column(cuts: Sequence[Cut], column: PlannedColumn, left: Fraction, top: Fraction) -> Iterator[Block]:
    for run in column.runs:
        cut = cuts[run.cut]
        across, along = (cut.height, cut.width) if run.turned else (cut.width, cut.height)
        yield Block(left, top, across, along * run.count)
        top += along * run.count


def _check_columns(cuts: Sequence[Cut], plan: StackedPlan) -> Iterator[str]:
    """Three cuts are enough: no column is higher than its strip, and no piece wider than its column."""
    for number, strip in enumerate(plan.strips):
        for column in strip.columns:
            blocks = list(_lay_column(cuts, column, Fraction(0), Fraction(0)))
            if sum((block.along for block in blocks), Fraction(0)) > strip.height:
                yield f"strip {number}: a column is higher than its strip"
            if any(block.across > column.width for block in blocks):
                yield f"strip {number}: a piece is wider than its column"
