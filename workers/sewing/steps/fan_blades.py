"""Steps for rings of blades: the tips, the ring, its place on the background, the disc over its hole."""

from __future__ import annotations

from fractions import Fraction

from service.craft.measure import MM_PER_INCH
from service.craft.planar.round_shapes import POINTED, ROUND
from workers.sewing.fan_blade_sizes import RingSteps, read_ring
from workers.sewing.names import listed
from workers.sewing.plan import Stage
from workers.sewing.steps.fan_blade_laying import (
    PINNED,
    check_whole,
    cover_hole,
    make_disc,
    place_ring,
    say_length,
    stitch_down,
)
from workers.sewing.steps.hazards import IRON, NEEDLE, SHEARS
from workers.sewing.steps.small_units import MACHINE, PRESSING, step_of
from workers.sewing.steps.step import Lesson, Step

OFF = {"in": Fraction(1, 32), "mm": Fraction(1, 2) / MM_PER_INCH, "cm": Fraction(1, 2) / MM_PER_INCH}
"""An error of the seam (inches) whose consequences are told: two threads of a cloth with 60 to the inch."""


def teach_fan_blades(stage: Stage, lesson: Lesson) -> list[Step]:
    """Lay out, make the tips, sew the ring, look whether it lies flat, stitch it down, cover the hole."""
    ring = read_ring(stage.work.facts, lesson.project.seam_allowance)
    return [
        _lay_out(stage, ring),
        *_make_tips(stage, ring, lesson),
        _sew_pairs(stage, ring, lesson),
        _sew_groups(stage, ring, lesson),
        _press(stage),
        *_look_at_groups(stage, ring, lesson),
        *_close(stage, ring, lesson),
        _look_at_ring(stage, ring, lesson),
        *place_ring(stage, ring, lesson),
        stitch_down(stage, ring),
        *make_disc(stage, lesson),
        *cover_hole(stage, ring, lesson),
        *check_whole(stage),
    ]


def _lay_out(stage: Stage, ring: RingSteps) -> Step:
    facts = stage.work.facts
    turn = " in turn" if facts["in turn"] and ring.equal else ""
    copies = f" Make {stage.count} rings, all alike." if stage.count > 1 else ""
    return step_of(
        stage,
        "lay",
        f"Lay out the {ring.blades} blades in a ring, {facts['cloths']}{turn}, as the drawing shows, with a seam at "
        f"the upper middle.{copies}",
        "Laid out first, no cloth comes to lie beside itself by mistake.",
    )


def _make_tips(stage: Stage, ring: RingSteps, lesson: Lesson) -> list[Step]:
    length = (
        f" It then measures {say_length(ring.blade_length, lesson)} from the narrow cut edge to"
        if ring.equal
        else ""
    )
    if ring.tips == POINTED:
        return _fold_points(stage, ring, lesson, f"{length} the point." if length else "")
    if ring.tips == ROUND:
        return _round_ends(stage, lesson, f"{length} the top of the curve." if length else "")
    return _fold_ends(stage, lesson, f"{length} the fold." if length else "")


def _fold_points(stage: Stage, ring: RingSteps, lesson: Lesson, length: str) -> list[Step]:
    tip = say_length(ring.tip_length, lesson)
    return [
        step_of(
            stage,
            "fold-half",
            "Fold each blade in half lengthwise, right sides together.",
            "Its two long edges lie level.",
        ),
        step_of(
            stage,
            "fold",
            f"Sew straight across the wide end of each blade with {lesson.allowance} "
            "allowance, from the fold outwards. "
            "Chain piecing does them all in one go.",
            "Turned right side out, this short seam makes the point.",
            more="Sew two stitches back at the fold, where the turning pulls most.",
            hazards=(NEEDLE,),
            tools=MACHINE,
        ),
        step_of(
            stage,
            "clip",
            "Cut the corner of the allowance off at the fold, not into the stitches.",
            "With less cloth inside, the point comes out sharp.",
            hazards=(SHEARS,),
            tools=("scissors",),
        ),
        step_of(
            stage,
            "turn-out",
            "Turn the tip right side out, with something blunt to push the point out.",
            "The seam comes to lie along the middle of the back.",
            tools=("a blunt stick",),
        ),
        step_of(
            stage,
            "turn",
            f"Press the tip flat.{length}",
            "Both edges of the tip then slant by 45 degrees. A tip is half as long as its blade is wide where it "
            f"begins{f': {tip} when it is sewn in' if ring.equal else ''}.",
            hazards=(IRON,),
            tools=PRESSING,
        ),
    ]


def _fold_ends(stage: Stage, lesson: Lesson, length: str) -> list[Step]:
    return [
        step_of(
            stage,
            "turn",
            f"Press {lesson.allowance} along the wide end of each blade to the back.{length}",
            "The outer edge is done before the blades are joined, so that no seam has to be opened for it.",
            hazards=(IRON,),
            tools=PRESSING,
        ),
        step_of(
            stage,
            "clip",
            "Cut off what now sticks out at the sides.",
            "A blade is wider at its end than where the fold lies.",
            hazards=(SHEARS,),
            tools=("scissors",),
        ),
    ]


