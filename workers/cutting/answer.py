"""The cutting plan as it stands in `cutting.json`."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from service.craft.document import Project
from service.craft.measure import Length, Number, length_object
from workers.cutting.applique_answer import answer_applique, answer_fusible
from workers.cutting.applique_lengths import AppliqueLengths
from workers.cutting.buying import cost, length_to_buy
from workers.cutting.cuts import Cut
from workers.cutting.finishing import FinishingPlan
from workers.cutting.finishing_answer import finishing_answer
from workers.cutting.plan import ClothPlan, PlannedStrip


def answer(
    project: Project,
    cuts: Sequence[Cut],
    plans: Sequence[ClothPlan],
    finishing: FinishingPlan,
    applique: AppliqueLengths,
) -> dict[str, Any]:
    """The whole plan as plain JSON; the project document's reference lists the fields others read."""

    def length(value: Number) -> Length:
        return length_object(value, project.measure)

    top = project.top
    return {
        "title": project.title,
        "measure": project.measure,
        "seam_allowance": length(project.seam_allowance),
        "finished": {"width": length(top.width), "height": length(top.height)},
        "cuts": [_cut(cut, project, length) for cut in cuts],
        "fabrics": [_cloth(plan, project.measure, length) for plan in plans],
        "finishing": {
            **finishing_answer(project, finishing),
            "fusible": answer_fusible(applique, project, length),
        },
        "applique": answer_applique(applique, project, length),
    }


def _cut(cut: Cut, project: Project, length: Any) -> dict[str, Any]:
    return {
        "fabric": cut.fabric,
        "name": project.fabrics[cut.fabric].name,
        "shape": cut.shape,
        "template": cut.template,
        "width": length(cut.width),
        "height": length(cut.height),
        "count": cut.count,
        "then": cut.then,
        "method": cut.method,
        "makes": cut.makes,
        "wanted": cut.wanted,
        "serves": cut.serves,
        "for": list(cut.uses),
        "notes": list(cut.notes),
    }


def _cloth(plan: ClothPlan, measure: str, length: Any) -> dict[str, Any]:
    fabric = plan.fabric
    buy = length_to_buy(plan.length, fabric.shrinkage, measure)
    price = cost(buy, fabric)
    return {
        "fabric": fabric.key,
        "name": fabric.name,
        "colour": fabric.colour,
        "usable_width": length(fabric.usable_width),
        "directional": fabric.directional,
        "shrinkage": float(fabric.shrinkage),
        "length": length(plan.length),
        "buy": length(buy),
        "cost": None if price is None else float(price),
        "lower_bound": length(plan.lower_bound),
        "proved": plan.proved,
        "per_size_rule": length(plan.per_size_rule),
        "fit_rule": length(plan.fit_rule),
        "used_share": round(float(plan.used_share), 4),
        "stash": [
            {"width": length(s.width), "length": length(s.length), "count": s.count} for s in fabric.stash
        ],
        "strips": [_strip(strip, length) for strip in plan.strips],
    }


def _strip(strip: PlannedStrip, length: Any) -> dict[str, Any]:
    pieces = [{"cut": run.cut, "count": run.count, "turned": run.turned} for run in strip.runs]
    return {"height": length(strip.height), "pieces": pieces}
