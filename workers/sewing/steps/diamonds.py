"""Steps for diamonds in rectangles: centre on centre, two opposite triangles first, and room left beyond the points."""

from __future__ import annotations

from service.craft.language import mark, phrase
from workers.sewing.plan import Stage
from workers.sewing.steps.hazards import NEEDLE
from workers.sewing.steps.line_steps import check_and_trim
from workers.sewing.steps.squares_in_squares import press_others, press_two
from workers.sewing.steps.stage_steps import MACHINE, make_copies, step_of
from workers.sewing.steps.step import Facts, Lesson, Step, sentences

PINNED = (*MACHINE, "pins")
TRIMMED = mark("At both ends a trimmed tip lies level with the edge beside it.")
STICKING_OUT = mark("Its tips stick out past the edge equally at both ends, as they should.")


def teach_diamond(stage: Stage, lesson: Lesson) -> list[Step]:
    """Crease the centres, sew two triangles, then two more, press, check the points."""
    facts, s = stage.work.facts, lesson.allowance
    return [
        *_mark(stage),
        step_of(
            stage,
            "first-two",
            _say_first_two(facts, s),
            phrase(TRIMMED if facts["templates"] else STICKING_OUT),
            more=phrase("The long side of a triangle lies on the bias: pin it and do not stretch it."),
            speaks_of_bias=True,
            hazards=(NEEDLE,),
            tools=PINNED,
        ),
        press_two(stage),
        step_of(
            stage,
            "other-two",
            phrase("Sew the other two triangles to the other two sides in the same way."),
            phrase("The second pair crosses the first where a point of the diamond is going to be."),
            hazards=(NEEDLE,),
            tools=PINNED,
        ),
        *press_others(stage),
        *check_and_trim(stage, s, phrase("each of the four points")),
    ]


def _say_first_two(facts: Facts, s: str) -> str:
    """The first two triangles; `s` is the allowance in words."""
    if facts["corners"]:
        return phrase(
            "Sew {cloth} triangles to two opposite sides of the {diamond} diamond, right sides together, "
            "centre on centre, with {allowance} allowance.",
            cloth=facts["corners"],
            diamond=facts["diamond"],
            allowance=s,
        )
    return phrase(
        "Sew triangles, as the drawing shows, to two opposite sides of the {diamond} diamond, right sides "
        "together, centre on centre, with {allowance} allowance.",
        diamond=facts["diamond"],
        allowance=s,
    )


def _mark(stage: Stage) -> list[Step]:
    return [
        step_of(
            stage,
            "lay",
            sentences(
                phrase("Lay the diamond and its four triangles as the drawing shows."), make_copies(stage)
            ),
            phrase("Laid out first, no triangle comes to lie the wrong way round."),
        ),
        step_of(
            stage,
            "mark",
            phrase(
                "Crease the middle of each triangle's long side and of each side of the diamond, by folding "
                "it in half."
            ),
            phrase("The creases show where centre meets centre."),
        ),
    ]
