"""Strips of a top that are longer than their cloth is wide: joined, pressed and cut to length before they are sewn in.

Whether they are joined, or lie along the cloth in one piece, is what the cutting table says; a step cannot know.
"""

from __future__ import annotations

from collections.abc import Iterator

from service.craft.cutting_choices import DIAGONAL_JOIN
from service.craft.document import Project
from service.craft.language import mark, phrase
from workers.sewing.long_strips import list_long_strips
from workers.sewing.names import label
from workers.sewing.steps.binding import END_TO_END, ON_THE_SLANT
from workers.sewing.steps.binding_step import MAT
from workers.sewing.steps.hazards import CUTTER, IRON, NEEDLE, SHEARS
from workers.sewing.steps.step import PIECING, Lesson, Step

HEADING = mark("Join long strips")
LONG_STRIPS = "piecing.long-strips."
"""What the ids of these steps begin with; the cloth's label follows."""


def teach_long_strips(lesson: Lesson) -> Iterator[Step]:
    """Join, press, cut to length, once for every cloth that has strips too long for its width."""
    for fabric in find_long_strips(lesson.project):
        yield from _teach_cloth(fabric, lesson)


def find_long_strips(project: Project) -> list[str]:
    """The keys of cloths with strips that are longer than the cloth is wide, in the document's order."""
    needed = {strip.fabric for strip in list_long_strips(project)}
    return [key for key in project.fabrics if key in needed]


def _teach_cloth(fabric: str, lesson: Lesson) -> Iterator[Step]:
    cloth, start = lesson.cloth(fabric), LONG_STRIPS + label(fabric)
    slanting = lesson.project.cutting.join == DIAGONAL_JOIN
    yield _join(start, cloth, lesson)
    if slanting:
        yield Step(
            f"{start}.trim-joins",
            PIECING,
            phrase(
                "Cut off the corner that lies outside each join, {allowance} beside the seam.",
                allowance=lesson.allowance,
            ),
            phrase("What is left is an allowance as at any other seam."),
            hazards=(SHEARS,),
            tools=("scissors",),
            heading=phrase(HEADING),
        )
    yield Step(
        f"{start}.press-joins",
        PIECING,
        phrase("Press the joins open."),
        phrase("Open, they lie flat under the seams that cross them."),
        hazards=(IRON,),
        tools=("iron",),
        heading=phrase(HEADING),
    )
    yield Step(
        f"{start}.cut",
        PIECING,
        phrase("Cut the long strips to the lengths in the table."),
        phrase("Measured once they are joined, they come out true whatever the joins took."),
        hazards=(CUTTER,),
        tools=MAT,
        heading=phrase(HEADING),
    )


def _join(start: str, cloth: str, lesson: Lesson) -> Step:
    slanting = lesson.project.cutting.join == DIAGONAL_JOIN
    return Step(
        f"{start}.join",
        PIECING,
        phrase("Join the {cloth} strips that the cutting table says to join, on the diagonal.", cloth=cloth)
        if slanting
        else phrase(
            "Join the {cloth} strips that the cutting table says to join, end to end with {allowance} "
            "allowance.",
            cloth=cloth,
            allowance=lesson.allowance,
        ),
        phrase(
            "They are longer than the cloth is wide. A strip that was cut along the length of the cloth is "
            "long enough."
        ),
        more=phrase(ON_THE_SLANT if slanting else END_TO_END),
        hazards=(NEEDLE,),
        tools=("sewing machine",),
        heading=phrase(HEADING),
    )
