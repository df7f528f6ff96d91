"""Steps for eight-pointed stars: pairs, halves, the star, then triangles and squares set into its hollows."""

from __future__ import annotations

from service.craft.language import join_words, phrase, phrase_count
from service.craft.units.eight_pointed_star import POINTS
from workers.sewing.plan import Stage
from workers.sewing.steps.hazards import IRON, NEEDLE, RIPPER
from workers.sewing.steps.line_steps import check_and_trim
from workers.sewing.steps.stage_steps import MACHINE, MARKER, PRESSING, make_copies, step_of
from workers.sewing.steps.step import Facts, Lesson, Step, sentences

PINNED = (*MACHINE, "pins")


def teach_star(stage: Stage, lesson: Lesson) -> list[Step]:
    """Lay out, mark, sew the diamonds together, set the background in, check the points."""
    s = lesson.allowance
    return [
        _lay_out(stage),
        _mark(stage, s),
        *_sew_diamonds(stage, s),
        _loosen(stage),
        _press_diamonds(stage),
        *_set_in(stage),
        _press_set_in(stage),
        *check_and_trim(stage, s, phrase("each of the eight points")),
    ]


def _lay_out(stage: Stage) -> Step:
    facts = stage.work.facts
    cloths = join_words(dict.fromkeys([facts["first"], facts["second"]]))
    return step_of(
        stage,
        "lay",
        sentences(
            _say_in_turn(facts, cloths)
            if facts["cloths"] == "2"
            else phrase(
                "Lay out 8 diamonds of {cloth} with their sharp ends in the middle. Round them lay 4 "
                "triangles and 4 squares of {background}, as the drawing shows.",
                cloth=cloths,
                background=facts["background"],
            ),
            make_copies(stage),
        ),
        phrase("The triangles lie at the edges with their long sides outwards, the squares in the corners."),
    )


def _say_in_turn(facts: Facts, cloths: str) -> str:
    """How a star of two cloths is laid."""
    return phrase(
        "Lay out 8 diamonds, {cloths} in turn, with their sharp ends in the middle. Round them lay 4 "
        "triangles and 4 squares of {background}, as the drawing shows, {first} at the right of the upper "
        "middle.",
        cloths=cloths,
        background=facts["background"],
        first=facts["first"],
    )


def _mark(stage: Stage, s: str) -> Step:
    return step_of(
        stage,
        "mark",
        phrase(
            "On the back mark the points where seams turn, {allowance} from both edges: at the two wide "
            "corners of each diamond, at the right angle of each triangle, at one corner of each square.",
            allowance=s,
        ),
        phrase(
            "In each of the eight hollows of the star three patches meet, and no seam runs straight through."
        ),
        tools=MARKER,
    )


def _sew_diamonds(stage: Stage, s: str) -> list[Step]:
    pairs = phrase_count("{number} pair", "{number} pairs", POINTS // 2 * stage.count)
    return [
        step_of(
            stage,
            "pairs",
            phrase(
                "Sew {pairs} of neighbouring diamonds, right sides together, from the middle of the star "
                "outwards, with {allowance} allowance. Stop exactly at the mark and sew two stitches back.",
                pairs=pairs,
                allowance=s,
            ),
            phrase("The allowance beyond the mark stays free, so that the background can turn there."),
            more=phrase("Two sides of each diamond are on the bias: pin them and do not pull."),
            speaks_of_bias=True,
            hazards=(NEEDLE,),
            tools=PINNED,
        ),
        step_of(
            stage,
            "halves",
            phrase("Sew two pairs to each other in the same way: this is half a star."),
            phrase(
                "Along the edge of the half four sharp ends meet in one point, and the edge runs straight "
                "through it."
            ),
            hazards=(NEEDLE,),
            tools=PINNED,
        ),
        step_of(
            stage,
            "pin-star",
            phrase("Pin two halves right sides together where the sharp ends meet."),
            phrase("A pin through both shows whether the points lie on each other."),
            tools=("pins",),
        ),
        step_of(
            stage,
            "star",
            phrase("Sew from mark to mark, straight through the middle."),
            phrase("In one seam all eight points come together."),
            hazards=(NEEDLE,),
            tools=PINNED,
        ),
    ]


def _loosen(stage: Stage) -> Step:
    """The stitches that would keep the last seam from turning over at the middle."""
    return step_of(
        stage,
        "loosen-star",
        phrase(
            "At the middle take out the few stitches of the last seam that lie in the allowance of the "
            "others."
        ),
        phrase("Without them it can turn over there, and all allowances fall the same way round."),
        hazards=(RIPPER,),
        tools=("seam ripper",),
    )


def _press_diamonds(stage: Stage) -> Step:
    return step_of(
        stage,
        "press-diamonds",
        phrase(
            "Press the seams between the diamonds all the same way round the middle, as the wedges in the "
            "drawing show."
        ),
        phrase("The allowances of eight points do not pile up but spread in a ring."),
        hazards=(IRON,),
        tools=PRESSING,
    )


def _set_in(stage: Stage) -> list[Step]:
    cloth = stage.work.facts["background"]
    return [
        step_of(
            stage,
            "set-in-triangles",
            phrase(
                "Set in the {cloth} triangles, one into every second hollow: sew one short side from the "
                "outer edge up to the mark, turn there with the needle down and the foot up, and sew on to "
                "the edge, the next two edges level.",
                cloth=cloth,
            ),
            phrase("Sewn in one go, the hollow closes without a hole or a fold."),
            more=phrase(
                "This makes 8 set-in corners in each star, {points} in all, with the squares.",
                points=POINTS * stage.count,
            )
            if stage.count > 1
            else phrase("With the squares this makes 8 set-in corners."),
            hazards=(NEEDLE,),
            tools=PINNED,
        ),
        step_of(
            stage,
            "set-in-squares",
            phrase(
                "Set the {cloth} squares into the other four hollows in the same way, the marked corner in "
                "the hollow.",
                cloth=cloth,
            ),
            phrase("The squares have straight edges and hold the corners of the block square."),
            hazards=(NEEDLE,),
            tools=PINNED,
        ),
    ]


def _press_set_in(stage: Stage) -> Step:
    cloth = stage.work.facts["background"]
    outwards = {seam.towards for seam in stage.seams[POINTS:]} == {cloth}
    return step_of(
        stage,
        "press",
        phrase("Press the set-in seams towards the {cloth}.", cloth=cloth)
        if outwards
        else phrase("Press each set-in seam to the side where its wedge stands in the drawing."),
        phrase("Away from the diamonds, the points of the star stay thin.")
        if outwards
        else phrase("Seams that meet later then lie to opposite sides and nest."),
        more=phrase("Press from the hollow outwards, and do not pull the edges."),
        hazards=(IRON,),
        tools=PRESSING,
    )
