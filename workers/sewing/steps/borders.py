"""Steps for borders: pairs of strips, and strips with mitred corners."""

from __future__ import annotations

from service.craft.language import mark, phrase
from service.craft.measure import round_to_ruler
from workers.sewing.names import with_article
from workers.sewing.plan import Stage
from workers.sewing.steps.hazards import CUTTER, NEEDLE
from workers.sewing.steps.joins import PINNED
from workers.sewing.steps.stage_steps import CUTTING_SET, press_step, step_of
from workers.sewing.steps.step import Lesson, Step, sentences

EDGES = {
    "left and right": mark("the left and the right edge"),
    "top and bottom": mark("the top and the bottom edge"),
}
"""The edges that the strips of a pair go on, by where the pair lies."""


def teach_border_pair(stage: Stage, lesson: Lesson) -> list[Step]:
    """Measure through the middle, pin the middle and the ends, sew, press."""
    measuring = [] if stage.work.facts["squares"] else _measure_middle(stage, lesson)
    return [
        *measuring,
        _pin_strips(stage),
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


def _pin_strips(stage: Stage) -> Step:
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
    crossing = (
        phrase("Pin where the squares' seams meet the seams of the first pair.") if facts["squares"] else ""
    )
    return step_of(
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
    )


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
