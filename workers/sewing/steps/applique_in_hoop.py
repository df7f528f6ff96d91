"""Pieces sewn by a hoop machine: marked, hooped, then placement line, cloth, tack-down, edge."""

from __future__ import annotations

from collections.abc import Iterator

from service.craft.language import mark, phrase
from workers.sewing.steps.applique_last_pass import say_last_in_short, say_last_pass, why_finished
from workers.sewing.steps.applique_turned import lay_turned_in_hoop, press_turned
from workers.sewing.steps.hazards import FUMES, HOOP, IRON, NEEDLE, SCISSORS
from workers.sewing.steps.hoopings import say_again
from workers.sewing.steps.pieces import PieceLesson
from workers.sewing.steps.step import APPLIQUE, Lesson, Step

HOOPING = mark("Into the hoop")
MACHINE = ("embroidery machine",)


def prepare_hoop(lesson: Lesson, pieces: list[PieceLesson]) -> Iterator[Step]:
    """Mark the middle, hoop the top: once for each stitch file."""
    hoop = lesson.track.hoop
    assert hoop is not None, "asked only where the track has a hoop"  # noqa: S101
    field = hoop.label.replace("x", " × ") + " mm"
    shared = any(not one.owned for one in pieces)
    text = (
        phrase(
            "Draw two lines on the top that cross where the middle of the hooping will be. The handout gives its place "
            "with each stitch file."
        )
        if shared
        else phrase(
            "Draw two lines on the top that cross where the middle of the hooping will be. It is the middle of what "
            "you sew in one hooping."
        )
    )
    yield Step(
        "applique.mark",
        APPLIQUE,
        text,
        phrase("The needle starts from there, and the design comes to lie where it belongs."),
        tools=("washable marker", "ruler"),
        heading=phrase(HOOPING),
    )
    yield Step(
        "applique.hoop",
        APPLIQUE,
        phrase(
            "Hoop the stabiliser with the top on it, taut and flat, for the sewing field of {field}. Mark and "
            "hoop anew for each stitch file.",
            field=field,
        ),
        phrase("The stabiliser keeps the stitches from pulling the cloth together."),
        more=phrase("Bring the needle over the crossing lines before you start."),
        hazards=(HOOP, NEEDLE),
        tools=(*MACHINE, f"hoop with a field of {field}", "stabiliser"),
        files=(f"stitch-{hoop.label}-*",) if shared else (),
        heading=phrase(HOOPING),
    )


def teach_in_hoop(one: PieceLesson) -> Iterator[Step]:
    """One piece in full, pass by pass."""
    files = _files(one)
    if one.piece.turned_under:
        yield from press_turned(one)
    yield one.step(
        "placement",
        phrase(
            "Sew the placement line of the {name}. {place}",
            name=one.name,
            place=one.place + say_again(one),
        ),
        phrase("The line shows where the cloth goes."),
        hazards=(HOOP,),
        tools=MACHINE,
        files=files,
    )
    ready = is_cut(one)
    if ready:
        yield _take_off(one)
        yield from lay_turned_in_hoop(one) if one.piece.turned_under else _lay_cut(one)
        yield _hoop_back(one, "hoop-on")
    else:
        yield from _lay_whole(one)
    yield one.step(
        "tack-down",
        phrase("Sew the tack-down of the {name}.", name=one.name),
        phrase("It holds the cloth just inside the edge."),
        more=phrase("Stop as soon as the cloth moves or folds, unpick, and lay it again."),
        hazards=(HOOP,),
        tools=MACHINE,
        files=files,
    )
    if not ready:
        yield from _trim(one)
        yield _hoop_back(one, "hoop-on")
    yield _finish(one, files)


def _take_off(one: PieceLesson) -> Step:
    return one.step(
        "hoop-off",
        phrase("Take the hoop off the machine, but leave the work in it."),
        phrase("So the work keeps its place under the needle."),
    )


