"""Steps for the smallest units: half-square triangles, corner squares, squares in squares."""

from __future__ import annotations

from math import ceil

from service.craft.language import mark, phrase, phrase_count
from service.craft.units.half_square_triangle import EIGHT, FOUR, OVERSIZE, TRIANGLES, TWO, UNITS_PER_PAIR
from workers.sewing.crossings import FOUR as FOUR_SEAMS
from workers.sewing.names import with_article
from workers.sewing.plan import Stage
from workers.sewing.spare_triangles import SpareUnits, find_spare
from workers.sewing.steps.hazards import BULK, CUTTER, IRON, NEEDLE, RIPPER, SCISSORS
from workers.sewing.steps.pressing_words import (
    GRADE,
    LOOSENED,
    SHOWS_LESS,
    is_spun,
    press_reason,
    press_sentence,
    say_loosen,
    shows_dark,
)
from workers.sewing.steps.step import PIECING, Lesson, Step, sentences
from workers.sewing.steps.turn_words import BESIDE_REASON, say_sew_beside

MARKER, MACHINE, CUTTING_SET, PRESSING = (
    ("marking pencil", "ruler"),
    ("sewing machine",),
    ("rotary cutter", "ruler", "cutting mat"),
    ("iron", "ironing board"),
)


PRESS_MORE = mark(
    "Set the iron down on the seam as it was sewn first. Then open the pieces and press from the right side."
)

LINE_REASON = mark("The seam runs beside this line, and a line on the back stays out of sight.")


TRUE_CORNER = mark("The join stays thin, and the base has shown you that the corner is true.")


GRADED_LAST = mark(
    "Behind the light allowance, the dark one shines through less. While the corner is folded back, both "
    "lie open."
)


BY_RULER = mark("Cut whole, with its corners sewn over, the unit takes nothing but a ruler.")


def step_of(stage: Stage, what: str, text: str, why: str = "", **more: object) -> Step:
    """A step of a stage; its id says what is done there."""
    return Step(f"piecing.{stage.id}.{what}", PIECING, text, why, stage=stage, **more)  # type: ignore[arg-type]


def make_copies(stage: Stage) -> str:
    """How many copies a stage makes, as a sentence; empty for a single one."""
    if stage.count == 1:
        return ""
    if len(stage.piles) == 1:
        return phrase("Make {count}, all alike.", count=stage.count)
    return phrase("Make {count}.", count=stage.count)


def press_step(stage: Stage, *, measured: bool = False, why: str = "") -> list[Step]:
    """The pressing of a stage, for the reason `why` or the usual ones; none where it has no seam."""
    text = press_sentence(stage)
    if not text:
        return []
    if is_spun(stage):
        return spin_steps(stage, text, why or press_reason(stage), measured=measured)
    grade = [grade_step(stage)] if shows_dark(stage) else []
    return [
        *grade,
        step_of(
            stage,
            "press",
            text,
            why or press_reason(stage),
            more=phrase(PRESS_MORE),
            hazards=(IRON,),
            tools=PRESSING,
            measured=measured,
        ),
    ]


def grade_step(stage: Stage, why: str = "", what: str = "grade") -> Step:
    """Dark allowances under light cloth, before they lie there for good."""
    reason = why or phrase(SHOWS_LESS)
    return step_of(stage, what, phrase(GRADE), reason, hazards=(SCISSORS,), tools=("scissors",))


def spin_steps(stage: Stage, text: str, why: str, *, measured: bool = False) -> list[Step]:
    """The pressing of a stage whose last seam is spun; many layers at its middle are named as a hazard."""
    bulky = max(seam.layers for _, seams in stage.ways for seam in seams) > FOUR_SEAMS
    return [
        step_of(
            stage, "loosen", say_loosen(stage), phrase(LOOSENED), hazards=(RIPPER,), tools=("seam ripper",)
        ),
        step_of(
            stage,
            "press",
            text,
            why,
            more=phrase("Press the ring from the back first, then the whole from the front."),
            hazards=(IRON, *([BULK] if bulky else [])),
            tools=PRESSING,
            measured=measured,
        ),
    ]


