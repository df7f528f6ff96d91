"""The finishing cloth of a project: binding, backing and batting, and the cuts they need."""

from __future__ import annotations

from dataclasses import dataclass

from service.craft.document import Project
from service.craft.measure import format_length
from workers.cutting.backing import SEAM, BackingPlan, plan_backing
from workers.cutting.binding import BindingPlan, TooNarrow, plan_binding
from workers.cutting.cuts import RECTANGLE, SQUARE, STRIP, Cut
from workers.recipe import CannotMake

OFF_CENTRE = "keep the seam of the back off the fold in the middle"
BIAS_NOTE = "bias stretches: do not pull it, and press without pushing the iron"


@dataclass(frozen=True)
class FinishingPlan:
    """What finishes the top; None for what the project leaves out."""

    binding: BindingPlan | None
    backing: BackingPlan | None


def plan_finishing(project: Project) -> FinishingPlan:
    """Binding and backing of a project; `CannotMake` where a cloth is too narrow for them."""
    return FinishingPlan(_binding(project), _backing(project))


def finishing_cuts(plan: FinishingPlan, project: Project) -> list[Cut]:
    """The cuts of binding and backing, to be cut from the same cloth as the patches."""
    cuts = []
    if plan.binding is not None:
        cuts.append(_binding_cut(plan.binding, project.measure))
    if plan.backing is not None:
        cuts.append(_backing_cut(plan.backing, project.measure))
    return cuts


def _binding(project: Project) -> BindingPlan | None:
    binding = project.finish.binding
    if binding is None:
        return None
    try:
        return plan_binding(
            binding,
            project.top.width,
            project.top.height,
            usable_width=project.fabrics[binding.fabric].usable_width,
            rules=project.rules,
        )
    except TooNarrow as narrow:
        raise _cannot(str(narrow), "/finish/binding", binding.fabric, project) from narrow


def _backing(project: Project) -> BackingPlan | None:
    backing = project.finish.backing
    if backing is None:
        return None
    fabric = project.fabrics[backing.fabric]
    try:
        return plan_backing(
            backing.fabric,
            project.top.width,
            project.top.height,
            backing.overhang,
            usable_width=fabric.usable_width,
            directional=fabric.directional,
            rules=project.rules,
        )
    except TooNarrow as narrow:
        raise _cannot(str(narrow), "/finish/backing", backing.fabric, project) from narrow


def _cannot(why: str, pointer: str, key: str, project: Project) -> CannotMake:
    fabric = project.fabrics[key]
    usable = format_length(fabric.usable_width, project.measure)
    return CannotMake(f'{why}: "{fabric.name}" is {usable} wide', pointer=pointer, right="a wider cloth")


def _binding_cut(plan: BindingPlan, measure: str) -> Cut:
    strip = format_length(plan.strip, measure)
    if plan.bias:
        then, shape, height = f"cut and sew into continuous bias strips of {strip}", SQUARE, plan.length
    else:
        then, shape, height = "join end to end on the diagonal" if plan.pieces > 1 else "", STRIP, plan.strip
    return Cut(
        fabric=plan.fabric,
        width=plan.length,
        height=height,
        count=plan.pieces,
        makes=1,
        wanted=1,
        shape=shape,
        then=then,
        uses=("binding",),
        pointer="/finish/binding",
        finishing=True,
        notes=(BIAS_NOTE,) if plan.bias else (),
    )


def _backing_cut(plan: BackingPlan, measure: str) -> Cut:
    panels = plan.chosen
    joined = f"join {panels.count} side by side with {format_length(SEAM, measure)} seams, pressed open"
    return Cut(
        fabric=plan.fabric,
        width=panels.width,
        height=panels.length,
        count=panels.count,
        makes=1,
        wanted=1,
        shape=SQUARE if panels.width == panels.length else RECTANGLE,
        then=joined if panels.count > 1 else "",
        uses=("backing",),
        pointer="/finish/backing",
        finishing=True,
        notes=(OFF_CENTRE,) if panels.count == 2 else (),
    )