def _round_ends(stage: Stage, lesson: Lesson, length: str) -> list[Step]:
    letters = stage.work.facts["letters"].split()
    card = (
        f"Cut a card on the dashed line of template {letters[0]}."
        if len(letters) == 1
        else f"Cut cards on the dashed lines of the templates {listed(letters)}, one of each."
    )
    return [
        step_of(
            stage,
            "card",
            card,
            "Over a card every curve comes out alike, without corners.",
            hazards=(SHEARS,),
            tools=("card", "scissors"),
        ),
        step_of(
            stage,
            "gather",
            "Sew a line of long stitches in the allowance of each rounded end.",
            "This thread draws the edge in.",
            hazards=(NEEDLE,),
            tools=MACHINE,
        ),
        step_of(
            stage,
            "draw-up",
            "Draw the thread up round its card, which lies on the back of the blade.",
            "The allowance folds itself over the edge of the card.",
            tools=("card",),
        ),
        step_of(
            stage,
            "turn",
            f"Press the curve flat over the card. The card comes out afterwards.{length}",
            "Pressed over the card, the fold keeps its shape without it.",
            hazards=(IRON,),
            tools=PRESSING,
        ),
    ]


def _sew_pairs(stage: Stage, ring: RingSteps, lesson: Lesson) -> Step:
    level = "the outer ends of their sides level" if ring.equal else "their narrow cut edges level"
    left = " One is left over." if ring.blades % 2 else ""
    chain = "again" if ring.tips == POINTED else "does them all in one go"
    return step_of(
        stage,
        "pairs",
        f"Sew neighbouring blades in pairs, right sides together, {level}, with {lesson.allowance} allowance from the "
        f"outer end to the narrow one: chain piecing {chain}.{left}",
        "The outer end is the one that shows, so it is matched first."
        if ring.equal
        else "Blades of different widths end at different heights; at the narrow ends they are level.",
        more="Sew two stitches back at the outer end, and keep the allowance even all the way: a ring has many seams, "
        "and each counts twice.",
        hazards=(NEEDLE,),
        tools=PINNED,
    )


def _sew_groups(stage: Stage, ring: RingSteps, lesson: Lesson) -> Step:
    groups = ring.groups
    if not groups:
        text = "Join the pairs to each other until about a quarter of the ring is together, and so all round."
    else:
        name = "quarters" if len(groups) == 4 else "halves"
        counts = f"{groups[0]} blades each" if len(set(groups)) == 1 else "as the drawing shows"
        text = f"Join the pairs to {name} of the ring, {counts}, with {lesson.allowance} allowance."
    why = "In small groups an error shows while it is still easy to mend."
    return step_of(stage, "groups", text, why, hazards=(NEEDLE,), tools=PINNED)


def _press(stage: Stage) -> Step:
    return step_of(
        stage,
        "press",
        "Press all seams the same way round, to the sides where their wedges stand in the drawing.",
        "All one way round, the allowances lie in even steps, and the last seams of the ring fall in with them.",
        more="Press from the narrow end outwards, and do not pull: the long edges of a blade lie slightly on the bias.",
        hazards=(IRON,),
        tools=PRESSING,
    )


def _look_at_groups(stage: Stage, ring: RingSteps, lesson: Lesson) -> list[Step]:
    """A quarter is a right angle, a half a straight line, whatever the width of the allowance."""
    groups, off = ring.groups, OFF[lesson.project.measure]
    if not groups:
        return []
    quarter = len(groups) == 4
    one = "quarter" if quarter else "half"
    lies = (
        "its two outer edges on a right angle" if quarter else "its two outer edges along one straight line"
    )
    far = say_length(ring.lost_round(off, min(groups) - 1), lesson)
    return [
        step_of(
            stage,
            "look-groups",
            f"Lay each {one} on the mat or a ruler with {lies}. If it is short of that, its allowances are too deep at "
            "the wide ends, or too shallow at the narrow ones; if it is past it, the other way round. "
            f"{lesson.length(off)} at the wide end of every allowance is {far} in a {one}.",
            "A sewn blade keeps its angle as long as each allowance is as deep at one end as at the other.",
            tools=("ruler",),
        )
    ]


def _close(stage: Stage, ring: RingSteps, lesson: Lesson) -> list[Step]:
    groups = ring.groups
    parts = (
        "the quarters to halves, and the halves"
        if len(groups) == 4
        else "the halves"
        if groups
        else "all of it"
    )
    return [
        step_of(
            stage,
            "ring",
            f"Join {parts} to the ring with {lesson.allowance} allowance.",
            "Closed last, the ring can still be looked at while it lies open.",
            more="Before the last seam lay the ring down: its open edges meet without being pulled.",
            hazards=(NEEDLE,),
            tools=PINNED,
        ),
        step_of(
            stage,
            "press-ring",
            "Press these seams the same way round as the others.",
            "No seam of the ring then lies against its neighbours.",
            hazards=(IRON,),
            tools=PRESSING,
        ),
    ]


def _look_at_ring(stage: Stage, ring: RingSteps, lesson: Lesson) -> Step:
    off = OFF[lesson.project.measure]
    shown, round_about = lesson.length(off), say_length(ring.lost_round(off, ring.blades), lesson)
    across = ""
    if ring.equal and ring.blades % 2 == 0:
        smaller = say_length(2 * ring.moved_by(off), lesson)
        across = (
            f" Flat, it measures {lesson.length(2 * ring.reach)} across at its furthest. If it lies flat but is "
            f"smaller, the allowances are even and too deep: {shown} deeper each makes it {smaller} smaller."
        )
    return step_of(
        stage,
        "look-ring",
        "Lay the ring flat without pressing it down. If it stands up in the middle like a bowl, the allowances are too "
        "deep at the wide ends; if its edge ripples, they are too shallow there. "
        f"{shown} too much in every allowance there takes {round_about} from the way round: divide what is wrong by "
        f"{2 * ring.blades}, and sew the seams again by that.{across}",
        f"The angles of the blades make 360 degrees. Twice {ring.blades} allowances add up whatever is off in one.",
    )
