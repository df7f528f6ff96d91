"""Pieces cut before they are sewn, cloth by cloth: on a cutting machine's mat, or by hand round a template."""

from __future__ import annotations

from collections.abc import Iterator

from service.craft.language import mark, phrase
from service.craft.tracks import slug
from workers.sewing.names import label
from workers.sewing.steps.applique_turned import cut_turned
from workers.sewing.steps.hazards import FUMES, IRON, MAT_MACHINE
from workers.sewing.steps.pieces import PieceLesson, count_off, group_by_cloth
from workers.sewing.steps.step import APPLIQUE, Lesson, Step

CUT = mark("Cut the pieces")


def cut_pieces(lesson: Lesson, pieces: list[PieceLesson]) -> Iterator[Step]:
    """Steps for each cloth whose pieces are cut to shape beforehand; what is trimmed in place is not.

    With a hoop and no cutting machine every piece but a turned one is trimmed in the hoop. A piece from a pattern of
    the viewer's own is cut by itself.
    """
    cutter = lesson.track.cutter is not None
    turned = [one for one in pieces if one.piece.turned_under]
    for group in [*group_by_cloth(one for one in turned if not one.owned), *([o] for o in turned if o.owned)]:
        yield from cut_turned(group, phrase(CUT))
    if lesson.track.hoop is not None and not cutter:
        return
    ready = [one for one in pieces if not (one.trims or one.piece.turned_under)]
    groups = group_by_cloth(one for one in ready if not one.owned) + [[one] for one in ready if one.owned]
    for group in groups:
        yield from (_cut_on_mat if cutter else _cut_by_hand)(group)


def _step(group: list[PieceLesson], what: str, text: str, why: str, **more: object) -> Step:
    """A step about all pieces of one cloth, or about one piece of the viewer's own pattern."""
    first = group[0]
    if first.owned:
        return first.step(what, text, why, **{**more, "heading": phrase(CUT)})
    names = tuple(one.name for one in group)
    step_id = f"applique.cloth.{label(first.piece.fabric)}.{what}"
    return Step(step_id, APPLIQUE, text, why, heading=phrase(CUT), pieces=names, **more)  # type: ignore[arg-type]


def _all(group: list[PieceLesson]) -> str:
    """The pieces of a group by their count, where they have been named or are about to be."""
    return (
        phrase("the {piece}", piece=group[0].name)
        if len(group) == 1
        else phrase("all {count} pieces", count=len(group))
    )


def _cut_on_mat(group: list[PieceLesson]) -> Iterator[Step]:
    """The cut files lie mirrored, for cloth with the web on its back."""
    first = group[0]
    stem = f"cut-{slug(first.piece.fabric)}"
    yield _step(
        group,
        "web",
        phrase(
            "Fuse fusible web to the back of the {cloth}, enough for {pieces}. Leave its paper on.",
            cloth=first.cloth,
            pieces=_all(group),
        ),
        phrase("The web holds each piece in its place later, and keeps the cut edge from fraying."),
        hazards=(IRON, FUMES),
        tools=("iron", "fusible web"),
    )
    yield _step(
        group,
        "mat",
        phrase("Lay the {cloth} on the machine's mat with the web up.", cloth=first.cloth),
        phrase("The blade meets the paper first, and the cloth sticks to the mat."),
        tools=("mat of the cutting machine",),
    )
    yield _step(
        group,
        "cut",
        phrase("Cut the {name} from your own pattern.", name=first.name)
        if first.owned
        else phrase(
            "Cut {pieces} from the files that begin with {start}.", pieces=count_off(group), start=stem
        ),
        phrase("Cut from the back, the outline has to be mirrored.")
        if first.owned
        else phrase("Cut from the back, the outline has to be mirrored. In these files it is."),
        more=phrase("Cut the test square from paper first and measure it both ways: 100 mm."),
        hazards=(MAT_MACHINE,),
        tools=("cutting machine", "mat of the cutting machine"),
        files=(f"{stem}-*",),
    )


def _cut_by_hand(group: list[PieceLesson]) -> Iterator[Step]:
    first = group[0]
    name = f"templates-{first.lesson.track.slug}.pdf"
    text = (
        phrase(
            "On the paper side of fusible web draw round your own pattern for the {name}.", name=first.name
        )
        if first.owned
        else phrase(
            "On the paper side of fusible web draw round {pieces}, from {file} printed at 100 percent.",
            pieces=count_off(group),
            file=name,
        )
    )
    yield _step(
        group,
        "trace",
        text,
        phrase("The web goes on the back of the cloth, so the outline has to be mirrored.")
        if first.owned
        else phrase(
            "The web goes on the back of the cloth, so the outline has to be mirrored. The templates are."
        ),
        more=phrase(
            "Measure the test square on the first page before you trace. If it is off, print again at full "
            "size."
        ),
        tools=("pencil", "fusible web"),
        files=(name,),
    )
    yield _step(
        group,
        "web",
        phrase("Fuse the web to the back of the {cloth}.", cloth=first.cloth),
        phrase("Once it is cool, the glue is firm and the paper stays on while you cut."),
        hazards=(IRON, FUMES),
        tools=("iron",),
    )
    yield _step(
        group,
        "cut",
        phrase("Cut out {pieces} on the line.", pieces=_all(group)),
        phrase("The web keeps the cut edge from fraying."),
        tools=("scissors",),
    )
