"""Why the machine stops, in words: what hands do before it goes on."""

from __future__ import annotations

from workers.stitches.pieces import StitchPiece

FOLD_AWAY = "fold what reaches beyond the split out of the needle's way"


def lay_words(piece: StitchPiece) -> str:
    """Why the machine stops after the placement line."""
    part = piece.part
    if part is not None and part.number > 1:
        more = f", and {FOLD_AWAY}" if part.number < part.of else ""
        return f"lay the loose rest of the {piece.name} down inside the line{more}"
    if piece.turned:
        words = f"lay the pressed {piece.name} inside the line, its fold along the line"
    elif piece.trim_in_place:
        words = f"lay the cloth of the {piece.name} over the line"
    else:
        words = f"lay the {piece.name} inside the line, or its cloth over it where it is not cut yet"
    return words if part is None else f"{words}; {FOLD_AWAY}"


def trim_words(piece: StitchPiece) -> str:
    """Why the machine stops after the tack-down."""
    here = "" if piece.part is None else f" as far as the {piece.part.name} goes"
    if piece.trim_in_place:
        return f"trim the cloth of the {piece.name} close to the tack-down{here}"
    if piece.turned:
        return f"check that the fold of the {piece.name} lies on the line all round{here}"
    return f"check that the edge of the {piece.name} lies on the line{here}, or trim its cloth close to the tack-down"
