"""The binding on the edge of the whole: folded, sewn on round the corners, its ends joined, turned to the back."""

from __future__ import annotations

from collections.abc import Iterator

from service.craft.finish import SINGLE, Binding
from service.craft.language import phrase
from workers.sewing.steps.binding_step import binding_step
from workers.sewing.steps.hazards import IRON, NEEDLE, SHEARS
from workers.sewing.steps.step import Lesson, Step


def fold_binding(lesson: Lesson, binding: Binding) -> Step:
    """Folded in half, or one long edge pressed over."""
    if binding.fold == SINGLE:
        width = lesson.length(binding.allowance(lesson.project.seam_allowance))
        return binding_step(
            "fold",
            phrase("Press one long edge of the binding over to its wrong side, {width} wide.", width=width),
            phrase("The folded edge closes the back, and nothing frays there."),
            (IRON,),
            "iron",
        )
    return binding_step(
        "fold",
        phrase("Press the binding in half along its whole length, wrong sides together."),
        phrase("Two layers on the edge last longer than one."),
        (IRON,),
        "iron",
    )


def sew_on(binding: Binding, allowance: str) -> Iterator[Step]:
    """Round the edge of the front, so far from it."""
    yield binding_step(
        "sew",
        phrase(
            "Sew the raw edge of the binding, right sides together, to the edge of the front with {allowance} "
            "allowance. Begin in the middle of a side and leave a hand's length free.",
            allowance=allowance,
        )
        if binding.fold == SINGLE
        else phrase(
            "Sew the raw edges of the binding to the edge of the front with {allowance} allowance. Begin in the middle "
            "of a side and leave a hand's length free.",
            allowance=allowance,
        ),
        phrase("The free end is needed for the last join."),
        (NEEDLE,),
        *("sewing machine", "clips"),
    )
    yield binding_step(
        "corner",
        phrase("Stop {allowance} before each corner.", allowance=allowance),
        phrase("So far inside, the seam of the next side begins."),
        (NEEDLE,),
        "sewing machine",
    )
    yield binding_step(
        "corner-up",
        phrase("Fold the binding straight up, away from the next side."),
        phrase("A slanting fold comes about at the corner."),
        (),
    )
    yield binding_step(
        "corner-down",
        phrase("Fold it down again along the next side, the new fold level with the edge."),
        phrase("The slanting fold stays under it and becomes a neat corner when the binding is turned over."),
        (),
        "clips",
    )
    yield binding_step(
        "corner-on",
        phrase("Sew on along the next side, from the edge."),
        phrase("The fold is held by this seam."),
        (NEEDLE,),
        "sewing machine",
    )


def close_binding() -> Iterator[Step]:
    """The ends joined, the rest sewn down, the fold turned to the back."""
    yield binding_step(
        "stop",
        phrase("Stop a hand's length before the beginning."),
        phrase("Two free ends lie on each other here."),
        (NEEDLE,),
        "sewing machine",
    )
    yield binding_step(
        "fold-ends",
        phrase("Fold both free ends back so that the folds meet."),
        phrase("The folds show where the join lies."),
        (),
        "pins",
    )
    yield binding_step(
        "close",
        phrase("Sew the two ends to each other along the folds."),
        phrase("Joined before it is sewn down, the binding lies as flat here as everywhere else."),
        (NEEDLE,),
        "sewing machine",
    )
    yield binding_step(
        "trim-ends", phrase("Trim what is over."), phrase("The join stays thin."), (SHEARS,), "scissors"
    )
    yield binding_step(
        "close-rest",
        phrase("Sew the rest of the binding down."),
        phrase("The seam meets its own beginning."),
        (NEEDLE,),
        "sewing machine",
    )
    yield binding_step(
        "turn-over",
        phrase("Turn the folded edge to the back."),
        phrase("It covers the seam and closes the edge."),
        (),
        "clips",
    )
    yield binding_step(
        "turn",
        phrase("Sew it down by hand, or from the front in the groove of the seam."),
        phrase("By hand, nothing shows; by machine, it is quick."),
        (NEEDLE,),
        "hand needle",
    )
