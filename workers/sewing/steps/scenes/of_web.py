"""Scenes of pieces before they are sewn: patterns, fusible web, the mat of the cutting machine."""

from __future__ import annotations

from service.craft.drawing.scenes import Scene
from service.craft.language import phrase
from workers.sewing.steps.scenes.motifs import Motif
from workers.sewing.steps.scenes.shapes import iron, rect


def show_web(b: str, motif: Motif, *, traced: bool) -> dict[str, Scene]:
    """What is done with cloth of the key `b`, web and mat; the motif as it is seen from the front.

    `traced`: the piece is drawn on the web before that is fused; a cutting machine cuts it without a line.
    """
    return _drawn_on_web(b, motif) | _fused(b, motif, traced=traced) | _on_mat(b, motif)


def _drawn_on_web(b: str, motif: Motif) -> dict[str, Scene]:
    """Web drawn on, fused and cut by hand: its paper side shows the piece from the back."""
    web = rect(0, 0, 14, 10)
    small = motif.mirrored().fitted(11, 8).moved(7, 5)
    at = small.on_right()
    return {
        "bring": Scene(
            phrase("A sheet of paper for an outline of your own"),
            (web,),
            small.trace("drawn"),
            labels=((at, phrase("your own pattern")),),
        ),
        "trace": Scene(
            phrase("The outline drawn on the paper side of the web"),
            (web,),
            small.trace("drawn"),
            labels=(
                (at, phrase("draw, mirrored")),
                ((13.5, 9), phrase("paper side of the web")),
                *small.say(),
            ),
        ),
        "cut": Scene(
            phrase("The outline to cut through paper, web and cloth"),
            (rect(0, 0, 14, 10, b, back=True), web),
            small.trace("cut"),
            labels=((at, phrase("cut")), *small.say()),
        ),
    }


def _fused(b: str, motif: Motif, *, traced: bool) -> dict[str, Scene]:
    """Web fused to the back of the cloth."""
    drawn = motif.mirrored().fitted(5, 5.6).moved(5.4, 5).trace("drawn") if traced else ()
    return {
        "web": Scene(
            phrase("Fusible web on the back of the cloth, an iron on it"),
            (rect(0, 0, 18, 10, b, back=True), rect(2, 1.5, 13, 7), iron(8.6, 3.2, 6)),
            drawn,
            labels=(
                ((12, 5), phrase("iron")),
                ((15, 7), phrase("web, paper side up")),
                ((17, 9), phrase("back of the cloth")),
            ),
        )
    }


def _on_mat(b: str, motif: Motif) -> dict[str, Scene]:
    """The mat of the cutting machine."""
    mat, cloth, web = rect(0, 0, 18, 12), rect(2, 1.4, 13, 9.2, b, back=True), rect(2.6, 2, 11.8, 8)
    small = motif.mirrored().fitted(10, 6.6).moved(8.5, 6)
    return {
        "mat": Scene(
            phrase("The cloth on the mat of the cutting machine, its web up"),
            (mat, cloth, web),
            labels=(
                ((17, 11), phrase("mat")),
                ((13, 6), phrase("web, paper side up")),
                ((14.7, 3), phrase("back of the cloth")),
            ),
        ),
        "cut on mat": Scene(
            phrase("The mirrored outline to cut in the web"),
            (mat, cloth, web),
            small.trace("cut"),
            labels=((small.on_right(), phrase("cut")), ((17, 11), phrase("mat")), *small.say()),
        ),
        "cut on mat plain": Scene(
            phrase("The mirrored outline to cut in the cloth, without web"),
            (mat, cloth),
            small.trace("cut"),
            labels=((small.on_right(), phrase("cut")), ((17, 11), phrase("mat")), *small.say()),
        ),
    }
