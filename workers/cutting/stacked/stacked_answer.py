"""The stacked plan of a cloth as it stands in `cutting.json`."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from service.craft.cutting_choices import say_in_steps
from service.craft.measure import Length, length_object
from workers.cutting.buying import cloth_to_buy
from workers.cutting.stacked.stacked_plan import StackedPlan


def answer_stacked(plan: StackedPlan | None, measure: str) -> dict[str, Any]:
    """The field `stacked`, where there is such a plan."""
    if plan is None:
        return {}

    def length(value: Fraction) -> Length:
        return length_object(value, measure)

    buy, before = (cloth_to_buy(value, plan.fabric) for value in (plan.length, plan.unstacked))
    strips = [
        {
            "height": length(strip.height),
            "columns": [
                {
                    "width": length(column.width),
                    "pieces": [{"cut": r.cut, "count": r.count, "turned": r.turned} for r in column.runs],
                }
                for column in strip.columns
            ],
        }
        for strip in plan.strips
    ]
    return {
        "stacked": {
            "length": length(plan.length),
            "saves": length(plan.saves),
            "buy": length(buy),
            "buy_words": say_in_steps(buy, plan.fabric.buying_step),
            "saves_buying": length(before - buy),
            "lower_bound": length(plan.lower_bound),
            "proved": plan.length == plan.lower_bound,
            "strips": strips,
        }
    }
