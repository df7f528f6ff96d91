"""Steps for flying geese and quarter-square triangles."""

from __future__ import annotations

from math import ceil

from service.craft.units.flying_geese import CORNERS, FOUR
from service.craft.units.quarter_square_triangle import TWO
from workers.sewing.names import with_article
from workers.sewing.plan import Stage
from workers.sewing.pressed import SPUN
from workers.sewing.steps.hazards import CUTTER, IRON, NEEDLE, SCISSORS
from workers.sewing.steps.pressing_words import press_reason, press_seams
from workers.sewing.steps.small_units import (
    CUTTING_SET,
    LINE_REASON,
    MACHINE,
    MARKER,
    PRESSING,
    press_step,
    spin_step,
    step_of,
)
from workers.sewing.steps.step import Lesson, Step, plural
from workers.sewing.steps.turn_words import BESIDE_REASON, say_sew_beside

OFF_THE_GOOSE = "Away from the goose, its point stays thin and easy to see when the next seam is sewn."


def teach_flying_geese(stage: Stage, lesson: Lesson) -> list[Step]:
    """From cut triangles, with flipped corner squares, or four at a time; then trimmed with room over the point."""
    method = stage.work.facts["method"]
    ways = {CORNERS: _geese_flipped, FOUR: _geese_by_four}
    way = ways.get(method, _geese_of_triangles)
    return [*way(stage, lesson), _trim_goose(stage, lesson)]


def _press_goose(stage: Stage) -> list[Step]:
    sky = stage.work.facts["sky"]
    outwards = all(seam.towards == sky for seam in stage.seams)
    return press_step(stage, why=OFF_THE_GOOSE if outwards else "")


def _trim_goose(stage: Stage, lesson: Lesson) -> Step:
    return step_of(
        stage,
        "trim",
        f"Trim each unit to size, with {lesson.allowance} left between the point of the goose and the upper edge.",
        "The next seam takes up that allowance and just meets the point; with less it cuts the point off.",
        more="The lower corners of the goose end exactly in the lower corners of the unit.",
        hazards=(CUTTER,),
        tools=CUTTING_SET,
        measured=True,
    )


def _geese_of_triangles(stage: Stage, lesson: Lesson) -> list[Step]:
    facts, s = stage.work.facts, lesson.allowance
    return [
        step_of(
            stage,
            "lay",
            f"For each of {plural(stage.count, 'unit')} lay out one large {facts['goose']} triangle and two small "
            f"{facts['sky']} triangles, as the drawing shows.",
            "The long sides of the small triangles lie on the short sides of the goose.",
        ),
        step_of(
            stage,
            "sew",
            f"Lay one small triangle on the goose, right sides together, long side on short side and the lower "
            f"corners level. Sew with {s} allowance.",
            "The long side of the small triangle is on the bias: pin it and do not pull.",
            more="At the top its tip sticks out past the goose. That is right.",
            hazards=(NEEDLE,),
            tools=(*MACHINE, "pins"),
        ),
        step_of(
            stage,
            "press-first",
            "Press it open.",
            "The other seam runs across it.",
            hazards=(IRON,),
            tools=PRESSING,
        ),
        step_of(
            stage,
            "second",
            "Sew the other small triangle to the other side in the same way.",
            "Its seam crosses the first one over the point of the goose.",
            hazards=(NEEDLE,),
            tools=(*MACHINE, "pins"),
        ),
        *_press_goose(stage),
    ]


def _geese_flipped(stage: Stage, lesson: Lesson) -> list[Step]:
    facts = stage.work.facts
    return [
        step_of(
            stage,
            "mark",
            f"Draw a line from corner to corner on the back of {plural(2 * stage.count, 'square')} of "
            f"{facts['sky']}, 2 for each unit.",
            LINE_REASON,
            tools=MARKER,
        ),
        step_of(
            stage,
            "lay",
            f"Lay {with_article(facts['sky'])} square on one end of {with_article(facts['goose'])} rectangle, right "
            "sides together, edges level. The line runs from the middle of the upper edge to the lower corner.",
            "This corner is finished before the other begins: the two squares overlap at the point.",
            tools=("pins",),
        ),
        step_of(
            stage,
            "sew",
            say_sew_beside(stage, lesson),
            BESIDE_REASON,
            hazards=(NEEDLE,),
            tools=MACHINE,
        ),
        *_press_goose(stage),
        step_of(
            stage,
            "cut-back",
            f"With the corner folded back, trim the two layers under it {lesson.allowance} outside the seam.",
            "The join stays thin.",
            hazards=(SCISSORS,),
            tools=("scissors",),
        ),
        step_of(
            stage,
            "second",
            "Do the same with a second square on the other end: lay, sew, press, trim.",
            "The lines meet at the middle of the upper edge, where the point is going to be.",
            hazards=(NEEDLE, IRON, SCISSORS),
            tools=(*MACHINE, *PRESSING, "scissors"),
        ),
    ]


