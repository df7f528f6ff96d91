"""Steps for the tips of blades: folded to a point, folded flat, or drawn over a card."""

from __future__ import annotations

from service.craft.language import join_words, phrase
from service.craft.planar.round_shapes import POINTED, ROUND
from workers.sewing.fan_blade_sizes import RingSteps
from workers.sewing.plan import Stage
from workers.sewing.steps.fan_blade_laying import (
    say_length,
)
from workers.sewing.steps.hazards import IRON, NEEDLE, SHEARS
from workers.sewing.steps.stage_steps import MACHINE, PRESSING, step_of
from workers.sewing.steps.step import Lesson, Step, sentences


def make_tips(stage: Stage, ring: RingSteps, lesson: Lesson) -> list[Step]:
    """What is done to the wide end of each blade, and what a blade of an even ring then measures."""
    long = say_length(ring.blade_length, lesson)
    if ring.tips == POINTED:
        measured = phrase("It then measures {length} from the narrow cut edge to the point.", length=long)
        return _fold_points(stage, ring, lesson, measured if ring.equal else "")
    if ring.tips == ROUND:
        measured = phrase(
            "It then measures {length} from the narrow cut edge to the top of the curve.", length=long
        )
        return _round_ends(stage, lesson, measured if ring.equal else "")
    measured = phrase("It then measures {length} from the narrow cut edge to the fold.", length=long)
    return _fold_ends(stage, lesson, measured if ring.equal else "")


def _fold_points(stage: Stage, ring: RingSteps, lesson: Lesson, measured: str) -> list[Step]:
    return [
        step_of(
            stage,
            "fold-half",
            phrase("Fold each blade in half lengthwise, right sides together."),
            phrase("Its two long edges lie level."),
        ),
        step_of(
            stage,
            "fold",
            phrase(
                "Sew straight across the wide end of each blade with {allowance} allowance, from the fold "
                "outwards. Chain piecing does them all in one go.",
                allowance=lesson.allowance,
            ),
            phrase("Turned right side out, this short seam makes the point."),
            more=phrase("Sew two stitches back at the fold, where the turning pulls most."),
            hazards=(NEEDLE,),
            tools=MACHINE,
        ),
        step_of(
            stage,
            "clip",
            phrase("Cut the corner of the allowance off at the fold, not into the stitches."),
            phrase("With less cloth inside, the point comes out sharp."),
            hazards=(SHEARS,),
            tools=("scissors",),
        ),
        step_of(
            stage,
            "turn-out",
            phrase("Turn the tip right side out, with something blunt to push the point out."),
            phrase("The seam comes to lie along the middle of the back."),
            tools=("a blunt stick",),
        ),
        _press_tip(stage, ring, lesson, measured),
    ]


def _press_tip(stage: Stage, ring: RingSteps, lesson: Lesson, measured: str) -> Step:
    return step_of(
        stage,
        "turn",
        sentences(phrase("Press the tip flat."), measured),
        phrase(
            "Both edges of the tip then slant by 45 degrees. A tip is half as long as its blade is wide "
            "where it begins: {length} when it is sewn in.",
            length=say_length(ring.tip_length, lesson),
        )
        if ring.equal
        else phrase(
            "Both edges of the tip then slant by 45 degrees. A tip is half as long as its blade is wide "
            "where it begins."
        ),
        hazards=(IRON,),
        tools=PRESSING,
    )


def _fold_ends(stage: Stage, lesson: Lesson, measured: str) -> list[Step]:
    return [
        step_of(
            stage,
            "turn",
            sentences(
                phrase(
                    "Press {allowance} along the wide end of each blade to the back.",
                    allowance=lesson.allowance,
                ),
                measured,
            ),
            phrase(
                "The outer edge is done before the blades are joined, so that no seam has to be opened for "
                "it."
            ),
            hazards=(IRON,),
            tools=PRESSING,
        ),
        step_of(
            stage,
            "clip",
            phrase("Cut off what now sticks out at the sides."),
            phrase("A blade is wider at its end than where the fold lies."),
            hazards=(SHEARS,),
            tools=("scissors",),
        ),
    ]


def _round_ends(stage: Stage, lesson: Lesson, measured: str) -> list[Step]:
    letters = stage.work.facts["letters"].split()
    card = (
        phrase("Cut a card on the dashed line of template {letter}.", letter=letters[0])
        if len(letters) == 1
        else phrase(
            "Cut cards on the dashed lines of the templates {letters}, one of each.",
            letters=join_words(letters),
        )
    )
    return [
        step_of(
            stage,
            "card",
            card,
            phrase("Over a card every curve comes out alike, without corners."),
            hazards=(SHEARS,),
            tools=("card", "scissors"),
        ),
        step_of(
            stage,
            "gather",
            phrase("Sew a line of long stitches in the allowance of each rounded end."),
            phrase("This thread draws the edge in."),
            hazards=(NEEDLE,),
            tools=MACHINE,
        ),
        step_of(
            stage,
            "draw-up",
            phrase("Draw the thread up round its card, which lies on the back of the blade."),
            phrase("The allowance folds itself over the edge of the card."),
            tools=("card",),
        ),
        step_of(
            stage,
            "turn",
            sentences(phrase("Press the curve flat over the card. The card comes out afterwards."), measured),
            phrase("Pressed over the card, the fold keeps its shape without it."),
            hazards=(IRON,),
            tools=PRESSING,
        ),
    ]
