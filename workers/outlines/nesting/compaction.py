"""Shapes that lie on a strip already, pushed together as far as they go: all move and turn at once, a little at a time.

The search that laid them tries one shape at a time in other places. It leaves gaps that close only where many shapes
make way for each other. Linear programs for this ("compaction" of layouts) go back to Li and Milenkovic, "Compaction
and separation algorithms for non-convex polygons and their applications", European Journal of Operational Research 84
(1995), from memory; ours have rows of distances in place of convex parts, and let shapes turn.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import repeat

from service.craft.outlines import Outline
from workers.outlines.nesting.bodies import Body, find_length, make_body, measure_least_gap
from workers.outlines.nesting.pushing import Strip, push

FIRST_MM = 3.0
LAST_MM = 0.3
"""How far one push goes at most, at first and at last."""

WORTH_MM = 0.2
"""A push that shortens the strip by less than this is followed by ones of half the length."""

MOST_PUSHES = 40

BEND_MM = 0.4
"""A push after which distances fall short by more than this was too long."""

SETTLING_MM = 0.3
MOST_SETTLING = 6
"""Pushes so short that turns hardly bend make good what is wanting at the end."""

HAIR_MM = 0.005


def compact(
    outlines: Sequence[Outline], may_turn: Sequence[bool], width_mm: float, spacing_mm: float
) -> list[Outline]:
    """The outlines nearer the strip's start (y = 0), at least `spacing_mm` apart, on a strip no longer than before.

    They must lie on the strip, the spacing apart. `may_turn` says which may also turn, by any angle.
    """
    strip = Strip(width_mm, spacing_mm)
    start = [make_body(outline, may_turn=free) for outline, free in zip(outlines, may_turn, strict=True)]
    bodies = _settle(_push_together(start, strip), strip)
    moved = [body.carry(outline) for body, outline in zip(bodies, outlines, strict=True)]
    shorter = _measure(moved) < _measure(outlines)
    legal = measure_least_gap(bodies, spacing_mm) >= spacing_mm - HAIR_MM
    on_strip = all(o.box_mm[0] >= -HAIR_MM and o.box_mm[2] <= width_mm + HAIR_MM for o in moved)
    return moved if shorter and legal and on_strip else list(outlines)


def _measure(outlines: Sequence[Outline]) -> float:
    """The length of strip that they take."""
    boxes = [outline.box_mm for outline in outlines]
    return max(box[3] for box in boxes) - min(min(box[1] for box in boxes), 0.0)


def _push_together(bodies: list[Body], strip: Strip) -> list[Body]:
    most, length = FIRST_MM, find_length(bodies)
    for _ in repeat(None, MOST_PUSHES):
        pushed = push(bodies, strip, most)
        if pushed is None or measure_least_gap(pushed, strip.spacing_mm) < strip.spacing_mm - BEND_MM:
            most /= 2
        else:
            bodies, before, length = pushed, length, find_length(pushed)
            if before - length < WORTH_MM:
                most /= 2
        if most < LAST_MM:
            break
    return bodies


def _settle(bodies: list[Body], strip: Strip) -> list[Body]:
    for _ in repeat(None, MOST_SETTLING):
        if measure_least_gap(bodies, strip.spacing_mm) >= strip.spacing_mm - HAIR_MM:
            break
        bodies = push(bodies, strip, SETTLING_MM) or bodies
    return bodies
