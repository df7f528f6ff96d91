"""Cloth for applique pieces: a rectangle each, by the box round its outline and a margin."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from service.craft.document import Project
from service.craft.language import mark, phrase
from service.craft.measure import format_length
from service.craft.outlines.affine import Affine
from service.craft.rough_cloth import find_rectangle, find_room, lay_box
from workers.cutting.cuts import RECTANGLE, Cut
from workers.outlines.asked import AskedPiece
from workers.recipe import CannotMake

TRIMMED = mark("trimmed where it lies")
CUT_OUT = mark("cut to its outline later")

BY_BOX = mark("by its bounding box, with {room} to spare on every side")
BY_BOX_UPRIGHT = mark("by its bounding box, with {room} to spare on every side, each lying as on the top")


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


def _rough(asked: AskedPiece, project: Project) -> RoughPiece:
    fabric, outline = asked.fabric, asked.cut
    if fabric.one_way:
        outline = outline.moved(Affine.turning(float(asked.piece.turn)))
    box, room = lay_box(outline.width_mm, outline.height_mm, fabric), find_room(fabric, project.tracks)
    return RoughPiece(asked, box, room, *find_rectangle(box, room, project.measure))


def _cut(group: Sequence[RoughPiece], measure: str) -> Cut:
    first = group[0]
    fabric = first.asked.fabric
    box = phrase(BY_BOX_UPRIGHT if fabric.one_way else BY_BOX, room=format_length(first.room, measure))
    return Cut(
        fabric=fabric.key,
        width=first.width,
        height=first.height,
        count=len(group),
        makes=len(group),
        wanted=len(group),
        shape=RECTANGLE,
        then=phrase(TRIMMED if fabric.trim_in_place else CUT_OUT),
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
