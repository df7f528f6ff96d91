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


def place_ring(stage: Stage, ring: RingSteps, lesson: Lesson) -> Step:
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
    return step_of(
        stage,
        "place",
        f"Fold the {cloth} background in half both ways and crease it. Lay the ring on it, both right sides up, "
        f"{creases.get(len(groups), '')}the middle of the hole where the creases cross, and pin every second blade."
        f"{where}",
        "The creases are two straight lines that the ring is held against.",
        more="Then baste it, so that nothing moves under the machine.",
        tools=("iron", "pins"),
        hazards=(IRON,),
    )


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


def make_disc(stage: Stage, lesson: Lesson) -> Step:
    """The disc, its allowance drawn under over a card."""
    facts = stage.work.facts
    return step_of(
        stage,
        "disc",
        f"Cut a card on the dashed line of template {facts['centre letter']}. Sew long stitches in the allowance of "
        f"the {facts['centre']} centre, lay the card on its back, draw the thread up, press, and take the card out.",
        f"Drawn over a card, the {lesson.allowance} allowance turns under evenly and the edge is round.",
        hazards=(SHEARS, NEEDLE, IRON),
        tools=("card", "scissors", *MACHINE, *PRESSING),
    )


def cover_hole(stage: Stage, ring: RingSteps, lesson: Lesson) -> Step:
    """The disc over the hole."""
    covers = say_length(ring.core - max(ring.opening, Fraction(0)), lesson)
    return step_of(
        stage,
        "cover",
        f"Lay the centre over the hole, {covers} over the narrow cut edges all round, pin it, and stitch its edge down "
        "in the same way.",
        "It goes on last and hides every cut edge of the ring.",
        hazards=(NEEDLE,),
        tools=PINNED,
    )


def check_whole(stage: Stage) -> Step:
    """The finished unit, pressed and measured."""
    return step_of(
        stage,
        "check",
        "Press the whole face down on a soft cloth, and measure it.",
        "On a soft cloth the seams of the ring are not pressed flat. Stitching can draw the background in: steam eases "
        "it out again before anything is trimmed.",
        hazards=(IRON,),
        tools=PRESSING,
        measured=True,
    )
