"""Scenes of applique: lines, pieces laid and sewn, the hoop."""

from __future__ import annotations

from shapely import affinity, box

from service.craft.drawing.scenes import Line, Piece, Scene
from service.craft.language import phrase
from service.craft.outlines.affine import Point
from service.craft.pieces import TRIPLE_RUN
from workers.sewing.steps.pieces import BLANKET, RAW, SATIN, TURNED, ZIGZAG
from workers.sewing.steps.scenes.areas import draw_area
from workers.sewing.steps.scenes.motifs import Motif
from workers.sewing.steps.scenes.of_edges import show_edge
from workers.sewing.steps.scenes.shapes import HOOP, iron, rect

WIDE, HIGH = 20.0, 12.0
MIDDLE: Point = (10.0, 6.0)
NARROWEST, AROUND = 11.0, 3.4
"""How wide the part of a top is that is seen, at least, and how far it is seen on either side of the piece."""

INSIDE, SPARE, BESIDE = -0.28, 1.3, 0.35
"""How far a seam lies inside the edge, how much cloth lies over it, how far beside its line it is cut."""

LIFTED = 0.7
"""What is seen of the height of paper that is peeled up, in shares."""

JUST_INSIDE = (RAW, TRIPLE_RUN, TURNED)
"""Edges that are sewn just inside, with a straight stitch."""


def show_pieces(a: str, b: str, motif: Motif, edge: str = SATIN) -> dict[str, Scene]:
    """What is done with a piece of the cloth `b` on a top of the cloth `a`."""
    motif = motif.moved(*MIDDLE)
    return (
        _marked(a)
        | _hooped(a, b, motif)
        | _outlined(a, b, motif)
        | _sewn_down(a, b, motif, edge)
        | _laid(a, b, motif)
    )


def _top(a: str, motif: Motif) -> tuple[Piece, ...]:
    """The part of the top that is seen, with the pieces that lie under this one."""
    left, right = _look(motif)
    return rect(left, 0, right - left, HIGH, a), *motif.draw_lower(left, 0, right, HIGH)


def _look(motif: Motif) -> tuple[float, float]:
    """How far the part of the top that is seen reaches left and right: a narrow piece is drawn larger so."""
    left, _, right, _ = motif.area.bounds
    half = min(WIDE, max(NARROWEST, right - left + 2 * AROUND)) / 2
    return MIDDLE[0] - half, MIDDLE[0] + half


def _cover(b: str, motif: Motif) -> Piece:
    """Cloth laid over a line with room to spare all round."""
    left, top, right, bottom = motif.grown(SPARE).area.bounds
    return rect(left, top, right - left, bottom - top, b)


def _in_hoop(a: str, motif: Motif) -> tuple[Piece, ...]:
    """The top in a hoop, what lies on it inside the hoop."""
    return (
        rect(-1, -1, 22, 14, a),
        Piece(HOOP, ""),
        rect(2.5, 1.5, 15, 9, a),
        *motif.draw_lower(2.5, 1.5, 17.5, 10.5),
    )


def _marked(a: str) -> dict[str, Scene]:
    """The middle of a hooping drawn on the top, and the top hooped."""
    hooped = (rect(-1, -1, 22, 14, a), Piece(HOOP, ""), rect(2.5, 1.5, 15, 9, a))
    return {
        "applique.mark": Scene(
            phrase("The top with two drawn lines that cross"),
            (rect(0, 0, WIDE, HIGH, a),),
            (("drawn", ((10, 1), (10, 11))), ("drawn", ((3, 6), (17, 6)))),
            rings=(MIDDLE,),
            labels=((MIDDLE, phrase("middle of the hooping")), ((10, 10), phrase("draw"))),
        ),
        "applique.hoop": Scene(
            phrase("The top in a hoop, the crossing lines in its middle"),
            hooped,
            (("drawn", ((10, 3), (10, 9))), ("drawn", ((6, 6), (14, 6)))),
            labels=(
                ((18, 3), phrase("hoop")),
                (MIDDLE, phrase("crossing lines")),
                ((16, 9), phrase("top over stabiliser")),
            ),
        ),
    }


def _hooped(a: str, b: str, motif: Motif) -> dict[str, Scene]:
    """The hoop taken off and put back, with what lies in it by then."""
    small = motif.moved(-10, -6).fitted(11, 6.4).moved(*MIDDLE)
    hoop, line = _in_hoop(a, small), small.trace("sewn")
    off: Line = ((15.5, 7), (15.5, 13))
    back: Line = ((15.5, 13), (15.5, 7))
    covered = rect(4.2, 2.2, 11.6, 7.6, b)
    labels = (((18, 3), phrase("hoop, work stays in")), ((15.5, 12), phrase("off the machine")), *small.say())
    returned = (((18, 3), phrase("hoop")), ((15.5, 12), phrase("back on the machine")), *small.say())
    told = phrase("The hoop taken off the machine with the work still in it")
    return {
        "hoop-off": Scene(told, hoop, line, arrows=(off,), labels=labels),
        "hoop-off covered": Scene(told, (*hoop, covered), line, arrows=(off,), labels=labels),
        "hoop-on": Scene(
            phrase("The hoop put back on the machine, the piece in its place"),
            (*hoop, *small.draw(b)),
            arrows=(back,),
            labels=returned,
        ),
    }


