"""Scenes of pieces whose edge is turned under: the card, snips, the edge pressed over it."""

from __future__ import annotations

from shapely import box

from service.craft.drawing.scenes import Scene
from service.craft.language import phrase
from workers.sewing.steps.scenes.areas import draw_area
from workers.sewing.steps.scenes.inner_corners import find_snips
from workers.sewing.steps.scenes.motifs import Motif
from workers.sewing.steps.scenes.shapes import iron, rect

TURNING = 0.9
"""The allowance as it is drawn, in the measure of scenes (about 2 mm): wide enough to be seen."""

FOLDED = 0.7
"""How much of the allowance is seen once it is folded over, in shares: the card stays to be seen between."""

CLOSE = 0.25
"""How close to the fold it is sewn, as drawn."""

WIDE, HIGH = 16.0, 11.0
ROOM = (11.0, 7.0)
MIDDLE = (8.0, 5.5)


def show_turned(a: str, b: str, motif: Motif) -> dict[str, Scene]:
    """What is done with a piece of the cloth `b` on a top of the cloth `a`."""
    seen, back = motif.fitted(*ROOM).moved(*MIDDLE), motif.mirrored().fitted(*ROOM).moved(*MIDDLE)
    return _show_cutting(b, back) | _show_pressing(b, back) | _show_sewing(a, b, seen)


def _show_cutting(b: str, motif: Motif) -> dict[str, Scene]:
    """The card and the cloth cut; on the back of the cloth the shape lies mirrored."""
    wide, words = motif.grown(TURNING), motif.say()
    cloth = rect(0, 0, WIDE, HIGH, b, back=True)
    return {
        "card": Scene(
            phrase("A card in the finished shape of the piece, with the line to cut"),
            (rect(0, 0, WIDE, HIGH),),
            motif.trace("cut"),
            labels=((motif.on_right(), phrase("cut")), ((15.5, 10), phrase("card")), *words),
        ),
        "mat plain": Scene(
            phrase("The cloth on the mat of the cutting machine, its back up, without web"),
            (rect(-2, -2, WIDE + 4, HIGH + 4), cloth),
            labels=(((15, 9), phrase("back of the cloth, no web")), ((17.5, 12), phrase("mat"))),
        ),
        "cut round card": Scene(
            phrase("The card on the back of the cloth, with the line to cut outside it"),
            (cloth, *motif.draw("")),
            wide.trace("cut"),
            labels=(
                (wide.on_right(), phrase("cut")),
                (motif.on_right(0.75), phrase("card")),
                ((15.5, 10), phrase("back of the cloth")),
                *words,
            ),
        ),
    }


def _show_pressing(b: str, motif: Motif) -> dict[str, Scene]:
    """The allowance snipped, then pressed over the card."""
    left, _, right, _ = motif.area.bounds
    wide, card = motif.grown(TURNING), motif.moved(float(right - left) + 3 * TURNING, 0.0)
    snips = find_snips(motif.area, wide.area)
    cut, alt = (
        (
            ((snips[0][0], phrase("snip, almost to the line")),),
            phrase(
                "The back of the piece with its allowance, with the snips to cut at inner corners and curves"
            ),
        )
        if snips
        else (
            ((wide.on_right(), phrase("no inner corner: nothing to snip")),),
            phrase("The back of the piece with its allowance, which has no inner corner"),
        )
    )
    return {
        "snip": Scene(
            alt,
            wide.draw(b, back=True),
            (*motif.trace("drawn"), *(("cut", snip) for snip in snips)),
            labels=(*cut, (motif.on_right(0.75), phrase("finished line")), *motif.say()),
        ),
        "turn": _show_turning(b, motif, wide),
        "card-out": Scene(
            phrase("The back of the piece, its allowance folded in all round, the card taken out beside it"),
            (
                *motif.draw(b, back=True),
                *draw_area(motif.area.difference(motif.area.buffer(-TURNING * FOLDED)), b),
                *card.draw(""),
            ),
            labels=((card.on_right(), phrase("card")), *motif.say()),
        ),
    }


def _show_turning(b: str, motif: Motif, wide: Motif) -> Scene:
    """On the left the allowance is folded over the card already, on the right it is still flat."""
    left, top, right, bottom = wide.area.bounds
    half = box(left, top, (left + right) / 2, bottom)
    flat = wide.area.difference(half).union(motif.area)
    folded = motif.area.difference(motif.area.buffer(-TURNING * FOLDED)).intersection(half)
    at = folded.representative_point()
    x, y = motif.middle
    return Scene(
        phrase("The allowance pressed over the edge of the card, an iron on it"),
        (
            *draw_area(flat, b, back=True),
            *motif.draw(""),
            *draw_area(folded, b),
            iron(x - 0.5, bottom - 2.2, 4.4),
        ),
        labels=(
            ((x, y), motif.words or phrase("card")),
            ((x + 2.5, bottom - 1), phrase("iron")),
            (wide.on_right(0.4), phrase("allowance, still flat")),
            ((float(at.x), float(at.y)), phrase("folded over the card")),
        ),
    )


def _show_sewing(a: str, b: str, motif: Motif) -> dict[str, Scene]:
    """Laid and sewn along its fold."""
    top, words = (rect(0, 0, WIDE, HIGH, a), *motif.draw_lower(0, 0, WIDE, HIGH)), motif.say()
    inside, (x, y) = motif.grown(-CLOSE), motif.middle
    basted = (("sew", ((x - 1.6, y), (x + 1.6, y))), ("sew", ((x, y - 1.2), (x, y + 1.2))))
    line, fold = motif.grown(CLOSE).trace("sewn"), (motif.on_right(0.75), phrase("fold along the line"))
    return {
        "press-again": Scene(
            phrase("The piece from the front, its edge folded under, an iron on it"),
            (*motif.draw(b), iron(x - 0.5, y - 0.6, 4.4)),
            labels=((motif.on_right(0.2), phrase("fold")), ((x + 2.5, y + 0.4), phrase("iron")), *words),
        ),
        "lay turned": Scene(
            phrase("The pressed piece inside its placement line"),
            (*top, *motif.draw(b)),
            line,
            labels=(fold, *words),
        ),
        "baste": Scene(
            phrase("The pressed piece inside its placement line, a few long stitches in its middle"),
            (*top, *motif.draw(b)),
            (*line, *basted),
            labels=(((x + 1.6, y), phrase("a few hand stitches")), fold, *words),
        ),
        "sew turned": Scene(
            phrase("The folded edge of the piece to sew down on the top, dashed"),
            (*top, *motif.draw(b)),
            inside.trace("sew"),
            labels=((inside.on_right(), phrase("sew along the fold")), *words),
        ),
    }
