"""Steps for quarter-square triangles: halves first, then two halves to a square."""

from __future__ import annotations

from math import ceil

from service.craft.language import join_words, mark, phrase, phrase_count
from service.craft.units.quarter_square_triangle import TWO
from workers.sewing.plan import Stage
from workers.sewing.pressed import OPEN
from workers.sewing.steps.copy_words import name_piles
from workers.sewing.steps.hazards import CUTTER, IRON, NEEDLE
from workers.sewing.steps.line_steps import cut_on_line, mark_line, sew_both_sides
from workers.sewing.steps.pile_words import spell_out
from workers.sewing.steps.pressing_words import OPENED, is_spun, press_reason, press_seams
from workers.sewing.steps.quarter_halves import LONG, list_kinds, list_moved, press_halves, sort_halves
from workers.sewing.steps.stage_steps import CUTTING_SET, MACHINE, PRESSING, spin_steps, step_of
from workers.sewing.steps.step import Lesson, Step

MEETING = mark("Where the long seam crosses them, they then lie to opposite sides and nest.")


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
            phrase(
                "Lay one square of {first} and one of {second} right sides together, edges level. You need "
                "{pairs} for {units}.",
                first=facts["first"],
                second=facts["second"],
                pairs=phrase_count("{number} pair", "{number} pairs", pairs),
                units=phrase_count("{number} unit", "{number} units", stage.count),
            ),
            phrase("Sewn in pairs before they are cut, the slanting bias edges have no chance to stretch."),
        ),
        mark_line(stage, "mark"),
        sew_both_sides(stage, "halves", s),
        cut_on_line(stage, "cut-halves", phrase("Each pair gives two half-square triangles.")),
        *_press_halves(
            stage, phrase("Pressed alike, the two nest when they are laid on each other."), pairs=True
        ),
        step_of(
            stage,
            "trim-halves",
            phrase(
                "Trim each half-square triangle to {size}, with the seam running exactly through two "
                "corners.",
                size=size,
            ),
            phrase("One that is smaller still serves: the unit is trimmed once more at the end."),
            hazards=(CUTTER,),
            tools=CUTTING_SET,
        ),
        _nest_halves(stage),
        mark_line(stage, "mark-across", phrase("Draw a line across the seam, from corner to corner.")),
        sew_both_sides(stage, "sew", s),
        cut_on_line(stage, "cut", phrase("Each pair of half-square triangles gives two units.")),
        *_move_units(stage),
    ]


def _nest_halves(stage: Stage) -> Step:
    return step_of(
        stage,
        "nest",
        phrase(
            "Lay two of them from one heap right sides together, each cloth on the other one, so that "
            "their seams nest."
        )
        if len(sort_halves(stage)) > 1
        else phrase(
            "Lay two of them right sides together, each cloth on the other one, so that their seams nest."
        ),
        phrase("You feel the seams lock. Then the four points meet in the middle."),
        tools=("pins",),
    )


def _halves_of_triangles(stage: Stage, lesson: Lesson) -> list[Step]:
    kinds, s = list_kinds(stage), lesson.allowance
    each = 2 * stage.count if len(kinds) == 1 else stage.count
    halves = join_words(
        phrase(
            "{halves} of {cloths}",
            halves=phrase_count("{number} half", "{number} halves", each),
            cloths=kind.words,
        )
        for kind in kinds
    )
    return [
        step_of(
            stage,
            "lay",
            phrase(
                "Lay out the four triangles of a unit as the drawing shows, and keep each beside its "
                "neighbour."
            ),
            phrase(
                "Two triangles with a short side in common make a half. Which of them lies on the left must "
                "not change."
            ),
        ),
        step_of(
            stage,
            "halves",
            phrase(
                "Sew {halves}: two triangles right sides together, along one short side, with {allowance} "
                "allowance.",
                halves=halves,
                allowance=s,
            ),
            phrase("The short sides are on the bias: pin them and do not pull."),
            speaks_of_bias=True,
            hazards=(NEEDLE,),
            tools=(*MACHINE, "pins"),
        ),
        *_press_halves(stage, phrase(OPENED if stage.seams[0].press == OPEN else MEETING), pairs=False),
        _pin_halves(stage),
        step_of(
            stage,
            "sew",
            phrase("Sew the long side with {allowance} allowance.", allowance=s),
            phrase("Sewn over the middle in one go, the points stay where the pin holds them."),
            hazards=(NEEDLE,),
            tools=(*MACHINE, "pins"),
        ),
    ]


def _pin_halves(stage: Stage) -> Step:
    return step_of(
        stage,
        "nest",
        phrase(
            "Pin two halves of a unit from one heap right sides together at the middle, where their "
            "seams meet."
        )
        if len(sort_halves(stage)) > 1
        else phrase("Pin two halves of a unit right sides together at the middle, where their seams meet."),
        phrase("Where the seams nest, the four points meet in the middle."),
        tools=("pins",),
    )


def _press_halves(stage: Stage, why: str, *, pairs: bool) -> list[Step]:
    """The short seams, and the halves sorted by the piles that their units are going to lie on."""
    press = step_of(
        stage,
        "press-halves",
        press_halves(stage, pairs=pairs),
        why,
        hazards=(IRON,),
        tools=PRESSING,
    )
    heaps = sort_halves(stage)
    if len(heaps) == 1:
        return [press]
    named = join_words(name_piles(heap.piles) for heap in heaps)
    sort = step_of(
        stage,
        "sort-halves",
        phrase(
            "Lay them on {count} heaps, each with a slip of paper that says what it is for: {piles}.",
            count=spell_out(len(heaps)),
            piles=named,
        ),
        phrase(
            "A unit is sewn of halves of one heap. Only then do its seams nest, inside the unit and beside "
            "others."
        ),
        tools=("paper", "pencil"),
    )
    return [press, sort]


def _move_units(stage: Stage) -> list[Step]:
    """Of the last pair of a heap one unit goes to another heap, its short seams pressed over."""
    moved = list_moved(sort_halves(stage))
    if not moved:
        return []
    ways = [
        phrase(
            "one unit from the heap for {piles} to {others}",
            piles=name_piles(a.piles),
            others=name_piles(b.piles),
        )
        for a, b in moved
    ]
    return [
        step_of(
            stage,
            "move-units",
            phrase(
                "Press the short seams of one unit over to the other side, and move it: {moves}.",
                moves=join_words(ways),
            ),
            phrase(
                "Two units come of a pair, and these heaps take an odd number each. That the allowances "
                "twist near the middle does no harm."
            ),
            hazards=(IRON,),
            tools=PRESSING,
        )
    ]


def _press_whole(stage: Stage) -> list[Step]:
    text = press_seams(stage, slice(LONG, None))
    if is_spun(stage):
        return spin_steps(stage, text, press_reason(stage))
    press = step_of(
        stage,
        "press",
        text,
        phrase("The long seam lies to one side all along, so it nests with the units beside it more easily."),
        hazards=(IRON,),
        tools=PRESSING,
    )
    return [press]


def _trim_quarter(stage: Stage, lesson: Lesson) -> Step:
    half = lesson.length(stage.size.expected[0] / 2)
    return step_of(
        stage,
        "trim",
        phrase(
            "Trim each unit to size: both seams run through its corners, and the middle lies {half} from "
            "every edge.",
            half=half,
        ),
        phrase("Sewn a little large and trimmed, the points end where the next seams run."),
        hazards=(CUTTER,),
        tools=CUTTING_SET,
        measured=True,
    )
