"""The applique chapter: the pieces cut cloth by cloth, then sewn from the lowest up.

With a hoop the machine sews placement line, tack-down and edge. With a cutting machine the pieces come from its mat.
With neither they are drawn round a template. Cloth to be trimmed in place is laid on its line and cut back there on
every track. A way of sewing is taught once in full, with the first piece that is sewn so; every other piece has a
step of its own that says where it lies and what is its own. A piece whose outline the viewer must own names no file:
the step says what to bring.
"""

from __future__ import annotations

from collections.abc import Iterator

from service.craft.language import mark, phrase
from workers.sewing.steps.applique_by_hand import repeat_by_hand, teach_by_hand
from workers.sewing.steps.applique_cutting import cut_pieces
from workers.sewing.steps.applique_in_hoop import prepare_hoop, repeat_in_hoop, teach_in_hoop
from workers.sewing.steps.applique_in_parts import find_parts, teach_in_parts
from workers.sewing.steps.hazards import IRON
from workers.sewing.steps.pieces import PieceLesson, Way, list_pieces
from workers.sewing.steps.step import APPLIQUE, Lesson, Step

BRING, AGAIN, LOOK = (mark("Bring your own"), mark("More pieces, sewn in the same way"), mark("A last look"))


def teach_applique(lesson: Lesson) -> Iterator[Step]:
    """Every step of the chapter; none where there is no piece."""
    pieces = list_pieces(lesson)
    if not pieces:
        return
    yield from (_bring(one) for one in pieces if one.owned)
    yield from cut_pieces(lesson, pieces)
    if lesson.track.hoop is not None:
        yield from prepare_hoop(lesson, pieces)
    yield from _sew_pieces(lesson, pieces)
    yield _look_step()


def _sew_pieces(lesson: Lesson, pieces: list[PieceLesson]) -> Iterator[Step]:
    hoop = lesson.track.hoop is not None
    teach, repeat = (teach_in_hoop, repeat_in_hoop) if hoop else (teach_by_hand, repeat_by_hand)
    taught: dict[Way, PieceLesson] = {}
    for one in pieces:
        if parts := find_parts(one):
            yield from teach_in_parts(one, parts)
            continue
        first = taught.setdefault(one.way, one)
        if first is one:
            yield from teach(one)
        else:
            yield repeat(one, first, phrase(AGAIN))


def _bring(one: PieceLesson) -> Step:
    sources = [
        s.name for s in one.lesson.project.sources if s.covers_outline(one.piece.outline) and not s.may_leave
    ]
    return one.step(
        "bring",
        phrase(
            "Bring your own pattern for the {name}: {sources}.", name=one.name, sources=", ".join(sources)
        ),
        phrase(
            "Its outline belongs to somebody else. It may be sewn from, and may not be passed on, so no file here "
            "holds it."
        ),
        more=_say_ready(one.lesson),
        heading=phrase(BRING),
    )


def _say_ready(lesson: Lesson) -> str:
    """In what form a pattern of one's own is needed."""
    if lesson.track.hoop is not None:
        return phrase("Have it ready at the size the drawing of the top gives, for your hoop machine.")
    if lesson.track.cutter is not None:
        return phrase("Have it ready at the size the drawing of the top gives, for your cutting machine.")
    return phrase("Have it ready at the size the drawing of the top gives, for tracing by hand.")


def _look_step() -> Step:
    return Step(
        "applique.look",
        APPLIQUE,
        phrase(
            "Press the top from the back, on a soft towel, and look along every edge for a place the stitches have "
            "missed."
        ),
        phrase("A gap is quickly sewn now, and hard to reach once the layers are together."),
        hazards=(IRON,),
        tools=("iron", "towel"),
        heading=phrase(LOOK),
    )
