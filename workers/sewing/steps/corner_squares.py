"""Steps for corners that are flipped: squares marked, sewn on, pressed over, and what lies under them trimmed."""

from __future__ import annotations

from service.craft.language import mark, phrase, phrase_count
from workers.sewing.names import with_article
from workers.sewing.plan import Stage
from workers.sewing.spare_triangles import SpareUnits, find_spare
from workers.sewing.steps.beside_the_line import sew_beside
from workers.sewing.steps.hazards import CUTTER, IRON, NEEDLE, SCISSORS
from workers.sewing.steps.pressing_words import (
    shows_dark,
)
from workers.sewing.steps.stage_steps import (
    CUTTING_SET,
    MACHINE,
    MARKER,
    PRESSING,
    grade_step,
    press_step,
    step_of,
)
from workers.sewing.steps.step import Lesson, Step, sentences

LINE_REASON = mark("The seam runs beside this line, and a line on the back stays out of sight.")


TRUE_CORNER = mark("The join stays thin, and the base has shown you that the corner is true.")


GRADED_LAST = mark(
    "Behind the light allowance, the dark one shines through less. While the corner is folded back, both "
    "lie open."
)


BY_RULER = mark("Cut whole, with its corners sewn over, the unit takes nothing but a ruler.")


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
        sew_beside(stage, lesson),
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
