"""What lies on the sewing table: cut patches, and works sewn of patches and smaller works.

Sizes are finished and exact (inches). Where things lie is in floats, as complex numbers x + yi with y down:
nothing is cut by them, they only say which seams meet. A turn is clockwise, in eighths of a full turn.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cached_property
from math import sqrt

from service.craft.measure import ROOT_2, Exact, Number, exact
from service.craft.planar.templates import cut_outline, measure_box
from service.craft.units import Patch

FINEST_MARK = Fraction(1, 64)
"""Inches to which the box of a slanted piece is given; no ruler shows less."""

_R = sqrt(0.5)
ROTATIONS = (1 + 0j, _R + _R * 1j, 1j, -_R + _R * 1j, -1 + 0j, -_R - _R * 1j, -1j, _R - _R * 1j)
"""Multiplying by the k-th turns clockwise by k eighths."""


@dataclass(frozen=True)
class Cut:
    """One cut patch: its finished corners in its own picture; sizes of the box round them in inches.

    `hole` is what patches laid on it hide in its middle. `pieced` is the work whose cloth it is cut of, where its own
    is not wide enough: that has its seams, the patch is drawn without them.
    """

    fabric: str
    corners: tuple[complex, ...]
    width: Exact
    height: Exact
    hole: tuple[complex, ...] = ()
    pieced: Work | None = None

    @property
    def id(self) -> str:
        """What tells it from other patches."""
        return f"{self.fabric!r} {self.corners}" + (f" of {self.pieced.id}" if self.pieced else "")


@dataclass(frozen=True)
class Beside:
    """What lies on one side of a seam: its `role` on the table, its cloth where it is one, and how it is called."""

    role: str
    fabric: str = ""
    words: str = ""


@dataclass(frozen=True)
class SeamLine:
    """A seam of one work, in the work's picture. Going from start to end, `left` lies at the left hand.

    `fixed` is a way of pressing that is not up for choice, such as open. `same_as` is the number of the seam of the
    same work whose way it shares, since both were one seam, or are made alike, when they are pressed.
    """

    start: complex
    end: complex
    left: Beside
    right: Beside
    fixed: str = ""
    same_as: int | None = None

    @property
    def to_right(self) -> complex:
        """The unit vector square to the seam, to the right hand (y is down)."""
        along = self.end - self.start
        return along / abs(along) * 1j


@dataclass(frozen=True)
class Laid:
    """A patch or a work where it lies in a larger picture: turned, then moved."""

    piece: Piece
    eighths: int = 0
    shift: complex = 0j

    def place(self, point: complex) -> complex:
        """Where a point of the piece lies."""
        return ROTATIONS[self.eighths] * point + self.shift


@dataclass(frozen=True, eq=False)
class Work:
    """One thing sewn: what it is made of, its seams, its finished size.

    `tips` counts the slanted ends (setting triangles) of a diagonal row; `extra` is what is trimmed off later.
    `whole` says that it is the very unit at `pointer`, and not a part of it such as a row.
    `laid_on` says that its seams lie on a whole patch, which alone decides how large it is.
    `slanted` says that its outline is no upright rectangle: it is measured by the box round its cut shape.
    `called` is the thing's name in a sentence; `facts` are words and numbers that the text about it needs.
    `twin_of` is the id of the work that this is another pile of: sewn in one stage with it.
    `pressed_as` is the id under which its seams are pressed, where that is not its own.
    """

    id: str
    kind: str
    title: str
    one: str
    many: str
    width: Exact
    height: Exact
    items: tuple[Laid, ...]
    seams: tuple[SeamLine, ...]
    pointer: str
    block: str = ""
    whole: bool = True
    called: str = ""
    outline: tuple[complex, ...] = ()
    slanted: bool = False
    laid_on: bool = False
    tips: int = 0
    extra: Fraction = Fraction(0)
    facts: dict[str, str] = field(default_factory=dict)
    twin_of: str = ""
    pressed_as: str = ""

    @property
    def stage(self) -> str:
        """The id of the stage in which it is sewn: its own, or that of the work it is the twin of."""
        return self.twin_of or self.id

    @property
    def works(self) -> list[Work]:
        """The works inside, as often as they are used."""
        return [item.piece for item in self.items if isinstance(item.piece, Work)]

    @property
    def needed(self) -> list[Work]:
        """The works that are sewn before it: those inside, and the panels that its patches are cut of."""
        pieced = (item.piece.pieced for item in self.items if isinstance(item.piece, Cut))
        return [*self.works, *(work for work in pieced if work is not None)]

    @cached_property
    def corners(self) -> tuple[complex, ...]:
        """The finished outline: the given one, else the box."""
        return self.outline or box(self.width, self.height)

    def unfinished(self, seam_allowance: Fraction) -> tuple[Exact, Exact]:
        """Width and height with the allowances on, in inches.

        A slanted end of 45 degrees is measured at its tip: offset by s, the tip moves s·cot(22.5°) = s(1 + √2).
        """
        if self.slanted:
            outline = cut_outline([(c.real, c.imag) for c in self.corners], float(seam_allowance))
            width, height = measure_box(outline, FINEST_MARK)
            return exact(width), exact(height)
        s = exact(seam_allowance)
        tip = s * (1 + ROOT_2) + self.extra / ROOT_2
        return self.width + s * (2 - self.tips) + tip * self.tips, self.height + 2 * s


Piece = Cut | Work
Made = tuple[Piece, int]
"""A piece, and by how many quarter turns clockwise it lies."""


def box(width: Number, height: Number, corner: complex = 0j) -> tuple[complex, ...]:
    """The corners of a rectangle, from the top left one clockwise."""
    w, h = float(width), float(height)
    return corner, corner + w, corner + complex(w, h), corner + 1j * h


def rectangle(fabric: str, width: Exact, height: Exact) -> Cut:
    """A cut rectangle."""
    return Cut(fabric, box(width, height), width, height)


def polygon(fabric: str, corners: Sequence[complex], hole: Sequence[complex] = ()) -> Laid:
    """A cut patch of any shape, given by where its corners lie."""
    nothing = exact(0)
    return Laid(Cut(fabric, tuple(corners), nothing, nothing, tuple(hole)))


def as_complex(patch: Patch) -> tuple[complex, ...]:
    """A patch's corners as complex numbers, inches."""
    return _complex(patch.points)