def _geese_by_four(stage: Stage, lesson: Lesson) -> list[Step]:
    facts, s = stage.work.facts, lesson.allowance
    sets = ceil(stage.count / 4)
    return [
        step_of(
            stage,
            "mark",
            f"Take {plural(sets, 'large square')} of {facts['goose']} and {plural(4 * sets, 'small square')} of "
            f"{facts['sky']}. Draw a line from corner to corner on the back of each small one.",
            "One large square and four small ones make four units, without triangles to handle.",
            tools=MARKER,
        ),
        step_of(
            stage,
            "lay",
            "Lay two small squares on opposite corners of a large one, right sides together. They overlap in the "
            "middle, and their lines make one line.",
            "It runs from corner to corner of the large square.",
            tools=("pins",),
        ),
        step_of(
            stage,
            "sew",
            f"Sew on both sides of the line, {s} away from it.",
            "The cut goes between the seams.",
            hazards=(NEEDLE,),
            tools=MACHINE,
        ),
        step_of(
            stage,
            "cut",
            "Cut on the line.",
            "The line is where you cut, not where you sew.",
            hazards=(CUTTER,),
            tools=CUTTING_SET,
        ),
        step_of(
            stage,
            "press-halves",
            "Press the small triangles open on both halves.",
            "Each half now looks like a heart.",
            hazards=(IRON,),
            tools=PRESSING,
        ),
        step_of(
            stage,
            "lay-second",
            "Lay a small square on the free corner of each half, its line running in between the two small triangles.",
            "It runs from the corner to the middle of the cut edge.",
            tools=("pins",),
        ),
        step_of(
            stage,
            "second",
            f"Sew on both sides of the line, {s} away from it.",
            "The cut goes between the seams.",
            hazards=(NEEDLE,),
            tools=MACHINE,
        ),
        step_of(
            stage,
            "cut-second",
            "Cut on the line.",
            "Each half gives two units.",
            hazards=(CUTTER,),
            tools=CUTTING_SET,
        ),
        *_press_goose(stage),
    ]


def teach_quarter_squares(stage: Stage, lesson: Lesson) -> list[Step]:
    """Halves first, out of pairs of squares or of cut triangles; then two halves to a square, and trimmed."""
    halves = _halves_of_pairs if stage.work.facts["method"] == TWO else _halves_of_triangles
    return [*halves(stage, lesson), _press_whole(stage), _trim_quarter(stage, lesson)]


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
        step_of(
            stage,
            "mark",
            "Draw a line from corner to corner on the back of the lighter square.",
            "The line is where you cut, not where you sew.",
            tools=MARKER,
        ),
        step_of(
            stage,
            "halves",
            f"Sew on both sides of the line, {s} away from it.",
            "The cut goes between the seams.",
            hazards=(NEEDLE,),
            tools=MACHINE,
        ),
        step_of(
            stage,
            "cut-halves",
            "Cut on the line.",
            "Each pair gives two half-square triangles.",
            hazards=(CUTTER,),
            tools=CUTTING_SET,
        ),
        step_of(
            stage,
            "press-halves",
            f"{press_seams(stage.seams[:2])} Each half-square triangle measures {size}; trim what is larger.",
            "Pressed alike, the two nest when they are laid on each other.",
            hazards=(IRON, CUTTER),
            tools=(*PRESSING, *CUTTING_SET),
        ),
        step_of(
            stage,
            "nest",
            "Lay two of them right sides together, each cloth on the other one, so that their seams nest.",
            "You feel the seams lock. Then the four points meet in the middle.",
            tools=("pins",),
        ),
        step_of(
            stage,
            "mark-across",
            "Draw a line across the seam, from corner to corner.",
            "The line is where you cut, not where you sew.",
            tools=MARKER,
        ),
        step_of(
            stage,
            "sew",
            f"Sew on both sides of the line, {s} away from it.",
            "The cut goes between the seams.",
            hazards=(NEEDLE,),
            tools=MACHINE,
        ),
        step_of(
            stage,
            "cut",
            "Cut on the line.",
            "Each pair of half-square triangles gives two units.",
            hazards=(CUTTER,),
            tools=CUTTING_SET,
        ),
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
            press_seams(stage.seams[:2]),
            press_reason(stage),
            hazards=(IRON,),
            tools=PRESSING,
        ),
        step_of(
            stage,
            "sew",
            f"Lay two halves right sides together and pin at the middle, where their seams meet. Sew the long side "
            f"with {s} allowance.",
            "Where the seams nest, the four points meet in the middle.",
            hazards=(NEEDLE,),
            tools=(*MACHINE, "pins"),
        ),
    ]


def _press_whole(stage: Stage) -> Step:
    text = press_seams(stage.seams[2:])
    if stage.seams[2].press == SPUN:
        return spin_step(stage, text, press_reason(stage))
    return step_of(
        stage,
        "press",
        text,
        "The long seam lies to one side all along, so it nests with the units beside it more easily.",
        hazards=(IRON,),
        tools=PRESSING,
    )


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
