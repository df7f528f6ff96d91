"""Steps that come up again and again: mark a line, sew beside it, cut on it; look at the points, then trim."""

from __future__ import annotations

from service.craft.language import mark, phrase
from workers.sewing.plan import Stage
from workers.sewing.steps.hazards import CUTTER, NEEDLE
from workers.sewing.steps.stage_steps import CUTTING_SET, MACHINE, MARKER, step_of
from workers.sewing.steps.step import Step

LIGHTER = mark("Draw a line from corner to corner on the back of the lighter square.")


def mark_line(stage: Stage, what: str, text: str = "") -> Step:
    """A line to cut on: on the lighter square, where the text says nothing else."""
    return step_of(
        stage,
        what,
        text or phrase(LIGHTER),
        phrase("The line is where you cut, not where you sew."),
        tools=MARKER,
    )


def sew_both_sides(stage: Stage, what: str, allowance: str) -> Step:
    """A seam on either side of the line."""
    return step_of(
        stage,
        what,
        phrase("Sew on both sides of the line, {allowance} away from it.", allowance=allowance),
        phrase("The cut goes between the seams."),
        hazards=(NEEDLE,),
        tools=MACHINE,
    )


def cut_on_line(stage: Stage, what: str, why: str) -> Step:
    """The cut between the seams."""
    return step_of(stage, what, phrase("Cut on the line."), why, hazards=(CUTTER,), tools=CUTTING_SET)


def check_and_trim(stage: Stage, allowance: str, points: str) -> list[Step]:
    """The allowance beyond the points first, and only then the edges; the size is measured after that."""
    return [
        step_of(
            stage,
            "check",
            phrase("Check that {allowance} is left beyond {points}.", allowance=allowance, points=points),
            phrase(
                "The allowance beyond the points matters more than the outer size: without it the next seam cuts "
                "them off."
            ),
            tools=("ruler",),
        ),
        step_of(
            stage,
            "trim",
            phrase("Trim the edges straight, {allowance} outside the points.", allowance=allowance),
            phrase("What was a little uneven comes out alike."),
            hazards=(CUTTER,),
            tools=CUTTING_SET,
            measured=True,
        ),
    ]


def looks_at_points(steps: list[Step]) -> bool:
    """Whether the steps of a stage have looked at its points, as `check_and_trim` does."""
    return all(any(step.id.endswith(what) for step in steps) for what in (".check", ".trim"))