def _complex(points: Sequence[tuple[Exact, Exact]]) -> tuple[complex, ...]:
    return tuple(complex(float(x), float(y)) for x, y in points)


def lay_patch(patch: Patch) -> Laid:
    """A patch of a unit where it lies in the unit."""
    return polygon(patch.fabric, as_complex(patch), _complex(patch.hole))


def lay(made: Made, corner: complex) -> Laid:
    """A made piece with the top left of its turned box at `corner`."""
    piece, quarters = made
    turn = quarters % 4
    w, h = float(piece.width), float(piece.height)
    moved = (0j, complex(h, 0), complex(w, h), complex(0, w))[turn]
    return Laid(piece, 2 * turn, corner + moved)


def turned_size(made: Made) -> tuple[Exact, Exact]:
    """Finished width and height of a piece as it lies."""
    piece, quarters = made
    return (piece.height, piece.width) if quarters % 2 else (piece.width, piece.height)


def content(made: Made) -> tuple[str, int]:
    """What a piece is, for telling rows apart."""
    return made[0].id, made[1] % 4


def walk_patches(laid: Laid, outer: tuple[complex, complex] = (1 + 0j, 0j)) -> Iterator[Cut]:
    """Every patch inside, with its corners where they lie in the whole."""
    turn, shift = outer[0] * ROTATIONS[laid.eighths], outer[0] * laid.shift + outer[1]
    if isinstance(laid.piece, Cut):
        cut = laid.piece
        corners, hole = (tuple(turn * c + shift for c in ring) for ring in (cut.corners, cut.hole))
        yield Cut(cut.fabric, corners, cut.width, cut.height, hole)
        return
    for item in laid.piece.items:
        yield from walk_patches(item, (turn, shift))
