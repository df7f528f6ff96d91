"""Scenes of applique: lines, pieces laid and sewn, the hoop."""

from __future__ import annotations

from service.craft.drawing.scenes import Piece, Scene
from workers.sewing.steps.scenes.shapes import HOOP, INNER, LEAF, LEAF_AT, WIDER, iron, rect, ring, shape


def show_pieces(a: str, b: str) -> dict[str, Scene]:
    """What is done with a piece of the cloth `b` on a top of the cloth `a`."""
    return _hooped(a) | _outlined(a, b) | _sewn_down(a, b) | _laid(a, b)


def _hooped(a: str) -> dict[str, Scene]:
    """The top in the hoop."""
    top = rect(0, 0, 20, 12, a)
    outline, inside = ring("sew", LEAF, LEAF_AT), ring("sewn", INNER, LEAF_AT)
    hoop = Piece(HOOP, "")
    hooped = (rect(-1, -1, 22, 14, a), hoop, rect(2.5, 1.5, 15, 9, a))
    return {
        "applique.mark": Scene(
            "The top with two drawn lines that cross",
            (top,),
            (("drawn", ((10, 1), (10, 11))), ("drawn", ((3, 6), (17, 6)))),
            rings=((10, 6),),
            labels=(((10, 6), "middle of the hooping"), ((10, 10), "draw")),
        ),
        "applique.hoop": Scene(
            "The top in a hoop, the crossing lines in its middle",
            hooped,
            (("drawn", ((10, 3), (10, 9))), ("drawn", ((6, 6), (14, 6)))),
            labels=(
                ((18, 3), "hoop"),
                ((10, 6), "crossing lines in the middle"),
                ((16, 9), "top over the stabiliser"),
            ),
        ),
        "hoop-off": Scene(
            "The hoop taken off the machine with the work still in it",
            hooped,
            outline,
            arrows=(((10, 6), (10, 13)),),
            labels=(((18, 3), "hoop, work stays in"), ((10, 12), "off the machine")),
        ),
        "hoop-on": Scene(
            "The hoop put back on the machine",
            hooped,
            inside,
            arrows=(((10, 13), (10, 6)),),
            labels=(((18, 3), "hoop"), ((10, 10), "back on the machine")),
        ),
    }


def _outlined(a: str, b: str) -> dict[str, Scene]:
    """The placement line, and cloth over it."""
    top = rect(0, 0, 20, 12, a)
    outline = ring("sew", LEAF, LEAF_AT)
    cover = shape(WIDER, b, LEAF_AT)
    edge = (14.0, 6.0)
    return {
        "placement": Scene(
            "The top with the placement line to sew, dashed",
            (top,),
            outline,
            labels=((edge, "sew the placement line"),),
        ),
        "draw": Scene(
            "The top with the placement line to draw",
            (top,),
            ring("drawn", LEAF, LEAF_AT),
            labels=((edge, "draw"), ((19, 11), "top")),
        ),
        "lay over": Scene(
            "Cloth laid over the placement line, larger than it on all sides",
            (top, cover),
            ring("drawn", LEAF, LEAF_AT),
            labels=(((15.3, 6), "cloth over the line"), (edge, "line under it")),
        ),
        "pin": Scene(
            "The cloth pinned outside the line",
            (top, cover),
            ring("drawn", LEAF, LEAF_AT),
            pins=((5.2, 6), (14.8, 6), (10, 1.6)),
            labels=(((14.8, 6), "pins outside the line"),),
        ),
    }


def _sewn_down(a: str, b: str) -> dict[str, Scene]:
    """Pieces sewn down."""
    top, leaf = rect(0, 0, 20, 12, a), shape(LEAF, b, LEAF_AT)
    outline = ring("sew", LEAF, LEAF_AT)
    cover = shape(WIDER, b, LEAF_AT)
    edge = (14.0, 6.0)
    return {
        "tack-down": Scene(
            "The piece with a seam to sew just inside its edge",
            (top, leaf),
            ring("sew", INNER, LEAF_AT),
            labels=(((13.6, 6), "sew the tack-down"),),
        ),
        "tack back": Scene(
            "The back of the top with the same line to sew again",
            (rect(0, 0, 20, 12, a, back=True),),
            outline,
            labels=((edge, "sew on the line"), ((19, 11), "back of the top")),
        ),
        "trim": Scene(
            "Cloth sewn down, with the line to cut close outside the stitches",
            (top, cover),
            (
                *ring("sewn", LEAF, LEAF_AT),
                *ring("cut", tuple((4 + (x - 4) * 1.08, 4 + (y - 4) * 1.08) for x, y in LEAF), LEAF_AT),
            ),
            labels=(((14.3, 6), "cut here"), ((13, 8.5), "stitches"), ((15.3, 4), "what falls off")),
        ),
        "finish": Scene(
            "The edge stitches to sew round the piece",
            (top, leaf),
            tuple(("sew", line) for _, line in ring("sew", LEAF, LEAF_AT)),
            labels=((edge, "sew the edge"),),
        ),
        "sew": Scene(
            "A further piece in its place, its edge to sew dashed",
            (top, leaf),
            outline,
            labels=((edge, "all passes as before"),),
        ),
    }


def _laid(a: str, b: str) -> dict[str, Scene]:
    """Cut pieces laid and fused."""
    top, leaf = rect(0, 0, 20, 12, a), shape(LEAF, b, LEAF_AT)
    return {
        "peel": Scene(
            "The back of a piece with its paper half peeled off",
            (shape(LEAF, b, (0, 0), back=True), Piece(((4, 0), (6.8, 1.4), (11, 0), (10, 8), (4, 8)), "")),
            arrows=(((6, 4), (12, 2)),),
            labels=(((10, 5), "paper, peeled off"), ((1, 6), "glue under it")),
        ),
        "lay": Scene(
            "The cut piece in its place on the top",
            (top, leaf),
            arrows=(((10, 6), (0, 6)), ((10, 6), (10, 0))),
            labels=(
                ((10, 6), "its middle"),
                ((10, 1), "from the upper edge"),
                ((1, 6), "from the left edge"),
            ),
        ),
        "lay in hoop": Scene(
            "The cut piece inside its placement line",
            (top, shape(INNER, b, LEAF_AT)),
            ring("sewn", LEAF, LEAF_AT),
            labels=(((13, 6), "the piece"), ((13.3, 8), "placement line")),
        ),
        "fuse": Scene(
            "An iron on the piece",
            (top, leaf, iron(10, 4.5, 6)),
            labels=(((14, 6), "iron"), ((7, 8), "the piece")),
        ),
        "applique.look": Scene(
            "The back of the top on a towel, an iron on it",
            (rect(-1, -1, 22, 14), rect(0, 0, 20, 12, a, back=True), iron(10, 5, 6)),
            labels=(((14, 7), "iron, from the back"), ((20.6, 12.6), "towel")),
        ),
    }
