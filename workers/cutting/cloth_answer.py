"""One cloth as it stands in `cutting.json`: what to buy, both plans, and which of them is followed."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

from service.craft.cutting_choices import say_in_steps
from service.craft.measure import Length, length_object
from workers.cutting.buying import cloth_to_buy, cost
from workers.cutting.plan import ClothPlan, PlannedStrip, StripPlan

ToLength = Callable[[Fraction], Length]


def answer_cloth(plan: ClothPlan, measure: str) -> dict[str, Any]:
    """A cloth's plans. `strips` and `length` are the tight plan, `buy` and `cost` what the followed one needs."""

    def length(value: Fraction) -> Length:
        return length_object(value, measure)

    fabric = plan.fabric
    price = cost(plan.buy, fabric)
    return {
        "fabric": fabric.key,
        "name": fabric.name,
        "colour": fabric.colour,
        "usable_width": length(fabric.usable_width),
        "directional": fabric.directional,
        "napped": fabric.napped,
        "shrinkage": float(fabric.shrinkage),
        "straightening": length(fabric.straightening),
        "buying_step": length(fabric.buying_step),
        "buy": length(plan.buy),
        "buy_words": say_in_steps(plan.buy, fabric.buying_step),
        "buy_for_tight": length(cloth_to_buy(plan.length, fabric)),
        "cost": None if price is None else float(price),
        "follow": plan.follows,
        "because": plan.because,
        "lower_bound": length(plan.lower_bound),
        "proved": plan.proved,
        "per_size_rule": length(plan.per_size_rule),
        "fit_rule": length(plan.fit_rule),
        "used_share": round(float(plan.used_share), 4),
        "stash": [
            {"width": length(s.width), "length": length(s.length), "count": s.count} for s in fabric.stash
        ],
        **_plan(plan.tight, length),
        "simple": {"buy": length(cloth_to_buy(plan.simple.length, fabric)), **_plan(plan.simple, length)},
    }


def _plan(plan: StripPlan, length: ToLength) -> dict[str, Any]:
    return {
        "length": length(plan.length),
        "strip_count": len(plan.strips),
        "mixed": plan.mixed,
        "strips": [answer_strip(strip, length) for strip in plan.strips],
    }


def answer_strip(strip: PlannedStrip, length: ToLength) -> dict[str, Any]:
    """A strip and its pieces, from left to right; `turned` is meant against the strip."""
    pieces = [{"cut": run.cut, "count": run.count, "turned": run.turned} for run in strip.runs]
    return {"height": length(strip.height), "pieces": pieces}
