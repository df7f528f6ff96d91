"""Cloth for applique pieces: a rectangle each, by the box round its outline and a margin."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from service.craft.document import Project
from service.craft.measure import MM_PER_INCH, format_length, round_up
from service.craft.outlines.affine import Affine
from service.craft.tracks import Track
from workers.cutting.cuts import RECTANGLE, Cut
from workers.outlines.asked import AskedPiece
from workers.recipe import CannotMake

TRIM_ROOM = Fraction(1)
"""Inches on every side of a piece whose cloth is trimmed where it lies: common practice, no source."""

FUSED_ROOM = Fraction(1, 2)
"""Inches on every side of a piece that is cut to its line before it is laid on: common practice, no source."""

ROUGH_STEPS = {"in": Fraction(1, 2), "mm": 10 / MM_PER_INCH, "cm": 10 / MM_PER_INCH}
"""To what rough rectangles are rounded up, by measure: nobody cuts them to the eighth."""

HUNDREDTH_MM = Fraction(1, 100)
TRIMMED = "trimmed where it lies"
CUT_OUT = "cut to its outline later"


@dataclass(frozen=True)
class RoughPiece:
    """A piece with the rectangle of cloth it takes, and the box of its outline: inches, as they lie on the cloth.

    `room` is the margin on every side of the box, before the rectangle is rounded up.
    """

    asked: AskedPiece
    box: tuple[Fraction, Fraction]
    room: Fraction
    width: Fraction
    height: Fraction

    @property
    def key(self) -> tuple[str, Fraction, Fraction, Fraction]:
        """What pieces share that are cut alike."""
        return self.asked.fabric.key, self.width, self.height, self.room


def rough_out(pieces: Iterable[AskedPiece], project: Project) -> list[RoughPiece]:
    """The rectangle of every piece, in the document's order.

    On cloth without a direction the outline lies as it was drawn, its long side across; on cloth with one it
    lies as on the top.
    """
    return [_rough(asked, project) for asked in pieces]


def applique_cuts(rough: Sequence[RoughPiece], project: Project) -> list[Cut]:
    """The cuts for the pieces, equal rectangles of one cloth together.

    Raises `CannotMake` for a rectangle that fits on its cloth in no way.
    """
    groups: dict[tuple[str, Fraction, Fraction, Fraction], list[RoughPiece]] = {}
    for one in rough:
        _check_width(one, project)
        groups.setdefault(one.key, []).append(one)
    return [_cut(group, project.measure) for group in groups.values()]


def measure_box(asked: AskedPiece) -> tuple[Fraction, Fraction]:
    """The box round a piece's outline in inches, to a hundredth of a millimetre, as it lies on its cloth."""
    outline = asked.outline
    if asked.fabric.one_way:
        outline = outline.moved(Affine.turning(float(asked.piece.turn)))
    width, height = (_inches(side) for side in (outline.width_mm, outline.height_mm))
    turns = height > width and not asked.fabric.one_way
    return (height, width) if turns else (width, height)


def is_trimmed(asked: AskedPiece, tracks: Iterable[Track]) -> bool:
    """Whether a piece's cloth is trimmed where it lies on any track: always, or in a hoop without a cutting machine."""
    return asked.fabric.trim_in_place or any(track.hoop and not track.cutter for track in tracks)


def _rough(asked: AskedPiece, project: Project) -> RoughPiece:
    room = TRIM_ROOM if is_trimmed(asked, project.tracks) else FUSED_ROOM
    box, step = measure_box(asked), ROUGH_STEPS[project.measure]
    width, height = (round_up(side + 2 * room, step) for side in box)
    return RoughPiece(asked, box, room, width, height)


def _inches(side_mm: float) -> Fraction:
    return round(Fraction(side_mm) / HUNDREDTH_MM) * HUNDREDTH_MM / MM_PER_INCH


def _cut(group: Sequence[RoughPiece], measure: str) -> Cut:
    first = group[0]
    fabric = first.asked.fabric
    upright = ", each lying as on the top" if fabric.one_way else ""
    box = f"by its bounding box, with {format_length(first.room, measure)} to spare on every side{upright}"
    return Cut(
        fabric=fabric.key,
        width=first.width,
        height=first.height,
        count=len(group),
        makes=len(group),
        wanted=len(group),
        shape=RECTANGLE,
        then=TRIMMED if fabric.trim_in_place else CUT_OUT,
        uses=tuple(one.asked.piece.name for one in group),
        may_turn=not fabric.one_way and first.width != first.height,
        pointer=first.asked.piece.pointer,
        notes=(box,),
        applique=True,
    )


def _check_width(one: RoughPiece, project: Project) -> None:
    fabric = one.asked.fabric
    across = one.width if fabric.one_way else min(one.width, one.height)
    if across <= fabric.usable_width:
        return
    size = " by ".join(format_length(side, project.measure) for side in (one.width, one.height))
    raise CannotMake(
        f'"{one.asked.piece.name}" takes {size} of "{fabric.name}", which is'
        f" {format_length(fabric.usable_width, project.measure)} wide",
        pointer=one.asked.piece.pointer,
        right="a smaller piece, or a wider cloth",
    )
