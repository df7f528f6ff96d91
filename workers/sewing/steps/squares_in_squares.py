"""Steps for squares in squares: triangles on four sides, or four flipped corner squares."""

from __future__ import annotations

from service.craft.language import mark, phrase, phrase_count
from service.craft.units.square_in_a_square import FLIPPED
from workers.sewing.names import with_article
from workers.sewing.plan import Stage
from workers.sewing.steps.corner_squares import LINE_REASON, flip_corners
from workers.sewing.steps.hazards import IRON, NEEDLE, SCISSORS
from workers.sewing.steps.line_steps import check_and_trim
from workers.sewing.steps.pressing_words import press_reason, press_seams, shows_dark
from workers.sewing.steps.stage_steps import MACHINE, MARKER, PRESS_MORE, PRESSING, grade_step, step_of
from workers.sewing.steps.step import Lesson, Step

UNDER = (mark("upper right and lower left"), mark("upper left and lower right"))
"""The sides that are sewn first, as the facts of a bordered middle say them."""


def teach_square_in_square(stage: Stage, lesson: Lesson) -> list[Step]:
    """Triangles on two opposite sides, then on the others; or four flipped corner squares."""
    facts = stage.work.facts
    if facts["method"] == FLIPPED:
        drawn = step_of(
            stage,
            "mark",
            phrase(
                "Draw a line from corner to corner on the back of {squares} of {cloth}, 4 for each unit.",
                squares=phrase_count("{number} square", "{number} squares", 4 * stage.count),
                cloth=facts["corner"],
            ),
            phrase(LINE_REASON),
            tools=MARKER,
        )
        places = phrase("two opposite corners first")
        first = flip_corners(
            stage, facts["corner"], phrase("{cloth} base", cloth=facts["middle"]), places, lesson
        )
        return [drawn, *first, _flip_others(stage)]
    return _sew_triangles_round(stage, facts["corner"], lesson.allowance)


def _sew_triangles_round(stage: Stage, corner: str, s: str) -> list[Step]:
    """Of a bordered middle the sides whose border lies under the other come first (common practice, no source)."""
    under = stage.work.facts["first sides"]
    return [
        step_of(
            stage,
            "mark",
            phrase(
                "Fold the long side of each triangle and each side of the middle in half, and crease the "
                "centres."
            ),
            phrase("Centre on centre, the tips stick out equally at both ends."),
        ),
        step_of(
            stage,
            "first-two",
            _say_first_two(with_article(corner), under, s),
            phrase(
                "The long side is on the bias: pin it and do not stretch it. Its tips stick out past the "
                "edge, as they should."
            ),
            speaks_of_bias=True,
            hazards=(NEEDLE,),
            tools=(*MACHINE, "pins"),
        ),
        press_two(stage),
        step_of(
            stage,
            "other-two",
            phrase("Sew triangles to the other two sides in the same way."),
            phrase("The second pair crosses the first where a point is going to be."),
            hazards=(NEEDLE,),
            tools=(*MACHINE, "pins"),
        ),
        *press_others(stage),
        *check_and_trim(stage, s, phrase("every point")),
    ]


def _say_first_two(a_corner: str, under: str, s: str) -> str:
    """The first two seams: on the sides at `under`, where borders say which, or on any two. `s` is the allowance."""
    if not under:
        return phrase(
            "Sew the long side of {a_corner} triangle to each of two opposite sides, right sides together, "
            "centre on centre, with {allowance} allowance.",
            a_corner=a_corner,
            allowance=s,
        )
    return phrase(
        "Sew the long side of {a_corner} triangle to each of the sides at the {corners}, whose border "
        "strips end under the others, right sides together, centre on centre, with {allowance} allowance.",
        a_corner=a_corner,
        corners=phrase(under),
        allowance=s,
    )


def _flip_others(stage: Stage) -> Step:
    """The squares on the other two corners, round by round as the first two."""
    return step_of(
        stage,
        "others",
        phrase(
            "Sew squares to the other two corners in the same way as the first two: lay, sew, press, fold "
            "back, trim and turn out."
        ),
        phrase("They overlap the first ones in the middle of each side, so those are finished before."),
        hazards=(NEEDLE, IRON, SCISSORS),
        tools=(*MACHINE, *PRESSING, "scissors"),
    )


def press_two(stage: Stage) -> Step:
    """The first two seams, on opposite sides, before the others cross them."""
    return step_of(
        stage,
        "press-two",
        press_seams(stage, slice(0, None, 2)),
        phrase("The next seams run across them."),
        more=phrase(PRESS_MORE),
        hazards=(IRON,),
        tools=PRESSING,
    )


def press_others(stage: Stage) -> list[Step]:
    """The other two seams."""
    text, reason = press_seams(stage, slice(1, None, 2)), press_reason(stage)
    press = step_of(stage, "press", text, reason, hazards=(IRON,), tools=PRESSING)
    return [*([grade_step(stage)] if shows_dark(stage) else []), press]
