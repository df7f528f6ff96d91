"""What every step of the binding has in common: its heading, and how a long length is said."""

from __future__ import annotations

from fractions import Fraction

from service.craft.finish import Binding
from service.craft.language import mark, phrase
from service.craft.measure import MM_PER_INCH, Number, round_up
from workers.sewing.steps.step import FINISHING, Lesson, Step

BINDING = mark("Binding")
MAT = ("rotary cutter", "ruler", "cutting mat")

LONG_STEP = {"in": Fraction(1, 8), "mm": 5 / MM_PER_INCH, "cm": 5 / MM_PER_INCH}
"""To what a long length is rounded up in each measure, in inches: nobody measures a binding closer."""


def measure_long(lesson: Lesson, length: Number) -> str:
    """A long length (inches) in words, up to what a tape shows."""
    return lesson.length(round_up(length, LONG_STEP[lesson.project.measure]))


def whole_length(lesson: Lesson, binding: Binding) -> str:
    """The length of the whole binding in words."""
    top = lesson.project.top
    return measure_long(lesson, 2 * (top.width + top.height) + binding.extra)


def binding_step(
    name: str, text: str, why: str, hazards: tuple[str, ...], *tools: str, more: str = ""
) -> Step:
    """A step of the binding."""
    return Step(
        f"finishing.binding.{name}",
        FINISHING,
        text,
        why,
        more=more,
        hazards=hazards,
        tools=tools,
        heading=phrase(BINDING),
    )
