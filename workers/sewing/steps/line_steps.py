"""Steps that come up again and again: mark a line, sew beside it, cut on it; look at the points, then trim."""

from __future__ import annotations

from workers.sewing.plan import Stage
from workers.sewing.steps.hazards import CUTTER, NEEDLE
from workers.sewing.steps.small_units import CUTTING_SET, MACHINE, MARKER, step_of
from workers.sewing.steps.step import Step

LIGHTER = "Draw a line from corner to corner on the back of the lighter square."


def mark_line(stage: Stage, what: str, text: str = LIGHTER) -> Step:
    """A line to cut on."""
    return step_of(stage, what, text, "The line is where you cut, not where you sew.", tools=MARKER)


def sew_both_sides(stage: Stage, what: str, allowance: str) -> Step:
    """A seam on either side of the line."""
    return step_of(
        stage,
        what,
        f"Sew on both sides of the line, {allowance} away from it.",
        "The cut goes between the seams.",
        hazards=(NEEDLE,),
        tools=MACHINE,
    )


def cut_on_line(stage: Stage, what: str, why: str) -> Step:
    """The cut between the seams."""
    return step_of(stage, what, "Cut on the line.", why, hazards=(CUTTER,), tools=CUTTING_SET)


def check_and_trim(stage: Stage, allowance: str, points: str) -> list[Step]:
    """The allowance beyond the points first, and only then the edges; the size is measured after that."""
    return [
        step_of(
            stage,
            "check",
            f"Check that {allowance} is left beyond {points}.",
            "The allowance beyond the points matters more than the outer size: without it the next seam cuts them off.",
            tools=("ruler",),
        ),
        step_of(
            stage,
            "trim",
            f"Trim the edges straight, {allowance} outside the points.",
            "What was a little uneven comes out alike.",
            hazards=(CUTTER,),
            tools=CUTTING_SET,
            measured=True,
        ),
    ]
