"""Steps for a piece that is wider than its cloth: join its panels, press the seams open, trim."""

from __future__ import annotations

from service.craft.language import phrase
from workers.sewing.plan import Stage
from workers.sewing.steps.hazards import CUTTER, NEEDLE
from workers.sewing.steps.joins import PINNED
from workers.sewing.steps.stage_steps import CUTTING_SET, make_copies, press_step, step_of
from workers.sewing.steps.step import Lesson, Step, sentences


def teach_panels(stage: Stage, lesson: Lesson) -> list[Step]:
    """Lay, pin and sew side by side, press open, trim where the panels come out wider."""
    trimmed = bool(stage.work.facts["to trim"])
    steps = [
        _lay(stage),
        step_of(
            stage,
            "pin",
            phrase(
                "Pin two neighbours along their long edges, right sides together: both ends, the middle, "
                "then between."
            ),
            phrase("In a long seam one layer creeps."),
            tools=("pins",),
        ),
        step_of(
            stage,
            "sew",
            phrase("Sew the panels to each other with {allowance} allowance.", allowance=lesson.allowance),
            phrase(
                "The cloth is narrower than the piece. Equal panels put the seam where it looks meant; "
                "later drawings leave it out."
            ),
            hazards=(NEEDLE,),
            tools=PINNED,
        ),
        *press_step(
            stage, measured=not trimmed, why=phrase("Pressed open, the seam lies flat and shows least.")
        ),
    ]
    if trimmed:
        steps.append(_trim(stage))
    return steps


def _lay(stage: Stage) -> Step:
    facts = stage.work.facts
    upright = (
        phrase("The cloth has a direction, and keeps it across the seam.")
        if facts["one way"]
        else phrase("Woven alike, they stretch and shade alike.")
    )
    return step_of(
        stage,
        "lay",
        sentences(
            phrase("Lay both panels of {cloth} side by side, all the same way up.", cloth=facts["cloth"])
            if facts["panels"] == "2"
            else phrase(
                "Lay all {count} panels of {cloth} side by side, all the same way up.",
                count=facts["panels"],
                cloth=facts["cloth"],
            ),
            make_copies(stage),
        ),
        upright,
    )


def _trim(stage: Stage) -> Step:
    return step_of(
        stage,
        "trim",
        phrase(
            "Trim the piece to {width} across the panels, the same at both sides.",
            width=stage.work.facts["trim to"],
        ),
        phrase("The panels are cut to the next mark of the ruler, so that they never come out short."),
        hazards=(CUTTER,),
        tools=CUTTING_SET,
        measured=True,
    )
