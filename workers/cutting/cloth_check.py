"""Looks over the two plans of one cloth: lays every piece down again, strip by strip, and counts what is bought."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from fractions import Fraction

from service.craft.cutting_choices import ALONG, PLANS
from service.craft.fabric import Fabric
from workers.cutting.cuts import Cut
from workers.cutting.plan import ClothPlan, PlannedStrip, StripPlan


def check_cloth(cuts: Sequence[Cut], plan: ClothPlan) -> list[str]:
    """What is wrong with a cloth's plans, in sentences; empty where both can be cut and what is bought is enough."""
    found = [*_check_strips(cuts, plan.tight, plan.fabric), *_check_bounds(plan), *_check_buying(plan)]
    if plan.simple != plan.tight:
        found += [f"simple plan: {wrong}" for wrong in _check_strips(cuts, plan.simple, plan.fabric)]
    return found


def _check_strips(cuts: Sequence[Cut], plan: StripPlan, fabric: Fabric) -> Iterator[str]:
    """The strips hold every piece of the cloth, once, and come to the length that is given."""
    cut_out: Counter[int] = Counter()
    mixed = 0
    for i, strip in enumerate(plan.strips):
        yield from (f"strip {i}: {wrong}" for wrong in _check_strip(strip, cuts, fabric))
        mixed += len({frozenset((cuts[run.cut].width, cuts[run.cut].height)) for run in strip.runs}) > 1
        for run in strip.runs:
            cut_out[run.cut] += run.count
    for number, cut in enumerate(cuts):
        due = cut.count if cut.fabric == fabric.key else 0
        if cut_out[number] != due:
            yield f"cut {number}: {cut_out[number]} pieces in the strips, {due} in the list"
    length = sum((strip.height for strip in plan.strips), Fraction(0))
    if length != plan.length:
        yield f"the strips come to {length} in, the plan says {plan.length}"
    if mixed != plan.mixed:
        yield f"{mixed} strips mix sizes, the plan says {plan.mixed}"


def _check_strip(strip: PlannedStrip, cuts: Sequence[Cut], fabric: Fabric) -> Iterator[str]:
    edge, tallest = Fraction(0), Fraction(0)
    for run in strip.runs:
        cut = cuts[run.cut]
        across, along = (cut.height, cut.width) if run.turned else (cut.width, cut.height)
        if run.turned and (fabric.one_way or not cut.may_turn):
            yield f"cut {run.cut} lies turned, and must not"
        if cut.grain and (cut.grain == ALONG) != (along > across) and along != across:
            yield f"cut {run.cut} is to lie {cut.grain}, and does not"
        if run.count < 1:
            yield f"a run of {run.count} pieces"
        edge += run.count * across
        tallest = max(tallest, along)
    if edge > fabric.usable_width:
        yield f"the pieces come to {edge} in, the cloth is {fabric.usable_width} in wide"
    if tallest != strip.height:
        yield f"the tallest piece is {tallest} in, the strip {strip.height} in"


def _check_bounds(plan: ClothPlan) -> Iterator[str]:
    if not plan.lower_bound <= plan.length <= min(plan.per_size_rule, plan.fit_rule):
        yield "the length lies below its bound, or above a rule of thumb"
    if plan.simple.length < plan.length or plan.simple.effort > plan.tight.effort:
        yield "the simple plan is shorter than the tight one, or no simpler"
    if plan.follows not in PLANS or not plan.because:
        yield "it is not said which plan is followed, and why"


def _check_buying(plan: ClothPlan) -> Iterator[str]:
    """What is bought is as many steps of the shop as are needed: enough after the wash and the straight cut."""
    fabric, need = plan.fabric, plan.followed.length
    steps = plan.buy / fabric.buying_step
    if steps.denominator != 1:
        yield f"{plan.buy} in is no whole number of the shop's steps of {fabric.buying_step} in"
    left = [
        bought - bought * fabric.shrinkage - fabric.straightening
        for bought in (plan.buy, plan.buy - fabric.buying_step)
    ]
    if left[0] < need:
        yield f"of {plan.buy} in bought {left[0]} in are left, {need} in are needed"
    if left[1] >= need:
        yield f"{plan.buy} in is a step more than is needed"
