"""Pieces sewn without a hoop: cut ones fused in their place, others trimmed where they lie, edges by machine."""

from __future__ import annotations

from collections.abc import Iterator

from service.craft.language import mark, phrase
from service.craft.pieces import TRIPLE_RUN
from workers.sewing.steps.applique_turned import repeat_turned, teach_turned
from workers.sewing.steps.hazards import FUMES, IRON, NEEDLE, SCISSORS
from workers.sewing.steps.pieces import BLANKET, RAW, SATIN, TURNED, ZIGZAG, PieceLesson
from workers.sewing.steps.step import Step

STITCH = {
    SATIN: mark("close satin stitches"),
    ZIGZAG: mark("a zigzag stitch"),
    BLANKET: mark("a blanket stitch"),
    RAW: mark("a straight stitch just inside the edge"),
    TRIPLE_RUN: mark("a straight stitch sewn three times over, just inside the edge"),
    TURNED: mark("a straight stitch close to the fold"),
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
        phrase(
            "Sew round the {name} by machine with {stitches} in {thread}.",
            name=one.name,
            stitches=phrase(STITCH[one.piece.edge]),
            thread=one.thread,
        ),
        phrase("The stitches hold the edge down.")
        if one.piece.edge not in (RAW, TRIPLE_RUN)
        else phrase("The edge stays raw and may fray a little."),
        more=phrase(
            "At a corner stop with the needle down on the outside of the shape, lift the foot, turn, and go "
            "on."
        ),
        hazards=(NEEDLE,),
        tools=("sewing machine", "stabiliser"),
    )


def repeat_by_hand(one: PieceLesson, first: PieceLesson, heading: str) -> Step:
    """One piece that is sewn as the first of its kind was."""
    if one.piece.turned_under:
        return repeat_turned(one, first, heading)
    told = {
        "name": one.name,
        "first": first.name,
        "stitches": phrase(STITCH[one.piece.edge]),
        "thread": one.thread,
        "place": one.place + one.turned,
    }
    text = (
        phrase(
            "Sew the {name} in the same way as the {first}: placement line, {cloth} over it, tack-down from the back, "
            "trimming, then {stitches} in {thread}. {place}",
            cloth=one.cloth,
            **told,
        )
        if one.trims
        else phrase(
            "Lay and sew the {name} in the same way as the {first}: fuse it down, then sew round it with {stitches} "
            "in {thread}. {place}",
            **told,
        )
    )
    return one.step(
        "sew",
        text,
        one.over or phrase("Everything comes in the same order as before."),
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
        phrase("Peel the paper off the {name}.", name=one.name),
        phrase("Under it is the glue."),
    )
    yield one.step(
        "lay",
        phrase("Lay the {name} in its place. {place}", name=one.name, place=one.place + one.turned),
        one.over or phrase("Once it is fused, it cannot be moved."),
        tools=("ruler",),
    )
    yield one.step(
        "fuse",
        phrase("Fuse the {name} down.", name=one.name),
        phrase("The piece must not move while its edge is sewn."),
        hazards=(IRON, FUMES),
        tools=("iron",),
    )


def _trim_in_place(one: PieceLesson) -> Iterator[Step]:
    """Cloth laid over a line that is drawn and sewn, sewn down on it, cut back."""
    yield _draw_place(one)
    yield one.step(
        "placement",
        phrase("Sew along the placement line of the {name} with long stitches.", name=one.name),
        phrase("Sewn, the line shows on the back as well."),
        hazards=(NEEDLE,),
        tools=("sewing machine",),
    )
    yield one.step(
        "lay",
        phrase(
            "Lay a piece of {cloth} right side up over the line, with a thumb's width to spare all round.",
            cloth=one.cloth,
        ),
        phrase("It is cut back after it is sewn down. Fluffy cloth stays off the cutting mat."),
    )
    yield one.step(
        "pin",
        phrase("Pin it outside the line."),
        phrase("There no pin comes under the needle."),
        tools=("pins",),
    )
    yield one.step(
        "tack-down",
        phrase(
            "Sew along the same line from the back, with short stitches: this tacks down the {name}.",
            name=one.name,
        ),
        phrase("In front the cloth hides the line; from the back you see it."),
        hazards=(NEEDLE,),
        tools=("sewing machine",),
    )
    yield one.step(
        "trim",
        phrase("Trim the {cloth} close outside the stitches.", cloth=one.cloth),
        phrase("What sticks out further would show past the edge."),
        hazards=(SCISSORS,),
        tools=("small curved scissors",),
    )


def _draw_place(one: PieceLesson) -> Step:
    (name,) = _templates(one)
    place = one.place + one.turned
    text = (
        phrase(
            "Draw the placement line of the {name} on the top, from your own pattern. {place}",
            name=one.name,
            place=place,
        )
        if one.owned
        else phrase(
            "Draw the placement line of the {name} on the top, from the template in {file}, printed at 100 percent. "
            "{place}",
            name=one.name,
            file=name,
            place=place,
        )
    )
    return one.step(
        "draw",
        text,
        one.over or phrase("The line shows where the cloth goes."),
        tools=("washable marker", "ruler"),
        files=(name,),
    )
