"""Steps for flying geese."""

from __future__ import annotations

from math import ceil

from service.craft.language import mark, phrase, phrase_count
from service.craft.units.flying_geese import CORNERS, FOUR
from workers.sewing.names import with_article
from workers.sewing.plan import Stage
from workers.sewing.steps.beside_the_line import sew_beside
from workers.sewing.steps.corner_squares import GRADED_LAST, LINE_REASON, fold_back, fold_out, trim_under
from workers.sewing.steps.hazards import CUTTER, IRON, NEEDLE
from workers.sewing.steps.line_steps import cut_on_line, sew_both_sides
from workers.sewing.steps.pressing_words import SHOWS_LESS, press_reason, press_seams
from workers.sewing.steps.stage_steps import (
    CUTTING_SET,
    MACHINE,
    MARKER,
    PRESS_MORE,
    PRESSING,
    grade_step,
    press_step,
    step_of,
)
from workers.sewing.steps.step import Lesson, Step

OFF_THE_GOOSE = mark("Away from the goose, its point stays thin and easy to see when the next seam is sewn.")


def teach_flying_geese(stage: Stage, lesson: Lesson) -> list[Step]:
    """From cut triangles, with flipped corner squares, or four at a time; then trimmed with room over the point."""
    method = stage.work.facts["method"]
    ways = {CORNERS: _geese_flipped, FOUR: _geese_by_four}
    way = ways.get(method, _geese_of_triangles)
    return [*way(stage, lesson), _trim_goose(stage, lesson)]


def _press_goose(stage: Stage) -> list[Step]:
    return press_step(stage, why=_say_why(stage))


def _say_why(stage: Stage) -> str:
    sky = stage.work.facts["sky"]
    outwards = all(seam.towards == sky for seam in stage.seams)
    return phrase(OFF_THE_GOOSE) if outwards else ""


def _press_side(stage: Stage, what: str, number: int, why: str) -> Step:
    """One of the two seams, pressed before the other crosses it."""
    text = press_seams(stage, slice(number, number + 1))
    return step_of(stage, what, text, why, more=phrase(PRESS_MORE), hazards=(IRON,), tools=PRESSING)


def _grade_side(stage: Stage, what: str, number: int, why: str) -> list[Step]:
    """One of the two seams, its dark allowance cut narrower where it will lie under a light cloth."""
    dark = any(seams[number].shadows for _, seams in stage.ways)
    return [grade_step(stage, why, what)] if dark else []


def _trim_goose(stage: Stage, lesson: Lesson) -> Step:
    return step_of(
        stage,
        "trim",
        phrase(
            "Trim each unit to size, with {allowance} left between the point of the goose and the upper "
            "edge.",
            allowance=lesson.allowance,
        ),
        phrase(
            "The next seam takes up that allowance and just meets the point; with less it cuts the point off."
        ),
        more=phrase("The lower corners of the goose end exactly in the lower corners of the unit."),
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
            phrase(
                "For each of {units} lay out one large {goose} triangle and two small {sky} triangles, as "
                "the drawing shows.",
                units=phrase_count("{number} unit", "{number} units", stage.count),
                goose=facts["goose"],
                sky=facts["sky"],
            ),
            phrase("The long sides of the small triangles lie on the short sides of the goose."),
        ),
        _pin_first(stage),
        step_of(
            stage,
            "sew",
            phrase("Sew along this side with {allowance} allowance, and do not pull.", allowance=s),
            phrase("The machine feeds both layers alike when nobody pulls."),
            hazards=(NEEDLE,),
            tools=MACHINE,
        ),
        *_grade_side(stage, "grade-first", 0, phrase(SHOWS_LESS)),
        _press_side(
            stage,
            "press-first",
            0,
            phrase("Flat, it lets the other triangle lie level: its seam runs across."),
        ),
        step_of(
            stage,
            "second",
            phrase("Sew the right small triangle to the other short side in the same way."),
            phrase("Its seam crosses the first one over the point of the goose."),
            hazards=(NEEDLE,),
            tools=(*MACHINE, "pins"),
        ),
        *_grade_side(stage, "grade", 1, phrase(SHOWS_LESS)),
        _press_side(stage, "press", 1, _say_why(stage) or press_reason(stage)),
    ]


