"""Scenes of cutting: cloth made ready, strips, templates, heaps."""

from __future__ import annotations

from service.craft.drawing.scenes import Piece, Scene
from workers.sewing.steps.scenes.shapes import INNER, LEAF, frame, iron, rect, ring, ruler, shape


def show_cutting(a: str, b: str) -> dict[str, Scene]:
    """What is done in cutting, by the beginning of the step's id."""
    return _cloth_ready(a) | _cloth_parted(a, b) | _templates(b)


def _cloth_ready(a: str) -> dict[str, Scene]:
    """Cloth flat, straight, and cut into strips."""
    tool, marks = ruler(3, -1, 3, 12)
    across, across_marks = ruler(0, 3.4, 20, 2.4)
    return {
        "cutting.prepare": Scene(
            "Cloth with an iron on it", (rect(0, 0, 20, 9, a), iron(11, 3, 7)), labels=(((14, 5), "iron"),)
        ),
        "cutting.straighten": Scene(
            "Folded cloth, a ruler across it and the line to cut beside the crooked end",
            (Piece(((0.8, 0), (20, 0), (20, 10), (0, 10)), a), tool),
            (*marks, ("cut", ((3, 0), (3, 10))), ("fold", ((0, 10), (20, 10)))),
            labels=(((3, 1), "cut"), ((5, 5), "ruler, square to the fold"), ((19, 10), "fold")),
        ),
        "cutting.cloth": Scene(
            "Cloth with lines to cut all across, strip beside strip",
            (rect(0, 0, 20, 10, a), across),
            (*across_marks, ("cut", ((0, 3.2), (20, 3.2))), ("cut", ((0, 6), (20, 6)))),
            labels=(((19, 1.5), "a strip"), ((19, 3.2), "cut across"), ((18, 4.6), "ruler")),
        ),
    }


def _cloth_parted(a: str, b: str) -> dict[str, Scene]:
    """Wedges, rough pieces, and the heaps all of it lies in."""
    return {
        "cutting.blades": Scene(
            "A strip cut into wedges, turned head to tail",
            (rect(0, 0, 20, 7, a),),
            tuple(
                ("cut", ((x, 0.0), (x + lean, 7.0)))
                for x, lean in ((4, -1), (6, 1), (11, -1), (13, 1), (18, -1))
            ),
            labels=(((18, 1), "cut"),),
        ),
        "cutting.pieces": Scene(
            "A rough piece of cloth cut larger than the shape that is sewn on it later",
            (rect(-3, -2, 14, 12, b),),
            (*frame("cut", -1.5, -1, 11, 10), *ring("drawn", LEAF)),
            labels=(((9.5, 0), "cut roughly"), ((8, 4), "the piece, later")),
        ),
        "cutting.label": Scene(
            "Heaps of patches, each with a slip of paper on it",
            (
                *(rect(x + i * 0.4, i * 0.4, 5, 5, cloth) for x, cloth in ((0, a), (8, b)) for i in range(3)),
                rect(1.6, 2.4, 3.4, 1.6),
                rect(9.6, 2.4, 3.4, 1.6),
            ),
            labels=(((13, 3.2), "slip with the size"), ((13.5, 5.5), "one size, one heap")),
        ),
    }


def _templates(b: str) -> dict[str, Scene]:
    """Templates on card and on cloth."""
    card = shape(LEAF, "", (0, 0))
    return {
        "cutting.templates": Scene(
            "A printed template on card, a pencil line round it",
            (rect(-2, -2, 12, 12), card),
            ring("drawn", LEAF),
            labels=(((8, 4), "trace"), ((9.5, 9), "card")),
        ),
        "cutting.templates-cut": Scene(
            "Card with the solid line to cut, the dashed seam line inside it",
            (rect(-2, -2, 12, 12),),
            (*ring("cut", LEAF), *ring("sew", INNER)),
            labels=(((8, 4), "cut"), ((7.4, 6), "the seam, not cut")),
        ),
        "cutting.template-patches": Scene(
            "A template on the right side of a piece of cloth, a line to draw round it",
            (rect(-2, -1, 12, 10, b), card),
            ring("drawn", LEAF),
            labels=(((8, 4), "draw round it"), ((4, 4), "template, face up")),
        ),
        "cutting.template-patches-cut": Scene(
            "A piece of cloth with the line to cut",
            (rect(-2, -1, 12, 10, b),),
            ring("cut", LEAF),
            labels=(((8, 4), "cut"),),
        ),
    }
