"""Steps for what is joined: rows, rows of rows, diagonal rows and their triangles."""

from __future__ import annotations

from service.craft.language import mark, phrase
from workers.sewing.names import with_article
from workers.sewing.plan import Stage
from workers.sewing.steps.hazards import CUTTER, NEEDLE
from workers.sewing.steps.stage_steps import CUTTING_SET, MACHINE, make_copies, press_step, step_of
from workers.sewing.steps.step import Lesson, Step, sentences
from workers.sewing.works import Work

PINNED = (*MACHINE, "pins")

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
