"""Pictures beside the finishing steps, from what the cutting plan says: seams of the back, and bias."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from service.craft.document import Project
from service.craft.drawing import ClothView, view_cloths
from service.craft.drawing.finishing import BackView, draw_back, draw_bias_strips, draw_bias_tube
from service.craft.finish import BIAS, CONTINUOUS, HORIZONTAL
from service.craft.language import phrase
from workers.handouts.sizes import read_inches, show_length
from workers.sewing.steps.binding_step import BINDING
from workers.sewing.steps.finishing import LAYERS

Plan = Mapping[str, Any]


def draw_finishing(project: Project, cutting: Plan) -> dict[str, str]:
    """Drawings (SVG) by the heading they stand under; none where words are enough."""
    finishing, cloths = cutting.get("finishing") or {}, view_cloths(project.fabrics)
    drawn = {
        phrase(LAYERS): _draw_back(project, cloths, finishing.get("backing") or {}),
        phrase(BINDING): _draw_binding(cloths, finishing.get("binding") or {}),
    }
    return {heading: svg for heading, svg in drawn.items() if svg}


def _draw_back(project: Project, cloths: Mapping[str, ClothView], plan: Plan) -> str:
    cloth, seams = cloths.get(str(plan.get("fabric"))), plan.get("seams_at") or ()
    if cloth is None or not seams:
        return ""
    return draw_back(
        BackView(
            cloth=cloth,
            width=read_inches(plan.get("width")),
            height=read_inches(plan.get("height")),
            width_text=show_length(plan.get("width"), project.measure).main,
            height_text=show_length(plan.get("height"), project.measure).main,
            panels=tuple(show_length(width, project.measure).main for width in plan["widths"]),
            seams=tuple(map(read_inches, seams)),
            across=plan.get("seams") == HORIZONTAL,
        )
    )


def _draw_binding(cloths: Mapping[str, ClothView], plan: Plan) -> str:
    cloth, piece = cloths.get(str(plan.get("fabric"))), plan.get("piece") or {}
    width, height = read_inches(piece.get("width")), read_inches(piece.get("height"))
    strip = read_inches(plan.get("strip"))
    if cloth is None or not (width and height and strip):
        return ""
    if plan.get("cut") == CONTINUOUS:
        return draw_bias_tube(cloth, width, strip)
    return draw_bias_strips(cloth, width, height, strip) if plan.get("cut") == BIAS else ""
