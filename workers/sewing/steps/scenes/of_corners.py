"""Scenes of squares flipped over a corner of a base, and of the small unit that is cut off there."""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

from service.craft.drawing.scenes import Line, Piece, Scene
from service.craft.language import phrase
from service.craft.outlines.affine import Point
from workers.sewing.plan import Stage
from workers.sewing.steps.scenes.of_pairs import DIAGONAL, SIDE, cloths_of
from workers.sewing.steps.scenes.of_stage import middle_of, patches_of, point
from workers.sewing.steps.scenes.shapes import frame, rect
from workers.sewing.steps.step import Lesson
from workers.sewing.turn_of_cloth import say_beside


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
