"""A binding cut in one continuous strip: a square sewn to a leaning piece, that to a tube, the tube cut round."""

from __future__ import annotations

from collections.abc import Iterator

from service.craft.finish import Binding
from service.craft.language import phrase
from workers.sewing.steps.binding_step import MAT, binding_step, whole_length
from workers.sewing.steps.hazards import CUTTER, IRON, NEEDLE, SHEARS
from workers.sewing.steps.step import Lesson, Step


def sew_tube(lesson: Lesson, binding: Binding, strip: str) -> Iterator[Step]:
    """A square in two halves, sewn to a slanting piece, that to a tube, and the tube cut round and round."""
    yield from _sew_slanting(lesson, binding)
    yield from _draw_lines(strip)
    yield from _close_tube(lesson, binding)


def _sew_slanting(lesson: Lesson, binding: Binding) -> Iterator[Step]:
    """The square cut on its diagonal and sewn to a piece that leans."""
    cloth, s = lesson.cloth(binding.fabric), lesson.allowance
    yield binding_step(
        "pins",
        phrase(
            "Put pins in the upper and the lower edge of the {cloth} square for the binding, a in the drawing.",
            cloth=cloth,
        ),
        phrase("They mark the two edges that are sewn to each other."),
        (),
        "pins",
        more=phrase(
            "Where the table has several squares, make a strip of each, and join the strips at the end."
        ),
    )
    yield binding_step(
        "halves-cut",
        phrase("Cut the square once on the diagonal."),
        phrase("These cuts run on the bias."),
        (CUTTER,),
        *MAT,
    )
    yield binding_step(
        "halves",
        phrase(
            "Sew the two pinned edges to each other with {allowance} allowance, right sides together.",
            allowance=s,
        ),
        phrase("The piece now leans, and both its long slanting edges run on the bias."),
        (NEEDLE,),
        *("pins", "sewing machine"),
    )
    yield binding_step(
        "halves-press",
        phrase("Press the seam open."),
        phrase("Lines drawn across it stay straight."),
        (IRON,),
        "iron",
    )


def _draw_lines(strip: str) -> Iterator[Step]:
    """The lines that the binding is cut along, and what is left beside the last of them."""
    yield binding_step(
        "lines",
        phrase(
            "On the wrong side draw lines {strip} apart, beside one of the edges that were cut on the diagonal, as far "
            "as they go.",
            strip=strip,
        ),
        phrase("You will cut along these lines, so they are as straight as the strip is to be."),
        (),
        *("ruler", "fabric pen"),
    )
    yield binding_step(
        "lines-trim",
        phrase("Cut off what is narrower than that at the end."),
        phrase("Every strip is then equally wide."),
        (CUTTER,),
        *MAT,
    )


def _close_tube(lesson: Lesson, binding: Binding) -> Iterator[Step]:
    """The leaning piece sewn to a tube, moved on by one line, and cut open along the line that winds round it."""
    yield binding_step(
        "tube-pin",
        phrase(
            "Pin the two edges that the lines run into, b in the drawing, together, right sides inside and moved on by "
            "one line: the first line of one edge meets the corner of the other."
        ),
        phrase("Moved on by one, the lines join to a single one that winds round the tube."),
        (),
        "pins",
        more=phrase(
            "Push each pin through both lines a seam allowance from the edge, where the seam will cross them. The "
            "tube looks twisted, and has a free end a strip wide on either side."
        ),
    )
    yield binding_step(
        "tube",
        phrase("Sew along these edges with {allowance} allowance.", allowance=lesson.allowance),
        phrase("Line meets line at every pin."),
        (NEEDLE,),
        "sewing machine",
    )
    yield binding_step(
        "tube-press",
        phrase("Press the seam open."),
        phrase("The scissors run over it easily."),
        (IRON,),
        "iron",
    )
    yield binding_step(
        "cut",
        phrase(
            "Begin at one free end and cut with scissors along the line, round and round, to the other. It is one "
            "binding, at least {whole} long.",
            whole=whole_length(lesson, binding),
        ),
        phrase("No strip has to be joined, and every seam in it slants."),
        (SHEARS,),
        "scissors",
    )
