"""The piecing chapter: a test of the seam, then every stage in the order of work."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterator, Mapping

from service.craft.language import phrase
from service.craft.units import (
    CornerSquares,
    Diamond,
    EightPointedStar,
    FanBladeRing,
    FlyingGeese,
    HalfSquareTriangle,
    Hexagons,
    QuarterSquareTriangle,
    SquareInASquare,
    StripSet,
)
from workers.sewing.crossings import Crossing
from workers.sewing.nesting_words import help_nesting, why_not_nesting
from workers.sewing.panels import PANELS
from workers.sewing.plan import Stage
from workers.sewing.polygons import JOINED, SET_IN
from workers.sewing.rings import RING
from workers.sewing.steps import (
    borders,
    care,
    corner_squares,
    diamonds,
    fan_blades,
    half_squares,
    hexagons,
    joins,
    panels,
    polygons,
    quarter_squares,
    rings,
    squares_in_squares,
    stars,
    strip_sets,
    triangle_units,
)
from workers.sewing.steps.hazards import IRON
from workers.sewing.steps.in_turn import lay_in_turn
from workers.sewing.steps.long_strips import teach_long_strips
from workers.sewing.steps.pile_words import keep_piles
from workers.sewing.steps.seam_test import teach_seam_test
from workers.sewing.steps.stage_steps import PRESSING, step_of
from workers.sewing.steps.step import Lesson, Step, sentences

WAYS: dict[str, Callable[[Stage, Lesson], list[Step]]] = {
    PANELS: panels.teach_panels,
    HalfSquareTriangle.kind: half_squares.teach_half_squares,
    QuarterSquareTriangle.kind: quarter_squares.teach_quarter_squares,
    FlyingGeese.kind: triangle_units.teach_flying_geese,
    StripSet.kind: strip_sets.teach_strip_set,
    CornerSquares.kind: corner_squares.teach_corner_squares,
    EightPointedStar.kind: stars.teach_star,
    Hexagons.kind: hexagons.teach_hexagons,
    Diamond.kind: diamonds.teach_diamond,
    FanBladeRing.kind: fan_blades.teach_fan_blades,
    SquareInASquare.kind: squares_in_squares.teach_square_in_square,
    JOINED: polygons.teach_joined_parts,
    SET_IN: polygons.teach_set_in_parts,
    RING: rings.teach_ring,
    "row": joins.teach_row,
    "rows": joins.teach_rows,
    "border pair": borders.teach_border_pair,
    "mitred border": borders.teach_mitred_border,
    "diagonal row": joins.teach_diagonal_row,
    "diagonal rows joined": joins.teach_rows,
    "setting corners": joins.teach_corners,
    "whole cloth": joins.teach_whole_cloth,
}
"""How each kind of work is taught."""


def teach_piecing(lesson: Lesson) -> Iterator[Step]:
    """Every step of the chapter."""
    if any(stage.seams for stage in lesson.plan.stages):
        yield from teach_seam_test(lesson)
    yield from teach_long_strips(lesson)
    failing: dict[str, list[Crossing]] = defaultdict(list)
    in_turn = {stage.id: stage for stage in lesson.plan.stages if len(stage.piles) > 1}
    stages = {work.id: work.stage for work in lesson.plan.nested.works}
    for crossing in lesson.plan.failing:
        failing[stages[crossing.work]].append(crossing)
    first = next((stage for stage in lesson.plan.stages if care.joins_points(stage, lesson)), None)
    for stage in lesson.plan.stages:
        if any(pile.takes for pile in stage.piles):
            yield from lay_in_turn(stage, in_turn)
        if stage.id in failing:
            yield _turn_seams(stage, failing[stage.id], lesson)
        steps = care.insert_bias(stage, lesson, WAYS[stage.work.kind](stage, lesson))
        if stage.id in in_turn:
            steps = _insert_piles(stage, steps, in_turn)
        yield from care.insert_keeping(steps, stage, lesson) if stage is first else steps
        yield from care.watch_stage(stage, lesson, steps)


def _insert_piles(stage: Stage, steps: list[Step], stages: Mapping[str, Stage]) -> list[Step]:
    """The steps of a stage, its copies sorted by pile as soon as all their seams are pressed."""
    last = max((i for i, step in enumerate(steps) if "iron" in step.tools), default=len(steps) - 1)
    return [*steps[: last + 1], keep_piles(stage, stages), *steps[last + 1 :]]


def _turn_seams(stage: Stage, failing: list[Crossing], lesson: Lesson) -> Step:
    """What helps where seams of this stage do not nest."""
    opened = lesson.plan.nested.served_by_none
    where = (
        phrase("At one crossing of this stage two seams do not lock.")
        if len(failing) == 1
        else phrase("At {count} crossings of this stage two seams do not lock.", count=len(failing))
    )
    return step_of(
        stage,
        "turn-seams",
        sentences(where, help_nesting(failing[0], opened)),
        why_not_nesting(failing[0], opened),
        hazards=(IRON,),
        tools=PRESSING,
    )
