"""Which pieces are sewn together in one hooping, in what order, and how the design lies in the field."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np

from service.craft.stacking import find_circle, stack
from workers.recipe import CannotMake
from workers.stitches.colour_order import lies_above, sequence_passes
from workers.stitches.grouping import Grouping, Laid, group_boxes
from workers.stitches.marks import Ruler, middle_elsewhere, middles
from workers.stitches.pieces import Again, Hooping, Points, SewnPiece, StitchPiece, box_of
from workers.stitches.settings import Field, StitchSettings


def stacking_order(pieces: tuple[StitchPiece, ...]) -> list[StitchPiece]:
    """The pieces from the bottom up; those free to go first do so in the order they were written.

    Raises `CannotMake` where an `above` names no piece, or where pieces lie above each other in a circle.
    """
    by_name = {piece.name: piece for piece in pieces}
    for piece in pieces:
        for below in piece.above:
            if below not in by_name:
                raise CannotMake(
                    f'"{piece.name}" is to lie above "{below}", but there is no such piece',
                    pointer=f"{piece.pointer}/above",
                    right="name pieces of this project: " + ", ".join(by_name),
                )
    above = {piece.name: piece.above for piece in pieces}
    if circle := find_circle(above):
        raise CannotMake(
            "these pieces are said to lie above each other in a circle: " + ", ".join([*circle, circle[0]]),
            pointer=f"{by_name[circle[0]].pointer}/above",
            right="let one of them lie at the bottom, with an empty above",
        )
    return [by_name[name] for name in stack(above)]


def room_in(field: Field, settings: StitchSettings) -> tuple[float, float]:
    """The width and height inside the field's keep-out, millimetres."""
    return field.width_mm - 2 * settings.keep_out_mm, field.height_mm - 2 * settings.keep_out_mm


def fits(box: tuple[float, float, float, float], field: Field, settings: StitchSettings) -> str:
    """`upright` or `turned` where the box fits inside the field's keep-out, or an empty string."""
    width, height = box[2] - box[0], box[3] - box[1]
    room = room_in(field, settings)
    if width <= room[0] and height <= room[1]:
        return "upright"
    return "turned" if height <= room[0] and width <= room[1] else ""


def check_fits(sewn: SewnPiece, field: Field, settings: StitchSettings) -> None:
    """Refuse a piece that no turn brings into the field, naming both and the field it needs."""
    if fits(sewn.box, field, settings):
        return
    x0, y0, x1, y1 = sewn.box
    need = [int(np.ceil(side + 2 * settings.keep_out_mm)) for side in (x1 - x0, y1 - y0)]
    part = sewn.piece.part
    what = f'the {part.name} of the piece "{sewn.piece.name}"' if part else f'the piece "{sewn.piece.name}"'
    raise CannotMake(
        f"{what} does not fit the sewing field {field.width_mm:g} x {field.height_mm:g} mm,"
        f" upright or turned: with its edge finish and {settings.keep_out_mm:g} mm kept free it needs"
        f" {need[0]} x {need[1]} mm",
        pointer=f"{sewn.piece.pointer}/split" if part else sewn.piece.pointer,
        right="scale the piece down, split it along a line or one more, or give the track a larger sewing field",
    )


def group_pieces(sewn: list[SewnPiece], field: Field, settings: StitchSettings) -> Grouping:
    """The pieces' numbers by hooping. `sewn` comes in stacking order; pieces whose stitches meet keep theirs."""
    earlier = [{m for m in range(n) if lies_above(sewn[n], sewn[m])} for n in range(len(sewn))]
    whole = {name: n for n, name in enumerate(dict.fromkeys(s.piece.name for s in sewn), start=1)}
    pieces = [
        Laid(s.box, s.piece.private, frozenset(earlier[n]), whole[s.piece.name] if s.piece.part else 0)
        for n, s in enumerate(sewn)
    ]
    return group_boxes(pieces, lambda box: bool(fits(box, field, settings)))


def common_box(group: list[SewnPiece]) -> tuple[float, float, float, float]:
    """The box round all needle points of a group, millimetres on the top."""
    return box_of([p.points for sewn in group for p in sewn.passes])


