"""Pieces sewn by a hoop machine: marked, hooped, then placement line, cloth, tack-down, edge."""

from __future__ import annotations

from collections.abc import Iterator

from service.craft.pieces import TRIPLE_RUN
from workers.sewing.steps.applique_turned import lay_turned_in_hoop, press_turned
from workers.sewing.steps.hazards import FUMES, HOOP, IRON, NEEDLE, SCISSORS
from workers.sewing.steps.hoopings import say_again
from workers.sewing.steps.pieces import RAW, PieceLesson
from workers.sewing.steps.step import APPLIQUE, Lesson, Step

HOOPING = "Into the hoop"
MACHINE = ("embroidery machine",)


def prepare_hoop(lesson: Lesson, pieces: list[PieceLesson]) -> Iterator[Step]:
    """Mark the middle, hoop the top: once for each stitch file."""
    hoop = lesson.track.hoop
    assert hoop is not None, "asked only where the track has a hoop"  # noqa: S101
    field = hoop.label.replace("x", " × ") + " mm"
    shared = any(not one.owned for one in pieces)
    place = (
        "The handout gives its place with each stitch file."
        if shared
        else "It is the middle of what you sew in one hooping."
    )
    yield Step(
        "applique.mark",
        APPLIQUE,
        f"Draw two lines on the top that cross where the middle of the hooping will be. {place}",
        "The needle starts from there, and the design comes to lie where it belongs.",
        tools=("washable marker", "ruler"),
        heading=HOOPING,
    )
    yield Step(
        "applique.hoop",
        APPLIQUE,
        f"Hoop the stabiliser with the top on it, taut and flat, for the sewing field of {field}. Mark and hoop "
        "anew for each stitch file.",
        "The stabiliser keeps the stitches from pulling the cloth together.",
        more="Bring the needle over the crossing lines before you start.",
        hazards=(HOOP, NEEDLE),
        tools=(*MACHINE, f"hoop with a field of {field}", "stabiliser"),
        files=(f"stitch-{hoop.label}-*",) if shared else (),
        heading=HOOPING,
    )


def teach_in_hoop(one: PieceLesson) -> Iterator[Step]:
    """One piece in full, pass by pass."""
    files = _files(one)
    if one.piece.turned_under:
        yield from press_turned(one)
    yield one.step(
        "placement",
        f"Sew the placement line of the {one.name}. {one.place}{say_again(one)}",
        "The line shows where the cloth goes.",
        hazards=(HOOP,),
        tools=MACHINE,
        files=files,
    )
    ready = is_cut(one)
    if one.piece.turned_under:
        yield from lay_turned_in_hoop(one)
    else:
        yield from _lay_cut(one) if ready else _lay_whole(one)
    if ready:
        yield _hoop_back(one, "hoop-on")
    yield one.step(
        "tack-down",
        f"Sew the tack-down of the {one.name}.",
        "It holds the cloth just inside the edge.",
        more="Stop as soon as the cloth moves or folds, unpick, and lay it again.",
        hazards=(HOOP,),
        tools=MACHINE,
        files=files,
    )
    if not ready:
        yield from _trim(one)
        yield _hoop_back(one, "hoop-on")
    yield _finish(one, files)


def _hoop_back(one: PieceLesson, what: str) -> Step:
    return one.step(
        what,
        "Put the hoop back on the machine.",
        "It clicks in where it was, and the needle goes on where it stopped.",
        hazards=(HOOP,),
        tools=MACHINE,
    )


def repeat_in_hoop(one: PieceLesson, first: PieceLesson, heading: str) -> Step:
    """One piece that is sewn as the first of its kind was."""
    ready = is_cut(one)
    laid = (
        "the pressed piece"
        if one.piece.turned_under
        else "the cut piece"
        if ready
        else f"{one.cloth} over it"
    )
    trimmed = "" if ready else ", trimming"
    return one.step(
        "sew",
        f"Sew the {one.name} in the same way as the {first.name}: placement line, {laid}, tack-down{trimmed}, "
        f"{_edge(one)}. {one.place}{say_again(one)}",
        one.over or "Every pass comes in the same order as before.",
        hazards=(HOOP, *((IRON, FUMES) if ready else (SCISSORS,))),
        tools=MACHINE,
        files=_files(one),
        heading=heading,
    )


def is_cut(one: PieceLesson) -> bool:
    """Whether the piece has been cut to shape before it comes into the hoop."""
    return one.piece.turned_under or (one.lesson.track.cutter is not None and not one.trims)


def _files(one: PieceLesson) -> tuple[str, ...]:
    hoop = one.lesson.track.hoop
    assert hoop is not None, "asked only where the track has a hoop"  # noqa: S101
    return (f"stitch-{hoop.label}-*",)


def _edge(one: PieceLesson) -> str:
    edge = "last pass" if one.piece.hoop_edge in (RAW, TRIPLE_RUN) else f"{one.piece.edge} edge"
    return f"then the {edge} in {one.thread}"


def _lay_cut(one: PieceLesson) -> Iterator[Step]:
    yield one.step(
        "hoop-off",
        "Take the hoop off the machine, but leave the work in it.",
        "So the work keeps its place under the needle.",
    )
    yield one.step(
        "peel",
        f"Peel the paper off the {one.name}.",
        "Under it is the glue.",
    )
    yield one.step(
        "lay",
        f"Lay the {one.name} inside its placement line, edges along the line.",
        "The edge that is sewn later covers both the line and the cut edge.",
    )
    yield one.step(
        "fuse",
        f"Fuse the {one.name} down with the tip of the iron, and not near the hoop.",
        "Fused, the piece cannot shift under the needle.",
        hazards=(IRON, FUMES),
        tools=("iron",),
    )


def _lay_whole(one: PieceLesson) -> Iterator[Step]:
    yield one.step(
        "lay",
        f"Lay a piece of {one.cloth} right side up over the placement line of the {one.name}, with a thumb's width to "
        "spare all round.",
        "It is cut back to the line after it is sewn down, so it need not be cut to shape now."
        + (" Fluffy cloth stays off the cutting mat." if one.trims else ""),
    )


def _trim(one: PieceLesson) -> Iterator[Step]:
    yield one.step(
        "hoop-off",
        "When the machine has stopped, take the hoop off, but leave the work in it.",
        "Taken out of the hoop, the work never lies quite the same again.",
        hazards=(HOOP,),
    )
    yield one.step(
        "trim",
        f"Trim the {one.cloth} close outside the tack-down.",
        "What sticks out further would show past the edge.",
        hazards=(SCISSORS,),
        tools=("small curved scissors",),
    )


def _finish(one: PieceLesson, files: tuple[str, ...]) -> Step:
    text, why = finish_words(one)
    return one.step("finish", text, why, hazards=(HOOP,), tools=MACHINE, files=files)


def finish_words(one: PieceLesson) -> tuple[str, str]:
    """The last pass of a piece, and why it is sewn."""
    if one.piece.turned_under:
        return (
            f"Sew the last pass of the {one.name} in {one.thread}, just inside its fold.",
            "The seam holds the fold all round.",
        )
    if one.piece.edge in (RAW, TRIPLE_RUN):
        return (
            f"Sew the last pass of the {one.name} in {one.thread}. The edge stays raw.",
            "The seam holds it; the edge is meant to fray a little.",
        )
    return (
        f"Sew the {one.piece.edge} edge of the {one.name} in {one.thread}.",
        "The stitches cover the cut edge all round.",
    )