def _outlined(a: str, b: str, motif: Motif) -> dict[str, Scene]:
    """The placement line, and cloth over it."""
    top, cover, edge = _top(a, motif), _cover(b, motif), motif.on_right()
    drawn, far = motif.trace("drawn"), _look(motif)[1] - 1
    left, _, right, _ = motif.grown(SPARE / 2).area.bounds
    return {
        "placement": Scene(
            phrase("The top with the placement line to sew, dashed"),
            top,
            motif.trace("sew"),
            labels=((edge, phrase("sew the placement line")), *motif.say()),
        ),
        "draw": Scene(
            phrase("The top with the placement line to draw"),
            top,
            drawn,
            labels=((edge, phrase("draw")), ((far, 11), phrase("top")), *motif.say()),
        ),
        "lay over": Scene(
            phrase("Cloth laid over the placement line, larger than it on all sides"),
            (*top, cover),
            drawn,
            labels=(
                ((right, 3), phrase("cloth, right side up")),
                (edge, phrase("line under it")),
                *motif.say(),
            ),
        ),
        "pin": Scene(
            phrase("The cloth pinned outside the line"),
            (*top, cover),
            drawn,
            pins=tuple((x, y) for x in (left, right) for y in (4.4, 8.4)),
            labels=(((right, 4.4), phrase("pins outside the line")), *motif.say()),
        ),
    }


def _sewn_down(a: str, b: str, motif: Motif, edge: str) -> dict[str, Scene]:
    """Pieces sewn down."""
    top, cover, at = _top(a, motif), _cover(b, motif), motif.on_right()
    inside, words = motif.grown(INSIDE), motif.say()
    cut, (near, far) = motif.grown(BESIDE), _look(motif)
    return {
        "tack-down": Scene(
            phrase("The piece with a seam to sew just inside its edge"),
            (*top, *motif.draw(b)),
            inside.trace("sew"),
            labels=((inside.on_right(), phrase("sew the tack-down")), *words),
        ),
        "tack-down covered": Scene(
            phrase("The cloth with a seam to sew along the placement line under it"),
            (*top, cover),
            motif.trace("sew"),
            labels=((at, phrase("sew the tack-down")), *words),
        ),
        "tack back": Scene(
            phrase("The back of the top with the same line to sew again"),
            (rect(near, 0, far - near, HIGH, a, back=True),),
            motif.moved(-10, -6).mirrored().moved(*MIDDLE).trace("sew"),
            labels=((at, phrase("sew on the line")), ((far - 1, 11), phrase("back of the top")), *words),
        ),
        "trim": Scene(
            phrase("Cloth sewn down, with the line to cut close outside the stitches"),
            (*top, cover),
            (*motif.trace("sewn"), *cut.trace("cut")),
            labels=(
                (cut.on_right(0.4), phrase("cut here")),
                (motif.on_right(0.7), phrase("stitches")),
                ((cover.points[1][0] - 0.4, cover.points[1][1] + 0.4), phrase("what falls off")),
                *words,
            ),
        ),
        "finish": _show_finish((*top, *motif.draw(b)), motif, edge),
    }


def _show_finish(laid: tuple[Piece, ...], motif: Motif, edge: str) -> Scene:
    """The last round of stitches, as they look."""
    names = {
        SATIN: phrase("satin stitches"),
        ZIGZAG: phrase("zigzag stitches"),
        BLANKET: phrase("blanket stitches"),
    }
    if edge in JUST_INSIDE:
        inside = motif.grown(INSIDE)
        sewn, at, words = inside.trace("sew"), inside.on_right(), phrase("sew just inside the edge")
    else:
        sewn, at, words = show_edge(motif.area, edge), motif.on_right(), names[edge]
    return Scene(
        phrase("The stitches to sew round the piece"), laid, sewn, labels=((at, words), *motif.say())
    )


def _laid(a: str, b: str, motif: Motif) -> dict[str, Scene]:
    """Cut pieces laid and fused."""
    top, small, words = _top(a, motif), motif.grown(INSIDE / 2), motif.say()
    x, y = motif.middle
    return {
        "peel": _show_peeling(b, motif.moved(-10, -6).mirrored().moved(*MIDDLE)),
        "lay in hoop": Scene(
            phrase("The cut piece inside its placement line"),
            (*top, *small.draw(b)),
            motif.trace("sewn"),
            labels=(
                (small.middle, motif.words or phrase("the piece")),
                (motif.on_right(0.7), phrase("placement line")),
            ),
        ),
        "fuse": Scene(
            phrase("An iron on the piece"),
            (*top, *motif.draw(b), iron(x, y - 1.5, 6)),
            labels=(((x + 4, y), phrase("iron")), (motif.on_right(0.85), phrase("the piece")), *words),
        ),
        "applique.look": Scene(
            phrase("The back of the top on a towel, an iron on it"),
            (rect(-1, -1, 22, 14), rect(0, 0, WIDE, HIGH, a, back=True), iron(10, 5, 6)),
            labels=(((14, 7), phrase("iron, from the back")), ((20.6, 12.6), phrase("towel"))),
        ),
    }


def _show_peeling(b: str, motif: Motif) -> Scene:
    """The back of the piece: the paper still on its upper half, that of the lower half folded up and away."""
    left, top, right, bottom = motif.area.bounds
    half = (top + bottom) / 2
    upper = motif.area.intersection(box(left, top, right, half))
    lower = motif.area.intersection(box(left, half, right, bottom))
    flap = affinity.scale(lower, 1.0, -LIFTED, origin=(0, half))
    middle = motif.middle[0]
    return Scene(
        phrase("The back of a piece with its paper half peeled off"),
        (*motif.draw(b, back=True), *draw_area(upper, ""), *draw_area(flap, "")),
        arrows=(((middle, bottom), (middle, half - (half - top) * 0.4)),),
        labels=(
            ((middle, half - (half - top) * 0.4), phrase("paper, peeled off")),
            (motif.on_right(0.75), phrase("glue under it, on the back")),
            *motif.say(),
        ),
    )
