"""The step that sews a flipped corner, beside its diagonal."""

from __future__ import annotations

from service.craft.language import phrase
from workers.sewing.plan import Stage
from workers.sewing.steps.hazards import NEEDLE
from workers.sewing.steps.stage_steps import MACHINE, step_of
from workers.sewing.steps.step import Lesson, Step
from workers.sewing.turn_of_cloth import NEEDLE_WIDTH, say_beside


def sew_beside(stage: Stage, lesson: Lesson) -> Step:
    """The seam of a corner that is flipped."""
    return step_of(
        stage,
        "sew",
        _say_beside(stage, lesson),
        phrase(
            "The fold uses up a little cloth. Sewn on the line itself, the corner comes up short when it is flipped."
        ),
        hazards=(NEEDLE,),
        tools=MACHINE,
    )


def _say_beside(stage: Stage, lesson: Lesson) -> str:
    """The seam lies between the line and the corner that is trimmed off.

    A needle's width is common practice, no source; cloth that takes more is given its own figure, from its thickness.
    """
    beside = say_beside(lesson.project, stage.seams[0].line.left.fabric)
    if beside > NEEDLE_WIDTH:
        return phrase(
            "Sew beside the line, {length} towards the corner that is trimmed off.",
            length=lesson.length(beside),
        )
    return phrase(
        "Sew beside the line, a needle's width towards the corner that is trimmed off: {length} at least.",
        length=lesson.length(beside),
    )
