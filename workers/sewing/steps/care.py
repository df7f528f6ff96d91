"""What a stage asks care for: edges that stretch, points that the next seam may cut off."""

from __future__ import annotations

from collections.abc import Iterator

from service.craft.language import mark, phrase
from workers.sewing.bias import BiasEdge, is_sewn_before_cut
from workers.sewing.plan import Stage
from workers.sewing.points import Point
from workers.sewing.steps.care_words import find_side, say_keeping, say_watching
from workers.sewing.steps.line_steps import looks_at_points
from workers.sewing.steps.stage_steps import step_of
from workers.sewing.steps.step import Lesson, Step

SEWN = (".sew", ".corners", ".mitre")
"""Steps that sew edges on the bias; the last of them, where the first sew others."""

JOINED = ("row", "rows")
"""Kinds of work that sew parts to each other along straight edges."""

PINNED = {
    "diagonal row": mark(
        "Pin each triangle with a short side on the end of the row, right sides together, square "
        "corners level; do not pull."
    ),
    "setting corners": mark(
        "Pin each corner triangle to its corner, right sides together, centre on centre; do not pull."
    ),
}
"""How setting triangles are pinned, by the kind of work."""

WORTH_SAYING = 1.0
"""Inches of bias at an outer edge from which it is named. Our own choice."""


def pin_bias(stage: Stage, lesson: Lesson, steps: list[Step]) -> list[Step]:
    """A step before the others of a stage that sews edges on the bias, where they do not speak of it themselves."""
    sewn = lesson.plan.notes[stage.id].bias.sewn
    if not sewn or any(step.speaks_of_bias for step in steps) or is_sewn_before_cut(stage.work):
        return []
    return [
        step_of(
            stage,
            "bias",
            _say_pinning(stage, steps),
            phrase("These edges are on the bias: pinned closely, they keep their length."),
            tools=("pins",),
        )
    ]


def _say_pinning(stage: Stage, steps: list[Step]) -> str:
    """How edges on the bias are held, where a step before has pinned them already and where none has."""
    if stage.work.kind in PINNED:
        return phrase(PINNED[stage.work.kind])
    if any(step.id.endswith((".pin", ".fold-mitre")) for step in steps):
        return phrase("Set more pins between, two fingers apart, and do not pull.")
    return phrase("Pin the edges that are sewn to each other, two fingers apart, and do not pull.")


def insert_bias(stage: Stage, lesson: Lesson, steps: list[Step]) -> list[Step]:
    """The steps of a stage with the one about bias edges before the seam that it is about."""
    pinned = pin_bias(stage, lesson, steps)
    if not pinned:
        return steps
    sewn = [i for i, step in enumerate(steps) if step.id.endswith(SEWN)] or [
        i for i, step in enumerate(steps) if "sewing machine" in step.tools
    ]
    place = sewn[-1] if any(step.id.endswith((".corners", ".mitre")) for step in steps) else sewn[0]
    return [*steps[:place], *pinned, *steps[place:]]


def joins_points(stage: Stage, lesson: Lesson) -> bool:
    """Whether a stage sews parts to each other that bring points to the seam."""
    return stage.work.kind in JOINED and any(lesson.plan.notes[need].points for need in stage.needs)


def keep_points(stage: Stage, lesson: Lesson) -> Step:
    """How a seam meets the points of what it joins; said once, where it first comes up.

    At a point keep at least the allowance, or unpick: common practice, no source.
    """
    least = lesson.length(lesson.plan.model.accuracy.least_beyond(lesson.project.seam_allowance))
    return step_of(
        stage,
        "keep-points",
        phrase(
            "On the back look for the places where two stitching lines cross at a point: your seam runs exactly "
            "through them."
        ),
        phrase(
            "Each lies {allowance} inside the edge. Where less than {least} is left there, the seam cuts the point "
            "off: unpick, and sew the part again.",
            allowance=lesson.allowance,
            least=least,
        ),
    )


def insert_keeping(steps: list[Step], stage: Stage, lesson: Lesson) -> Iterator[Step]:
    """The steps of a stage with the one about points right before it is sewn."""
    for step in steps:
        if step.id.endswith(".sew"):
            yield keep_points(stage, lesson)
        yield step


def watch_stage(stage: Stage, lesson: Lesson, steps: list[Step]) -> Iterator[Step]:
    """What is looked after once a stage is sewn: its points at risk, where no step has, its outer edges on the bias."""
    notes = lesson.plan.notes[stage.id]
    if notes.at_risk and not looks_at_points(steps):
        yield _watch_points(stage, notes.at_risk, lesson)
    edges = [edge for edge in notes.bias.outer if edge.length >= WORTH_SAYING]
    if edges:
        yield _keep_edges(stage, edges)


def _watch_points(stage: Stage, points: tuple[Point, ...], lesson: Lesson) -> Step:
    hundred = max(1, round(100 * max(point.share for point in points)))
    return step_of(
        stage,
        "points",
        say_watching(stage, points, lesson),
        phrase(
            "The next seam runs {allowance} inside the edge and cuts off what comes too close. About {hundred} in "
            "a hundred come out shorter: unpick those and sew them again.",
            allowance=lesson.allowance,
            hundred=hundred,
        ),
        tools=("ruler",),
    )


def _keep_edges(stage: Stage, edges: list[BiasEdge]) -> Step:
    sides = list(dict.fromkeys(find_side(edge) for edge in edges))
    return step_of(
        stage,
        "keep-edges",
        say_keeping(stage, sides),
        phrase(
            "The edge is on the bias and would grow wavy. Where it waits for days, spray starch holds the length, "
            "or staystitch it inside the allowance."
        )
        if len(sides) == 1
        else phrase(
            "The edges are on the bias and would grow wavy. Where it waits for days, spray starch holds the length, "
            "or staystitch it inside the allowance."
        ),
    )
