"""Which of two piles the parts of a stage come from, where copies of them are pressed in two ways."""

from __future__ import annotations

from collections.abc import Sequence

from workers.sewing.names import listed
from workers.sewing.plan import Stage
from workers.sewing.pressed import Laying
from workers.sewing.steps.small_units import step_of
from workers.sewing.steps.step import Step
from workers.sewing.works import Work

COUNTED = {"row": ", counted from the left", "rows": ", counted from the top"}
"""How the places of a stage are counted, by its kind; in others the order of sewing counts them."""

REASON = (
    "Pressed alike, seams of two neighbours would fall to the same side where they meet. So laid, one falls each way "
    "and they nest."
)


def lay_in_turn(stage: Stage, parts: Sequence[Stage]) -> Step:
    """Where the parts that are pressed the second way lie in each copy of a stage."""
    what = listed(f"the {part.work.many}" for part in parts)
    ways = [_say_laying(stage, laying) for laying in stage.layings]
    if len(ways) == 1:
        said = f"{ways[0][0].upper()}{ways[0][1:]}"
    else:
        counted = zip((laying.copies for laying in stage.layings), ways, strict=True)
        said = "In " + "; in ".join(f"{copies} of the {stage.count} {way}" for copies, way in counted)
    return step_of(stage, "in-turn", f"{said}. This is about {what}, which lie in two piles.", REASON)


def _say_laying(stage: Stage, laying: Laying) -> str:
    """Which places take from the second pile."""
    works = [i for i, item in enumerate(stage.work.items) if isinstance(item.piece, Work)]
    if not laying.places:
        return "take all from the first pile"
    if len(laying.places) == len(works):
        return "take all from the second pile, pressed the other way"
    many = len(laying.places) > 1
    numbers = listed(str(i + 1) for i in laying.places)
    places = f"place{'s' if many else ''} {numbers}{COUNTED.get(stage.work.kind, '')}"
    return f"for {places}, take from the second pile, pressed the other way"
