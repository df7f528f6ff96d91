"""Steps for a piece that is wider than its cloth: join its panels, press the seams open, trim."""

from __future__ import annotations

from workers.sewing.plan import Stage
from workers.sewing.steps.hazards import CUTTER, NEEDLE
from workers.sewing.steps.joins import PINNED
from workers.sewing.steps.small_units import CUTTING_SET, press_step, step_of
from workers.sewing.steps.step import Lesson, Step


def teach_panels(stage: Stage, lesson: Lesson) -> list[Step]:
    """Sew side by side along their length, press open, trim where the panels come out wider."""
    facts = stage.work.facts
    number = "both" if facts["panels"] == "2" else f"all {facts['panels']}"
    upright = (
        " Lay them the same way up: the cloth has a direction."
        if facts["one way"]
        else " Lay them the same way up."
    )
    copies = f" Make {stage.count}, all alike." if stage.count > 1 else ""
    trimmed = bool(facts["to trim"])
    steps = [
        step_of(
            stage,
            "sew",
            f"Sew {number} panels of {facts['cloth']} side by side along their long edges with {lesson.allowance} "
            f"allowance.{upright}{copies}",
            "The cloth is narrower than the piece. Equal panels put the seam where it looks meant; later drawings "
            "leave it out.",
            more="Pin both ends and the middle first: in a long seam one layer creeps.",
            hazards=(NEEDLE,),
            tools=PINNED,
        ),
        *press_step(stage, measured=not trimmed, why="Pressed open, the seam lies flat and shows least."),
    ]
    if trimmed:
        steps.append(
            step_of(
                stage,
                "trim",
                f"Trim the piece to {facts['trim to']} across the panels, the same at both sides.",
                "The panels are cut to the next mark of the ruler, so that they never come out short.",
                hazards=(CUTTER,),
                tools=CUTTING_SET,
                measured=True,
            )
        )
    return steps
