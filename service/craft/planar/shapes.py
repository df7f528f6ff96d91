"""What shape a patch has, for cutting and for counting alike: how a rotary cutter gets it, and which patches are one.

Turned and mirrored copies are the same shape to a cutter of templates; a mirrored one is cut with the template
upside down, which matters as soon as the cloth has a right side.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from service.craft.planar.figures import Figure, GridPoint, cross


class Form(StrEnum):
    """How a patch is cut."""

    RECTANGLE = "rectangle"
    RECTANGLE_ON_POINT = "rectangle on point"
    HALF_SQUARE = "half-square triangle"
    QUARTER_SQUARE = "quarter-square triangle"
    BASE = "base with corner squares"
    CORNER = "corner square"
    TEMPLATE = "template"


@dataclass(frozen=True)
class Shape:
    """A patch's form and its measures in grid steps.

    rectangle: width and height; on point: both sides times √2 (they run along diagonals); half-square: the leg
    twice; quarter-square: the long side twice; base: width and height with its corners; corner square: the
    finished leg twice; template: the box.
    """

    form: Form
    measures: tuple[int, int]


def recognise(figure: Figure) -> Shape:
    """How the figure is cut by itself: along the grain where an axis allows it, else by a template.

    What it is together with its neighbours, a base or a corner square, `planar.clipped` finds out.
    """
    corners, n = figure.corners, len(figure.corners)
    vectors = [(q[0] - p[0], q[1] - p[1]) for p, q in figure.edges()]
    if n == 4 and all(_square_on(vectors[i - 1], vectors[i]) for i in range(4)):
        return _four_sided(figure, vectors)
    if n == 3:
        right = [i for i in range(3) if _square_on(vectors[i - 1], vectors[i])]
        if right and _length2(vectors[right[0] - 1]) == _length2(vectors[right[0]]):
            return _three_sided(figure, vectors[right[0]], vectors[(right[0] + 1) % 3])
    return _by_template(corners)


def _four_sided(figure: Figure, vectors: list[GridPoint]) -> Shape:
    if all(_along_axis(v) for v in vectors):
        return _box(Form.RECTANGLE, figure.corners)
    if all(abs(x) == abs(y) for x, y in vectors):
        sides = sorted((2 * abs(vectors[0][0]), 2 * abs(vectors[1][0])), reverse=True)
        return Shape(Form.RECTANGLE_ON_POINT, (sides[0], sides[1]))
    return _by_template(figure.corners)


def _three_sided(figure: Figure, leg: GridPoint, long_side: GridPoint) -> Shape:
    if _along_axis(leg):
        length = abs(leg[0]) + abs(leg[1])
        return Shape(Form.HALF_SQUARE, (length, length))
    if _along_axis(long_side):
        length = abs(long_side[0]) + abs(long_side[1])
        return Shape(Form.QUARTER_SQUARE, (length, length))
    return _by_template(figure.corners)


def _by_template(corners: tuple[GridPoint, ...]) -> Shape:
    return _box(Form.TEMPLATE, corners)


def _box(form: Form, corners: tuple[GridPoint, ...]) -> Shape:
    xs, ys = [c[0] for c in corners], [c[1] for c in corners]
    return Shape(form, (max(xs) - min(xs), max(ys) - min(ys)))


def _square_on(u: GridPoint, v: GridPoint) -> bool:
    return u[0] * v[0] + u[1] * v[1] == 0


def _along_axis(v: GridPoint) -> bool:
    return v[0] == 0 or v[1] == 0


def _length2(v: GridPoint) -> int:
    return v[0] * v[0] + v[1] * v[1]


Signature = tuple[tuple[int, int, int], ...]
"""For each corner: length² of the side before it, the turn there (scalar and cross product); least rotation first."""


def signature(figure: Figure) -> Signature:
    """The same for figures that lie on each other after turning and moving, and for no others."""
    return _least_rotation(_walk(figure.corners))


def mirrored_signature(figure: Figure) -> Signature:
    """The signature of the figure seen in a mirror."""
    return _least_rotation(_walk(tuple((-x, y) for x, y in reversed(figure.corners))))


def is_its_own_mirror(figure: Figure) -> bool:
    """Whether a template of it may be turned over freely."""
    return signature(figure) == mirrored_signature(figure)


def _walk(corners: tuple[GridPoint, ...]) -> list[tuple[int, int, int]]:
    n, found = len(corners), []
    for i in range(n):
        before, here, after = corners[i - 1], corners[i], corners[(i + 1) % n]
        u, v = (here[0] - before[0], here[1] - before[1]), (after[0] - here[0], after[1] - here[1])
        found.append((_length2(u), u[0] * v[0] + u[1] * v[1], cross(before, here, after)))
    return found


def _least_rotation(steps: list[tuple[int, int, int]]) -> Signature:
    return min(tuple(steps[i:] + steps[:i]) for i in range(len(steps)))
