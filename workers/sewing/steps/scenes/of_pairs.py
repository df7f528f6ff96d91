"""Scenes of two squares sewn before they are cut."""

from __future__ import annotations

from math import sqrt

from service.craft.drawing.scenes import Line, Piece, Scene
from service.craft.language import phrase
from workers.sewing.plan import Stage
from workers.sewing.steps.scenes.of_stage import patches_of
from workers.sewing.steps.scenes.shapes import frame, rect

SIDE = 10.0
BESIDE = 1.3
"""How far beside a line the seams of a pair are drawn, of a side of 10."""

DIAGONAL: Line = ((0.0, SIDE), (SIDE, 0.0))
OTHER: Line = ((0.0, 0.0), (SIDE, SIDE))
MIDDLES: tuple[Line, Line] = (((SIDE / 2, 0.0), (SIDE / 2, SIDE)), ((0.0, SIDE / 2), (SIDE, SIDE / 2)))


def beside(line: Line, away: float) -> tuple[Line, Line]:
    """Two lines on either side of one, inside a square of side 10."""
    (x0, y0), (x1, y1) = line
    step = away * sqrt(2) / 2
    dx, dy = (step, step) if (x1 - x0) * (y1 - y0) < 0 else (step, -step)
    trim = 0.08
    ax, ay, bx, by = (
        x0 + (x1 - x0) * trim,
        y0 + (y1 - y0) * trim,
        x1 - (x1 - x0) * trim,
        y1 - (y1 - y0) * trim,
    )
    return ((ax + dx, ay + dy), (bx + dx, by + dy)), ((ax - dx, ay - dy), (bx - dx, by - dy))


def cloths_of(stage: Stage) -> tuple[str, str]:
    """The keys of its first two cloths."""
    keys = list(dict.fromkeys(cut.fabric for cut in patches_of(stage)))
    return keys[0], keys[-1]


def _square(stage: Stage) -> tuple[Piece, ...]:
    return (rect(0, 0, SIDE, SIDE, cloths_of(stage)[0], back=True),)


def lay_pair(stage: Stage) -> Scene:
    """One square on the other, moved aside so that both are seen."""
    first, second = cloths_of(stage)
    pieces = (rect(0, 0, SIDE, SIDE, second), rect(1.6, 1.6, SIDE, SIDE, first, back=True))
    labels = (
        ((9.0, 0.8), phrase("this one right side up")),
        ((8.0, 8.0), phrase("this one right side down")),
    )
    return Scene(
        phrase("Two squares right sides together, the upper one with its back to you"), pieces, labels=labels
    )


def mark(stage: Stage, *, both: bool = False) -> Scene:
    """A line from corner to corner on the back."""
    lines = [("drawn", DIAGONAL), *([("drawn", OTHER)] if both else [])]
    return Scene(
        phrase("The back of a square with the lines to draw from corner to corner")
        if both
        else phrase("The back of a square with the line to draw from corner to corner"),
        _square(stage),
        tuple(lines),
        labels=(((6.5, 3.5), phrase("draw")), ((8.5, 8.5), phrase("back of the cloth"))),
    )


def mark_across(stage: Stage) -> Scene:
    """A half-square triangle from the back, a line across its seam."""
    first, second = cloths_of(stage)
    pieces = (
        Piece(((0, 0), (SIDE, 0), (0, SIDE)), first, back=True),
        Piece(((SIDE, 0), (SIDE, SIDE), (0, SIDE)), second, back=True),
    )
    return Scene(
        phrase("The back of a half-square triangle with the line to draw across its seam"),
        pieces,
        (("sewn", DIAGONAL), ("drawn", OTHER)),
        labels=(((7.0, 7.0), phrase("draw")), ((7.5, 2.5), phrase("the seam"))),
    )


def sew_beside(stage: Stage, allowance: str, *, both: bool = False) -> Scene:
    """A seam on either side of the line, or of both lines."""
    seams = [*beside(DIAGONAL, BESIDE), *(beside(OTHER, BESIDE) if both else ())]
    lines = [("drawn", DIAGONAL), *([("drawn", OTHER)] if both else []), *(("sew", seam) for seam in seams)]
    at = seams[0][1]
    return Scene(
        phrase(
            "A pair of squares with seams to sew {allowance} on both sides of the drawn line, dashed",
            allowance=allowance,
        ),
        _square(stage),
        tuple(lines),
        labels=(
            ((6.5, 3.5), phrase("the line you drew")),
            (at, phrase("sew, {allowance} from the line", allowance=allowance)),
        ),
    )


def sew_round(stage: Stage, allowance: str) -> Scene:
    """A seam all round the pair."""
    lines = frame("sew", 1, 1, SIDE - 2, SIDE - 2)
    labels = (((9.0, 5.0), phrase("sew, {allowance} from the edge", allowance=allowance)),)
    return Scene(
        phrase("A pair of squares with a seam to sew all round, dashed"), _square(stage), lines, labels=labels
    )


def cut_pair(stage: Stage, method: str) -> Scene:
    """The cuts of a pair: on the line, on both diagonals, or across the middle."""
    if "four" in method:
        lines = [*frame("sew", 1, 1, SIDE - 2, SIDE - 2), ("cut", DIAGONAL), ("cut", OTHER)]
    elif "eight" in method:
        seams = [*beside(DIAGONAL, BESIDE), *beside(OTHER, BESIDE)]
        lines = [*(("sew", seam) for seam in seams), *(("cut", middle) for middle in MIDDLES)]
    else:
        lines = [*(("sew", seam) for seam in beside(DIAGONAL, BESIDE)), ("cut", DIAGONAL)]
    last = lines[-1][1]
    at = ((last[0][0] + last[1][0] * 3) / 4, (last[0][1] + last[1][1] * 3) / 4)
    seam = lines[0][1][1]
    return Scene(
        phrase("A sewn pair of squares with the lines to cut, solid, between the dashed seams"),
        _square(stage),
        tuple(lines),
        labels=((at, phrase("cut")), (seam, phrase("a seam"))),
    )


def cut_quarter(stage: Stage) -> Scene:
    """A quarter of the pair by itself, cut on its one drawn line."""
    off = 2 * BESIDE * sqrt(2)
    seams: tuple[Line, Line] = (((off, 0.0), (SIDE, SIDE - off)), ((0.0, off), (SIDE - off, SIDE)))
    lines = (*(("sew", seam) for seam in seams), ("cut", OTHER))
    return Scene(
        phrase("One of the four quarters with the drawn line to cut, solid, between its two dashed seams"),
        _square(stage),
        lines,
        labels=(((7.5, 7.5), phrase("cut")), (((SIDE + off) / 2, (SIDE - off) / 2), phrase("a seam"))),
    )
