"""Scenes of pieces whose edge is turned under: the card, snips, the edge pressed over it."""

from __future__ import annotations

from service.craft.drawing.scenes import Line, Scene
from service.craft.outlines.affine import Point
from workers.sewing.steps.scenes.shapes import iron, rect, ring, shape

BEAN: tuple[Point, ...] = (
    (0.0, 4.0),
    (1.2, 1.2),
    (4.0, 0.0),
    (6.8, 1.2),
    (8.0, 4.0),
    (6.6, 6.8),
    (4.0, 5.0),
    (1.4, 6.8),
)
"""A rounded piece with one inner corner, at its lower edge."""


def _wider(share: float) -> tuple[Point, ...]:
    return tuple((4 + (x - 4) * share, 4 + (y - 4) * share) for x, y in BEAN)


def show_turned(a: str, b: str) -> dict[str, Scene]:
    """What is done with a piece of the cloth `b` on a top of the cloth `a`."""
    wide, back = _wider(1.3), rect(-3, -3, 14, 13, b, back=True)
    snips: tuple[tuple[str, Line], ...] = (("cut", ((4.0, 6.4), (4.0, 5.1))),)
    return {
        "card": Scene(
            "A card in the finished shape of the piece, with the line to cut",
            (rect(-2, -2, 12, 11), shape(BEAN, "")),
            ring("cut", BEAN),
            labels=(((7.8, 4.0), "cut"), ((9.5, 8.5), "card")),
        ),
        "mat plain": Scene(
            "The cloth on the mat of the cutting machine, its back up, without web",
            (rect(-5, -4, 18, 15), back),
            labels=(((10.5, 9.0), "back of the cloth, no web"), ((12.0, 10.0), "mat")),
        ),
        "cut round card": Scene(
            "The card on the back of the cloth, with the line to cut outside it",
            (back, shape(BEAN, "")),
            ring("cut", wide),
            labels=(((9.2, 4.0), "cut"), ((6.0, 3.0), "card"), ((10.5, 9.0), "back of the cloth")),
        ),
        "snip": Scene(
            "The back of the piece on its card, with the snip to cut at the inner corner",
            (shape(wide, b, back=True), shape(BEAN, "")),
            snips,
            labels=(((4.0, 5.6), "snip, almost to the card"), ((7.0, 3.0), "card")),
        ),
        "turn": Scene(
            "The allowance pressed over the edge of the card, an iron on it",
            (shape(wide, b, back=True), shape(BEAN, ""), iron(6.4, 1.6, 6.0)),
            labels=(((10.0, 3.0), "iron"), ((3.0, 3.0), "card"), ((1.2, 6.4), "allowance, folded over it")),
        ),
        "sew turned": Scene(
            "The folded edge of the piece to sew down on the top, dashed",
            (rect(-5, -2, 18, 12, a), shape(BEAN, b)),
            ring("sew", BEAN),
            labels=(((8.0, 4.0), "sew along the fold"),),
        ),
    }
