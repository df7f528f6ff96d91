"""Steps for quarter-square triangles: halves first, then two halves to a square."""

from __future__ import annotations

from math import ceil

from service.craft.units.quarter_square_triangle import TWO
from workers.sewing.plan import Stage
from workers.sewing.pressed import SPUN
from workers.sewing.steps.hazards import CUTTER, IRON, NEEDLE
from workers.sewing.steps.line_steps import cut_on_line, mark_line, sew_both_sides
from workers.sewing.steps.pressing_words import press_reason, press_seams
from workers.sewing.steps.small_units import CUTTING_SET, MACHINE, PRESSING, spin_steps, step_of
from workers.sewing.steps.step import Lesson, Step, plural


def teach_quarter_squares(stage: Stage, lesson: Lesson) -> list[Step]:
    """Halves first, out of pairs of squares or of cut triangles; then two halves to a square, and trimmed."""
    halves = _halves_of_pairs if stage.work.facts["method"] == TWO else _halves_of_triangles
    return [*halves(stage, lesson), *_press_whole(stage), _trim_quarter(stage, lesson)]


def _halves_of_pairs(stage: Stage, lesson: Lesson) -> list[Step]:
    facts, s = stage.work.facts, lesson.allowance
    pairs = ceil(stage.count / 2)
    size = lesson.length(lesson.project.rules.half_square(stage.work.width))
    return [
        step_of(
            stage,
            "pair",
            f"Lay one square of {facts['first']} and one of {facts['second']} right sides together, edges level. You "
            f"need {plural(pairs, 'pair')} for {plural(stage.count, 'unit')}.",
            "Sewn in pairs before they are cut, the slanting bias edges have no chance to stretch.",
        ),
        mark_line(stage, "mark"),
        sew_both_sides(stage, "halves", s),
        cut_on_line(stage, "cut-halves", "Each pair gives two half-square triangles."),
        step_of(
            stage,
            "press-halves",
            press_seams(stage, slice(2)),
            "Pressed alike, the two nest when they are laid on each other.",
            hazards=(IRON,),
            tools=PRESSING,
        ),
        step_of(
            stage,
            "trim-halves",
            f"Trim each half-square triangle to {size}, with the seam running exactly through two corners.",
            "One that is smaller still serves: the unit is trimmed once more at the end.",
            hazards=(CUTTER,),
            tools=CUTTING_SET,
        ),
        step_of(
            stage,
            "nest",
            "Lay two of them right sides together, each cloth on the other one, so that their seams nest.",
            "You feel the seams lock. Then the four points meet in the middle.",
            tools=("pins",),
        ),
        mark_line(stage, "mark-across", "Draw a line across the seam, from corner to corner."),
        sew_both_sides(stage, "sew", s),
        cut_on_line(stage, "cut", "Each pair of half-square triangles gives two units."),
    ]


def _halves_of_triangles(stage: Stage, lesson: Lesson) -> list[Step]:
    kinds = stage.work.facts["halves"].split("; ")
    s = lesson.allowance
    one_kind = f"{plural(2 * stage.count, 'half', 'halves')} of {kinds[0]}"
    both = " and ".join(f"{plural(stage.count, 'half', 'halves')} of {kind}" for kind in kinds)
    return [
        step_of(
            stage,
            "lay",
            "Lay out the four triangles of a unit as the drawing shows, and keep each beside its neighbour.",
            "Two triangles side by side make a half. In it the cloth on the left must not change places.",
        ),
        step_of(
            stage,
            "halves",
            f"Sew {one_kind if len(kinds) == 1 else both}: two triangles right sides together, along one short side, "
            f"with {s} allowance.",
            "The short sides are on the bias: pin them and do not pull.",
            hazards=(NEEDLE,),
            tools=(*MACHINE, "pins"),
        ),
        step_of(
            stage,
            "press-halves",
            press_seams(stage, slice(2)),
            press_reason(stage),
            hazards=(IRON,),
            tools=PRESSING,
        ),
        step_of(
            stage,
            "nest",
            "Pin two halves right sides together at the middle, where their seams meet.",
            "Where the seams nest, the four points meet in the middle.",
            tools=("pins",),
        ),
        step_of(
            stage,
            "sew",
            f"Sew the long side with {s} allowance.",
            "Sewn over the middle in one go, the points stay where the pin holds them.",
            hazards=(NEEDLE,),
            tools=(*MACHINE, "pins"),
        ),
    ]


def _press_whole(stage: Stage) -> list[Step]:
    text = press_seams(stage, slice(2, None))
    if stage.seams[2].press == SPUN:
        return spin_steps(stage, text, press_reason(stage))
    press = step_of(
        stage,
        "press",
        text,
        "The long seam lies to one side all along, so it nests with the units beside it more easily.",
        hazards=(IRON,),
        tools=PRESSING,
    )
    return [press]


def _trim_quarter(stage: Stage, lesson: Lesson) -> Step:
    half = lesson.length(stage.size.expected[0] / 2)
    return step_of(
        stage,
        "trim",
        f"Trim each unit to size: both seams run through its corners, and the middle lies {half} from every edge.",
        "Sewn a little large and trimmed, the points end where the next seams run.",
        hazards=(CUTTER,),
        tools=CUTTING_SET,
        measured=True,
    )
