"""The cutting plan as it stands in `cutting.json`."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from service.craft.cutting_words import ROTARY_CAUTION, say_then
from service.craft.document import Project
from service.craft.joining import Joined, Part
from service.craft.language import phrase
from service.craft.measure import Length, Number, length_object
from workers.cutting.applique_answer import answer_applique, answer_fusible
from workers.cutting.applique_lengths import AppliqueLengths
from workers.cutting.cloth_answer import answer_cloth
from workers.cutting.cuts import Cut
from workers.cutting.finishing import FinishingPlan
from workers.cutting.finishing_answer import finishing_answer
from workers.cutting.order import list_order
from workers.cutting.order_answer import answer_order
from workers.cutting.part_words import say_part
from workers.cutting.plan import ClothPlan
from workers.cutting.stacked.stacked_answer import answer_stacked
from workers.cutting.stacked.stacked_plan import StackedPlan
from workers.cutting.stock.stock_answer import answer_stock
from workers.cutting.stock.stock_plan import StockPlan


def answer(
    project: Project,
    cuts: Sequence[Cut],
    plans: Sequence[ClothPlan],
    finishing: FinishingPlan,
    applique: AppliqueLengths,
    stocks: Mapping[str, StockPlan],
    stacks: Mapping[str, StackedPlan],
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
        "fabrics": [
            answer_cloth(plan, project.measure)
            | answer_stock(plan, stocks[plan.fabric.key], cuts, project)
            | answer_stacked(stacks.get(plan.fabric.key), project.measure)
            for plan in plans
        ],
        "order": answer_order(list_order(project, cuts, plans)),
        "cautions": [phrase(ROTARY_CAUTION)],
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
        "then": say_then(cut.then),
        "method": cut.method,
        "makes": cut.makes,
        "wanted": cut.wanted,
        "serves": cut.serves,
        "for": list(cut.uses if cut.applique else map(say_part, cut.uses)),
        "notes": list(cut.notes),
        "grain": cut.grain,
        "may_turn": cut.may_turn,
        "join": cut.joined and _join(cut, cut.joined, project, length),
    }


def _join(cut: Cut, joined: Joined, project: Project, length: Any) -> dict[str, Any]:
    """How pieces are joined and what comes of them; of panels, with what allowance, and how wide they are trimmed."""
    parts = joined.parts or (Part(1, joined.wanted, cut.makes),)
    told = {
        "seams": joined.seams,
        "pieces": joined.pieces,
        "joined": length(joined.total),
        "laid": joined.laid,
        "gives": [
            {"width": length(part.length), "height": length(cut.height), "makes": part.makes}
            for part in parts
        ],
    }
    if joined.in_panels:
        told |= {"seam_allowance": length(project.seam_allowance), "trim_to": length(joined.wanted)}
    return told
