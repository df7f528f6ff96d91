"""Steps for eight-pointed stars: pairs, halves, the star, then triangles and squares set into its hollows."""

from __future__ import annotations

from service.craft.units.eight_pointed_star import POINTS
from workers.sewing.names import listed
from workers.sewing.plan import Stage
from workers.sewing.steps.hazards import IRON, NEEDLE, RIPPER
from workers.sewing.steps.line_steps import check_and_trim
from workers.sewing.steps.small_units import MACHINE, MARKER, PRESSING, make_copies, step_of
from workers.sewing.steps.step import Lesson, Step, plural

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
        *check_and_trim(stage, s, "each of the eight points"),
    ]


def _lay_out(stage: Stage) -> Step:
    facts = stage.work.facts
    cloths = listed(dict.fromkeys([facts["first"], facts["second"]]))
    turn = f"8 diamonds, {cloths} in turn," if facts["cloths"] == "2" else f"8 diamonds of {cloths}"
    first = f", {facts['first']} at the right of the upper middle" if facts["cloths"] == "2" else ""
    return step_of(
        stage,
        "lay",
        f"Lay out {turn} with their sharp ends in the middle. Round them lay 4 triangles and 4 squares of "
        f"{facts['background']}, as the drawing shows{first}.{make_copies(stage)}",
        "The triangles lie at the edges with their long sides outwards, the squares in the corners.",
    )


def _mark(stage: Stage, s: str) -> Step:
    return step_of(
        stage,
        "mark",
        f"On the back mark the points where seams turn, {s} from both edges: at the two wide corners of each diamond, "
        "at the right angle of each triangle, at one corner of each square.",
        "In each of the eight hollows of the star three patches meet, and no seam runs straight through.",
        tools=MARKER,
    )


def _sew_diamonds(stage: Stage, s: str) -> list[Step]:
    pairs = plural(POINTS // 2 * stage.count, "pair")
    return [
        step_of(
            stage,
            "pairs",
            f"Sew {pairs} of neighbouring diamonds, right sides together, from the middle of the star "
            f"outwards, with {s} allowance. Stop exactly at the mark and sew two stitches back.",
            "The allowance beyond the mark stays free, so that the background can turn there.",
            more="Two sides of each diamond are on the bias: pin them and do not pull.",
            hazards=(NEEDLE,),
            tools=PINNED,
        ),
        step_of(
            stage,
            "halves",
            "Sew two pairs to each other in the same way: this is half a star.",
            "Along the edge of the half four sharp ends meet in one point, and the edge runs straight through it.",
            hazards=(NEEDLE,),
            tools=PINNED,
        ),
        step_of(
            stage,
            "pin-star",
            "Pin two halves right sides together where the sharp ends meet.",
            "A pin through both shows whether the points lie on each other.",
            tools=("pins",),
        ),
        step_of(
            stage,
            "star",
            "Sew from mark to mark, straight through the middle.",
            "In one seam all eight points come together.",
            hazards=(NEEDLE,),
            tools=PINNED,
        ),
    ]


def _loosen(stage: Stage) -> Step:
    """The stitches that would keep the last seam from turning over at the middle."""
    return step_of(
        stage,
        "loosen-star",
        "At the middle take out the few stitches of the last seam that lie in the allowance of the others.",
        "Without them it can turn over there, and all allowances fall the same way round.",
        hazards=(RIPPER,),
        tools=("seam ripper",),
    )


def _press_diamonds(stage: Stage) -> Step:
    return step_of(
        stage,
        "press-diamonds",
        "Press the seams between the diamonds all the same way round the middle, as the wedges in the drawing show.",
        "The allowances of eight points do not pile up but spread in a ring.",
        hazards=(IRON,),
        tools=PRESSING,
    )


def _set_in(stage: Stage) -> list[Step]:
    cloth = stage.work.facts["background"]
    return [
        step_of(
            stage,
            "set-in-triangles",
            f"Set in the {cloth} triangles, one into every second hollow: sew one short side from the outer edge up to "
            "the mark, turn there with the needle down and the foot up, and sew on to the edge, "
            "the next two edges level.",
            "Sewn in one go, the hollow closes without a hole or a fold.",
            more=f"This makes 8 set-in corners in each star, {POINTS * stage.count} in all, with the squares."
            if stage.count > 1
            else "With the squares this makes 8 set-in corners.",
            hazards=(NEEDLE,),
            tools=PINNED,
        ),
        step_of(
            stage,
            "set-in-squares",
            f"Set the {cloth} squares into the other four hollows in the same way, the marked corner in the hollow.",
            "The squares have straight edges and hold the corners of the block square.",
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
        f"Press the set-in seams towards the {cloth}."
        if outwards
        else "Press each set-in seam to the side where its wedge stands in the drawing.",
        "Away from the diamonds, the points of the star stay thin."
        if outwards
        else "Seams that meet later then lie to opposite sides and nest.",
        more="Press from the hollow outwards, and do not pull the edges.",
        hazards=(IRON,),
        tools=PRESSING,
    )
