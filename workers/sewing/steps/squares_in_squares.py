"""Steps for squares in squares: triangles on four sides, or four flipped corner squares."""

from __future__ import annotations

from service.craft.units.square_in_a_square import FLIPPED
from workers.sewing.plan import Stage
from workers.sewing.steps.hazards import IRON, NEEDLE
from workers.sewing.steps.line_steps import check_and_trim
from workers.sewing.steps.small_units import (
    LINE_REASON,
    MACHINE,
    MARKER,
    PRESSING,
    flip_corners,
    press_step,
    step_of,
)
from workers.sewing.steps.step import Lesson, Step, plural


def teach_square_in_square(stage: Stage, lesson: Lesson) -> list[Step]:
    """Triangles on two opposite sides, then on the others; or four flipped corner squares."""
    facts = stage.work.facts
    if facts["method"] == FLIPPED:
        mark = step_of(
            stage,
            "mark",
            f"Draw a line from corner to corner on the back of {plural(4 * stage.count, 'square')} of "
            f"{facts['corner']}, 4 for each unit.",
            LINE_REASON,
            tools=MARKER,
        )
        places = "first two opposite corners, then the other two"
        return [mark, *flip_corners(stage, facts["corner"], f"{facts['middle']} base", places, lesson)]
    return _sew_triangles_round(stage, facts["corner"], lesson.allowance)


def _sew_triangles_round(stage: Stage, corner: str, s: str) -> list[Step]:
    """Of a bordered middle the sides whose border lies under the other come first (common practice, no source)."""
    under = stage.work.facts["first sides"]
    where = (
        f"the sides at the {under}, whose border strips end under the others"
        if under
        else "two opposite sides"
    )
    return [
        step_of(
            stage,
            "mark",
            "Fold each triangle and each side of the middle in half, and crease their centres.",
            "Centre on centre, the tips stick out equally at both ends.",
        ),
        step_of(
            stage,
            "first-two",
            f"Sew {corner} triangles to {where}, right sides together, centre on centre, with {s} allowance.",
            "The long side is on the bias: pin it and do not stretch it. Its tips stick out past the edge, as "
            "they should.",
            hazards=(NEEDLE,),
            tools=(*MACHINE, "pins"),
        ),
        step_of(
            stage,
            "press-two",
            "Press the two triangles flat, turned outwards over their seams.",
            "The next seams run across them.",
            hazards=(IRON,),
            tools=PRESSING,
        ),
        step_of(
            stage,
            "other-two",
            "Sew triangles to the other two sides in the same way.",
            "The second pair crosses the first where a point is going to be.",
            hazards=(NEEDLE,),
            tools=(*MACHINE, "pins"),
        ),
        *press_step(stage),
        *check_and_trim(stage, s, "every point"),
    ]
