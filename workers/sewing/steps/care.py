"""What a stage asks care for: edges that stretch, points that the next seam may cut off."""

from __future__ import annotations

from collections.abc import Iterator

from workers.sewing.bias import BiasEdge, is_sewn_before_cut
from workers.sewing.names import listed
from workers.sewing.plan import Stage
from workers.sewing.points import Point
from workers.sewing.steps.small_units import step_of
from workers.sewing.steps.step import Lesson, Step, plural

SLANTING = "slanting"

TAUGHT = ("on the bias", "slanting edges")
"""Where the steps of a stage say this, its bias seams have been spoken of."""

SEWN = (".sew", ".corners", ".mitre")
"""Steps that sew edges on the bias; the last of them, where the first sew others."""

JOINED = ("row", "rows")
"""Kinds of work that sew parts to each other along straight edges."""

PINNED = {
    "diagonal row": "Pin each triangle with a short side on the end of the row, right sides together, square "
    "corners level; do not pull.",
    "setting corners": "Pin each corner triangle to its corner, right sides together, centre on centre; do not pull.",
}
"""How setting triangles are pinned, by the kind of work."""

ALL_ROUND = 4
"""Edges of a picture."""

WORTH_SAYING = 1.0
"""Inches of bias at an outer edge from which it is named. Our own choice."""


def pin_bias(stage: Stage, lesson: Lesson, steps: list[Step]) -> list[Step]:
    """A step before the others of a stage that sews edges on the bias, where they do not speak of it themselves."""
    sewn = lesson.plan.notes[stage.id].bias.sewn
    said = any(word in f"{step.text} {step.why} {step.more}" for step in steps for word in TAUGHT)
    if not sewn or said or is_sewn_before_cut(stage.work):
        return []
    return [
        step_of(
            stage,
            "bias",
            PINNED.get(stage.work.kind, _say_pinning(steps)),
            "These edges are on the bias: pinned closely, they keep their length.",
            tools=("pins",),
        )
    ]


def _say_pinning(steps: list[Step]) -> str:
    """How edges on the bias are held, where a step before has pinned them already and where none has."""
    if any(step.id.endswith((".pin", ".fold-mitre")) for step in steps):
        return "Set more pins between, two fingers apart, and do not pull."
    return "Pin the edges that are sewn to each other, two fingers apart, and do not pull."


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
        "On the back look for the places where two stitching lines cross at a point: your seam runs exactly through "
        "them.",
        f"Each lies {lesson.allowance} inside the edge. Where less than {least} is left there, the seam cuts the point "
        "off: unpick, and sew the part again.",
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
    if notes.at_risk and not any("is left beyond" in step.text for step in steps):
        yield _watch_points(stage, notes.at_risk, lesson)
    edges = [edge for edge in notes.bias.outer if edge.length >= WORTH_SAYING]
    if edges:
        yield _keep_edges(stage, edges)


def _watch_points(stage: Stage, points: tuple[Point, ...], lesson: Lesson) -> Step:
    where = listed(dict.fromkeys(say_place(point.at, stage) for point in points))
    corners = all(say_place(point.at, stage).endswith("corner") for point in points)
    least = lesson.length(points[0].least)
    many = f"the point at {where}" if len(points) == 1 else f"the {len(points)} points at {where}"
    hundred = max(1, round(100 * max(point.share for point in points)))
    return step_of(
        stage,
        "points",
        f"At {where} lay the {lesson.allowance} line of the ruler on one cut edge: where the ruler's own edge crosses "
        f"the seam, at least {least} must be left to the other cut edge. Then the other way round."
        if corners
        else f"Measure beyond {many}: at least {least} must lie between the point and the cut edge.",
        f"The next seam runs {lesson.allowance} inside the edge and cuts off what comes too close. About {hundred} in "
        "a hundred come out shorter: unpick those and sew them again.",
        tools=("ruler",),
    )


def _keep_edges(stage: Stage, edges: list[BiasEdge]) -> Step:
    named = list(dict.fromkeys(say_side(edge) for edge in edges))
    sides = f"its {listed(named)}" if len(named) < ALL_ROUND else "any of its"
    name = stage.work.called or f"the {stage.work.kind}"
    one = plural(len({say_side(edge) for edge in edges}), "edge").partition(" ")[2]
    return step_of(
        stage,
        "keep-edges",
        f"Leave {name} lying flat until it is sewn on, and do not pull {sides} {one}.",
        f"The {one} {'is' if one == 'edge' else 'are'} on the bias and would grow wavy. Where it waits for days, spray "
        "starch holds the length, or staystitch it inside the allowance.",
    )


def say_side(edge: BiasEdge) -> str:
    """Which edge of a picture it is; the outline runs clockwise.

    >>> say_side(BiasEdge(0j, 3 + 0j, 3.0)), say_side(BiasEdge(0j, 3 + 3j, 3.0))
    ('upper', 'slanting')
    """
    along = (edge.end - edge.start) / abs(edge.end - edge.start)
    sides = {1: "upper", 1j: "right", -1: "lower", -1j: "left"}
    return next((name for way, name in sides.items() if abs(along - way) < 1e-6), SLANTING)


def say_place(at: complex, stage: Stage) -> str:
    """Where a point lies in the stage's picture, in words."""
    width, height = float(stage.work.width), float(stage.work.height)
    across, down = (
        "left" if at.real < width / 4 else "right" if at.real > 3 * width / 4 else "",
        "top" if at.imag < height / 4 else "bottom" if at.imag > 3 * height / 4 else "",
    )
    if across and down:
        return f"the {down} {across} corner"
    edge = across or {"top": "upper", "bottom": "lower"}.get(down, "")
    return f"the middle of the {edge} edge" if edge else "the middle"
