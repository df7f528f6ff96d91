"""Steps for what is joined: rows, rows of rows, borders, diagonal rows and their triangles."""

from __future__ import annotations

from service.craft.language import mark, phrase
from service.craft.measure import round_to_ruler
from workers.sewing.names import with_article
from workers.sewing.plan import Stage
from workers.sewing.steps.hazards import CUTTER, NEEDLE
from workers.sewing.steps.small_units import CUTTING_SET, MACHINE, make_copies, press_step, step_of
from workers.sewing.steps.step import Lesson, Step, sentences
from workers.sewing.works import Work

PINNED = (*MACHINE, "pins")
EDGES = {
    "left and right": mark("the left and the right edge"),
    "top and bottom": mark("the top and the bottom edge"),
}
"""The edges that the strips of a pair go on, by where the pair lies."""

ENDS = (mark("both ends"), mark("the left end"), mark("the right end"))
"""Where side triangles are sewn to a diagonal row, as its facts say."""


def teach_row(stage: Stage, lesson: Lesson) -> list[Step]:
    """Lay out, sew side by side, press."""
    facts = stage.work.facts
    if facts["sashing"] or facts.get("squares"):
        laid = phrase(
            "Lay the {count} strips and squares in order, as the drawing shows.", count=facts["parts"]
        )
    else:
        laid = phrase("Lay the {count} parts in order, as the drawing shows.", count=facts["parts"])
    return [
        step_of(
            stage,
            "lay",
            sentences(laid, make_copies(stage)),
            phrase("Laid out first, a unit that is turned the wrong way shows before it is sewn in."),
        ),
        step_of(
            stage,
            "sew",
            phrase(
                "Sew them side by side with {allowance} allowance, from the left.", allowance=lesson.allowance
            ),
            phrase("One allowance all along gives rows that are equally long."),
            more=phrase(
                "The second lies on the first, right sides together, edges level; the seam runs from edge "
                "to edge."
            ),
            hazards=(NEEDLE,),
            tools=PINNED,
        ),
        *press_step(stage, measured=True),
    ]


def teach_rows(stage: Stage, lesson: Lesson) -> list[Step]:
    """Lay out, pin where seams cross, sew row to row, press."""
    rows = sum(isinstance(item.piece, Work) for item in stage.work.items)
    how, reason = _order_of_rows(rows, lesson.allowance)
    return [
        step_of(
            stage,
            "lay",
            sentences(phrase("Lay the rows in order, as the drawing shows."), make_copies(stage)),
            phrase("A row that is turned the wrong way shows before it is sewn on."),
        ),
        step_of(
            stage,
            "pin",
            phrase("Pin two neighbours right sides together, on both sides of every crossing."),
            phrase("Where two seams nest you feel them lock. The pins keep them there."),
            tools=("pins",),
        ),
        step_of(
            stage,
            "sew",
            how,
            reason,
            more=phrase(
                "Where many seams cross, sew from the middle outwards: a small difference then does not add "
                "up at one end."
            ),
            hazards=(NEEDLE,),
            tools=PINNED,
        ),
        *press_step(stage, measured=True),
    ]


def _order_of_rows(rows: int, s: str) -> tuple[str, str]:
    """Which rows are sewn to which first, and why. `s` is the allowance in words."""
    if rows == 2:
        return (
            phrase("Sew the two rows to each other with {allowance} allowance.", allowance=s),
            phrase("Pinned at the crossings, they cannot slide apart under the needle."),
        )
    if rows == 3:
        return (
            phrase("Sew row 2 to row 1, then row 3 to row 2, with {allowance} allowance.", allowance=s),
            phrase("One after the other, every row meets its own neighbour."),
        )
    return (
        phrase(
            "Sew the rows to each other, two by two, then the pairs, with {allowance} allowance.", allowance=s
        ),
        phrase("Joined in pairs, the pieces under the needle stay small for longest."),
    )