def teach_half_squares(stage: Stage, lesson: Lesson) -> list[Step]:
    """Two, four or eight at a time out of a pair of squares, or from cut triangles."""
    facts, s = stage.work.facts, lesson.allowance
    method = facts["method"]
    pair = phrase("{first} and one of {second}", first=facts["first"], second=facts["second"])
    if method == TRIANGLES:
        start = _from_triangles(stage, pair, s)
    else:
        pairs = ceil(stage.count / UNITS_PER_PAIR[method])
        start = [_pair_step(stage, pair, pairs), *_sew_pair(stage, method, s)]
    trim = step_of(
        stage,
        "trim",
        phrase("Trim each unit to size, with the seam running exactly through two corners."),
        phrase("Cut with something to trim, every unit comes out alike, whatever the sewing did.")
        if facts["trim"] == OVERSIZE
        else phrase("Sewn a little large and trimmed, every unit comes out alike."),
        more=phrase(
            "Put the slanting line of the ruler on the seam, trim two sides, turn the unit and trim the "
            "other two."
        ),
        hazards=(CUTTER,),
        tools=CUTTING_SET,
        measured=True,
    )
    return [*start, *press_step(stage), trim]


def _pair_step(stage: Stage, pair: str, pairs: int) -> Step:
    return step_of(
        stage,
        "pair",
        phrase(
            "Lay one square of {pair} right sides together, edges level. You need {pairs} for {units}.",
            pair=pair,
            pairs=phrase_count("{number} pair", "{number} pairs", pairs),
            units=phrase_count("{number} unit", "{number} units", stage.count),
        ),
        phrase("Sewn in pairs before they are cut, the slanting bias edges have no chance to stretch."),
    )


def _sew_pair(stage: Stage, method: str, s: str) -> list[Step]:
    lines, beside, cut, reason = {
        TWO: (
            phrase("Draw a line from corner to corner on the back of the lighter square."),
            phrase("Sew on both sides of the line, {allowance} away from it.", allowance=s),
            phrase("Cut on the line."),
            phrase("Each half opens into one unit."),
        ),
        FOUR: (
            "",
            phrase("Sew all round the pair, {allowance} from the edge.", allowance=s),
            phrase("Cut from corner to corner, both ways, without moving the pair in between."),
            phrase("Each quarter opens into one unit. Its outer edges are on the bias: handle it gently."),
        ),
        EIGHT: (
            phrase("Draw both lines from corner to corner on the back of the lighter square."),
            phrase("Sew on both sides of both lines, {allowance} away from them.", allowance=s),
            phrase(
                "Cut across the middle, from side to side and from top to bottom, without moving the pair "
                "in between."
            ),
            phrase("Then the four quarters are cut once more, each on its drawn line."),
        ),
    }[method]
    marking = [
        step_of(stage, "mark", lines, phrase("The line is where you cut, not where you sew."), tools=MARKER)
    ]
    return [
        *(marking if lines else []),
        step_of(
            stage, "sew", beside, phrase("The cut goes between the seams."), hazards=(NEEDLE,), tools=MACHINE
        ),
        step_of(stage, "cut", cut, reason, hazards=(CUTTER,), tools=CUTTING_SET),
        *([_cut_lines(stage)] if method == EIGHT else []),
    ]


def _cut_lines(stage: Stage) -> Step:
    return step_of(
        stage,
        "cut-lines",
        phrase("Cut each quarter on the drawn line."),
        phrase("Each of the eight triangles opens into one unit."),
        hazards=(CUTTER,),
        tools=CUTTING_SET,
    )


def _from_triangles(stage: Stage, pair: str, s: str) -> list[Step]:
    return [
        step_of(
            stage,
            "pair",
            phrase(
                "Lay one triangle of {pair} right sides together, long sides level. You need {pairs}.",
                pair=pair,
                pairs=phrase_count("{number} pair", "{number} pairs", stage.count),
            ),
            phrase("The long side is on the bias: pin it and do not pull."),
            speaks_of_bias=True,
            tools=("pins",),
        ),
        step_of(
            stage,
            "sew",
            phrase("Sew along the long side, {allowance} from the edge.", allowance=s),
            phrase("Sewn from tip to tip, the square comes out with true corners."),
            hazards=(NEEDLE,),
            tools=MACHINE,
        ),
    ]


