"""Steps for strip sets: sew the strips, press, cut across."""

from __future__ import annotations

from fractions import Fraction
from math import ceil

from service.craft.language import phrase, phrase_count
from service.craft.units.strip_set import count_sub_cuts
from workers.sewing.plan import Stage
from workers.sewing.steps.hazards import CUTTER, NEEDLE
from workers.sewing.steps.stage_steps import CUTTING_SET, MACHINE, press_step, step_of
from workers.sewing.steps.step import Lesson, Step


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
            phrase(
                "Lay the {count} strips of a set side by side, in the order of the drawing. You need {sets} "
                "for {pieces}.",
                count=facts["strips"],
                sets=phrase_count("{number} set", "{number} sets", sets),
                pieces=phrase_count("{number} piece", "{number} pieces", stage.count),
            ),
            phrase(
                "Each set is cut into {pieces}, so that many patches are sewn by a few long seams.",
                pieces=phrase_count("{number} piece", "{number} pieces", each),
            ),
        ),
        step_of(
            stage,
            "sew",
            _say_order(int(facts["strips"]), s),
            phrase("Sewn to and fro, the long strips do not bend to one side."),
            more=phrase("Do not pull at the strips; let the machine feed them."),
            hazards=(NEEDLE,),
            tools=MACHINE,
        ),
        *press_step(stage),
        step_of(
            stage,
            "width",
            phrase("Measure across the set in three places: it is {width} wide.", width=width),
            phrase("A set that is too narrow was sewn with too much allowance or not pressed quite open."),
            tools=("ruler",),
        ),
        *_cut_across(stage, each, sets, piece),
    ]


def _say_order(strips: int, s: str) -> str:
    """Which strips are sewn to which first, and from which end."""
    if strips == 2:
        return phrase("Sew the two strips to each other with {allowance} allowance.", allowance=s)
    if strips > 3:
        return phrase(
            "Sew them together with {allowance} allowance, two by two, then the pairs. Begin each seam "
            "where the last one ended.",
            allowance=s,
        )
    return phrase(
        "Sew them together with {allowance} allowance, one after the other. Begin each seam where the last "
        "one ended.",
        allowance=s,
    )


def _cut_across(stage: Stage, each: int, sets: int, piece: str) -> list[Step]:
    """`sets` sets cut into pieces, at most `each` out of one, `piece` high in words."""
    return [
        step_of(
            stage,
            "square-end",
            phrase("Cut one end of each set square to the seams.")
            if sets > 1
            else phrase("Cut one end of the set square to the seams."),
            phrase("All other cuts are measured from this one."),
            hazards=(CUTTER,),
            tools=CUTTING_SET,
        ),
        step_of(
            stage,
            "cut",
            _say_cuts(stage.count, piece, each, sets),
            phrase(
                "Lined up with the seams, the ruler shows when the set begins to bend; then square the end "
                "again."
            ),
            more=phrase(
                "Lay a line of the ruler on a seam each time, and not only its edge on the last cut."
            ),
            hazards=(CUTTER,),
            tools=CUTTING_SET,
            measured=True,
        ),
    ]


def _say_cuts(count: int, high: str, each: int, sets: int) -> str:
    """What is cut from where the end is square."""
    pieces = phrase_count("{number} piece", "{number} pieces", count)
    if sets == 1:
        return phrase("From there cut {pieces}, each {length} high.", pieces=pieces, length=high)
    return phrase(
        "From there cut {pieces}, each {length} high, up to {each} from a set.",
        pieces=pieces,
        length=high,
        each=each,
    )
