"""Steps that lay a ring of blades on its background, stitch it down and cover its hole."""

from __future__ import annotations

from fractions import Fraction

from service.craft.measure import round_to_ruler
from service.craft.planar.round_shapes import POINTED
from workers.sewing.fan_blade_sizes import RingSteps
from workers.sewing.plan import Stage
from workers.sewing.steps.hazards import IRON, NEEDLE, SHEARS
from workers.sewing.steps.small_units import MACHINE, PRESSING, step_of
from workers.sewing.steps.step import Lesson, Step

PINNED = (*MACHINE, "pins")


def say_length(length: Fraction, lesson: Lesson) -> str:
    """A length as near as a ruler shows it."""
    return lesson.length(round_to_ruler(length, lesson.project.measure))


def place_ring(stage: Stage, ring: RingSteps, lesson: Lesson) -> list[Step]:
    """The ring on its creased background."""
    groups = ring.groups
    creases = {
        4: "the seams between its quarters on the creases, ",
        2: "the seams between its halves on one crease, ",
    }
    gaps = [say_length(gap, lesson) for gap in ring.edge_gap]
    where = ""
    if len(groups) == 4 and ring.equal:
        sides = gaps[0] if gaps[0] == gaps[1] else f"{gaps[0]} at the sides, {gaps[1]} above and below"
        where = f" From the cut edges of the background to the nearest tips it is {sides}."
    cloth = stage.work.facts["background"]
    return [
        step_of(
            stage,
            "crease",
            f"Crease the {cloth} background by folding it in half both ways.",
            "The creases are two straight lines that the ring is held against.",
        ),
        step_of(
            stage,
            "place",
            f"Lay the ring on the background, both right sides up, {creases.get(len(groups), '')}the middle of the "
            f"hole where the creases cross.{where}",
            "So it lies in the middle and straight.",
            tools=("ruler",),
        ),
        step_of(
            stage,
            "pin",
            "Pin every second blade.",
            "Nothing moves under the machine.",
            tools=("pins",),
        ),
    ]


def stitch_down(stage: Stage, ring: RingSteps) -> Step:
    """Its outer edge."""
    turns = "at every point and in every hollow" if ring.tips == POINTED else "wherever two blades meet"
    return step_of(
        stage,
        "stitch",
        "Stitch the outer edge of the ring to the background by machine, with straight stitches close to the edge or "
        f"narrow zigzag ones that just bite into it. Turn with the needle down, {turns}.",
        "The background stays whole under the ring, so nothing stretches while you sew.",
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
            f"Cut a card on the dashed line of template {facts['centre letter']}.",
            "It has the finished size of the centre.",
            hazards=(SHEARS,),
            tools=("card", "scissors"),
        ),
        step_of(
            stage,
            "disc-gather",
            f"Sew long stitches in the allowance of the {facts['centre']} centre, all the way round.",
            "This thread draws the edge in.",
            hazards=(NEEDLE,),
            tools=MACHINE,
        ),
        step_of(
            stage,
            "disc-draw-up",
            "Draw the thread up round the card, which lies on the back of the centre.",
            f"Drawn over a card, the {lesson.allowance} allowance turns under evenly and the edge is round.",
            tools=("card",),
        ),
        step_of(
            stage,
            "disc",
            "Press the centre over the card. The card comes out afterwards.",
            "Pressed, the fold keeps its shape without it.",
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
            f"Pin the centre over the hole, {covers} over the narrow cut edges all round.",
            "It goes on last and hides every cut edge of the ring.",
            tools=("pins",),
        ),
        step_of(
            stage,
            "cover",
            "Sew its edge down as you sewed the edge of the ring.",
            "The whole is closed.",
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
            "Press the whole face down on a soft cloth.",
            "On a soft cloth the seams of the ring are not pressed flat. Stitching can draw the background in: steam "
            "eases it out again.",
            hazards=(IRON,),
            tools=PRESSING,
        ),
        step_of(
            stage,
            "check",
            "Measure the whole from edge to edge, both ways.",
            "What is not trimmed yet can still be eased.",
            tools=("ruler",),
            measured=True,
        ),
    ]