def teach_corner_squares(stage: Stage, lesson: Lesson) -> list[Step]:
    """Mark, lay, sew beside the line, press open, trim underneath."""
    facts = stage.work.facts
    each = int(facts["corners"])
    return [
        step_of(
            stage,
            "mark",
            phrase(
                "Draw a line from corner to corner on the back of {squares} of {cloth}, {each} for each "
                "unit.",
                squares=phrase_count("{number} square", "{number} squares", each * stage.count),
                cloth=facts["corner"],
                each=each,
            ),
            sentences(phrase(BY_RULER) if facts.get("chosen") else "", phrase(LINE_REASON)),
            tools=MARKER,
        ),
        *flip_corners(
            stage,
            facts.get("square", facts["corner"]),
            phrase("{cloth} base", cloth=facts["base"]),
            facts["places"],
            lesson,
            find_spare(stage, lesson.project),
        ),
    ]


def flip_corners(
    stage: Stage, corner: str, base: str, places: str, lesson: Lesson, spare: SpareUnits | None = None
) -> list[Step]:
    """Lay, sew, press and trim the marked squares on the corners of a base.

    Dark allowances are cut narrower once they are allowances, when what lay outside the seam is off.
    """
    pressing = press_step(stage, measured=True)
    grading = [grade_step(stage, phrase(GRADED_LAST))] if shows_dark(stage) else []
    return [
        step_of(
            stage,
            "lay",
            phrase(
                "Lay {a_cloth} square on the {base}, right sides together, level with the corner: {places}. "
                "The line cuts the corner off.",
                a_cloth=with_article(corner),
                base=base,
                places=places,
            ),
            phrase("Two corners that overlap are sewn one after the other."),
            tools=("pins",),
        ),
        step_of(
            stage,
            "sew",
            say_sew_beside(stage, lesson),
            phrase(BESIDE_REASON),
            hazards=(NEEDLE,),
            tools=MACHINE,
        ),
        *(_sew_again(stage, lesson) if spare else []),
        *(step for step in pressing if not step.id.endswith(".grade")),
        fold_back(stage),
        *(
            [trim_under(stage, lesson, "trim", phrase(TRUE_CORNER))]
            if spare is None
            else _part_corner(stage, lesson, spare)
        ),
        *grading,
        fold_out(stage),
    ]


def fold_back(stage: Stage, what: str = "fold-back") -> Step:
    """The flipped corner out of the way, before what lies under it is cut."""
    return step_of(
        stage,
        what,
        phrase("Fold the corner back."),
        phrase("The two layers under it lie open: the corner of the base, and the other half of the square."),
    )


def fold_out(stage: Stage, what: str = "unfold") -> Step:
    """The flipped corner back in its place."""
    return step_of(
        stage,
        what,
        phrase("Turn the corner out again, right side up."),
        phrase("It lies flat along the crease that the iron has made, level with the edges of the base."),
    )


def trim_under(stage: Stage, lesson: Lesson, what: str, why: str) -> Step:
    """The layers under a flipped corner."""
    return step_of(
        stage,
        what,
        phrase("Trim these two layers {allowance} outside the seam.", allowance=lesson.allowance),
        why,
        hazards=(SCISSORS,),
        tools=("scissors",),
    )


def _sew_again(stage: Stage, lesson: Lesson) -> list[Step]:
    gap = lesson.length(2 * lesson.project.seam_allowance)
    return [
        step_of(
            stage,
            "sew-again",
            phrase("Sew a second seam {gap} outside the first, towards the corner.", gap=gap),
            phrase("What you cut off later is then a unit of two triangles already."),
            hazards=(NEEDLE,),
            tools=MACHINE,
        )
    ]


def _part_corner(stage: Stage, lesson: Lesson, spare: SpareUnits) -> list[Step]:
    size = lesson.length(spare.side)
    return [
        step_of(
            stage,
            "trim",
            phrase("Cut midway between the two seams, {allowance} from each.", allowance=lesson.allowance),
            phrase("Both parts keep their allowance, and nothing is thrown away."),
            hazards=(SCISSORS,),
            tools=("scissors",),
        ),
        step_of(
            stage,
            "press-spare",
            phrase(
                "Press what you cut off open. You have {units}.",
                units=phrase_count(
                    "{number} spare half-square triangle", "{number} spare half-square triangles", spare.count
                ),
            ),
            phrase("They are no part of this project: keep them for another."),
            hazards=(IRON,),
            tools=PRESSING,
        ),
        step_of(
            stage,
            "spare",
            phrase(
                "Trim each of these to {size} by {size}, the seam running through two corners.", size=size
            ),
            phrase("Of one size, they are ready when you want them."),
            hazards=(CUTTER,),
            tools=CUTTING_SET,
        ),
    ]
