"""The hanging sleeve: a tube of cloth along the upper edge of the back, for a rod."""

from __future__ import annotations

from collections.abc import Iterator

from service.craft.finish import Sleeve
from service.craft.language import mark, phrase
from workers.sewing.steps.binding_step import MAT, measure_long
from workers.sewing.steps.hazards import CUTTER, IRON, NEEDLE
from workers.sewing.steps.step import FINISHING, Lesson, Step

SLEEVE = mark("Hanging sleeve")


def hang(lesson: Lesson, sleeve: Sleeve) -> Iterator[Step]:
    """A tube of cloth along the upper edge of the back, sewn down by hand."""
    yield from _join_sleeve(lesson, sleeve)
    yield from _sew_sleeve(lesson, sleeve)
    yield from _sew_sleeve_on(lesson)


def _join_sleeve(lesson: Lesson, sleeve: Sleeve) -> Iterator[Step]:
    """One long strip, where the cloth is narrower than the sleeve is long."""
    cloth, s = lesson.cloth(sleeve.fabric), lesson.allowance
    long, _ = sleeve.strip(lesson.project.top.width, lesson.project.seam_allowance)
    if long > lesson.project.fabrics[sleeve.fabric].usable_width:
        yield _sleeve_step(
            "join",
            phrase(
                "Join the {cloth} strips for the sleeve end to end with {allowance} allowance.",
                cloth=cloth,
                allowance=s,
            ),
            phrase("One strip is too short for the whole edge."),
            NEEDLE,
            "sewing machine",
        )
        yield _sleeve_step(
            "trim",
            phrase("Trim the long strip to {long}.", long=measure_long(lesson, long)),
            phrase("What is over would stand out at the sides."),
            CUTTER,
            *MAT,
        )


def _sew_sleeve(lesson: Lesson, sleeve: Sleeve) -> Iterator[Step]:
    """A strip hemmed at both ends and sewn to a tube."""
    cloth, s = lesson.cloth(sleeve.fabric), lesson.allowance
    yield _sleeve_step(
        "fold",
        phrase(
            "Fold both short ends of the {cloth} strip for the sleeve in by {allowance}, twice, under the iron.",
            cloth=cloth,
            allowance=s,
        ),
        phrase("The raw edge disappears inside."),
        IRON,
        "iron",
    )
    yield _sleeve_step(
        "hem",
        phrase("Sew along these folds."),
        phrase("A rod slides in without catching on a raw edge."),
        NEEDLE,
        "sewing machine",
    )
    yield _sleeve_step(
        "tube",
        phrase(
            "Sew the long edges of the strip to each other with {allowance} allowance, wrong sides together.",
            allowance=s,
        ),
        phrase("The right side is outside already, so the tube is not turned."),
        NEEDLE,
        "sewing machine",
    )
    yield _sleeve_step(
        "press",
        phrase(
            "Press the seam open in the middle of one side of the tube, {length} deep.",
            length=lesson.length(sleeve.depth),
        ),
        phrase("With that side against the back, nobody sees the seam."),
        IRON,
        "iron",
    )


def _sew_sleeve_on(lesson: Lesson) -> Iterator[Step]:
    """Pinned below the upper edge, and sewn to the back by hand."""
    text = (
        phrase(
            "Pin the tube to the back along the upper edge, close below the binding, middle on middle, its seam inside."
        )
        if lesson.project.finish.binding
        else phrase(
            "Pin the tube to the back along the upper edge, close below the edge, middle on middle, its seam inside."
        )
    )
    yield _sleeve_step(
        "pin",
        text,
        phrase("Pinned along a straight edge, the whole hangs straight."),
        "",
        "pins",
    )
    yield _sleeve_step(
        "sew",
        phrase("Sew both long edges down by hand, through backing and batting only."),
        phrase("So no stitch shows on the front."),
        NEEDLE,
        "hand needle",
        more=phrase(
            "Push the lower edge up a little before you sew it: the front of the tube then stands off, and the rod "
            "makes no ridge in the quilt. The ends of its back layer are sewn down too."
        ),
    )


def _sleeve_step(name: str, text: str, why: str, hazard: str, *tools: str, more: str = "") -> Step:
    return Step(
        f"finishing.sleeve.{name}",
        FINISHING,
        text,
        why,
        more=more,
        hazards=(hazard,) if hazard else (),
        tools=tools,
        heading=phrase(SLEEVE),
    )
