"""What to do about a piece whose edge is sewn in several hoopings, in words."""

from __future__ import annotations

from service.craft.language import phrase
from workers.stitches.pieces import Hooping, StitchPiece

MATCHES_MM = 1
"""Hoopings that come apart by no more than this still cover the edge: each reaches so far beyond the split."""


def say_parts(hooping: Hooping) -> list[str]:
    """For each piece of which this hooping sews a part: how it meets the parts in the other hoopings."""
    return [say_part(sewn.piece) for sewn in hooping.sewn if sewn.piece.part is not None]


def say_part(piece: StitchPiece) -> str:
    """How one part of a piece meets the others."""
    part = piece.part
    assert part is not None, "asked only for a part"  # noqa: S101
    if part.number == 1:
        return phrase(
            "the {piece} is sewn in {count} hoopings along its split, and its cloth stays in one piece; this is the "
            "first, the {part}: mark the middles of all {count} and the split on the flat top before you hoop it",
            piece=piece.name,
            count=part.of,
            part=piece.part_words,
        )
    return phrase(
        "the {piece} is sewn in {count} hoopings along its split, and its cloth stays in one piece; this is number "
        "{number}, the {part}: fold the loose cloth back, hoop this middle on its marks, and sew the placement line; "
        "it meets the edge sewn before at the split, and where it lies more than {off} mm beside it, unpick it and "
        "hoop again",
        piece=piece.name,
        count=part.of,
        number=part.number,
        part=piece.part_words,
        off=MATCHES_MM,
    )
