"""Does every piece fit the sewing fields, whole or in the parts it is split into?"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from service.craft.document import Project
from service.craft.faults import Fault
from service.craft.machine_room import fits_into, list_equipment, say_whole
from service.craft.outlines import Outline
from service.craft.outlines.split_parts import Part, SplitMisses, name_part, split_piece
from service.craft.pieces import Piece
from service.craft.stitching import MM, finish_reach_mm, thread_mm
from service.craft.tracks import Equipment

KEEP_OUT_MM = 3.0
"""Kept free all round inside a sewing field; common practice, no source."""

MOST_SPACING = Fraction(9, 8)
"""Satin covers where it is spaced by its thread's thickness and an eighth more: 0.35 to 0.45 mm are usual with a thread
of 0.4 mm (emborado.de, E. Campbell on mrxstitch.com)."""

Sides = tuple[float, float]


def check_hoops(piece: Piece, outline: Outline, sides_mm: Sides, project: Project) -> Iterator[Fault]:
    """A piece with its edge finish fits the sewing field of every track that has a hoop, upright or turned.

    Where it does not, each of the parts must that its lines make. `sides_mm` are those of its box on the top.
    """
    margin = find_margin(piece, project)
    need = (sides_mm[0] + margin, sides_mm[1] + margin)
    try:
        parts = split_piece(piece, outline) if piece.split else ()
    except SplitMisses as miss:
        yield Fault(
            miss.pointer, f'{miss}, "{piece.name}"', "a line with some of the piece on both sides of it"
        )
        return
    for hoop, names in list_equipment(project.tracks, "hoop").items():
        if fits_into(need, hoop):
            continue
        if parts:
            yield from _check_parts(piece, parts, margin, hoop, names)
        else:
            yield Fault(
                piece.pointer,
                f'the piece "{piece.name}" is too large for the sewing field {hoop.label} mm of {names}: '
                f"with its edge and {KEEP_OUT_MM:g} mm kept free it needs {say_whole(need)} mm",
                f"a hoop of {say_whole(need)} mm, a smaller `scale`, a line to `split` it along, or the shape in two "
                "pieces",
            )


def check_spacing(piece: Piece, project: Project) -> Iterator[Fault]:
    """Satin that is asked to be so open that its thread cannot cover the raw edge: no such file would be released."""
    wished, hoops = piece.stitching, list_equipment(project.tracks, "hoop")
    if not hoops or piece.hoop_edge != "satin" or wished.spacing is None:
        return
    thread = thread_mm(wished.thread_weight)
    most = MOST_SPACING * thread
    if wished.spacing / MM > most:
        yield Fault(
            f"{piece.pointer}/stitching/spacing",
            f'the satin edge of "{piece.name}" is spaced {float(wished.spacing / MM):g} mm, and its thread is '
            f"{float(thread):g} mm thick: the raw edge would show between the stitches",
            f'{float(most):g} mm or less, a thicker thread, or the edge "zigzag", which is meant to be open',
        )


def _check_parts(
    piece: Piece, parts: tuple[Part, ...], margin: float, hoop: Equipment, names: str
) -> Iterator[Fault]:
    """Each part fits, or is named with the field it needs."""
    for part in parts:
        need = part_sides(part, margin)
        if not fits_into(need, hoop):
            yield Fault(
                f"{piece.pointer}/split",
                f'the {name_part(parts, part.number)} of the piece "{piece.name}" is too large for the sewing field '
                f"{hoop.label} mm of {names}: with its edge and {KEEP_OUT_MM:g} mm kept free it needs "
                f"{say_whole(need)} mm",
                f"the line moved into this part, one more line, or a hoop of {say_whole(need)} mm",
            )


def part_sides(part: Part, margin: float) -> Sides:
    """Width and height that a part needs, with its lap beyond the line and a margin for its edge."""
    x0, y0, x1, y1 = part.reach.bounds
    return x1 - x0 + margin, y1 - y0 + margin


def find_margin(piece: Piece, project: Project) -> float:
    """What a piece needs beside its outline, both sides together: its edge, and what is kept free in the field (mm)."""
    return 2 * (
        KEEP_OUT_MM + finish_reach_mm(piece.hoop_edge, piece.stitching, project.fabrics[piece.fabric])
    )


def is_split_in(piece: Piece, sides_mm: Sides, project: Project, hoop: Equipment) -> bool:
    """Whether a piece is sewn in parts in a sewing field: it has lines to split along, and does not fit whole."""
    margin = find_margin(piece, project)
    return bool(piece.split) and not fits_into((sides_mm[0] + margin, sides_mm[1] + margin), hoop)


def look_at_split(piece: Piece, sides_mm: Sides, project: Project) -> Iterator[Fault]:
    """Tracks on which the lines of a split piece play no part."""
    if not piece.split:
        return
    whole = [
        f'"{track.name}"'
        for track in project.tracks
        if track.hoop is None or not is_split_in(piece, sides_mm, project, track.hoop)
    ]
    if whole:
        yield Fault(
            f"{piece.pointer}/split",
            f'"{piece.name}" is sewn whole, and its line to split along left out, on {" and ".join(whole)}: '
            "there is no hoop, or one that takes the whole piece",
            "nothing, if that is meant; the line serves the hoops that are too small",
        )
