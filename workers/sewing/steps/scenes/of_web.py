"""Scenes of pieces before they are sewn: patterns, fusible web, the mat of the cutting machine."""

from __future__ import annotations

from service.craft.drawing.scenes import Scene
from workers.sewing.steps.scenes.shapes import LEAF, iron, rect, ring


def show_web(b: str) -> dict[str, Scene]:
    """What is done with cloth, web and mat."""
    return _drawn_on_web(b) | _on_mat(b)


def _drawn_on_web(b: str) -> dict[str, Scene]:
    """Web drawn on, fused and cut by hand."""
    web = rect(0, 0, 14, 10)
    return {
        "bring": Scene(
            "A sheet of paper with an outline of your own",
            (web,),
            ring("drawn", LEAF, (3, 1)),
            labels=(((11, 5), "your own pattern"),),
        ),
        "trace": Scene(
            "The outline drawn on the paper side of the web",
            (web,),
            ring("drawn", LEAF, (3, 1)),
            labels=(((11, 5), "draw, mirrored"), ((13.5, 9), "paper side of the web")),
        ),
        "web": Scene(
            "Fusible web on the back of the cloth, an iron on it",
            (rect(0, 0, 18, 10, b, back=True), rect(2, 1.5, 12, 7), iron(6, 3, 6)),
            labels=(((10, 5), "iron"), ((14, 7), "web, paper side up"), ((17, 9), "back of the cloth")),
        ),
        "cut": Scene(
            "The outline to cut through paper, web and cloth",
            (rect(0, 0, 14, 10, b, back=True), web),
            ring("cut", LEAF, (3, 1)),
            labels=(((11, 5), "cut"),),
        ),
    }


def _on_mat(b: str) -> dict[str, Scene]:
    """The mat of the cutting machine."""
    return {
        "mat": Scene(
            "The cloth on the mat of the cutting machine, its web up",
            (rect(0, 0, 18, 12), rect(2, 2, 13, 8, b, back=True), rect(2.6, 2.6, 11.8, 6.8)),
            labels=(((17, 11), "mat"), ((13, 6), "web, paper side up")),
        ),
        "cut on mat": Scene(
            "The mirrored outline to cut in the web",
            (rect(0, 0, 18, 12), rect(2, 2, 13, 8, b, back=True)),
            ring("cut", tuple((8 - x, y) for x, y in LEAF), (4, 2)),
            labels=(((12, 6), "cut"), ((17, 11), "mat")),
        ),
    }
