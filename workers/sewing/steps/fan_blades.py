"""Steps for rings of blades: the tips, the ring, its place on the background, the disc over its hole."""

from __future__ import annotations

from fractions import Fraction

from service.craft.language import join_words, phrase
from service.craft.measure import MM_PER_INCH
from service.craft.planar.round_shapes import POINTED, ROUND
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
from workers.sewing.steps.hazards import IRON, NEEDLE, SHEARS
from workers.sewing.steps.small_units import MACHINE, PRESSING, step_of
from workers.sewing.steps.step import Lesson, Step, sentences

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


def _make_tips(stage: Stage, ring: RingSteps, lesson: Lesson) -> list[Step]:
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
    tip = say_length(ring.tip_length, lesson)
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
        step_of(
            stage,
            "turn",
            sentences(phrase("Press the tip flat."), measured),
            phrase(
                "Both edges of the tip then slant by 45 degrees. A tip is half as long as its blade is wide "
                "where it begins: {length} when it is sewn in.",
                length=tip,
            )
            if ring.equal
            else phrase(
                "Both edges of the tip then slant by 45 degrees. A tip is half as long as its blade is wide "
                "where it begins."
            ),
            hazards=(IRON,),
            tools=PRESSING,
        ),
    ]


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
