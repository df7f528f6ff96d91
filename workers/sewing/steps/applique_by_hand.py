"""Pieces sewn without a hoop: cut ones fused in their place, others trimmed where they lie, edges by machine."""

from __future__ import annotations

from collections.abc import Iterator

from service.craft.pieces import TRIPLE_RUN
from workers.sewing.steps.applique_turned import repeat_turned, teach_turned
from workers.sewing.steps.hazards import FUMES, IRON, NEEDLE, SCISSORS
from workers.sewing.steps.pieces import BLANKET, RAW, SATIN, TURNED, ZIGZAG, PieceLesson
from workers.sewing.steps.step import Step

STITCH = {
    SATIN: "close satin stitches",
    ZIGZAG: "a zigzag stitch",
    BLANKET: "a blanket stitch",
    RAW: "a straight stitch just inside the edge",
    TRIPLE_RUN: "a straight stitch sewn three times over, just inside the edge",
    TURNED: "a straight stitch close to the fold",
}
"""How the raw edge is sewn by machine where there is no hoop."""


def teach_by_hand(one: PieceLesson) -> Iterator[Step]:
    """One piece in full."""
    if one.piece.turned_under:
        yield from teach_turned(one)
        return
    yield from _trim_in_place(one) if one.trims else _lay_cut(one)
    yield one.step(
        "finish",
        f"Sew round the {one.name} by machine with {STITCH[one.piece.edge]} in {one.thread}.",
        "The stitches hold the edge down."
        if one.piece.edge not in (RAW, TRIPLE_RUN)
        else "The edge stays raw and may fray a little.",
        more="At a corner stop with the needle down on the outside of the shape, lift the foot, turn, and go "
        "on.",
        hazards=(NEEDLE,),
        tools=("sewing machine", "stabiliser"),
    )


def repeat_by_hand(one: PieceLesson, first: PieceLesson, heading: str) -> Step:
    """One piece that is sewn as the first of its kind was."""
    if one.piece.turned_under:
        return repeat_turned(one, first, heading)
    stitches = f"{STITCH[one.piece.edge]} in {one.thread}"
    done = (
        f"placement line, {one.cloth} over it, tack-down from the back, trimming, then {stitches}"
        if one.trims
        else f"fuse it down, then sew round it with {stitches}"
    )
    return one.step(
        "sew",
        f"{'Sew' if one.trims else 'Lay and sew'} the {one.name} in the same way as the {first.name}: {done}. "
        f"{one.place}{one.turned}",
        one.over or "Everything comes in the same order as before.",
        hazards=(NEEDLE, *((SCISSORS,) if one.trims else (IRON, FUMES))),
        tools=("sewing machine",),
        files=_templates(one) if one.trims else (),
        heading=heading,
    )


def _templates(one: PieceLesson) -> tuple[str, ...]:
    return (f"templates-{one.lesson.track.slug}.pdf",)


def _lay_cut(one: PieceLesson) -> Iterator[Step]:
    yield one.step(
        "peel",
        f"Peel the paper off the {one.name}.",
        "Under it is the glue.",
    )
    yield one.step(
        "lay",
        f"Lay the {one.name} in its place. {one.place}{one.turned}",
        one.over or "Once it is fused, it cannot be moved.",
        tools=("ruler",),
    )
    yield one.step(
        "fuse",
        f"Fuse the {one.name} down.",
        "The piece must not move while its edge is sewn.",
        hazards=(IRON, FUMES),
        tools=("iron",),
    )


def _trim_in_place(one: PieceLesson) -> Iterator[Step]:
    """Cloth laid over a line that is drawn and sewn, sewn down on it, cut back."""
    (name,) = _templates(one)
    source = "your own pattern" if one.owned else f"the template in {name}, printed at 100 percent"
    yield one.step(
        "draw",
        f"Draw the placement line of the {one.name} on the top, from {source}. {one.place}{one.turned}",
        one.over or "The line shows where the cloth goes.",
        tools=("washable marker", "ruler"),
        files=(name,),
    )
    yield one.step(
        "placement",
        f"Sew along the placement line of the {one.name} with long stitches.",
        "Sewn, the line shows on the back as well.",
        hazards=(NEEDLE,),
        tools=("sewing machine",),
    )
    yield one.step(
        "lay",
        f"Lay a piece of {one.cloth} right side up over the line, with a thumb's width to spare all round.",
        "It is cut back after it is sewn down. Fluffy cloth stays off the cutting mat.",
    )
    yield one.step(
        "pin",
        "Pin it outside the line.",
        "There no pin comes under the needle.",
        tools=("pins",),
    )
    yield one.step(
        "tack-down",
        f"Sew along the same line from the back, with short stitches: this tacks down the {one.name}.",
        "In front the cloth hides the line; from the back you see it.",
        hazards=(NEEDLE,),
        tools=("sewing machine",),
    )
    yield one.step(
        "trim",
        f"Trim the {one.cloth} close outside the stitches.",
        "What sticks out further would show past the edge.",
        hazards=(SCISSORS,),
        tools=("small curved scissors",),
    )