def lay_piece(piece: StitchPiece, lay: Callable[[Points], Points]) -> StitchPiece:
    """The piece with its outline, its part and its details moved."""
    details = tuple(replace(d, paths=tuple(lay(path) for path in d.paths)) for d in piece.details)
    part = piece.part and replace(piece.part, region=lay(piece.part.region))
    return replace(piece, rings=tuple(lay(ring) for ring in piece.rings), details=details, part=part)


def choose_middle(
    group: list[SewnPiece], field: Field, settings: StitchSettings, ruler: Ruler | None
) -> tuple[Points, bool]:
    """Where the middle of the field lies on the top, and whether the design is turned a quarter in it."""
    x0, y0, x1, y1 = common_box(group)
    turned = fits((x0, y0, x1, y1), field, settings) == "turned"
    *wished, centre = middles(group, ruler)
    for middle in wished:
        reach = 2 * np.abs(np.array([[x0, y0], [x1, y1]]) - middle).max(axis=0)
        way = fits((0.0, 0.0, float(reach[0]), float(reach[1])), field, settings)
        if way and (way == "turned") == turned:
            return middle, turned
    return centre, turned


def lay_in_field(
    group: list[SewnPiece], number: int, field: Field, settings: StitchSettings, ruler: Ruler | None = None
) -> Hooping:
    """The group in the middle of the field, turned a quarter clockwise where it only fits so.

    The middle is moved onto a mark of the ruler, where the field has room for that.
    """
    centre, turned = choose_middle(group, field, settings, ruler)

    def lay(points: Points) -> Points:
        moved = points - centre
        return np.stack([-moved[:, 1], moved[:, 0]], axis=1) if turned else moved

    laid = tuple(
        replace(
            sewn,
            piece=lay_piece(sewn.piece, lay),
            passes=tuple(replace(p, points=lay(p.points)) for p in sewn.passes),
        )
        for sewn in group
    )
    middle = (float(centre[0]), float(centre[1]))
    return Hooping(number, field, laid, turned, middle, sequence_passes(laid))


def plan_hoopings(
    sewn: list[SewnPiece], field: Field, settings: StitchSettings, ruler: Ruler | None = None
) -> list[Hooping]:
    """Every hooping for one field, numbered from 1 in sewing order; `CannotMake` where a piece is too large."""
    for one in sewn:
        check_fits(one, field, settings)
    grouping = group_pieces(sewn, field, settings)
    groups = [[sewn[n] for n in group] for group in grouping.groups]
    laid = [
        replace(lay_in_field(group, n, field, settings, ruler), of=len(groups), at_least=grouping.at_least)
        for n, group in enumerate(groups, start=1)
    ]
    found = [point_to_same(hooping, laid[:n]) for n, hooping in enumerate(laid)]
    return [replace(hooping, again=list_again(hooping, found)) for hooping in found]


def list_again(hooping: Hooping, others: list[Hooping]) -> tuple[Again, ...]:
    """The later hoopings whose motif this one's file sews too."""
    return tuple(
        Again(
            other.name,
            tuple(s.piece.name for s in other.sewn),
            other.same_centre_mm,
            other.top_turned_degrees,
        )
        for other in others
        if other.same_as == hooping.name
    )


def point_to_same(hooping: Hooping, earlier: list[Hooping]) -> Hooping:
    """The hooping of one piece with the earlier one, if any, whose file sews the same motif in another place."""
    for other in earlier:
        if len(hooping.sewn) == len(other.sewn) == 1 and sewn_alike(
            hooping.sewn[0].piece, other.sewn[0].piece
        ):
            in_field = other.sewn[0].piece.turn_degrees + (90 if other.turned else 0)
            turned = (in_field - hooping.sewn[0].piece.turn_degrees) % 360
            centre = middle_elsewhere(other.centre_mm, other.sewn[0], hooping.sewn[0])
            return replace(hooping, same_as=other.name, top_turned_degrees=turned, same_centre_mm=centre)
    return hooping


def sewn_alike(one: StitchPiece, other: StitchPiece) -> bool:
    """Whether two pieces, or parts of them, are the same motif, sewn in the same way."""
    parts = [(piece.part.number, piece.part.of) if piece.part else (1, 1) for piece in (one, other)]
    return (
        bool(one.motif)
        and parts[0] == parts[1]
        and all(
            getattr(one, name) == getattr(other, name)
            for name in ("motif", "thread", "edge", "trim_in_place", "private", "settings")
        )
    )
