"""What finishes the top, as it stands under `finishing` in `cutting.json`."""

from __future__ import annotations

from typing import Any

from service.craft.document import Project
from service.craft.measure import Length, Number, length_object
from workers.cutting.backing import SEAM, BackingPlan, Panels, batting_package
from workers.cutting.binding import EXTRA, BindingPlan
from workers.cutting.finishing import FinishingPlan


def finishing_answer(project: Project, finishing: FinishingPlan) -> dict[str, Any]:
    """Binding, backing and batting as plain JSON; None for what the project leaves out."""

    def length(value: Number) -> Length:
        return length_object(value, project.measure)

    return {
        "binding": finishing.binding and _binding(finishing.binding, length),
        "backing": finishing.backing and _backing(finishing.backing, length),
        "batting": _batting(project, length),
    }


def _binding(plan: BindingPlan, length: Any) -> dict[str, Any]:
    return {
        "fabric": plan.fabric,
        "cut": "bias" if plan.bias else "straight",
        "strip": length(plan.strip),
        "around": length(plan.around),
        "extra": length(EXTRA),
        "needed": length(plan.needed),
        "pieces": plan.pieces,
        "piece": {"width": length(plan.length), "height": length(plan.length if plan.bias else plan.strip)},
        "joined": length(plan.total),
    }


def _backing(plan: BackingPlan, length: Any) -> dict[str, Any]:
    return {
        "fabric": plan.fabric,
        "width": length(plan.width),
        "height": length(plan.height),
        "seam_allowance": length(SEAM),
        **_panels(plan.chosen, length),
        "other_way": plan.other and _panels(plan.other, length),
    }


def _panels(panels: Panels, length: Any) -> dict[str, Any]:
    return {
        "panels": panels.count,
        "panel": {"width": length(panels.width), "height": length(panels.length)},
        "seams": panels.seams if panels.count > 1 else "none",
        "length": length(panels.along_roll),
    }


def _batting(project: Project, length: Any) -> dict[str, Any] | None:
    overhang = project.finish.batting_overhang
    if overhang is None:
        return None
    width, height = (
        project.rules.round(side + 2 * overhang) for side in (project.top.width, project.top.height)
    )
    sold = batting_package(width, height)
    return {
        "width": length(width),
        "height": length(height),
        "overhang": length(overhang),
        "sold_as": sold and {"name": sold[0], "width": length(sold[1]), "height": length(sold[2])},
    }
