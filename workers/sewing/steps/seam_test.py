"""The test of the seam before the first one: three strips, and what to do where they come out too narrow."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from service.craft.language import mark, phrase
from service.craft.measure import MM_PER_INCH
from workers.sewing.steps.hazards import CUTTER, IRON, NEEDLE
from workers.sewing.steps.step import PIECING, Lesson, Step
from workers.sewing.turn_of_cloth import FINE_MARKS, say_scant

HEADING = mark("Test your seam")
"""Its picture stands beside this heading."""

STRIP, WHOLE, MIDDLE = 6, 14, 4
"""In seam allowances: how wide each strip is cut, what three of them measure, and what the middle one then shows."""

LONG = {"in": Fraction(6), "mm": 150 / MM_PER_INCH, "cm": 150 / MM_PER_INCH}
"""A seam long enough to show how it runs, in inches, by the document's measure. Our own choice."""


def teach_seam_test(lesson: Lesson) -> Iterator[Step]:
    """Cut, sew, press, measure, correct.

    For 1/4 in: three strips of 1 1/2 in, 3 1/2 in wide, the middle 1 in (source: quiltcentric.com 2012/09/16).
    """
    s = lesson.project.seam_allowance
    sizes = (s * STRIP, s * WHOLE, s * MIDDLE, LONG[lesson.project.measure])
    strip, whole, middle, long = (lesson.length(value) for value in sizes)
    yield _step(
        "piecing.seam-test.cut",
        phrase(
            "Cut three strips from scraps, each {strip} wide and about {long} long.", strip=strip, long=long
        ),
        phrase("Scraps of the project's own cloth sew and fold as the project will."),
        hazards=(CUTTER,),
        tools=("rotary cutter", "ruler", "cutting mat"),
    )
    yield _sew(lesson)
    yield _step(
        "piecing.seam-test.press",
        phrase("Press both seams to one side."),
        phrase("Pressed, the fold lies as it does in the top."),
        hazards=(IRON,),
        tools=("iron",),
    )
    yield _step(
        "piecing.seam-test",
        phrase(
            "Measure the three strips: they are {whole} across, the middle one {middle}.",
            whole=whole,
            middle=middle,
        ),
        phrase(
            "The fold of every seam uses a little cloth. Many seams together make a block that is too small."
        ),
        tools=("ruler",),
    )
    yield _correct(lesson)


def _sew(lesson: Lesson) -> Step:
    return _step(
        "piecing.seam-test.sew",
        phrase(
            "Sew the three strips to each other along their long edges, right sides together, with "
            "{allowance} allowance.",
            allowance=lesson.allowance,
        ),
        phrase("Every seam of the project is sewn like these two."),
        more=phrase(
            "The {allowance} allowance is measured from the stitching to the cut edge.",
            allowance=lesson.allowance,
        ),
        hazards=(NEEDLE,),
        tools=("sewing machine",),
    )


def _correct(lesson: Lesson) -> Step:
    """What is missing across two seams is shared by four allowances."""
    step = FINE_MARKS[lesson.project.measure]
    closer, missing, scant = (lesson.length(value) for value in (step, 4 * step, say_scant(lesson.project)))
    return _step(
        "piecing.seam-test.correct",
        phrase(
            "If they measure less, sew {closer} closer to the edge for every {missing} that is missing; if "
            "they measure more, as much further in. Then test again.",
            closer=closer,
            missing=missing,
        ),
        phrase(
            "Two seams have four allowances, and each is too wide by a quarter of what is missing. Reckoned "
            "from the thickness of cloth and thread, {scant} comes out right: a scant seam. Wherever a step "
            "says {allowance} allowance, sew the seam that you found here.",
            scant=scant,
            allowance=lesson.allowance,
        ),
    )


def _step(step_id: str, text: str, why: str, **more: object) -> Step:
    return Step(step_id, PIECING, text, why, heading=phrase(HEADING), **more)  # type: ignore[arg-type]
