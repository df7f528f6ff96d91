"""Steps for straight-seam blocks: parts joined along a seam that runs through, and seams that are set in."""

from __future__ import annotations

from service.craft.language import mark, phrase, phrase_count
from workers.sewing.plan import Stage
from workers.sewing.steps.hazards import NEEDLE
from workers.sewing.steps.stage_steps import MACHINE, MARKER, make_copies, press_step, step_of
from workers.sewing.steps.step import Lesson, Step, sentences

PINNED = (*MACHINE, "pins")
TIPS = mark("Where a slanting end is, let the trimmed tip lie level with the edge of its neighbour.")


def teach_joined_parts(stage: Stage, lesson: Lesson) -> list[Step]:
    """Lay out, sew along the seams that run through, press, measure."""
    facts, s = stage.work.facts, lesson.allowance
    two = facts["parts"] == "2"
    how = (
        phrase(
            "Sew the two parts to each other, right sides together, with {allowance} allowance from edge to "
            "edge.",
            allowance=s,
        )
        if two
        else phrase(
            "Sew the parts to each other in order with {allowance} allowance, each seam from edge to edge.",
            allowance=s,
        )
    )
    return [
        _lay_out(stage),
        step_of(
            stage,
            "sew",
            how,
            phrase("The seam runs straight through, so there is no corner to turn."),
            more=phrase(TIPS),
            hazards=(NEEDLE,),
            tools=PINNED,
        ),
        *press_step(stage, measured=True),
    ]


def _lay_out(stage: Stage) -> Step:
    return step_of(
        stage,
        "lay",
        sentences(
            phrase(
                "Lay the {count} parts as the drawing shows.",
                count=stage.work.facts["parts"],
            ),
            make_copies(stage),
        ),
        phrase("Laid out first, a part that is turned the wrong way shows before it is sewn in."),
    )


def teach_set_in_parts(stage: Stage, lesson: Lesson) -> list[Step]:
    """Patches that no straight seam parts and that go round no middle: seams that stop at a point and turn."""
    turning = int(stage.work.facts["turning"])
    return [
        _lay_out(stage),
        *_turn_at_points(stage, turning, lesson.allowance),
        *press_step(stage, measured=True),
    ]


def _turn_at_points(stage: Stage, turning: int, s: str) -> list[Step]:
    """Seams that stop at a point where three patches meet. None of them turns of itself where every seam ends on one
    that runs on: then the order of sewing decides which do, and all are marked."""
    return [
        step_of(
            stage,
            "mark",
            _say_mark(turning, s),
            phrase("There a seam stops and turns: none runs straight through."),
            tools=MARKER,
        ),
        step_of(
            stage,
            "sew",
            phrase(
                "Sew the seams that end in that point two patches at a time, with {allowance} allowance. "
                "Stop exactly at the mark and sew two stitches back.",
                allowance=s,
            )
            if turning == 1
            else phrase(
                "Sew the seams that end in those points two patches at a time, with {allowance} allowance. "
                "Stop exactly at the mark and sew two stitches back.",
                allowance=s,
            ),
            phrase("The allowance beyond the mark stays free, so that the next patch can turn there."),
            hazards=(NEEDLE,),
            tools=PINNED,
        ),
        step_of(
            stage,
            "set-in",
            phrase(
                "Set in the patch that is left: sew one edge up to the mark, turn there with the needle "
                "down and the foot up, and sew on with the next two edges level."
            ),
            phrase("Sewn in one go, the corner closes without a hole or a fold."),
            more=phrase(
                "This makes {corners} in each.",
                corners=phrase_count("{number} set-in corner", "{number} set-in corners", turning),
            )
            if turning
            else "",
            hazards=(NEEDLE,),
            tools=PINNED,
        ),
    ]


def _say_mark(turning: int, s: str) -> str:
    """Which points are marked; `s` is the allowance in words."""
    if turning == 1:
        return phrase(
            "On the back of the patches mark the point where the seam turns, {allowance} from both edges.",
            allowance=s,
        )
    if turning:
        return phrase(
            "On the back of the patches mark each of the {count} points where the seam turns, {allowance} "
            "from both edges.",
            count=turning,
            allowance=s,
        )
    return phrase(
        "On the back of the patches mark each point where three patches meet, {allowance} from both edges.",
        allowance=s,
    )
