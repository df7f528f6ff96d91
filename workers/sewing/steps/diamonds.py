"""Steps for diamonds in rectangles: centre on centre, two opposite triangles first, and room left beyond the points."""

from __future__ import annotations

from workers.sewing.plan import Stage
from workers.sewing.steps.hazards import NEEDLE
from workers.sewing.steps.line_steps import check_and_trim
from workers.sewing.steps.small_units import MACHINE, make_copies, step_of
from workers.sewing.steps.squares_in_squares import press_others, press_two
from workers.sewing.steps.step import Lesson, Step

PINNED = (*MACHINE, "pins")
TRIMMED = "At both ends a trimmed tip lies level with the edge beside it."
STICKING_OUT = "Its tips stick out past the edge equally at both ends, as they should."


def teach_diamond(stage: Stage, lesson: Lesson) -> list[Step]:
    """Crease the centres, sew two triangles, then two more, press, check the points."""
    facts, s = stage.work.facts, lesson.allowance
    corner = f"{facts['corners']} triangles" if facts["corners"] else "triangles, as the drawing shows,"
    return [
        *_mark(stage),
        step_of(
            stage,
            "first-two",
            f"Sew {corner} to two opposite sides of the {facts['diamond']} diamond, right sides together, centre on "
            f"centre, with {s} allowance.",
            TRIMMED if facts["templates"] else STICKING_OUT,
            more="The long side of a triangle lies on the bias: pin it and do not stretch it.",
            hazards=(NEEDLE,),
            tools=PINNED,
        ),
        press_two(stage),
        step_of(
            stage,
            "other-two",
            "Sew the other two triangles to the other two sides in the same way.",
            "The second pair crosses the first where a point of the diamond is going to be.",
            hazards=(NEEDLE,),
            tools=PINNED,
        ),
        *press_others(stage),
        *check_and_trim(stage, s, "each of the four points"),
    ]


def _mark(stage: Stage) -> list[Step]:
    return [
        step_of(
            stage,
            "lay",
            f"Lay the diamond and its four triangles as the drawing shows.{make_copies(stage)}",
            "Laid out first, no triangle comes to lie the wrong way round.",
        ),
        step_of(
            stage,
            "mark",
            "Crease the middle of each triangle's long side and of each side of the diamond, by folding it in half.",
            "The creases show where centre meets centre.",
        ),
    ]
