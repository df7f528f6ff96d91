"""Pieces with a turned edge: cut with an allowance, pressed over a card, laid and sewn along the fold."""

from __future__ import annotations

from collections.abc import Iterator

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

    pattern = f"your own pattern for the {first.name}" if first.owned else f"the dashed lines of {templates}"
    yield step(
        "card",
        f"Cut a card that stands the iron for {count_off(group)}, from {pattern}.",
        "The cloth is pressed over its edge later, so it has the finished shape.",
        tools=("card that stands the iron", "paper scissors"),
        files=(templates,),
    )
    if lesson.track.cutter is not None and not first.owned:
        stem = f"cut-{slug(first.piece.fabric)}-turned"
        yield step(
            "mat",
            f"Lay the {first.cloth} on the machine's mat with its back up, without web.",
            "Cut from the back, the outline is mirrored, and a fold needs no web.",
            tools=("mat of the cutting machine",),
        )
        yield step(
            "cut",
            f"Cut {'the pieces' if many else f'the {first.name}'} from the files that begin with {stem}.",
            "They have the allowance all round.",
            hazards=(MAT_MACHINE,),
            tools=("cutting machine",),
            files=(f"{stem}-*",),
        )
        return
    turning = lesson.length(lesson.project.applique.turning)
    yield step(
        "cut",
        f"With {'each card' if many else 'the card'} on the back of the {first.cloth}, cut the cloth {turning} beyond "
        "it all round.",
        "That is the allowance to turn under.",
        hazards=(SCISSORS,),
        tools=("scissors", "pencil"),
    )


def lay_turned_in_hoop(one: PieceLesson) -> Iterator[Step]:
    """The pressed piece on its placement line, with the work left in the hoop."""
    yield one.step(
        "hoop-off",
        "Take the hoop off the machine, but leave the work in it.",
        "So the work keeps its place under the needle.",
    )
    yield one.step(
        "lay",
        f"Lay the pressed {one.name} inside its placement line, the fold along the line.",
        "The line is hidden under it then, and the fold is the edge that is sewn.",
    )
    yield one.step(
        "baste",
        f"Baste the {one.name} down with a few hand stitches in the middle.",
        "There is no web under it, and pins would break the needle.",
        hazards=(NEEDLE,),
        tools=("hand needle",),
    )


def teach_turned(one: PieceLesson) -> Iterator[Step]:
    """One piece in full, without a hoop."""
    yield from press_turned(one)
    yield one.step(
        "lay",
        f"Pin the {one.name} in its place. {one.place}{one.turned}",
        one.over or "Pins hold it: there is no web under it.",
        tools=("pins", "ruler"),
    )
    yield one.step(
        "finish",
        f"Sew the {one.name} down along its fold in {one.thread}: by hand with small stitches that hardly show, or by "
        "machine with a straight stitch close to the fold.",
        "The fold is the edge: nothing can fray.",
        more="At an inner corner set two or three stitches close together. At a point tuck the rest of the cloth under "
        "with the needle first.",
        hazards=(NEEDLE,),
        tools=("hand needle", "sewing machine"),
    )


def press_turned(one: PieceLesson) -> Iterator[Step]:
    """Snip the allowance and press it over a card, before the piece is laid."""
    turning = one.lesson.length(one.lesson.project.applique.turning)
    yield one.step(
        "snip",
        f"Snip the allowance of the {one.name} at inner corners and along inner curves, to a thread or two before the "
        f"line.{one.covered}",
        "Snipped, it opens and can be laid over. Outer curves are eased and want no snips.",
        hazards=(SCISSORS,),
        tools=("small scissors",),
    )
    yield one.step(
        "turn",
        f"With the card of the {one.name} on the back of the cloth, press the allowance of {turning} over its edge, "
        "bit by bit.",
        "The card gives the shape, and keeps the curve smooth.",
        more="At a point fold the tip over first, then one side, then the other.",
        hazards=(IRON,),
        tools=("iron", "card that stands the iron"),
    )
    yield one.step(
        "card-out",
        f"Take the card out of the {one.name}.",
        "The folds keep the shape, and the card serves again.",
    )
    yield one.step(
        "press-again",
        f"Press the {one.name} once more, from the right side.",
        "Where the card was, the folds are still a little open.",
        hazards=(IRON,),
        tools=("iron",),
    )


def repeat_turned(one: PieceLesson, first: PieceLesson, heading: str) -> Step:
    """One piece that is turned and sewn as the first of its kind was."""
    return one.step(
        "sew",
        f"Turn and sew the {one.name} in the same way as the {first.name}: snip, press over its card, lay, then sew "
        f"along the fold in {one.thread}.{one.covered} {one.place}{one.turned}",
        one.over or "Everything comes in the same order as before.",
        hazards=(SCISSORS, IRON, NEEDLE),
        tools=("small scissors", "iron", "hand needle", "sewing machine"),
        heading=heading,
    )
