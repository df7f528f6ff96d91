"""Scenes of what is looked after in a stage: points, edges that stretch, piles that are kept apart."""

from __future__ import annotations

from dataclasses import replace

from service.craft.drawing.scenes import Piece, Scene
from service.craft.language import mark, phrase
from service.craft.outlines.affine import Point
from workers.sewing.plan import Stage
from workers.sewing.steps.scenes.of_stage import (
    find_wedges,
    frame_of,
    line,
    middle_of,
    name_one,
    patches_of,
    piece_of,
    point,
    whole,
    with_allowance,
)
from workers.sewing.steps.step import Lesson

POINTS = mark("{one} with rings round the points, each {allowance} inside the cut edge")
POINTS_BEHIND = mark(
    "{one}, from the back, with rings round the points, each {allowance} inside the cut edge"
)

HEAP_APART, HEAP_STEP = 1.35, 0.05
"""How far heaps lie apart, and by how much the pieces in one show, in shares of a piece."""


def show_points(stage: Stage, lesson: Lesson, *, back: bool = False) -> Scene:
    """Rings round the points near its edges; seen from the back where they are looked for there."""
    s = float(lesson.project.seam_allowance)
    inner = lesson.plan.notes
    points = [found.at for found in inner[stage.id].points]
    if not points:
        needed = next((need for need in stage.needs if inner[need].points), None)
        if needed is not None:
            stage = next(other for other in lesson.plan.stages if other.id == needed)
            points = [found.at for found in inner[needed].points]
    width, height = float(stage.work.width), float(stage.work.height)
    rings = tuple((width - at.real, at.imag) if back else point(at) for at in points)
    labels = [((width, height / 2), phrase("the next seam")), *((at, phrase("a point")) for at in rings[:1])]
    alt = phrase(POINTS_BEHIND if back else POINTS, one=name_one(stage), allowance=lesson.allowance)
    pieces = with_allowance(stage, s)
    edges = tuple(("sew", edge) for edge in frame_of(0.0, 0.0, width, height))
    return Scene(
        alt,
        tuple(_turn_over(piece, width) for piece in pieces) if back else pieces,
        edges,
        rings=rings,
        labels=tuple(labels),
    )


def _turn_over(piece: Piece, width: float) -> Piece:
    """The piece from its back, in a picture so wide."""
    return replace(piece, points=[(width - x, y) for x, y in piece.points], back=True)


def show_piles(stage: Stage) -> Scene:
    """A heap for each way in which copies are pressed, its number on a slip of paper, its wedges on the uppermost."""
    width, height = float(stage.work.width), float(stage.work.height)
    pieces: list[Piece] = []
    wedges: list[tuple[Point, Point]] = []
    labels = []
    for number, (count, seams) in enumerate(stage.ways):
        left = complex(number * width * HEAP_APART)
        for step in (2, 1, 0):
            pieces += [
                piece_of(cut, left + step * complex(width, height) * HEAP_STEP) for cut in patches_of(stage)
            ]
        slip = left + complex(width * 0.06, height * 0.72)
        pieces.append(Piece([point(slip + at) for at in _slip(width, height)], ""))
        wedges += [(point(complex(*at) + left), way) for seam in seams for at, way in find_wedges(seam)]
        labels.append(
            (
                point(slip + complex(width * 0.2, height * 0.1)),
                phrase("slip {number}: {count}", number=number + 1, count=count),
            )
        )
    alt = phrase(
        "{count} piles, each with its number on a slip, the wedges as its seams are pressed",
        count=len(stage.ways),
    )
    return Scene(alt, tuple(pieces), wedges=tuple(wedges), labels=tuple(labels))


def _slip(width: float, height: float) -> tuple[complex, ...]:
    return 0j, complex(width * 0.3), complex(width * 0.3, height * 0.2), complex(0, height * 0.2)


def show_kept(stage: Stage, lesson: Lesson) -> Scene:
    """The sewn stage with its outer edges on the bias marked."""
    edges = lesson.plan.notes[stage.id].bias.outer
    middles = [point(middle_of((edge.start, edge.end))) for edge in edges]
    labels = ((max(middles), phrase("stretches: do not pull")),) if middles else ()
    marked = tuple(("stretching", line(edge.start, edge.end)) for edge in edges)
    return Scene(
        phrase("{one} lying flat, the edges that stretch marked", one=name_one(stage)),
        whole(stage),
        marked,
        labels=labels,
    )
