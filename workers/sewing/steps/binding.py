"""The binding: made of straight strips, of bias strips or in one continuous strip, folded once or twice, sewn on."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from service.craft.cutting_choices import STRAIGHT_JOIN
from service.craft.finish import BIAS, CONTINUOUS, SINGLE, STRAIGHT, Binding
from service.craft.measure import MM_PER_INCH, Number, round_up
from workers.sewing.steps.hazards import CUTTER, IRON, NEEDLE, SHEARS
from workers.sewing.steps.step import FINISHING, Lesson, Step

BINDING = "Binding"
MAT = ("rotary cutter", "ruler", "cutting mat")

LONG_STEP = {"in": Fraction(1, 8), "mm": 5 / MM_PER_INCH, "cm": 5 / MM_PER_INCH}
"""To what a long length is rounded up in each measure, in inches: nobody measures a binding closer."""

ON_THE_SLANT = (
    "Lay two ends across each other, right sides together, like the arms of a corner, and sew across on the "
    "slant."
)
END_TO_END = "Lay two ends on each other, right sides together, edges level, and sew straight across."
BY_SLANTED_ENDS = (
    "Lay two ends on each other, right sides together, their slanting edges level. Let the tips stand out by the "
    "allowance, so that the strips go on straight once they are opened."
)

SLANTING = "by their slanting ends, all of them slanting one way,"


def measure_long(lesson: Lesson, length: Number) -> str:
    """A long length (inches) in words, up to what a tape shows."""
    return lesson.length(round_up(length, LONG_STEP[lesson.project.measure]))


def bind(lesson: Lesson, binding: Binding) -> Iterator[Step]:
    """Every step of the binding."""
    strip = lesson.length(lesson.project.rules.round(binding.strip))
    if binding.cut == CONTINUOUS:
        yield from _sew_tube(lesson, binding, strip)
    else:
        if binding.cut == BIAS:
            yield from _cut_slanted(lesson.cloth(binding.fabric), strip)
        yield from _join(lesson, binding, strip)
    yield _fold(lesson, binding)
    yield from _sew_on(binding, lesson.length(binding.allowance(lesson.project.seam_allowance)))
    yield from _close()


def _whole(lesson: Lesson, binding: Binding) -> str:
    top = lesson.project.top
    return measure_long(lesson, 2 * (top.width + top.height) + binding.extra)


def _step(name: str, text: str, why: str, hazards: tuple[str, ...], *tools: str, more: str = "") -> Step:
    return Step(
        f"finishing.binding.{name}",
        FINISHING,
        text,
        why,
        more=more,
        hazards=hazards,
        tools=tools,
        heading=BINDING,
    )


def _cut_slanted(cloth: str, strip: str) -> Iterator[Step]:
    yield _step(
        "fold-corner",
        f"Fold one corner of the {cloth} piece for the binding over until two of its edges lie level.",
        "The fold runs exactly slanting.",
        (),
    )
    yield _step(
        "cut-fold",
        "Cut along the fold.",
        "All strips are measured from this cut.",
        (CUTTER,),
        *("rotary cutter", "ruler", "cutting mat"),
    )
    yield _step(
        "cut",
        f"Cut {strip} strips beside that cut, on both sides of it.",
        "Cut on the bias, the strips stretch: they follow a curve, and no single thread runs along the edge.",
        (CUTTER,),
        *("rotary cutter", "ruler", "cutting mat"),
        more="Carry the strips by both ends and do not pull them. The last corners are too short to be of use.",
    )


def _join(lesson: Lesson, binding: Binding, strip: str) -> Iterator[Step]:
    cloth, whole = lesson.cloth(binding.fabric), _whole(lesson, binding)
    kind = "bias strips" if binding.cut == BIAS else "strips"
    first = _say_several(lesson, binding)
    how, reason, more = (
        "on the slant",
        "A slanting join spreads its thickness along the edge.",
        ON_THE_SLANT,
    )
    if binding.join == STRAIGHT_JOIN:
        how, more = f"end to end with {lesson.allowance} allowance", END_TO_END
        reason = "A straight join takes the least cloth."
    elif binding.cut != STRAIGHT:
        how, more = f"{SLANTING} with {lesson.allowance} allowance", BY_SLANTED_ENDS
    yield _step(
        "join",
        f"{first}oin the {strip} {kind} of {cloth} {how} into one binding, at least {whole} long.",
        reason,
        (NEEDLE,),
        "sewing machine",
        more=more,
    )
    if how == "on the slant":
        yield _step(
            "trim-joins",
            f"Cut off the corner that lies outside each join, {lesson.allowance} beside the seam.",
            "What is left is an allowance as at any other seam.",
            (SHEARS,),
            "scissors",
        )
    yield _step(
        "press-joins", "Press the joins open.", "Their thickness lies on both sides.", (IRON,), "iron"
    )


def _say_several(lesson: Lesson, binding: Binding) -> str:
    """A condition, where one strip across the cloth may be long enough; up to the first letter of "join"."""
    top, cloth = lesson.project.top, lesson.project.fabrics[binding.fabric]
    one = 2 * (top.width + top.height) + binding.extra <= cloth.usable_width
    return "If the table has more than one, j" if one and binding.cut == STRAIGHT else "J"


def _sew_tube(lesson: Lesson, binding: Binding, strip: str) -> Iterator[Step]:
    """A square in two halves, sewn to a slanting piece, that to a tube, and the tube cut round and round."""
    yield from _sew_slanting(lesson, binding)
    yield from _draw_lines(strip)
    yield from _close_tube(lesson, binding)


def _sew_slanting(lesson: Lesson, binding: Binding) -> Iterator[Step]:
    """The square cut on its diagonal and sewn to a piece that leans."""
    cloth, s = lesson.cloth(binding.fabric), lesson.allowance
    yield _step(
        "pins",
        f"Put pins in the upper and the lower edge of the {cloth} square for the binding, a in the drawing.",
        "They mark the two edges that are sewn to each other.",
        (),
        "pins",
        more="Where the table has several squares, make a strip of each, and join the strips at the end.",
    )
    yield _step(
        "halves-cut", "Cut the square once on the diagonal.", "These cuts run on the bias.", (CUTTER,), *MAT
    )
    yield _step(
        "halves",
        f"Sew the two pinned edges to each other with {s} allowance, right sides together.",
        "The piece now leans, and both its long slanting edges run on the bias.",
        (NEEDLE,),
        *("pins", "sewing machine"),
    )
    yield _step(
        "halves-press", "Press the seam open.", "Lines drawn across it stay straight.", (IRON,), "iron"
    )


def _draw_lines(strip: str) -> Iterator[Step]:
    """The lines that the binding is cut along, and what is left beside the last of them."""
    yield _step(
        "lines",
        f"On the wrong side draw lines {strip} apart, beside one of the edges that were cut on the diagonal, as far as "
        "they go.",
        "You will cut along these lines, so they are as straight as the strip is to be.",
        (),
        *("ruler", "fabric pen"),
    )
    yield _step(
        "lines-trim",
        "Cut off what is narrower than that at the end.",
        "Every strip is then equally wide.",
        (CUTTER,),
        *MAT,
    )


def _close_tube(lesson: Lesson, binding: Binding) -> Iterator[Step]:
    """The leaning piece sewn to a tube, moved on by one line, and cut open along the line that winds round it."""
    yield _step(
        "tube-pin",
        "Pin the two edges that the lines run into, b in the drawing, together, right sides inside and moved on by one "
        "line: the first line of one edge meets the corner of the other.",
        "Moved on by one, the lines join to a single one that winds round the tube.",
        (),
        "pins",
        more="Push each pin through both lines a seam allowance from the edge, where the seam will cross them. The "
        "tube looks twisted, and has a free end a strip wide on either side.",
    )
    yield _step(
        "tube",
        f"Sew along these edges with {lesson.allowance} allowance.",
        "Line meets line at every pin.",
        (NEEDLE,),
        "sewing machine",
    )
    yield _step("tube-press", "Press the seam open.", "The scissors run over it easily.", (IRON,), "iron")
    yield _step(
        "cut",
        "Begin at one free end and cut with scissors along the line, round and round, to the other. It is one binding, "
        f"at least {_whole(lesson, binding)} long.",
        "No strip has to be joined, and every seam in it slants.",
        (SHEARS,),
        "scissors",
    )


def _fold(lesson: Lesson, binding: Binding) -> Step:
    if binding.fold == SINGLE:
        width = lesson.length(binding.allowance(lesson.project.seam_allowance))
        return _step(
            "fold",
            f"Press one long edge of the binding over to its wrong side, {width} wide.",
            "The folded edge closes the back, and nothing frays there.",
            (IRON,),
            "iron",
        )
    return _step(
        "fold",
        "Press the binding in half along its whole length, wrong sides together.",
        "Two layers on the edge last longer than one.",
        (IRON,),
        "iron",
    )


def _sew_on(binding: Binding, allowance: str) -> Iterator[Step]:
    """Round the edge of the front, so far from it."""
    edges = (
        "raw edge of the binding, right sides together,"
        if binding.fold == SINGLE
        else "raw edges of the binding"
    )
    yield _step(
        "sew",
        f"Sew the {edges} to the edge of the front with {allowance} allowance. Begin in the middle of a side and leave "
        "a hand's length free.",
        "The free end is needed for the last join.",
        (NEEDLE,),
        *("sewing machine", "clips"),
    )
    yield _step(
        "corner",
        f"Stop {allowance} before each corner.",
        "So far inside, the seam of the next side begins.",
        (NEEDLE,),
        "sewing machine",
    )
    yield _step(
        "corner-up",
        "Fold the binding straight up, away from the next side.",
        "A slanting fold comes about at the corner.",
        (),
    )
    yield _step(
        "corner-down",
        "Fold it down again along the next side, the new fold level with the edge.",
        "The slanting fold stays under it and becomes a neat corner when the binding is turned over.",
        (),
        "clips",
    )
    yield _step(
        "corner-on",
        "Sew on along the next side, from the edge.",
        "The fold is held by this seam.",
        (NEEDLE,),
        "sewing machine",
    )


def _close() -> Iterator[Step]:
    yield _step(
        "stop",
        "Stop a hand's length before the beginning.",
        "Two free ends lie on each other here.",
        (NEEDLE,),
        "sewing machine",
    )
    yield _step(
        "fold-ends",
        "Fold both free ends back so that the folds meet.",
        "The folds show where the join lies.",
        (),
        "pins",
    )
    yield _step(
        "close",
        "Sew the two ends to each other along the folds.",
        "Joined before it is sewn down, the binding lies as flat here as everywhere else.",
        (NEEDLE,),
        "sewing machine",
    )
    yield _step("trim-ends", "Trim what is over.", "The join stays thin.", (SHEARS,), "scissors")
    yield _step(
        "close-rest",
        "Sew the rest of the binding down.",
        "The seam meets its own beginning.",
        (NEEDLE,),
        "sewing machine",
    )
    yield _step(
        "turn-over",
        "Turn the folded edge to the back.",
        "It covers the seam and closes the edge.",
        (),
        "clips",
    )
    yield _step(
        "turn",
        "Sew it down by hand, or from the front in the groove of the seam.",
        "By hand, nothing shows; by machine, it is quick.",
        (NEEDLE,),
        "hand needle",
    )
