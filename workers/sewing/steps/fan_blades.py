"""Steps for rings of blades: laid out, sewn to a ring, looked at; tips, background and disc have rooms of their own."""

from __future__ import annotations

from fractions import Fraction

from service.craft.language import phrase
from service.craft.measure import MM_PER_INCH
from service.craft.planar.round_shapes import POINTED
from workers.sewing.fan_blade_sizes import RingSteps, read_ring
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
from workers.sewing.steps.fan_blade_tips import make_tips
from workers.sewing.steps.hazards import IRON, NEEDLE
from workers.sewing.steps.stage_steps import PRESSING, step_of
from workers.sewing.steps.step import Lesson, Step, sentences

OFF = {"in": Fraction(1, 32), "mm": Fraction(1, 2) / MM_PER_INCH, "cm": Fraction(1, 2) / MM_PER_INCH}
"""An error of the seam (inches) whose consequences are told: two threads of a cloth with 60 to the inch."""


def teach_fan_blades(stage: Stage, lesson: Lesson) -> list[Step]:
    """Lay out, make the tips, sew the ring, look whether it lies flat, stitch it down, cover the hole."""
    ring = read_ring(stage.work.facts, lesson.project.seam_allowance)
    return [
        _lay_out(stage, ring),
        *make_tips(stage, ring, lesson),
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
    cloths = facts["cloths"]
    if facts["in turn"] and ring.equal:
        cloths = phrase("{cloths} in turn", cloths=cloths)
    copies = phrase("Make {count} rings, all alike.", count=stage.count) if stage.count > 1 else ""
    return step_of(
        stage,
        "lay",
        sentences(
            phrase(
                "Lay out the {count} blades in a ring, {cloths}, as the drawing shows, with a seam at the "
                "upper middle.",
                count=ring.blades,
                cloths=cloths,
            ),
            copies,
        ),
        phrase("Laid out first, no cloth comes to lie beside itself by mistake."),
    )


def _sew_pairs(stage: Stage, ring: RingSteps, lesson: Lesson) -> Step:
    if ring.equal:
        text = phrase(
            "Sew neighbouring blades in pairs, right sides together, the outer ends of their sides level, "
            "with {allowance} allowance from the outer end to the narrow one",
            allowance=lesson.allowance,
        )
    else:
        text = phrase(
            "Sew neighbouring blades in pairs, right sides together, their narrow cut edges level, with "
            "{allowance} allowance from the outer end to the narrow one",
            allowance=lesson.allowance,
        )
    left = phrase("One is left over.") if ring.blades % 2 else ""
    again = ring.tips == POINTED
    chain = phrase("chain piecing again") if again else phrase("chain piecing does them all in one go")
    return step_of(
        stage,
        "pairs",
        sentences(f"{text}: {chain}.", left),
        phrase("The outer end is the one that shows, so it is matched first.")
        if ring.equal
        else phrase(
            "Blades of different widths end at different heights; at the narrow ends they are level."
        ),
        more=phrase(
            "Sew two stitches back at the outer end, and keep the allowance even all the way: a ring has "
            "many seams, and each counts twice."
        ),
        hazards=(NEEDLE,),
        tools=PINNED,
    )


def _sew_groups(stage: Stage, ring: RingSteps, lesson: Lesson) -> Step:
    groups = ring.groups
    if not groups:
        text = phrase(
            "Join the pairs to each other until about a quarter of the ring is together, and so all round."
        )
    else:
        counts = (
            phrase("{count} blades each", count=groups[0])
            if len(set(groups)) == 1
            else phrase("as the drawing shows")
        )
        s = lesson.allowance
        text = (
            phrase(
                "Join the pairs to quarters of the ring, {counts}, with {allowance} allowance.",
                counts=counts,
                allowance=s,
            )
            if len(groups) == 4
            else phrase(
                "Join the pairs to halves of the ring, {counts}, with {allowance} allowance.",
                counts=counts,
                allowance=s,
            )
        )
    why = phrase("In small groups an error shows while it is still easy to mend.")
    return step_of(stage, "groups", text, why, hazards=(NEEDLE,), tools=PINNED)


def _press(stage: Stage) -> Step:
    return step_of(
        stage,
        "press",
        phrase("Press all seams the same way round, to the sides where their wedges stand in the drawing."),
        phrase(
            "All one way round, the allowances lie in even steps, and the last seams of the ring fall in "
            "with them."
        ),
        more=phrase(
            "Press from the narrow end outwards, and do not pull: the long edges of a blade lie slightly on "
            "the bias."
        ),
        speaks_of_bias=True,
        hazards=(IRON,),
        tools=PRESSING,
    )


def _look_at_groups(stage: Stage, ring: RingSteps, lesson: Lesson) -> list[Step]:
    """A quarter is a right angle, a half a straight line, whatever the width of the allowance."""
    groups, off = ring.groups, OFF[lesson.project.measure]
    if not groups:
        return []
    far = say_length(ring.lost_round(off, min(groups) - 1), lesson)
    return [
        step_of(
            stage,
            "look-groups",
            _say_straight(len(groups) == 4, lesson.length(off), far),
            phrase(
                "A sewn blade keeps its angle as long as each allowance is as deep at one end as at the "
                "other."
            ),
            tools=("ruler",),
        )
    ]


def _say_straight(quarter: bool, length: str, far: str) -> str:
    """How a quarter or a half is looked at; `far` is what `length` in every allowance comes to."""
    if quarter:
        return phrase(
            "Lay each quarter on the mat or a ruler with its two outer edges on a right angle. If it is "
            "short of that, its allowances are too deep at the wide ends, or too shallow at the narrow "
            "ones; if it is past it, the other way round. {length} at the wide end of every allowance is "
            "{far} in a quarter.",
            length=length,
            far=far,
        )
    return phrase(
        "Lay each half on the mat or a ruler with its two outer edges along one straight line. If it is "
        "short of that, its allowances are too deep at the wide ends, or too shallow at the narrow ones; if "
        "it is past it, the other way round. {length} at the wide end of every allowance is {far} in a half.",
        length=length,
        far=far,
    )


def _close(stage: Stage, ring: RingSteps, lesson: Lesson) -> list[Step]:
    groups = ring.groups
    s = lesson.allowance
    if len(groups) == 4:
        text = phrase(
            "Join the quarters to halves, and the halves to the ring with {allowance} allowance.", allowance=s
        )
    elif groups:
        text = phrase("Join the halves to the ring with {allowance} allowance.", allowance=s)
    else:
        text = phrase("Join all of it to the ring with {allowance} allowance.", allowance=s)
    return [
        step_of(
            stage,
            "ring",
            text,
            phrase("Closed last, the ring can still be looked at while it lies open."),
            more=phrase("Before the last seam lay the ring down: its open edges meet without being pulled."),
            hazards=(NEEDLE,),
            tools=PINNED,
        ),
        step_of(
            stage,
            "press-ring",
            phrase("Press these seams the same way round as the others."),
            phrase("No seam of the ring then lies against its neighbours."),
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
        across = phrase(
            "Flat, it measures {length} across at its furthest. If it lies flat but is smaller, the "
            "allowances are even and too deep: {shown} deeper each makes it {smaller} smaller.",
            length=lesson.length(2 * ring.reach),
            shown=shown,
            smaller=smaller,
        )
    return step_of(
        stage,
        "look-ring",
        sentences(
            phrase(
                "Lay the ring flat without pressing it down. If it stands up in the middle like a bowl, the "
                "allowances are too deep at the wide ends; if its edge ripples, they are too shallow there. "
                "{shown} too much in every allowance there takes {round_about} from the way round: divide "
                "what is wrong by {count}, and sew the seams again by that.",
                shown=shown,
                round_about=round_about,
                count=2 * ring.blades,
            ),
            across,
        ),
        phrase(
            "The angles of the blades make 360 degrees. Twice {count} allowances add up whatever is off in "
            "one.",
            count=ring.blades,
        ),
    )