def teach_border_pair(stage: Stage, lesson: Lesson) -> list[Step]:
    """Measure through the middle, pin the middle and the ends, sew, press."""
    facts = stage.work.facts
    strips = (
        phrase("the strips with {cloth} squares", cloth=facts["squares"])
        if facts["squares"]
        else phrase("two {cloth} strips", cloth=facts["cloth"])
    )
    first = facts["nth"] == "first"
    reason = (
        phrase("The pair sewn first is the shorter one: the second pair runs over its ends.")
        if first and not facts["squares"]
        else phrase("Pinned at the middle and the ends, the strip keeps the edge from growing wavy.")
    )
    measuring = [] if facts["squares"] else _measure_middle(stage, lesson)
    crossing = (
        phrase("Pin where the squares' seams meet the seams of the first pair.") if facts["squares"] else ""
    )
    return [
        *measuring,
        step_of(
            stage,
            "pin",
            sentences(
                phrase(
                    "Pin {strips} to {edges}, right sides together: the middle, the ends, then between.",
                    strips=strips,
                    edges=phrase(EDGES[facts["pair"]]),
                ),
                crossing,
            ),
            reason,
            more=phrase(
                "Where the edge is a little longer than the strip, spread it along the strip. Never stretch "
                "the strip."
            ),
            tools=("pins",),
        ),
        step_of(
            stage,
            "sew",
            phrase(
                "Sew both strips on with {allowance} allowance, the strip uppermost.",
                allowance=lesson.allowance,
            ),
            phrase(
                "The machine takes up a little of the lower layer, which is the one that has more to give."
            ),
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
    planned = lesson.length(whole)
    return [
        step_of(
            stage,
            "measure",
            phrase(
                "Measure from top to bottom through the middle of what you have, not along its edge: "
                "{length} is planned.",
                length=planned,
            )
            if upright
            else phrase(
                "Measure from left to right through the middle of what you have, not along its edge: "
                "{length} is planned.",
                length=planned,
            ),
            phrase("Edges stretch, the middle does not."),
            tools=("tape measure",),
        ),
        step_of(
            stage,
            "trim-strips",
            phrase("Trim both strips to the length you measured."),
            phrase(
                "They were cut to {length}. Two strips of one length keep the corners square.",
                length=lesson.length(cut),
            ),
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
            phrase(
                "Pin {a_cloth} strip to each side, middle on middle; the ends hang over equally.",
                a_cloth=with_article(cloth),
            ),
            phrase("The overhang is what the mitred corners are made of."),
            tools=("pins",),
        ),
        step_of(
            stage,
            "sew",
            phrase(
                "Sew each strip on with {allowance} allowance. Begin and stop {allowance} before the corner.",
                allowance=s,
            ),
            phrase("The corner stays free, so that the strips can turn there."),
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
            phrase("Fold the top on the slant, right sides together, so that two strips lie on each other."),
            phrase("The fold shows where the slanting seam will run."),
            tools=("pins",),
        ),
        step_of(
            stage,
            "draw-mitre",
            phrase("Draw a line on the upper strip, from the end of its seam outwards, as the fold goes on."),
            phrase("Your seam follows it."),
            tools=("marking pencil", "ruler"),
        ),
        step_of(
            stage,
            "mitre",
            phrase("Sew on this line, from the inner corner out."),
            phrase("The seam continues the fold, and the corner comes out mitred."),
            hazards=(NEEDLE,),
            tools=PINNED,
        ),
        step_of(
            stage,
            "look-mitre",
            phrase("Open the top and look whether the corner lies flat."),
            phrase("As long as nothing is trimmed, the seam can be unpicked and sewn again."),
        ),
        step_of(
            stage,
            "trim",
            phrase("Trim the ends of the strips {allowance} outside the slanting seam.", allowance=s),
            phrase("Once it is trimmed, it cannot be sewn again."),
            hazards=(CUTTER,),
            tools=CUTTING_SET,
        ),
    ]


def teach_diagonal_row(stage: Stage, lesson: Lesson) -> list[Step]:
    """Side triangles at the ends of a row."""
    facts = stage.work.facts
    larger = (
        phrase("They are cut {extra} larger and trimmed at the end.", extra=facts["extra"])
        if facts["extra"]
        else ""
    )
    return [
        step_of(
            stage,
            "sew",
            sentences(
                phrase(
                    "Sew {a_cloth} side triangle to {ends} of the row with {allowance} allowance, as the "
                    "drawing shows.",
                    a_cloth=with_article(facts["cloth"]),
                    ends=phrase(facts["ends"]),
                    allowance=lesson.allowance,
                ),
                larger,
                make_copies(stage),
            ),
            phrase(
                "The triangle's long side comes to lie on the edge of the top. The threads run straight "
                "there, so the edge does not stretch."
            ),
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
            phrase(
                "Fold the long side of each corner triangle and each edge it goes on in half, and crease "
                "the middle."
            ),
            phrase("The creases show where centre meets centre."),
        ),
        step_of(
            stage,
            "corners",
            phrase(
                "Sew {a_cloth} corner triangle to each corner, centre on centre, with {allowance} allowance.",
                a_cloth=with_article(facts["cloth"]),
                allowance=s,
            ),
            phrase("Centre on centre, its tips stick out equally at both ends."),
            hazards=(NEEDLE,),
            tools=PINNED,
        ),
        *press_step(stage),
        step_of(
            stage,
            "trim",
            phrase("Trim the edges straight, {allowance} outside the points of the blocks.", allowance=s),
            phrase(
                "The allowance beyond the points matters more than the outer size: without it the next seam "
                "cuts them off."
            ),
            hazards=(CUTTER,),
            tools=CUTTING_SET,
            measured=True,
        ),
    ]


def teach_whole_cloth(stage: Stage, lesson: Lesson) -> list[Step]:
    """A top without seams."""
    facts = stage.work.facts
    return [
        step_of(
            stage,
            "check",
            phrase(
                "Measure the piece of {cloth}: it is the whole top, and its panels are joined.",
                cloth=facts["cloth"],
            )
            if facts["pieced"]
            else phrase(
                "Measure the piece of {cloth}: it is the whole top, and nothing is pieced.",
                cloth=facts["cloth"],
            ),
            phrase("The {allowance} allowance all round is in this size.", allowance=lesson.allowance),
            tools=("ruler",),
            measured=True,
        )
    ]
