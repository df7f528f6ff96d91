"""The binding: made of straight strips, of bias strips or in one continuous strip, folded once or twice, sewn on."""

from __future__ import annotations

from collections.abc import Iterator

from service.craft.cutting_choices import STRAIGHT_JOIN
from service.craft.finish import BIAS, CONTINUOUS, STRAIGHT, Binding
from service.craft.language import mark, phrase
from workers.sewing.steps.binding_edge import close_binding, fold_binding, sew_on
from workers.sewing.steps.binding_step import MAT, binding_step, whole_length
from workers.sewing.steps.binding_tube import sew_tube
from workers.sewing.steps.hazards import CUTTER, IRON, NEEDLE, SHEARS
from workers.sewing.steps.step import Lesson, Step

ON_THE_SLANT = mark(
    "Lay two ends across each other, right sides together, like the arms of a corner, and sew across on the "
    "slant."
)
END_TO_END = mark("Lay two ends on each other, right sides together, edges level, and sew straight across.")
BY_SLANTED_ENDS = mark(
    "Lay two ends on each other, right sides together, their slanting edges level. Let the tips stand out by the "
    "allowance, so that the strips go on straight once they are opened."
)


def bind(lesson: Lesson, binding: Binding) -> Iterator[Step]:
    """Every step of the binding."""
    strip = lesson.length(lesson.project.rules.round(binding.strip))
    if binding.cut == CONTINUOUS:
        yield from sew_tube(lesson, binding, strip)
    else:
        if binding.cut == BIAS:
            yield from _cut_slanted(lesson.cloth(binding.fabric), strip)
        yield from _join(lesson, binding, strip)
    yield fold_binding(lesson, binding)
    yield from sew_on(binding, lesson.length(binding.allowance(lesson.project.seam_allowance)))
    yield from close_binding()


def _cut_slanted(cloth: str, strip: str) -> Iterator[Step]:
    yield binding_step(
        "fold-corner",
        phrase(
            "Fold one corner of the {cloth} piece for the binding over until two of its edges lie level.",
            cloth=cloth,
        ),
        phrase("The fold runs exactly slanting."),
        (),
    )
    yield binding_step(
        "cut-fold",
        phrase("Cut along the fold."),
        phrase("All strips are measured from this cut."),
        (CUTTER,),
        *MAT,
    )
    yield binding_step(
        "cut",
        phrase("Cut {strip} strips beside that cut, on both sides of it.", strip=strip),
        phrase(
            "Cut on the bias, the strips stretch: they follow a curve, and no single thread runs along the edge."
        ),
        (CUTTER,),
        *MAT,
        more=phrase(
            "Carry the strips by both ends and do not pull them. The last corners are too short to be of use."
        ),
    )


def _join(lesson: Lesson, binding: Binding, strip: str) -> Iterator[Step]:
    slanting = binding.join != STRAIGHT_JOIN and binding.cut == STRAIGHT
    yield binding_step(
        "join",
        _say_join(lesson, binding, strip),
        phrase("A straight join takes the least cloth.")
        if binding.join == STRAIGHT_JOIN
        else phrase("A slanting join spreads its thickness along the edge."),
        (NEEDLE,),
        "sewing machine",
        more=phrase(
            END_TO_END if binding.join == STRAIGHT_JOIN else ON_THE_SLANT if slanting else BY_SLANTED_ENDS
        ),
    )
    if slanting:
        yield binding_step(
            "trim-joins",
            phrase(
                "Cut off the corner that lies outside each join, {allowance} beside the seam.",
                allowance=lesson.allowance,
            ),
            phrase("What is left is an allowance as at any other seam."),
            (SHEARS,),
            "scissors",
        )
    yield binding_step(
        "press-joins",
        phrase("Press the joins open."),
        phrase("Their thickness lies on both sides."),
        (IRON,),
        "iron",
    )


def _say_join(lesson: Lesson, binding: Binding, strip: str) -> str:
    """Which strips become one binding and how; a condition, where one strip across may be long enough."""
    told = {
        "strip": strip,
        "cloth": lesson.cloth(binding.fabric),
        "how": _say_how(lesson, binding),
        "whole": whole_length(lesson, binding),
    }
    if binding.cut == BIAS:
        return phrase(
            "Join the {strip} bias strips of {cloth} {how} into one binding, at least {whole} long.", **told
        )
    if _is_enough(lesson, binding):
        return phrase(
            "If the table has more than one, join the {strip} strips of {cloth} {how} into one binding, at least "
            "{whole} long.",
            **told,
        )
    return phrase("Join the {strip} strips of {cloth} {how} into one binding, at least {whole} long.", **told)


def _say_how(lesson: Lesson, binding: Binding) -> str:
    """How two ends are joined."""
    if binding.join == STRAIGHT_JOIN:
        return phrase("end to end with {allowance} allowance", allowance=lesson.allowance)
    if binding.cut == STRAIGHT:
        return phrase("on the slant")
    return phrase(
        "by their slanting ends, all of them slanting one way, with {allowance} allowance",
        allowance=lesson.allowance,
    )


def _is_enough(lesson: Lesson, binding: Binding) -> bool:
    """Whether one strip across the cloth may be long enough for the whole."""
    top, cloth = lesson.project.top, lesson.project.fabrics[binding.fabric]
    return 2 * (top.width + top.height) + binding.extra <= cloth.usable_width
