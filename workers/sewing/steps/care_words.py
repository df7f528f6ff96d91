"""Words for the care of edges and points: which edge is left alone, and where a point is measured."""

from __future__ import annotations

from service.craft.language import join_words, mark, phrase
from workers.sewing.bias import BiasEdge
from workers.sewing.plan import Stage
from workers.sewing.points import Point
from workers.sewing.steps.step import Lesson

UPPER, RIGHT, LOWER, LEFT, SLANTING = (
    mark("upper"),
    mark("right"),
    mark("lower"),
    mark("left"),
    mark("slanting"),
)
"""The edges of a picture."""

ONE_EDGE = {
    UPPER: mark("Leave {name} lying flat until it is sewn on, and do not pull its upper edge."),
    RIGHT: mark("Leave {name} lying flat until it is sewn on, and do not pull its right edge."),
    LOWER: mark("Leave {name} lying flat until it is sewn on, and do not pull its lower edge."),
    LEFT: mark("Leave {name} lying flat until it is sewn on, and do not pull its left edge."),
    SLANTING: mark("Leave {name} lying flat until it is sewn on, and do not pull its slanting edge."),
}

PLACES = {
    ("left", "top"): mark("the top left corner"),
    ("right", "top"): mark("the top right corner"),
    ("left", "bottom"): mark("the bottom left corner"),
    ("right", "bottom"): mark("the bottom right corner"),
    ("left", ""): mark("the middle of the left edge"),
    ("right", ""): mark("the middle of the right edge"),
    ("", "top"): mark("the middle of the upper edge"),
    ("", "bottom"): mark("the middle of the lower edge"),
    ("", ""): mark("the middle"),
}
"""Places in a picture, by where they lie across and down."""

KINDS = (
    *(mark("half-square triangle"), mark("quarter-square triangle"), mark("flying geese")),
    *(mark("square in a square"), mark("corner squares"), mark("kite"), mark("diamond"), mark("polygons")),
    *(mark("strip set"), mark("hexagons"), mark("eight-pointed star"), mark("fan blade ring")),
    *(mark("row"), mark("rows"), mark("diagonal row"), mark("diagonal rows joined"), mark("setting corners")),
    *(mark("border pair"), mark("mitred border"), mark("whole cloth"), mark("panels")),
    *(mark("joined parts"), mark("set-in parts"), mark("parts round a middle")),
)
"""Kinds of work as words, for those that have no name."""

ALL_ROUND = 4
"""Edges of a picture."""


def say_keeping(stage: Stage, sides: list[str]) -> str:
    """Which edges of a stage (keys of `ONE_EDGE`) are left alone until they are sewn."""
    name = stage.work.called or phrase("the {kind_of_work}", kind_of_work=phrase(stage.work.kind))
    if len(sides) == 1:
        return phrase(ONE_EDGE[sides[0]], name=name)
    if sides == [UPPER, LOWER]:
        return phrase(
            "Leave {name} lying flat until it is sewn on, and do not pull its upper and lower edges.",
            name=name,
        )
    if len(sides) >= ALL_ROUND:
        return phrase(
            "Leave {name} lying flat until it is sewn on, and do not pull any of its edges.", name=name
        )
    return phrase(
        "Leave {name} lying flat until it is sewn on, and do not pull its {sides} edges.",
        name=name,
        sides=join_words(map(phrase, sides)),
    )


def find_side(edge: BiasEdge) -> str:
    """Which edge of a picture it is, a key of `ONE_EDGE`; the outline runs clockwise.

    >>> find_side(BiasEdge(0j, 3 + 0j, 3.0)), find_side(BiasEdge(0j, 3 + 3j, 3.0))
    ('upper', 'slanting')
    """
    along = (edge.end - edge.start) / abs(edge.end - edge.start)
    sides = {1: UPPER, 1j: RIGHT, -1: LOWER, -1j: LEFT}
    return next((name for way, name in sides.items() if abs(along - way) < 1e-6), SLANTING)


def find_place(at: complex, stage: Stage) -> tuple[str, str]:
    """Where a point lies in the stage's picture, across and down: a key of `PLACES`."""
    width, height = float(stage.work.width), float(stage.work.height)
    return (
        "left" if at.real < width / 4 else "right" if at.real > 3 * width / 4 else "",
        "top" if at.imag < height / 4 else "bottom" if at.imag > 3 * height / 4 else "",
    )


def say_watching(stage: Stage, points: tuple[Point, ...], lesson: Lesson) -> str:
    """How to see whether points are in danger: in corners by two edges, elsewhere by one."""
    places = dict.fromkeys(find_place(point.at, stage) for point in points)
    told = {
        "where": join_words(phrase(PLACES[place]) for place in places),
        "least": lesson.length(points[0].least),
    }
    if all(across and down for across, down in places):
        return phrase(
            "At {where} lay the {allowance} line of the ruler on one cut edge: where the ruler's own edge crosses "
            "the seam, at least {least} must be left to the other cut edge. Then the other way round.",
            allowance=lesson.allowance,
            **told,
        )
    if len(points) == 1:
        return phrase(
            "Measure beyond the point at {where}: at least {least} must lie between the point and the cut edge.",
            **told,
        )
    return phrase(
        "Measure beyond the {count} points at {where}: at least {least} must lie between the point and the cut edge.",
        count=len(points),
        **told,
    )
