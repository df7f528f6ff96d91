"""Scenes of two squares sewn before they are cut, and of squares flipped over a corner."""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

from service.craft.drawing.scenes import Line, Piece, Scene
from service.craft.language import phrase
from service.craft.outlines.affine import Point
from workers.sewing.plan import Stage
from workers.sewing.steps.scenes.of_stage import middle_of, patches_of, point
from workers.sewing.steps.scenes.shapes import frame, rect
from workers.sewing.steps.step import Lesson
from workers.sewing.turn_of_cloth import say_beside

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


@dataclass(frozen=True)
class Corner:
    """One corner of a base where a square is flipped, in inches with the allowances on."""

    base: tuple[float, float, float, float]
    base_cloth: str
    cloth: str
    at: complex
    inwards: complex
    side: float
    beside: float
    allowance: float

    def diagonal(self, outwards: float = 0.0) -> Line:
        """The line across the square's corner, moved so far towards the corner (inches)."""
        reach = self.side - outwards * sqrt(2)
        return (
            point(self.at + complex(self.inwards.real * reach, 0)),
            point(self.at + complex(0, self.inwards.imag * reach)),
        )

    def square(self) -> Piece:
        """The square, its back up."""
        far = self.at + self.inwards * self.side
        xs, ys = sorted((self.at.real, far.real)), sorted((self.at.imag, far.imag))
        return rect(xs[0], ys[0], xs[1] - xs[0], ys[1] - ys[0], self.cloth, back=True)

    def triangle(self, tip: complex, *, back: bool = False) -> Piece:
        """Half the square, from the diagonal to a tip."""
        return Piece((*self.diagonal(), point(tip)), self.cloth, back)


def find_corner(stage: Stage, lesson: Lesson, *, last: bool = False) -> Corner:
    """The first corner of a unit, or its last one."""
    cuts = patches_of(stage)
    corner = cuts[-1] if last else cuts[1]
    s = float(lesson.project.seam_allowance)
    width, height = float(stage.work.width), float(stage.work.height)
    centre = complex(width, height) / 2
    tip = max(corner.corners, key=lambda place: abs(place - centre))
    legs = [abs(place - tip) for place in corner.corners if place != tip]
    inwards = complex(1 if tip.real < centre.real else -1, 1 if tip.imag < centre.imag else -1)
    away = max(float(say_beside(lesson.project, corner.fabric)), min(legs) * 0.06)
    return Corner(
        (-s, -s, width + 2 * s, height + 2 * s),
        cuts[0].fabric,
        corner.fabric,
        tip - inwards * s,
        inwards,
        min(legs) + 2 * s,
        away,
        s,
    )


def _middle(line: Line, share: float = 0.5) -> Point:
    (x0, y0), (x1, y1) = line
    return x0 + (x1 - x0) * share, y0 + (y1 - y0) * share


def mark_corner(corner: Corner) -> Scene:
    """The line on the back of a corner square."""
    line = corner.diagonal()
    return Scene(
        phrase("The back of a corner square with the line to draw from corner to corner"),
        (corner.square(),),
        (("drawn", line),),
        labels=((_middle(line), phrase("draw")), (_middle(line, 0.1), phrase("back of the cloth"))),
    )


def lay_corner(corner: Corner) -> Scene:
    """The square on the corner of the base."""
    line = corner.diagonal()
    return Scene(
        phrase(
            "A corner square with its back up, level with the corner of the base; its line cuts the corner off"
        ),
        (rect(*corner.base, corner.base_cloth), corner.square()),
        (("drawn", line),),
        labels=((_middle(line), phrase("the line you drew")), (point(corner.at), phrase("edges level"))),
    )


def sew_corner(corner: Corner, *, again: bool = False) -> Scene:
    """The seam beside the line, on the side of the corner that is trimmed off."""
    seam = corner.diagonal(corner.beside)
    second = corner.diagonal(corner.beside + 2 * corner.allowance)
    lines = [("drawn", corner.diagonal()), ("sew", seam), *([("sew", second)] if again else [])]
    labels = [
        (_middle(corner.diagonal(), 0.8), phrase("the line you drew")),
        (_middle(seam, 0.5), phrase("sew here")),
    ]
    if again:
        labels = [(_middle(seam, 0.8), phrase("the first seam")), (_middle(second), phrase("sew here"))]
    labels.append((point(corner.at), phrase("corner trimmed off later")))
    alt = phrase(
        "A corner square on its base: the seam to sew, dashed, runs beside the drawn line, towards the corner"
    )
    pieces = (rect(*corner.base, corner.base_cloth), corner.square())
    return Scene(alt, pieces, tuple(lines), labels=tuple(labels))


def press_corner(corner: Corner) -> Scene:
    """The inner half of the square flipped over the seam."""
    line = corner.diagonal()
    mid = middle_of(complex(*end) for end in line)
    out = (corner.at - mid) / abs(corner.at - mid)
    return Scene(
        phrase(
            "The corner square flipped open over its seam, its right side up; its tip lies on the corner of the base"
        ),
        (rect(*corner.base, corner.base_cloth), corner.triangle(corner.at)),
        (("sew", line),),
        wedges=((point(mid), point(out)),),
        labels=((point(corner.at), phrase("the tip meets the corner")),),
    )


def fold_corner(corner: Corner, *, cut: bool = False, midway: bool = False) -> Scene:
    """The flipped half folded back inwards; with `cut`, the line on which the layers under it are cut."""
    line = corner.diagonal(corner.beside)
    pieces = (rect(*corner.base, corner.base_cloth), corner.square())
    trim = corner.diagonal(corner.beside + corner.allowance)
    lines = [("sew", line)]
    if midway:
        lines.append(("sew", corner.diagonal(corner.beside + 2 * corner.allowance)))
    if cut:
        lines.append(("cut", trim))
    labels = [
        (_middle(line, 0.8), phrase("the seam")),
        ((_middle(trim)), phrase("cut")) if cut else (point(corner.at), phrase("two layers")),
    ]
    alt = phrase("The corner folded back; the two layers outside the seam lie open")
    if cut:
        alt = phrase("The corner folded back, with the line to cut, solid, outside the dashed seam")
    return Scene(alt, pieces, tuple(lines), labels=tuple(labels))


def show_spare(stage: Stage, *, cut: bool) -> Scene:
    """The small unit of two triangles that was cut off."""
    first, second = cloths_of(stage)
    pieces = (
        Piece(((0.0, 0.0), (SIDE, 0.0), (0.0, SIDE)), first),
        Piece(((SIDE, 0.0), (SIDE, SIDE), (0.0, SIDE)), second),
    )
    frames = tuple(frame("cut", 0.6, 0.6, SIDE - 1.2, SIDE - 1.2)) if cut else ()
    wedges = () if cut else (((SIDE / 2, SIDE / 2), (0.71, 0.71)),)
    label = (((SIDE - 0.6, 2.0), phrase("cut")),) if cut else (((SIDE / 2, SIDE / 2), phrase("open")),)
    return Scene(
        phrase("A spare half-square triangle with lines to trim it square")
        if cut
        else phrase("A spare half-square triangle pressed open"),
        pieces,
        (("sewn", DIAGONAL), *frames),
        wedges=wedges,
        labels=label,
    )