def _hoop_back(one: PieceLesson, what: str) -> Step:
    return one.step(
        what,
        phrase("Put the hoop back on the machine."),
        phrase("It clicks in where it was, and the needle goes on where it stopped."),
        hazards=(HOOP,),
        tools=MACHINE,
    )


def repeat_in_hoop(one: PieceLesson, first: PieceLesson, heading: str) -> Step:
    """One piece that is sewn as the first of its kind was."""
    return one.step(
        "sew",
        _say_repeat(one, first),
        one.over or phrase("Every pass comes in the same order as before."),
        hazards=(HOOP, *((IRON, FUMES) if is_cut(one) else (SCISSORS,))),
        tools=MACHINE,
        files=_files(one),
        heading=heading,
    )


def _say_repeat(one: PieceLesson, first: PieceLesson) -> str:
    """The passes of a piece in short."""
    told = {
        "name": one.name,
        "first": first.name,
        "edge": say_last_in_short(one),
        "place": one.place + say_again(one),
    }
    if one.piece.turned_under:
        return phrase(
            "Sew the {name} in the same way as the {first}: placement line, the pressed piece, tack-down, {edge}. "
            "{place}",
            **told,
        )
    if is_cut(one):
        return phrase(
            "Sew the {name} in the same way as the {first}: placement line, the cut piece, tack-down, {edge}. {place}",
            **told,
        )
    return phrase(
        "Sew the {name} in the same way as the {first}: placement line, {cloth} over it, tack-down, trimming, {edge}. "
        "{place}",
        cloth=one.cloth,
        **told,
    )


def is_cut(one: PieceLesson) -> bool:
    """Whether the piece has been cut to shape before it comes into the hoop."""
    return one.piece.turned_under or (one.lesson.track.cutter is not None and not one.trims)


def _files(one: PieceLesson) -> tuple[str, ...]:
    hoop = one.lesson.track.hoop
    assert hoop is not None, "asked only where the track has a hoop"  # noqa: S101
    return (f"stitch-{hoop.label}-*",)


def _lay_cut(one: PieceLesson) -> Iterator[Step]:
    yield one.step(
        "peel",
        phrase("Peel the paper off the {name}.", name=one.name),
        phrase("Under it is the glue."),
    )
    yield one.step(
        "lay",
        phrase("Lay the {name} inside its placement line, edges along the line.", name=one.name),
        phrase("The edge that is sewn later covers both the line and the cut edge."),
    )
    yield one.step(
        "fuse",
        phrase("Fuse the {name} down with the tip of the iron, and not near the hoop.", name=one.name),
        phrase("Fused, the piece cannot shift under the needle."),
        hazards=(IRON, FUMES),
        tools=("iron",),
    )


def _lay_whole(one: PieceLesson) -> Iterator[Step]:
    yield one.step(
        "lay",
        phrase(
            "Lay a piece of {cloth} right side up over the placement line of the {name}, with a thumb's width "
            "to spare all round.",
            cloth=one.cloth,
            name=one.name,
        ),
        phrase(
            "It is cut back to the line after it is sewn down, so it need not be cut to shape now. Fluffy cloth stays "
            "off the cutting mat."
        )
        if one.trims
        else phrase("It is cut back to the line after it is sewn down, so it need not be cut to shape now."),
    )


def _trim(one: PieceLesson) -> Iterator[Step]:
    yield one.step(
        "hoop-off",
        phrase("When the machine has stopped, take the hoop off, but leave the work in it."),
        phrase("Taken out of the hoop, the work never lies quite the same again."),
        hazards=(HOOP,),
    )
    yield one.step(
        "trim",
        phrase("Trim the {cloth} close outside the tack-down.", cloth=one.cloth),
        phrase("What sticks out further would show past the edge."),
        hazards=(SCISSORS,),
        tools=("small curved scissors",),
    )


def _finish(one: PieceLesson, files: tuple[str, ...]) -> Step:
    text, why = say_last_pass(one, phrase("the {piece}", piece=one.name)), why_finished(one)
    return one.step("finish", text, why, hazards=(HOOP,), tools=MACHINE, files=files)
