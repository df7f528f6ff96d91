"""The finishing chapter: layers, quilting, binding, label; each only where the document has it."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from service.craft.finish import BIAS, Binding
from service.craft.measure import MM_PER_INCH, Exact, round_up
from workers.sewing.steps.hazards import CUTTER, IRON, NEEDLE
from workers.sewing.steps.step import FINISHING, Lesson, Step

JOIN_ALLOWANCE = 12
"""Inches of binding beyond the way round, for corners and the last join; common practice, no source."""

LONG_STEP = {"in": Fraction(1, 8), "mm": 5 / MM_PER_INCH, "cm": 5 / MM_PER_INCH}
"""To what a long length is rounded up in each measure, in inches: nobody measures a binding closer."""

TOP, LAYERS, BINDING, LABEL = ("The top", "Layers and quilting", "Binding", "Label")


def teach_finishing(lesson: Lesson) -> Iterator[Step]:
    """Every step of the chapter."""
    finish = lesson.project.finish
    layers = [
        words
        for words in (
            f"the backing of {lesson.cloth(finish.backing.fabric)}" if finish.backing else "",
            "the batting" if finish.batting_overhang is not None else "",
        )
        if words
    ]
    yield _press_top()
    if layers:
        yield from _layer(lesson, layers)
    if finish.binding is not None:
        yield from _bind(lesson, finish.binding)
    yield _label()


def _press_top() -> Step:
    return Step(
        "finishing.press",
        FINISHING,
        "Press the whole top once more and cut off loose threads on its back.",
        "Dark threads shine through a light cloth once the layers are together.",
        hazards=(IRON,),
        tools=("iron", "scissors"),
        heading=TOP,
    )


def _layer(lesson: Lesson, layers: list[str]) -> Iterator[Step]:
    finish = lesson.project.finish
    overhang = finish.backing.overhang if finish.backing else finish.batting_overhang
    order = ", then ".join(
        [
            f"{layers[0]}, wrong side up" if finish.backing else layers[0],
            *layers[1:],
            "the top, right side up",
        ]
    )
    yield Step(
        "finishing.layer",
        FINISHING,
        f"Lay out {order}. What lies below stands out {lesson.length(overhang or 0)} on every side of the top.",
        "Quilting draws the layers in a little. What stands out makes up for it.",
        more="Tape the lowest layer to the floor or the table, flat but not stretched. Smooth each layer from "
        "the middle.",
        tools=("tape",),
        heading=LAYERS,
    )
    yield Step(
        "finishing.baste",
        FINISHING,
        "Baste the layers together from the middle outwards, a hand's width apart.",
        "Basted from the middle, no fold is caught inside.",
        tools=("safety pins", "basting thread"),
        heading=LAYERS,
    )
    yield Step(
        "finishing.quilt",
        FINISHING,
        "Quilt through all layers, from the middle outwards, beside the seams or in lines of your own.",
        "It holds the batting in place and the layers together.",
        more="Sew in the groove beside a seam first. These lines hold everything, and hardly show.",
        hazards=(NEEDLE,),
        tools=("sewing machine", "walking foot"),
        heading=LAYERS,
    )
    yield Step(
        "finishing.square",
        FINISHING,
        "Trim the layers level with the edge of the top, the corners square.",
        "The binding is sewn along this edge and shows every wave in it.",
        hazards=(CUTTER,),
        tools=("rotary cutter", "ruler", "cutting mat"),
        heading=LAYERS,
    )


def _bind(lesson: Lesson, binding: Binding) -> Iterator[Step]:
    cloth = lesson.cloth(binding.fabric)
    strip = lesson.length(binding.strip)
    whole = lesson.length(round_up(_way_round(lesson) + JOIN_ALLOWANCE, LONG_STEP[lesson.project.measure]))
    slanted = "bias strips" if binding.cut == BIAS else "strips"
    yield Step(
        "finishing.binding.join",
        FINISHING,
        f"Join the {strip} {slanted} of {cloth} on the slant into one binding, at least {whole} long. Press the "
        "joins open.",
        "A slanting join spreads its thickness along the edge.",
        more="Lay two ends across each other, right sides together, like the arms of a corner, and sew across "
        "on the slant.",
        hazards=(NEEDLE, IRON),
        tools=("sewing machine", "iron"),
        heading=BINDING,
    )
    yield Step(
        "finishing.binding.fold",
        FINISHING,
        "Press the binding in half along its whole length, wrong sides together.",
        "Two layers on the edge last longer than one.",
        hazards=(IRON,),
        tools=("iron",),
        heading=BINDING,
    )
    yield from _sew_binding(lesson.allowance)
    yield from _close_binding()


def _sew_binding(s: str) -> Iterator[Step]:
    """Round the edge of the front; `s` is the seam allowance in words."""
    yield Step(
        "finishing.binding.sew",
        FINISHING,
        f"Sew the raw edges of the binding to the edge of the front with {s} allowance. Begin in the middle of "
        "a side and leave a hand's length free.",
        "The free end is needed for the last join.",
        hazards=(NEEDLE,),
        tools=("sewing machine", "clips"),
        heading=BINDING,
    )
    yield Step(
        "finishing.binding.corner",
        FINISHING,
        f"At each corner stop {s} before the edge. Fold the binding straight up, then down along the next side, "
        "and go on sewing from the edge.",
        "The fold becomes a neat slant when the binding is turned over.",
        hazards=(NEEDLE,),
        tools=("sewing machine",),
        heading=BINDING,
    )


def _close_binding() -> Iterator[Step]:
    yield Step(
        "finishing.binding.close",
        FINISHING,
        "Stop a hand's length before the beginning. Join the two free ends, and sew the rest down.",
        "Joined before it is sewn down, the binding lies as flat here as everywhere else.",
        more="Fold both ends back so that the folds meet, sew them together along the folds, and trim.",
        hazards=(NEEDLE,),
        tools=("sewing machine", "pins", "scissors"),
        heading=BINDING,
    )
    yield Step(
        "finishing.binding.turn",
        FINISHING,
        "Turn the folded edge to the back. Sew it down by hand, or from the front in the groove of the seam.",
        "It covers the seam and closes the edge.",
        hazards=(NEEDLE,),
        tools=("hand needle", "clips"),
        heading=BINDING,
    )


def _way_round(lesson: Lesson) -> Exact:
    top = lesson.project.top
    return 2 * (top.width + top.height)


def _label() -> Step:
    return Step(
        "finishing.label",
        FINISHING,
        "Sew a label with your name, the place and the year to the lower right of the back.",
        "Whoever finds it in fifty years will want to know.",
        tools=("hand needle", "fabric pen"),
        heading=LABEL,
    )
