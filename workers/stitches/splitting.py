"""Pieces that a sewing field is too small for, in the parts their lines make."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import numpy as np
import shapely

from service.craft.outlines import Outline
from service.craft.outlines.split_parts import SplitMisses, name_part, split_piece
from service.craft.pieces import Piece
from workers.recipe import CannotMake
from workers.stitches.hooping import fits
from workers.stitches.passes import sew_piece
from workers.stitches.pieces import SewnPiece, SplitPart, StitchPiece
from workers.stitches.settings import Field, StitchSettings
from workers.stitches.stretches import clip_detail


def read_parts(piece: Piece, outline: Outline) -> tuple[SplitPart, ...]:
    """The parts of a piece as its lines make them; `CannotMake` names a line that misses it."""
    if not piece.split:
        return ()
    try:
        parts = split_piece(piece, outline)
    except SplitMisses as miss:
        right = "a line with some of the piece on both sides of it"
        raise CannotMake(f'{miss}, "{piece.name}"', pointer=miss.pointer, right=right) from miss
    return tuple(
        SplitPart(
            p.number, p.of, name_part(parts, p.number), np.array(shapely.get_coordinates(p.region)[:-1])
        )
        for p in parts
    )


def part_of(piece: StitchPiece, part: SplitPart) -> StitchPiece:
    """A piece of whose edge and details one part is sewn."""
    details = tuple(clipped for detail in piece.details for clipped in clip_detail(detail, part))
    return replace(piece, part=part, details=details)


def split_for(
    sewn: list[SewnPiece], parts: Mapping[str, tuple[SplitPart, ...]], field: Field, settings: StitchSettings
) -> list[SewnPiece]:
    """The pieces for one field: what does not fit whole in its parts, as far as its piece has any."""
    found: list[SewnPiece] = []
    for one in sewn:
        if fits(one.box, field, settings) or not parts.get(one.piece.name):
            found.append(one)
            continue
        pieces = [part_of(one.piece, part) for part in parts[one.piece.name]]
        found += [sew_piece(piece, piece.settings) for piece in pieces]
    return found
