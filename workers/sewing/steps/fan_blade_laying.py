"""Steps that lay a ring of blades on its background, stitch it down and cover its hole."""

from __future__ import annotations

from fractions import Fraction

from service.craft.language import phrase
from service.craft.measure import round_to_ruler
from service.craft.planar.round_shapes import POINTED
from workers.sewing.fan_blade_sizes import RingSteps
from workers.sewing.plan import Stage
from workers.sewing.steps.hazards import IRON, NEEDLE, SHEARS
from workers.sewing.steps.stage_steps import MACHINE, PRESSING, step_of
from workers.sewing.steps.step import Lesson, Step, sentences

PINNED = (*MACHINE, "pins")


def say_length(length: Fraction, lesson: Lesson) -> str:
    """A length as near as a ruler shows it."""
    return lesson.length(round_to_ruler(length, lesson.project.measure))


def place_ring(stage: Stage, ring: RingSteps, lesson: Lesson) -> list[Step]:
    """The ring on its creased background."""
    cloth = stage.work.facts["background"]
    return [
        step_of(
            stage,
            "crease",
            phrase("Crease the {cloth} background by folding it in half both ways.", cloth=cloth),
            phrase("The creases are two straight lines that the ring is held against."),
        ),
        step_of(
            stage,
            "place",
            sentences(_say_laid(len(ring.groups)), _say_edges(ring, lesson)),
            phrase("So it lies in the middle and straight."),
            tools=("ruler",),
        ),
        step_of(
            stage,
            "pin",
            phrase("Pin every second blade."),
            phrase("Nothing moves under the machine."),
            tools=("pins",),
        ),
    ]


def _say_laid(groups: int) -> str:
    """Where the ring lies, by the seams between its quarters or halves."""
    if groups == 4:
        return phrase(
            "Lay the ring on the background, both right sides up, the seams between its quarters on the "
            "creases, the middle of the hole where the creases cross."
        )
    if groups == 2:
        return phrase(
            "Lay the ring on the background, both right sides up, the seams between its halves on one "
            "crease, the middle of the hole where the creases cross."
        )
    return phrase(
        "Lay the ring on the background, both right sides up, the middle of the hole where the creases cross."
    )


def _say_edges(ring: RingSteps, lesson: Lesson) -> str:
    """How far the tips of an even ring are from the edges of the background; of another one nothing is said."""
    if len(ring.groups) != 4 or not ring.equal:
        return ""
    beside, above = (say_length(gap, lesson) for gap in ring.edge_gap)
    if beside == above:
        return phrase(
            "From the cut edges of the background to the nearest tips it is {length}.", length=beside
        )
    return phrase(
        "From the cut edges of the background to the nearest tips it is {beside} at the sides, {above} "
        "above and below.",
        beside=beside,
        above=above,
    )


def stitch_down(stage: Stage, ring: RingSteps) -> Step:
    """Its outer edge."""
    turns = (
        phrase("at every point and in every hollow")
        if ring.tips == POINTED
        else phrase("wherever two blades meet")
    )
    return step_of(
        stage,
        "stitch",
        phrase(
            "Stitch the outer edge of the ring to the background by machine, with straight stitches close "
            "to the edge or narrow zigzag ones that just bite into it. Turn with the needle down, {turns}.",
            turns=turns,
        ),
        phrase("The background stays whole under the ring, so nothing stretches while you sew."),
        hazards=(NEEDLE,),
        tools=MACHINE,
    )


def make_disc(stage: Stage, lesson: Lesson) -> list[Step]:
    """The disc, its allowance drawn under over a card."""
    facts = stage.work.facts
    return [
        step_of(
            stage,
            "disc-card",
            phrase("Cut a card on the dashed line of template {letter}.", letter=facts["centre letter"]),
            phrase("It has the finished size of the centre."),
            hazards=(SHEARS,),
            tools=("card", "scissors"),
        ),
        step_of(
            stage,
            "disc-gather",
            phrase(
                "Sew long stitches in the allowance of the {cloth} centre, all the way round.",
                cloth=facts["centre"],
            ),
            phrase("This thread draws the edge in."),
            hazards=(NEEDLE,),
            tools=MACHINE,
        ),
        step_of(
            stage,
            "disc-draw-up",
            phrase("Draw the thread up round the card, which lies on the back of the centre."),
            phrase(
                "Drawn over a card, the {allowance} allowance turns under evenly and the edge is round.",
                allowance=lesson.allowance,
            ),
            tools=("card",),
        ),
        step_of(
            stage,
            "disc",
            phrase("Press the centre over the card. The card comes out afterwards."),
            phrase("Pressed, the fold keeps its shape without it."),
            hazards=(IRON,),
            tools=PRESSING,
        ),
    ]


def cover_hole(stage: Stage, ring: RingSteps, lesson: Lesson) -> list[Step]:
    """The disc over the hole."""
    covers = say_length(ring.core - max(ring.opening, Fraction(0)), lesson)
    return [
        step_of(
            stage,
            "pin-cover",
            phrase(
                "Pin the centre over the hole, {covers} over the narrow cut edges all round.", covers=covers
            ),
            phrase("It goes on last and hides every cut edge of the ring."),
            tools=("pins",),
        ),
        step_of(
            stage,
            "cover",
            phrase("Sew its edge down as you sewed the edge of the ring."),
            phrase("The whole is closed."),
            hazards=(NEEDLE,),
            tools=PINNED,
        ),
    ]


def check_whole(stage: Stage) -> list[Step]:
    """The finished unit, pressed and measured."""
    return [
        step_of(
            stage,
            "press-whole",
            phrase("Press the whole face down on a soft cloth."),
            phrase(
                "On a soft cloth the seams of the ring are not pressed flat. Stitching can draw the "
                "background in: steam eases it out again."
            ),
            hazards=(IRON,),
            tools=PRESSING,
        ),
        step_of(
            stage,
            "check",
            phrase("Measure the whole from edge to edge, both ways."),
            phrase("What is not trimmed yet can still be eased."),
            tools=("ruler",),
            measured=True,
        ),
    ]
