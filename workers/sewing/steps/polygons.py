"""Steps for straight-seam blocks: parts joined along a seam that runs through, and seams that are set in."""

from __future__ import annotations

from workers.sewing.plan import Stage
from workers.sewing.steps.hazards import NEEDLE
from workers.sewing.steps.small_units import MACHINE, MARKER, make_copies, press_step, step_of
from workers.sewing.steps.step import Lesson, Step, plural

PINNED = (*MACHINE, "pins")
TIPS = "Where a slanting end is, let the trimmed tip lie level with the edge of its neighbour."


def teach_joined_parts(stage: Stage, lesson: Lesson) -> list[Step]:
    """Lay out, sew along the seams that run through, press, measure."""
    facts, s = stage.work.facts, lesson.allowance
    two = facts["parts"] == "2"
    how = (
        f"Sew the two parts to each other, right sides together, with {s} allowance from edge to edge."
        if two
        else f"Sew the parts to each other in order with {s} allowance, each seam from edge to edge."
    )
    return [
        _lay_out(stage),
        step_of(
            stage,
            "sew",
            how,
            "The seam runs straight through, so there is no corner to turn.",
            more=TIPS,
            hazards=(NEEDLE,),
            tools=PINNED,
        ),
        *press_step(stage, measured=True),
    ]


def _lay_out(stage: Stage) -> Step:
    return step_of(
        stage,
        "lay",
        f"Lay the {stage.work.facts['parts']} parts as the drawing shows.{make_copies(stage)}",
        "Laid out first, a part that is turned the wrong way shows before it is sewn in.",
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
    where = "the point" if turning == 1 else f"each of the {turning} points" if turning else "each point"
    return [
        step_of(
            stage,
            "mark",
            f"On the back of the patches mark {where} where {'the seam turns' if turning else 'three patches meet'}, "
            f"{s} from both edges.",
            "There a seam stops and turns: none runs straight through.",
            tools=MARKER,
        ),
        step_of(
            stage,
            "sew",
            f"Sew the seams that end in {'that point' if turning == 1 else 'those points'} two patches at a time, with "
            f"{s} allowance. Stop exactly at the mark and sew two stitches back.",
            "The allowance beyond the mark stays free, so that the next patch can turn there.",
            hazards=(NEEDLE,),
            tools=PINNED,
        ),
        step_of(
            stage,
            "set-in",
            "Set in the patch that is left: sew one edge up to the mark, turn there with the needle down and the foot "
            "up, and sew on with the next two edges level.",
            "Sewn in one go, the corner closes without a hole or a fold.",
            more=f"This makes {plural(turning, 'set-in corner')} in each." if turning else "",
            hazards=(NEEDLE,),
            tools=PINNED,
        ),
    ]
