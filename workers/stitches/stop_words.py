"""Why the machine stops, in words: what hands do before it goes on."""

from __future__ import annotations

from dataclasses import dataclass

from service.craft.language import mark, phrase
from workers.stitches.pieces import StitchPiece, Stop

FOLD_AWAY = mark("fold what reaches beyond the split out of the needle's way")

LAY_REST = mark("lay the loose rest of the {piece} down inside the line")
LAY_REST_FOLD_AWAY = mark(
    "lay the loose rest of the {piece} down inside the line, and fold what reaches beyond the split out of the needle's"
    " way"
)
LAY_PRESSED = mark("lay the pressed {piece} inside the line, its fold along the line")
LAY_CLOTH = mark("lay the cloth of the {piece} over the line")
LAY_PIECE = mark("lay the {piece} inside the line, or its cloth over it where it is not cut yet")


@dataclass(frozen=True)
class Trimming:
    """What is looked at or trimmed after the tack-down: all round, or as far as a part goes."""

    whole: str
    part: str


TRIM_CLOTH = Trimming(
    mark("trim the cloth of the {piece} close to the tack-down"),
    mark("trim the cloth of the {piece} close to the tack-down as far as the {part} goes"),
)
CHECK_FOLD = Trimming(
    mark("check that the fold of the {piece} lies on the line all round"),
    mark("check that the fold of the {piece} lies on the line all round as far as the {part} goes"),
)
CHECK_EDGE = Trimming(
    mark("check that the edge of the {piece} lies on the line, or trim its cloth close to the tack-down"),
    mark(
        "check that the edge of the {piece} lies on the line as far as the {part} goes, or trim its cloth close to the"
        " tack-down"
    ),
)


def lay_words(piece: StitchPiece) -> Stop:
    """Why the machine stops after the placement line."""
    part = piece.part
    if part is not None and part.number > 1:
        return Stop(LAY_REST_FOLD_AWAY if part.number < part.of else LAY_REST, piece)
    message = LAY_PRESSED if piece.turned else LAY_CLOTH if piece.trim_in_place else LAY_PIECE
    return Stop(message, piece, more="" if part is None else FOLD_AWAY)


def trim_words(piece: StitchPiece) -> Stop:
    """Why the machine stops after the tack-down."""
    words = TRIM_CLOTH if piece.trim_in_place else CHECK_FOLD if piece.turned else CHECK_EDGE
    return Stop(words.whole if piece.part is None else words.part, piece)


def say_stop(stop: Stop) -> str:
    """Why the machine stops, in the language of who reads."""
    if stop.thread is not None:
        return phrase("change the thread to {thread}", thread=stop.thread.name or stop.thread.colour)
    name, part = ("", "") if stop.piece is None else (stop.piece.name, stop.piece.part_words)
    words = phrase(stop.message, piece=name, part=part)
    return f"{words}; {phrase(stop.more)}" if stop.more else words
