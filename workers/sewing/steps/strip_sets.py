"""Steps for strip sets: sew the strips, press, cut across."""

from __future__ import annotations

from fractions import Fraction
from math import ceil

from service.craft.units.strip_set import count_sub_cuts
from workers.sewing.plan import Stage
from workers.sewing.steps.hazards import CUTTER, NEEDLE
from workers.sewing.steps.small_units import CUTTING_SET, MACHINE, press_step, step_of
from workers.sewing.steps.step import Lesson, Step, plural


def teach_strip_set(stage: Stage, lesson: Lesson) -> list[Step]:
    """Lay the strips, sew them in pairs, press, measure the set, cut it across."""
    facts, s = stage.work.facts, lesson.allowance
    each = count_sub_cuts(Fraction(facts["length"]), stage.work.height, lesson.project.rules)
    sets = ceil(stage.count / each)
    width, piece = (lesson.length(side) for side in stage.size.expected)
    return [
        step_of(
            stage,
            "lay",
            f"Lay the {facts['strips']} strips of a set side by side, in the order of the drawing. You need "
            f"{plural(sets, 'set')} for {plural(stage.count, 'piece')}.",
            f"Each set is cut into {plural(each, 'piece')}, so that many patches are sewn by a few long seams.",
        ),
        step_of(
            stage,
            "sew",
            _say_order(int(facts["strips"]), s),
            "Sewn to and fro, the long strips do not bend to one side.",
            more="Do not pull at the strips; let the machine feed them.",
            hazards=(NEEDLE,),
            tools=MACHINE,
        ),
        *press_step(stage),
        step_of(
            stage,
            "width",
            f"Measure across the set in three places: it is {width} wide.",
            "A set that is too narrow was sewn with too much allowance or not pressed quite open.",
            tools=("ruler",),
        ),
        *_cut_across(stage, each, sets, piece),
    ]


def _say_order(strips: int, s: str) -> str:
    """Which strips are sewn to which first, and from which end."""
    if strips == 2:
        return f"Sew the two strips to each other with {s} allowance."
    pairs = ", two by two, then the pairs" if strips > 3 else ", one after the other"
    return f"Sew them together with {s} allowance{pairs}. Begin each seam where the last one ended."


def _cut_across(stage: Stage, each: int, sets: int, piece: str) -> list[Step]:
    """`sets` sets cut into pieces, at most `each` out of one, `piece` high in words."""
    return [
        step_of(
            stage,
            "square-end",
            f"Cut one end of {'each set' if sets > 1 else 'the set'} square to the seams.",
            "All other cuts are measured from this one.",
            hazards=(CUTTER,),
            tools=CUTTING_SET,
        ),
        step_of(
            stage,
            "cut",
            f"From there cut {plural(stage.count, 'piece')}, each {piece} high{_at_most(each, sets)}.",
            "Lined up with the seams, the ruler shows when the set begins to bend; then square the end again.",
            more="Lay a line of the ruler on a seam each time, and not only its edge on the last cut.",
            hazards=(CUTTER,),
            tools=CUTTING_SET,
            measured=True,
        ),
    ]


def _at_most(each: int, sets: int) -> str:
    return f", up to {each} from a set" if sets > 1 else ""
