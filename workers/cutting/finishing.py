"""The finishing of a project: binding, backing, batting, hanging sleeve, and the cuts they need."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from service.craft.document import Project
from service.craft.finish import BACKING_SEAM, BIAS, CONTINUOUS, STRAIGHT
from service.craft.joining import Joined
from service.craft.language import mark, phrase
from service.craft.measure import format_length
from workers.cutting.backing import BackingPlan, plan_backing
from workers.cutting.batting import BattingPlan, plan_batting
from workers.cutting.bias import TooNarrow
from workers.cutting.binding import BindingPlan, plan_binding
from workers.cutting.cuts import RECTANGLE, SQUARE, STRIP, Cut
from workers.cutting.part_words import BACKING, BINDING, SLEEVE
from workers.cutting.sleeve import SleevePlan, plan_sleeve
from workers.recipe import CannotMake

BIAS_NOTE = mark("bias stretches: do not pull it, and press without pushing the iron")
FIRST_SLANT = mark("fold one corner over so that two edges lie level: the fold is the first cut")


@dataclass(frozen=True)
class FinishingPlan:
    """What finishes the top; None for what the project leaves out."""

    binding: BindingPlan | None
    backing: BackingPlan | None
    batting: BattingPlan | None
    sleeve: SleevePlan | None


def plan_finishing(project: Project) -> FinishingPlan:
    """Everything that finishes a project; `CannotMake` where a cloth is too narrow for it."""
    overhang = project.finish.batting_overhang
    batting = None
    if overhang is not None:
        batting = plan_batting(project.top.width, project.top.height, overhang, project.rules)
    return FinishingPlan(_binding(project), _backing(project), batting, _sleeve(project))


def finishing_cuts(plan: FinishingPlan, project: Project) -> list[Cut]:
    """The cuts of binding, backing and sleeve, to be cut from the same cloth as the patches."""
    cuts: list[Cut] = []
    if plan.binding is not None:
        cuts.append(_binding_cut(plan.binding, project.measure))
    if plan.backing is not None:
        cuts += _backing_cuts(plan.backing, project.measure)
    if plan.sleeve is not None:
        cuts.append(_sleeve_cut(plan.sleeve, project))
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
        raise _cannot(narrow, "/finish/binding", binding.fabric, project) from narrow


def _backing(project: Project) -> BackingPlan | None:
    backing = project.finish.backing
    if backing is None:
        return None
    fabric = project.fabrics[backing.fabric]
    try:
        return plan_backing(
            backing,
            project.top.width,
            project.top.height,
            usable_width=fabric.usable_width,
            directional=fabric.one_way,
            rules=project.rules,
        )
    except TooNarrow as narrow:
        raise _cannot(narrow, "/finish/backing", backing.fabric, project) from narrow


def _sleeve(project: Project) -> SleevePlan | None:
    sleeve = project.finish.sleeve
    if sleeve is None:
        return None
    usable = project.fabrics[sleeve.fabric].usable_width
    try:
        return plan_sleeve(sleeve, project.top.width, usable_width=usable, rules=project.rules)
    except TooNarrow as narrow:
        raise _cannot(narrow, "/finish/sleeve", sleeve.fabric, project) from narrow


def _cannot(why: TooNarrow, pointer: str, key: str, project: Project) -> CannotMake:
    fabric = project.fabrics[key]
    usable = format_length(fabric.usable_width, project.measure)
    return CannotMake(f'{why}: "{fabric.name}" is {usable} wide', pointer=pointer, right="a wider cloth")


def _binding_cut(plan: BindingPlan, measure: str) -> Cut:
    cut, straight = plan.binding.cut, plan.binding.cut == STRAIGHT
    notes = {STRAIGHT: (), BIAS: (BIAS_NOTE, FIRST_SLANT), CONTINUOUS: (BIAS_NOTE,)}[cut]
    shape = STRIP if straight else SQUARE if plan.width == plan.height else RECTANGLE
    return Cut(
        fabric=plan.binding.fabric,
        width=plan.width,
        height=plan.height,
        count=plan.pieces,
        makes=1,
        wanted=1,
        shape=shape,
        then=_make_binding(plan, measure),
        uses=(BINDING,),
        pointer="/finish/binding",
        finishing=True,
        joined=_join_strips(plan) if straight and plan.pieces > 1 else None,
        together=cut == BIAS or (straight and plan.pieces > 1),
        notes=tuple(map(phrase, notes)),
    )


def _make_binding(plan: BindingPlan, measure: str) -> str:
    """What is done with the pieces of a binding, in words; nothing where one strip is enough."""
    strip = format_length(plan.strip, measure)
    if plan.binding.cut == CONTINUOUS:
        return phrase("cut and sew into continuous bias strips of {strip}", strip=strip)
    if plan.binding.cut == BIAS:
        return phrase(
            "cut on the slant into {count} strips of {strip}, and join them end to end",
            count=plan.strips,
            strip=strip,
        )
    return _join_strips(plan).say() if plan.pieces > 1 else ""


def _join_strips(plan: BindingPlan) -> Joined:
    return Joined(plan.pieces, plan.width, plan.total, plan.loss, plan.binding.join, plan.needed)


def _backing_cuts(plan: BackingPlan, measure: str) -> Iterator[Cut]:
    """A cut for every width of panel, the wide one first; how they are joined stands there alone."""
    panels, seam = plan.chosen, format_length(BACKING_SEAM, measure)
    notes = _say_fold(plan, measure)
    joined = ""
    if panels.widths[0] != panels.widths[-1]:
        joined = phrase("join to the narrow panel with a {seam} seam, pressed open", seam=seam)
    elif panels.count > 1:
        joined = phrase(
            "join {count} side by side with {seam} seams, pressed open", count=panels.count, seam=seam
        )
    for width, count in Counter(panels.widths).items():
        first = width == panels.widths[0]
        yield Cut(
            fabric=plan.fabric,
            width=width,
            height=panels.length,
            count=count,
            makes=1,
            wanted=1,
            shape=SQUARE if width == panels.length else RECTANGLE,
            then=joined if first else phrase("join to the wide panel"),
            together=panels.count > 1,
            uses=(BACKING,),
            pointer="/finish/backing",
            finishing=True,
            notes=notes if first else (),
        )


def _say_fold(plan: BackingPlan, measure: str) -> tuple[str, ...]:
    """Where a single seam lies, for a fold along it wears it out (sewingwithstitcher.com)."""
    panels = plan.chosen
    if panels.count != 2:
        return ()
    if panels.on_the_fold:
        return (phrase("the seam lies in the middle: do not fold the quilt along it"),)
    place = format_length(panels.seam_places[0], measure)
    return (phrase("the seam lies {place} from one edge, off the fold in the middle", place=place),)


def _sleeve_cut(plan: SleevePlan, project: Project) -> Cut:
    joined, fabric = plan.joined, project.fabrics[plan.sleeve.fabric]
    then = ""
    if joined.pieces > 1:
        then = joined.say()
        if joined.total > plan.length:
            length = format_length(plan.length, project.measure)
            then = phrase("{how}, then trim to {length}", how=then, length=length)
    return Cut(
        fabric=fabric.key,
        width=joined.length,
        height=plan.height,
        count=joined.pieces,
        joined=joined if joined.pieces > 1 else None,
        makes=1,
        wanted=1,
        shape=STRIP,
        then=then,
        together=joined.pieces > 1,
        uses=(SLEEVE,),
        may_turn=not fabric.one_way and joined.length != plan.height,
        pointer="/finish/sleeve",
        finishing=True,
    )
