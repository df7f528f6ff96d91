"""Steps for what is joined: rows, rows of rows, borders, diagonal rows and their triangles."""

from __future__ import annotations

from service.craft.measure import round_to_ruler
from workers.sewing.names import with_article
from workers.sewing.plan import Stage
from workers.sewing.steps.hazards import CUTTER, NEEDLE
from workers.sewing.steps.small_units import CUTTING_SET, MACHINE, make_copies, press_step, step_of
from workers.sewing.steps.step import Lesson, Step
from workers.sewing.works import Work

PINNED = (*MACHINE, "pins")


def teach_row(stage: Stage, lesson: Lesson) -> list[Step]:
    """Lay out, sew side by side, press."""
    facts = stage.work.facts
    what = "strips and squares" if facts["sashing"] or "squares" in stage.work.one else "parts"
    return [
        step_of(
            stage,
            "lay",
            f"Lay the {facts['parts']} {what} in order, as the drawing shows.{make_copies(stage)}",
            "Laid out first, a unit that is turned the wrong way shows before it is sewn in.",
        ),
        step_of(
            stage,
            "sew",
            f"Sew them side by side with {lesson.allowance} allowance, from the left.",
            "One allowance all along gives rows that are equally long.",
            more="The second lies on the first, right sides together, edges level; the seam runs from edge to edge.",
            hazards=(NEEDLE,),
            tools=PINNED,
        ),
        *press_step(stage, measured=True),
    ]


def teach_rows(stage: Stage, lesson: Lesson) -> list[Step]:
    """Lay out, pin where seams cross, sew row to row, press."""
    order, reason = _order_of_rows(sum(isinstance(item.piece, Work) for item in stage.work.items))
    return [
        step_of(
            stage,
            "lay",
            f"Lay the rows in order, as the drawing shows.{make_copies(stage)}",
            "A row that is turned the wrong way shows before it is sewn on.",
        ),
        step_of(
            stage,
            "pin",
            "Pin two neighbours right sides together, on both sides of every crossing.",
            "Where two seams nest you feel them lock. The pins keep them there.",
            tools=("pins",),
        ),
        step_of(
            stage,
            "sew",
            f"Sew {order} with {lesson.allowance} allowance.",
            reason,
            more="Where many seams cross, sew from the middle outwards: a small difference then does not add "
            "up at one end.",
            hazards=(NEEDLE,),
            tools=PINNED,
        ),
        *press_step(stage, measured=True),
    ]


def _order_of_rows(rows: int) -> tuple[str, str]:
    """Which rows are sewn to which first, and why."""
    if rows == 2:
        return (
            "the two rows to each other",
            "Pinned at the crossings, they cannot slide apart under the needle.",
        )
    if rows == 3:
        return (
            "row 2 to row 1, then row 3 to row 2,",
            "One after the other, every row meets its own neighbour.",
        )
    return (
        "the rows to each other, two by two, then the pairs,",
        "Joined in pairs, the pieces under the needle stay small for longest.",
    )


def teach_border_pair(stage: Stage, lesson: Lesson) -> list[Step]:
    """Measure through the middle, pin the middle and the ends, sew, press."""
    facts = stage.work.facts
    strips = (
        f"the strips with {facts['squares']} squares" if facts["squares"] else f"two {facts['cloth']} strips"
    )
    first = facts["nth"] == "first"
    reason = (
        "The pair sewn first is the shorter one: the second pair runs over its ends."
        if first and not facts["squares"]
        else "Pinned at the middle and the ends, the strip keeps the edge from growing wavy."
    )
    measuring = [] if facts["squares"] else _measure_middle(stage, lesson)
    crossing = " Pin where the squares' seams meet the seams of the first pair." if facts["squares"] else ""
    return [
        *measuring,
        step_of(
            stage,
            "pin",
            f"Pin {strips} to the {facts['pair'].replace('and', 'and the')} edge, right sides together: the middle, "
            f"the ends, then between.{crossing}",
            reason,
            more="Where the edge is a little longer than the strip, spread it along the strip. Never stretch "
            "the strip.",
            tools=("pins",),
        ),
        step_of(
            stage,
            "sew",
            f"Sew both strips on with {lesson.allowance} allowance, the strip uppermost.",
            "The machine takes up a little of the lower layer, which is the one that has more to give.",
            hazards=(NEEDLE,),
            tools=PINNED,
        ),
        *press_step(stage, measured=True),
    ]


def _measure_middle(stage: Stage, lesson: Lesson) -> list[Step]:
    """A border is as long as the top is through its middle: finalstitches.ca, academyofquilting.com."""
    upright = stage.work.facts["pair"] == "left and right"
    finished = stage.work.height if upright else stage.work.width
    whole = round_to_ruler(finished + 2 * lesson.project.seam_allowance, lesson.project.measure)
    cut = lesson.project.rules.plain(finished)
    way = "from top to bottom" if upright else "from left to right"
    return [
        step_of(
            stage,
            "measure",
            f"Measure {way} through the middle of what you have, not along its edge: "
            f"{lesson.length(whole)} is planned.",
            "Edges stretch, the middle does not.",
            tools=("tape measure",),
        ),
        step_of(
            stage,
            "trim-strips",
            "Trim both strips to the length you measured.",
            f"They were cut to {lesson.length(cut)}. Two strips of one length keep the corners square.",
            hazards=(CUTTER,),
            tools=CUTTING_SET,
        ),
    ]


