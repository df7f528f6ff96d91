"""The last pass of a piece in the hoop, in words: its edge, and why it is sewn so."""

from __future__ import annotations

from service.craft.language import mark, phrase
from service.craft.pieces import TRIPLE_RUN
from workers.sewing.steps.pieces import BLANKET, RAW, SATIN, ZIGZAG, PieceLesson

THEN = {
    SATIN: mark("then the satin edge in {thread}"),
    ZIGZAG: mark("then the zigzag edge in {thread}"),
    BLANKET: mark("then the blanket edge in {thread}"),
    RAW: mark("then the last pass in {thread}"),
    TRIPLE_RUN: mark("then the last pass in {thread}"),
}
"""The last pass in short, by what the machine sews round the piece."""

EDGE = {
    SATIN: mark("Sew the satin edge of {what} in {thread}."),
    ZIGZAG: mark("Sew the zigzag edge of {what} in {thread}."),
    BLANKET: mark("Sew the blanket edge of {what} in {thread}."),
    RAW: mark("Sew the last pass of {what} in {thread}. The edge stays raw."),
    TRIPLE_RUN: mark("Sew the last pass of {what} in {thread}. The edge stays raw."),
}
"""The last pass of a piece whose edge is not turned."""


def say_last_in_short(one: PieceLesson) -> str:
    """The last pass among the others of a piece that is sewn as one before."""
    return phrase(THEN[one.piece.hoop_edge], thread=one.thread)


def say_last_pass(one: PieceLesson, what: str) -> str:
    """The last pass of a piece, or of the part of it that `what` says."""
    if one.piece.turned_under:
        return phrase(
            "Sew the last pass of {what} in {thread}, just inside its fold.", what=what, thread=one.thread
        )
    return phrase(EDGE[one.piece.edge], what=what, thread=one.thread)


def why_finished(one: PieceLesson) -> str:
    """Why the last pass is sewn, in words."""
    if one.piece.turned_under:
        return phrase("The seam holds the fold all round.")
    if one.piece.edge in (RAW, TRIPLE_RUN):
        return phrase("The seam holds it; the edge is meant to fray a little.")
    return phrase("The stitches cover the cut edge all round.")


def why_beyond(one: PieceLesson) -> str:
    """Why the last pass of a part is sewn, and why it goes on beyond the split."""
    if one.piece.turned_under:
        return phrase(
            "The seam holds the fold. It goes on 2 mm beyond the split, so that the parts lie over each other."
        )
    if one.piece.edge in (RAW, TRIPLE_RUN):
        return phrase(
            "The seam holds it; the edge is meant to fray a little. It goes on 2 mm beyond the split, so that the "
            "parts lie over each other."
        )
    return phrase(
        "The stitches cover the cut edge. It goes on 2 mm beyond the split, so that the parts lie over each other."
    )
