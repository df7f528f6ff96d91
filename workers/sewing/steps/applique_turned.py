"""Pieces with a turned edge: cut with an allowance, pressed over a card, laid and sewn along the fold."""

from __future__ import annotations

from collections.abc import Iterator

from service.craft.language import phrase
from service.craft.tracks import slug
from workers.sewing.names import label
from workers.sewing.steps.hazards import IRON, MAT_MACHINE, NEEDLE, SCISSORS
from workers.sewing.steps.pieces import PieceLesson, count_off
from workers.sewing.steps.step import APPLIQUE, Step


def cut_turned(group: list[PieceLesson], heading: str) -> Iterator[Step]:
    """The cards and the cloth of pieces of one cloth; no web is fused to it."""
    first, names = group[0], tuple(one.name for one in group)
    lesson, many = first.lesson, len(group) > 1
    templates = f"templates-{lesson.track.slug}.pdf"
    base = f"applique.turned.{label(first.piece.fabric)}"

    def step(what: str, text: str, why: str, **more: object) -> Step:
        made = first.step(what, text, why, **{**more, "heading": heading})
        if first.owned:
            return made
        told: dict[str, object] = {"heading": heading, "pieces": names, **more}
        return Step(f"{base}.{what}", APPLIQUE, text, why, **told)  # type: ignore[arg-type]

    yield step(
        "card",
        _say_card(group, templates),
        phrase("The cloth is pressed over its edge later, so it has the finished shape."),
        tools=("card that stands the iron", "paper scissors"),
        files=(templates,),
    )
    if lesson.track.cutter is not None and not first.owned:
        stem = f"cut-{slug(first.piece.fabric)}-turned"
        yield step(
            "mat",
            phrase("Lay the {cloth} on the machine's mat with its back up, without web.", cloth=first.cloth),
            phrase("Cut from the back, the outline is mirrored, and a fold needs no web."),
            tools=("mat of the cutting machine",),
        )
        yield step(
            "cut",
            phrase("Cut the pieces from the files that begin with {start}.", start=stem)
            if many
            else phrase(
                "Cut the {name} from the files that begin with {start}.", name=first.name, start=stem
            ),
            phrase("They have the allowance all round."),
            hazards=(MAT_MACHINE,),
            tools=("cutting machine",),
            files=(f"{stem}-*",),
        )
        return
    yield step(
        "cut",
        _say_cut(group),
        phrase("That is the allowance to turn under."),
        hazards=(SCISSORS,),
        tools=("scissors", "pencil"),
    )


def _say_card(group: list[PieceLesson], templates: str) -> str:
    first = group[0]
    return (
        phrase(
            "Cut a card that stands the iron for {pieces}, from your own pattern for the {name}.",
            pieces=count_off(group),
            name=first.name,
        )
        if first.owned
        else phrase(
            "Cut a card that stands the iron for {pieces}, from the dashed lines of {file}.",
            pieces=count_off(group),
            file=templates,
        )
    )


def _say_cut(group: list[PieceLesson]) -> str:
    first = group[0]
    turning = first.lesson.length(first.lesson.project.applique.turning)
    return (
        phrase(
            "With each card on the back of the {cloth}, cut the cloth {turning} beyond it all round.",
            cloth=first.cloth,
            turning=turning,
        )
        if len(group) > 1
        else phrase(
            "With the card on the back of the {cloth}, cut the cloth {turning} beyond it all round.",
            cloth=first.cloth,
            turning=turning,
        )
    )


def lay_turned_in_hoop(one: PieceLesson) -> Iterator[Step]:
    """The pressed piece on its placement line, with the work left in the hoop."""
    yield one.step(
        "lay",
        phrase("Lay the pressed {name} inside its placement line, the fold along the line.", name=one.name),
        phrase("The line is hidden under it then, and the fold is the edge that is sewn."),
    )
    yield one.step(
        "baste",
        phrase("Baste the {name} down with a few hand stitches in the middle.", name=one.name),
        phrase("There is no web under it, and pins would break the needle."),
        hazards=(NEEDLE,),
        tools=("hand needle",),
    )


def teach_turned(one: PieceLesson) -> Iterator[Step]:
    """One piece in full, without a hoop."""
    yield from press_turned(one)
    yield one.step(
        "lay",
        phrase("Pin the {name} in its place. {place}", name=one.name, place=one.place + one.turned),
        one.over or phrase("Pins hold it: there is no web under it."),
        tools=("pins", "ruler"),
    )
    yield one.step(
        "finish",
        phrase(
            "Sew the {name} down along its fold in {thread}: by hand with small stitches that hardly show, "
            "or by machine with a straight stitch close to the fold.",
            name=one.name,
            thread=one.thread,
        ),
        phrase("The fold is the edge: nothing can fray."),
        more=phrase(
            "At an inner corner set two or three stitches close together. At a point tuck the rest of the cloth under "
            "with the needle first."
        ),
        hazards=(NEEDLE,),
        tools=("hand needle", "sewing machine"),
    )


def press_turned(one: PieceLesson) -> Iterator[Step]:
    """Snip the allowance and press it over a card, before the piece is laid."""
    turning = one.lesson.length(one.lesson.project.applique.turning)
    yield one.step(
        "snip",
        phrase(
            "Snip the allowance of the {name} at inner corners and along inner curves, to a thread "
            "or two before the line.{covered}",
            name=one.name,
            covered=one.covered,
        ),
        phrase("Snipped, it opens and can be laid over. Outer curves are eased and want no snips."),
        hazards=(SCISSORS,),
        tools=("small scissors",),
    )
    yield one.step(
        "turn",
        phrase(
            "With the card of the {name} on the back of the cloth, press the allowance of {turning} over its "
            "edge, bit by bit.",
            name=one.name,
            turning=turning,
        ),
        phrase("The card gives the shape, and keeps the curve smooth."),
        more=phrase("At a point fold the tip over first, then one side, then the other."),
        hazards=(IRON,),
        tools=("iron", "card that stands the iron"),
    )
    yield one.step(
        "card-out",
        phrase("Take the card out of the {name}.", name=one.name),
        phrase("The folds keep the shape, and the card serves again."),
    )
    yield one.step(
        "press-again",
        phrase("Press the {name} once more, from the right side.", name=one.name),
        phrase("Where the card was, the folds are still a little open."),
        hazards=(IRON,),
        tools=("iron",),
    )


def repeat_turned(one: PieceLesson, first: PieceLesson, heading: str) -> Step:
    """One piece that is turned and sewn as the first of its kind was."""
    return one.step(
        "sew",
        phrase(
            "Turn and sew the {name} in the same way as the {first}: snip, press over its card, lay, then sew along "
            "the fold in {thread}.{covered} {place}",
            name=one.name,
            first=first.name,
            thread=one.thread,
            covered=one.covered,
            place=one.place + one.turned,
        ),
        one.over or phrase("Everything comes in the same order as before."),
        hazards=(SCISSORS, IRON, NEEDLE),
        tools=("small scissors", "iron", "hand needle", "sewing machine"),
        heading=heading,
    )
