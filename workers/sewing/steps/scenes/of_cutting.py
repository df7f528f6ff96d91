"""Scenes of cutting: cloth made ready, strips, templates, heaps."""

from __future__ import annotations

from service.craft.drawing.scenes import Piece, Scene
from service.craft.language import phrase
from workers.sewing.steps.scenes.areas import draw_edges
from workers.sewing.steps.scenes.motifs import Motif, find_right
from workers.sewing.steps.scenes.shapes import frame, iron, rect, ruler


def show_cutting(a: str) -> dict[str, Scene]:
    """What is done to cloth of the key `a` in cutting, by the beginning of the step's id."""
    return _cloth_ready(a)


def _cloth_ready(a: str) -> dict[str, Scene]:
    """Cloth flat, straight, and cut into strips."""
    tool, marks = ruler(3, -1, 3, 12)
    across, across_marks = ruler(0, 3.4, 20, 2.4)
    return {
        "cutting.prepare": Scene(
            phrase("Cloth with an iron on it"),
            (rect(0, 0, 20, 9, a), iron(11, 3, 7)),
            labels=(((14, 5), phrase("iron")),),
        ),
        "cutting.straighten": Scene(
            phrase("Folded cloth, a ruler across it and the line to cut beside the crooked end"),
            (Piece(((0.8, 0), (20, 0), (20, 10), (0, 10)), a), tool),
            (*marks, ("cut", ((3, 0), (3, 10))), ("fold", ((0, 10), (20, 10)))),
            labels=(
                ((3, 1), phrase("cut")),
                ((5, 5), phrase("ruler, square to the fold")),
                ((19, 10), phrase("fold")),
            ),
        ),
        "cutting.cloth": Scene(
            phrase("Cloth with lines to cut all across, strip beside strip"),
            (rect(0, 0, 20, 10, a), across),
            (*across_marks, ("cut", ((0, 3.2), (20, 3.2))), ("cut", ((0, 6), (20, 6)))),
            labels=(
                ((19, 1.5), phrase("a strip")),
                ((19, 3.2), phrase("cut across")),
                ((18, 4.6), phrase("ruler")),
            ),
        ),
    }


def show_heaps(a: str, b: str) -> dict[str, Scene]:
    """The heaps that all of it lies in, and a strip cut into wedges."""
    return {
        "cutting.blades": Scene(
            phrase("A strip cut into wedges, turned head to tail"),
            (rect(0, 0, 20, 7, a),),
            tuple(
                ("cut", ((x, 0.0), (x + lean, 7.0)))
                for x, lean in ((4, -1), (6, 1), (11, -1), (13, 1), (18, -1))
            ),
            labels=(((18, 1), phrase("cut")),),
        ),
        "cutting.label": Scene(
            phrase("Heaps of patches, each with a slip of paper on it"),
            (
                *(rect(x + i * 0.4, i * 0.4, 5, 5, cloth) for x, cloth in ((0, a), (8, b)) for i in range(3)),
                rect(1.6, 2.4, 3.4, 1.6),
                rect(9.6, 2.4, 3.4, 1.6),
            ),
            labels=(((13, 3.2), phrase("slip with the size")), ((13.5, 5.5), phrase("one size, one heap"))),
        ),
    }


def show_rough_piece(b: str, motif: Motif) -> Scene:
    """A piece of cloth cut larger than the shape that is sewn on it later."""
    small = motif.fitted(9, 6).moved(8, 5.5)
    left, top, right, bottom = small.grown(1.0).area.bounds
    return Scene(
        phrase("A rough piece of cloth cut larger than the shape that is sewn on it later"),
        (rect(0, 0, 16, 11, b),),
        (*frame("cut", left, top, right - left, bottom - top), *small.trace("drawn")),
        labels=(
            ((right, top + 0.4), phrase("cut roughly")),
            (small.on_right(), phrase("the piece, later")),
            *small.say(),
        ),
    )


def show_templates(b: str, motif: Motif) -> dict[str, Scene]:
    """A template for patches of the cloth `b`, on card and on cloth: its cut line; the seam line lies under it."""
    motif = motif.fitted(11, 8).moved(7, 5)
    card, cloth, at = rect(0, 0, 14, 10), rect(0, 0, 14, 10, b), motif.on_right()
    traced, cut = motif.trace("drawn"), motif.trace("cut")
    seam = draw_edges(motif.lower[0][0], "sew")
    return {
        "cutting.templates": Scene(
            phrase("A printed template on card, a pencil line round it"),
            (card, *motif.draw("")),
            traced,
            labels=((at, phrase("trace")), ((13.5, 9.5), phrase("card"))),
        ),
        "cutting.templates-cut": Scene(
            phrase("Card with the solid line to cut, the dashed seam line inside it"),
            (card,),
            (*cut, *seam),
            labels=((at, phrase("cut")), (find_right(motif.lower[0][0], 0.7), phrase("the seam, not cut"))),
        ),
        "cutting.template-patches": Scene(
            phrase("A template on the right side of a piece of cloth, a line to draw round it"),
            (cloth, *motif.draw("")),
            traced,
            labels=((at, phrase("draw round it")), (motif.middle, phrase("template, face up"))),
        ),
        "cutting.template-patches-cut": Scene(
            phrase("A piece of cloth with the line to cut"),
            (cloth,),
            cut,
            labels=((at, phrase("cut")),),
        ),
    }