def _pin_first(stage: Stage) -> Step:
    return step_of(
        stage,
        "pin",
        phrase(
            "Pin the left small triangle on the goose, right sides together, long side on short side "
            "and the lower corners level."
        ),
        phrase("The long side of the small triangle is on the bias: pinned, it does not stretch."),
        speaks_of_bias=True,
        more=phrase("At the top its tip sticks out past the goose. That is right."),
        tools=("pins",),
    )


def _geese_flipped(stage: Stage, lesson: Lesson) -> list[Step]:
    facts = stage.work.facts
    return [
        step_of(
            stage,
            "mark",
            phrase(
                "Draw a line from corner to corner on the back of {squares} of {cloth}, 2 for each unit.",
                squares=phrase_count("{number} square", "{number} squares", 2 * stage.count),
                cloth=facts["sky"],
            ),
            phrase(LINE_REASON),
            tools=MARKER,
        ),
        step_of(
            stage,
            "lay",
            phrase(
                "Lay {a_sky} square on the left end of {a_goose} rectangle, right sides together, edges "
                "level. The line runs from the middle of the upper edge to the lower corner.",
                a_sky=with_article(facts["sky"]),
                a_goose=with_article(facts["goose"]),
            ),
            phrase("This corner is finished before the other begins: the two squares overlap at the point."),
            tools=("pins",),
        ),
        sew_beside(stage, lesson),
        _press_side(stage, "press", 0, _say_why(stage) or press_reason(stage)),
        fold_back(stage),
        trim_under(stage, lesson, "cut-back", phrase("The join stays thin.")),
        *_grade_side(stage, "grade", 0, phrase(GRADED_LAST)),
        fold_out(stage),
        *_flip_second(stage, lesson),
    ]


def _flip_second(stage: Stage, lesson: Lesson) -> list[Step]:
    """The other end of the rectangle, action by action."""
    return [
        step_of(
            stage,
            "lay-second",
            phrase("Lay a second square on the right end in the same way."),
            phrase("The lines meet at the middle of the upper edge, where the point is going to be."),
            tools=("pins",),
        ),
        step_of(
            stage,
            "second",
            phrase("Sew beside its line as you did before, on the side of the corner that is trimmed off."),
            phrase("The seam crosses the first one over the point."),
            hazards=(NEEDLE,),
            tools=MACHINE,
        ),
        _press_side(
            stage, "press-second", 1, phrase("Once it lies flat you see whether the corner is true.")
        ),
        fold_back(stage, "fold-second"),
        trim_under(stage, lesson, "cut-second", phrase("Now both ends are thin.")),
        *_grade_side(stage, "grade-second", 1, phrase(GRADED_LAST)),
        fold_out(stage, "unfold-second"),
    ]


def _geese_by_four(stage: Stage, lesson: Lesson) -> list[Step]:
    s = lesson.allowance
    return [
        _mark_small_squares(stage),
        step_of(
            stage,
            "lay",
            phrase(
                "Lay two small squares on opposite corners of a large one, right sides together. They "
                "overlap in the middle, and their lines make one line."
            ),
            phrase("It runs from corner to corner of the large square."),
            tools=("pins",),
        ),
        sew_both_sides(stage, "sew", s),
        cut_on_line(stage, "cut", phrase("The line is where you cut, not where you sew.")),
        step_of(
            stage,
            "press-halves",
            phrase("Press the small triangles open on both halves."),
            phrase("Each half now looks like a heart."),
            hazards=(IRON,),
            tools=PRESSING,
        ),
        step_of(
            stage,
            "lay-second",
            phrase(
                "Lay a small square on the free corner of each half, its line running in between the two "
                "small triangles."
            ),
            phrase("It runs from the corner to the middle of the cut edge."),
            tools=("pins",),
        ),
        sew_both_sides(stage, "second", s),
        cut_on_line(stage, "cut-second", phrase("Each half gives two units.")),
        *_press_goose(stage),
    ]


def _mark_small_squares(stage: Stage) -> Step:
    facts, sets = stage.work.facts, ceil(stage.count / 4)
    return step_of(
        stage,
        "mark",
        phrase(
            "Draw a line from corner to corner on the back of {squares} of {sky}. They go with {large} "
            "of {goose}.",
            squares=phrase_count("{number} small square", "{number} small squares", 4 * sets),
            sky=facts["sky"],
            large=phrase_count("{number} large square", "{number} large squares", sets),
            goose=facts["goose"],
        ),
        phrase("One large square and four small ones make four units, without triangles to handle."),
        tools=MARKER,
    )