def teach_mitred_border(stage: Stage, lesson: Lesson) -> list[Step]:
    """Four strips that stop short of the corners, then the slanting seams."""
    cloth, s = stage.work.facts["cloth"], lesson.allowance
    return [
        step_of(
            stage,
            "pin",
            f"Pin {with_article(cloth)} strip to each side, middle on middle; the ends hang over equally.",
            "The overhang is what the mitred corners are made of.",
            tools=("pins",),
        ),
        step_of(
            stage,
            "sew",
            f"Sew each strip on with {s} allowance. Begin and stop {s} before the corner.",
            "The corner stays free, so that the strips can turn there.",
            hazards=(NEEDLE,),
            tools=PINNED,
        ),
        *_mitre(stage, s),
        *press_step(stage, measured=True),
    ]


def _mitre(stage: Stage, s: str) -> list[Step]:
    """One corner: folded, drawn, sewn, looked at, and only then trimmed. `s` is the allowance in words."""
    return [
        step_of(
            stage,
            "fold-mitre",
            "Fold the top on the slant, right sides together, so that two strips lie on each other.",
            "The fold shows where the slanting seam will run.",
            tools=("pins",),
        ),
        step_of(
            stage,
            "draw-mitre",
            "Draw a line on the upper strip, from the end of its seam outwards, as the fold goes on.",
            "Your seam follows it.",
            tools=("marking pencil", "ruler"),
        ),
        step_of(
            stage,
            "mitre",
            "Sew on this line, from the inner corner out.",
            "The seam continues the fold, and the corner comes out mitred.",
            hazards=(NEEDLE,),
            tools=PINNED,
        ),
        step_of(
            stage,
            "look-mitre",
            "Open the top and look whether the corner lies flat.",
            "As long as nothing is trimmed, the seam can be unpicked and sewn again.",
        ),
        step_of(
            stage,
            "trim",
            f"Trim the ends of the strips {s} outside the slanting seam.",
            "Once it is trimmed, it cannot be sewn again.",
            hazards=(CUTTER,),
            tools=CUTTING_SET,
        ),
    ]


def teach_diagonal_row(stage: Stage, lesson: Lesson) -> list[Step]:
    """Side triangles at the ends of a row."""
    facts = stage.work.facts
    larger = f" They are cut {facts['extra']} larger and trimmed at the end." if facts["extra"] else ""
    return [
        step_of(
            stage,
            "sew",
            f"Sew {with_article(facts['cloth'])} side triangle to {facts['ends']} of the row with {lesson.allowance} "
            f"allowance, as the drawing shows.{larger}{make_copies(stage)}",
            "The triangle's long side comes to lie on the edge of the top. The threads run straight there, so "
            "the edge "
            "does not stretch.",
            hazards=(NEEDLE,),
            tools=PINNED,
        ),
        *press_step(stage, measured=True),
    ]


def teach_corners(stage: Stage, lesson: Lesson) -> list[Step]:
    """The corner triangles, after the rows where those are still to be joined."""
    facts, s = stage.work.facts, lesson.allowance
    rows = teach_rows(stage, lesson)[:3] if facts["rows"] else []
    return [
        *rows,
        step_of(
            stage,
            "mark",
            "Fold the long side of each corner triangle and each edge it goes on in half, and crease the middle.",
            "The creases show where centre meets centre.",
        ),
        step_of(
            stage,
            "corners",
            f"Sew {with_article(facts['cloth'])} corner triangle to each corner, centre on centre, with {s} allowance.",
            "Centre on centre, its tips stick out equally at both ends.",
            hazards=(NEEDLE,),
            tools=PINNED,
        ),
        *press_step(stage),
        step_of(
            stage,
            "trim",
            f"Trim the edges straight, {s} outside the points of the blocks.",
            "The allowance beyond the points matters more than the outer size: without it the next seam cuts "
            "them off.",
            hazards=(CUTTER,),
            tools=CUTTING_SET,
            measured=True,
        ),
    ]


def teach_whole_cloth(stage: Stage, lesson: Lesson) -> list[Step]:
    """A top without seams."""
    facts = stage.work.facts
    how = "and its panels are joined" if facts["pieced"] else "and nothing is pieced"
    return [
        step_of(
            stage,
            "check",
            f"Measure the piece of {facts['cloth']}: it is the whole top, {how}.",
            f"The {lesson.allowance} allowance all round is in this size.",
            tools=("ruler",),
            measured=True,
        )
    ]
