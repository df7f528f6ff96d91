"""Steps for half-square triangles: two, four or eight at a time, or from cut triangles."""

from __future__ import annotations

from math import ceil

from service.craft.language import phrase, phrase_count
from service.craft.units.half_square_triangle import EIGHT, FOUR, OVERSIZE, TRIANGLES, TWO, UNITS_PER_PAIR
from workers.sewing.plan import Stage
from workers.sewing.steps.hazards import CUTTER, NEEDLE
from workers.sewing.steps.stage_steps import CUTTING_SET, MACHINE, MARKER, press_step, step_of
from workers.sewing.steps.step import Lesson, Step


def teach_half_squares(stage: Stage, lesson: Lesson) -> list[Step]:
    """Two, four or eight at a time out of a pair of squares, or from cut triangles."""
    facts, s = stage.work.facts, lesson.allowance
    method = facts["method"]
    pair = phrase("{first} and one of {second}", first=facts["first"], second=facts["second"])
    if method == TRIANGLES:
        start = _from_triangles(stage, pair, s)
    else:
        pairs = ceil(stage.count / UNITS_PER_PAIR[method])
        start = [_pair_step(stage, pair, pairs), *_sew_pair(stage, method, s)]
    trim = step_of(
        stage,
        "trim",
        phrase("Trim each unit to size, with the seam running exactly through two corners."),
        phrase("Cut with something to trim, every unit comes out alike, whatever the sewing did.")
        if facts["trim"] == OVERSIZE
        else phrase("Sewn a little large and trimmed, every unit comes out alike."),
        more=phrase(
            "Put the slanting line of the ruler on the seam, trim two sides, turn the unit and trim the "
            "other two."
        ),
        hazards=(CUTTER,),
        tools=CUTTING_SET,
        measured=True,
    )
    return [*start, *press_step(stage), trim]


def _pair_step(stage: Stage, pair: str, pairs: int) -> Step:
    return step_of(
        stage,
        "pair",
        phrase(
            "Lay one square of {pair} right sides together, edges level. You need {pairs} for {units}.",
            pair=pair,
            pairs=phrase_count("{number} pair", "{number} pairs", pairs),
            units=phrase_count("{number} unit", "{number} units", stage.count),
        ),
        phrase("Sewn in pairs before they are cut, the slanting bias edges have no chance to stretch."),
    )


def _sew_pair(stage: Stage, method: str, s: str) -> list[Step]:
    lines, beside, cut, reason = {
        TWO: (
            phrase("Draw a line from corner to corner on the back of the lighter square."),
            phrase("Sew on both sides of the line, {allowance} away from it.", allowance=s),
            phrase("Cut on the line."),
            phrase("Each half opens into one unit."),
        ),
        FOUR: (
            "",
            phrase("Sew all round the pair, {allowance} from the edge.", allowance=s),
            phrase("Cut from corner to corner, both ways, without moving the pair in between."),
            phrase("Each quarter opens into one unit. Its outer edges are on the bias: handle it gently."),
        ),
        EIGHT: (
            phrase("Draw both lines from corner to corner on the back of the lighter square."),
            phrase("Sew on both sides of both lines, {allowance} away from them.", allowance=s),
            phrase(
                "Cut across the middle, from side to side and from top to bottom, without moving the pair "
                "in between."
            ),
            phrase("Then the four quarters are cut once more, each on its drawn line."),
        ),
    }[method]
    marking = [
        step_of(stage, "mark", lines, phrase("The line is where you cut, not where you sew."), tools=MARKER)
    ]
    return [
        *(marking if lines else []),
        step_of(
            stage, "sew", beside, phrase("The cut goes between the seams."), hazards=(NEEDLE,), tools=MACHINE
        ),
        step_of(stage, "cut", cut, reason, hazards=(CUTTER,), tools=CUTTING_SET),
        *([_cut_lines(stage)] if method == EIGHT else []),
    ]


def _cut_lines(stage: Stage) -> Step:
    return step_of(
        stage,
        "cut-lines",
        phrase("Cut each quarter on the drawn line."),
        phrase("Each of the eight triangles opens into one unit."),
        hazards=(CUTTER,),
        tools=CUTTING_SET,
    )


def _from_triangles(stage: Stage, pair: str, s: str) -> list[Step]:
    return [
        step_of(
            stage,
            "pair",
            phrase(
                "Lay one triangle of {pair} right sides together, long sides level. You need {pairs}.",
                pair=pair,
                pairs=phrase_count("{number} pair", "{number} pairs", stage.count),
            ),
            phrase("The long side is on the bias: pin it and do not pull."),
            speaks_of_bias=True,
            tools=("pins",),
        ),
        step_of(
            stage,
            "sew",
            phrase("Sew along the long side, {allowance} from the edge.", allowance=s),
            phrase("Sewn from tip to tip, the square comes out with true corners."),
            hazards=(NEEDLE,),
            tools=MACHINE,
        ),
    ]
