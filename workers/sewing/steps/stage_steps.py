"""What the steps of every stage share: their ids, their tools, how many copies, how they are pressed."""

from __future__ import annotations

from service.craft.language import mark, phrase
from workers.sewing.crossings import FOUR as FOUR_SEAMS
from workers.sewing.plan import Stage
from workers.sewing.steps.hazards import BULK, IRON, RIPPER, SCISSORS
from workers.sewing.steps.pressing_words import (
    GRADE,
    LOOSENED,
    SHOWS_LESS,
    is_spun,
    press_reason,
    press_sentence,
    say_loosen,
    shows_dark,
)
from workers.sewing.steps.step import PIECING, Step

MARKER, MACHINE, CUTTING_SET, PRESSING = (
    ("marking pencil", "ruler"),
    ("sewing machine",),
    ("rotary cutter", "ruler", "cutting mat"),
    ("iron", "ironing board"),
)


PRESS_MORE = mark(
    "Set the iron down on the seam as it was sewn first. Then open the pieces and press from the right side."
)


def step_of(stage: Stage, what: str, text: str, why: str = "", **more: object) -> Step:
    """A step of a stage; its id says what is done there."""
    return Step(f"piecing.{stage.id}.{what}", PIECING, text, why, stage=stage, **more)  # type: ignore[arg-type]


def make_copies(stage: Stage) -> str:
    """How many copies a stage makes, as a sentence; empty for a single one."""
    if stage.count == 1:
        return ""
    if len(stage.piles) == 1:
        return phrase("Make {count}, all alike.", count=stage.count)
    return phrase("Make {count}.", count=stage.count)


def press_step(stage: Stage, *, measured: bool = False, why: str = "") -> list[Step]:
    """The pressing of a stage, for the reason `why` or the usual ones; none where it has no seam."""
    text = press_sentence(stage)
    if not text:
        return []
    if is_spun(stage):
        return spin_steps(stage, text, why or press_reason(stage), measured=measured)
    grade = [grade_step(stage)] if shows_dark(stage) else []
    return [
        *grade,
        step_of(
            stage,
            "press",
            text,
            why or press_reason(stage),
            more=phrase(PRESS_MORE),
            hazards=(IRON,),
            tools=PRESSING,
            measured=measured,
        ),
    ]


def grade_step(stage: Stage, why: str = "", what: str = "grade") -> Step:
    """Dark allowances under light cloth, before they lie there for good."""
    reason = why or phrase(SHOWS_LESS)
    return step_of(stage, what, phrase(GRADE), reason, hazards=(SCISSORS,), tools=("scissors",))


def spin_steps(stage: Stage, text: str, why: str, *, measured: bool = False) -> list[Step]:
    """The pressing of a stage whose last seam is spun; many layers at its middle are named as a hazard."""
    bulky = max(seam.layers for _, seams in stage.ways for seam in seams) > FOUR_SEAMS
    return [
        step_of(
            stage, "loosen", say_loosen(stage), phrase(LOOSENED), hazards=(RIPPER,), tools=("seam ripper",)
        ),
        step_of(
            stage,
            "press",
            text,
            why,
            more=phrase("Press the ring from the back first, then the whole from the front."),
            hazards=(IRON, *([BULK] if bulky else [])),
            tools=PRESSING,
            measured=measured,
        ),
    ]
