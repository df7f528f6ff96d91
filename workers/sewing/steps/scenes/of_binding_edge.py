"""Scenes of the binding as it is sewn on: corners, ends, the back."""

from __future__ import annotations

from service.craft.drawing.scenes import Piece, Scene
from service.craft.language import phrase
from workers.sewing.steps.scenes.shapes import rect, seam


def show_binding_edge(a: str, b: str) -> dict[str, Scene]:
    """What is done with the binding at the edge."""
    return _corners(a, b) | _ends(a, b) | _turned_over(a, b)


def _corners(a: str, b: str) -> dict[str, Scene]:
    """Along a side and round a corner."""
    edge, bound = rect(0, 0, 20, 12, a), rect(0, 0, 20, 2.6, b)
    return {
        "sew": Scene(
            phrase("The binding on the edge of the front, raw edges level, the seam dashed"),
            (edge, bound),
            (seam(1.2, 5, 20),),
            labels=(
                ((19, 0), phrase("raw edges level")),
                ((19, 1.2), phrase("sew")),
                ((1, 2), phrase("free end")),
            ),
        ),
        "corner": Scene(
            phrase("The seam stops before the corner"),
            (edge, bound),
            (seam(1.2, 0, 18.6),),
            rings=((18.6, 1.2),),
            labels=(((18.6, 1.2), phrase("stop here")),),
        ),
        "corner-up": Scene(
            phrase("The binding folded straight up at the corner"),
            (edge, rect(0, 0, 17, 2.6, b), Piece(((20, 0), (17.4, 2.6), (17.4, -6), (20, -6)), b)),
            (("fold", ((17.4, 2.6), (20, 0))),),
            labels=(((20, -4), phrase("up")), ((18.7, 1.3), phrase("slanting fold"))),
        ),
        "corner-down": Scene(
            phrase("The binding folded down along the next side"),
            (edge, rect(0, 0, 17.4, 2.6, b), rect(17.4, 0, 2.6, 12, b)),
            (("fold", ((17.4, 0), (20, 0))),),
            arrows=(((18.7, 2), (18.7, 10)),),
            labels=(((19.6, 0), phrase("fold level with the edge")), ((20, 8), phrase("down"))),
        ),
        "corner-on": Scene(
            phrase("The seam goes on along the next side, from the edge"),
            (edge, rect(0, 0, 17.4, 2.6, b), rect(17.4, 0, 2.6, 12, b)),
            (("sew", ((18.7, 0), (18.7, 12))), seam(1.2, 0, 18.6)),
            labels=(((18.7, 5), phrase("sew on")),),
        ),
    }


def _ends(a: str, b: str) -> dict[str, Scene]:
    """Where the end meets the beginning."""
    edge, bound = rect(0, 0, 20, 12, a), rect(0, 0, 20, 2.6, b)
    return {
        "stop": Scene(
            phrase("The seam stops a hand's length before its beginning"),
            (edge, bound),
            (seam(1.2, 0, 5), seam(1.2, 15, 20)),
            rings=((15, 1.2),),
            labels=(((5, 1.2), phrase("the beginning")), ((15, 1.2), phrase("stop"))),
        ),
        "fold-ends": Scene(
            phrase("Both free ends folded back, the folds meeting"),
            (edge, bound, rect(6, 0, 4, 2.6, b, back=True), rect(10, 0, 4, 2.6, b, back=True)),
            (("fold", ((10, 0), (10, 2.6))),),
            labels=(((10, 1.5), phrase("the folds meet")),),
        ),
        "close": Scene(
            phrase("The two ends of the binding sewn along the folds"),
            (edge, bound),
            (("sew", ((10, 0), (10, 2.6))),),
            labels=(((10, 2), phrase("sew")),),
        ),
        "trim-ends": Scene(
            phrase("What is over at the join cut off"),
            (edge, bound, rect(8, -2, 4, 2, b, back=True)),
            (("sew", ((8, 0), (12, 0))), ("cut", ((8, -0.8), (12, -0.8)))),
            labels=(((12, -0.8), phrase("cut")),),
        ),
        "close-rest": Scene(
            phrase("The gap in the seam sewn shut"),
            (edge, bound),
            (seam(1.2, 5, 15), ("sewn", ((0, 1.2), (5, 1.2))), ("sewn", ((15, 1.2), (20, 1.2)))),
            labels=(((14, 1.2), phrase("sew")),),
        ),
    }


def _turned_over(a: str, b: str) -> dict[str, Scene]:
    """On the back."""
    bound = rect(0, 0, 20, 2.6, b)
    return {
        "turn-over": Scene(
            phrase("The binding turned over the edge to the back"),
            (rect(0, 1.2, 20, 11, a, back=True), rect(0, 0, 20, 2.6, b)),
            arrows=(((10, 0), (10, 4)),),
            labels=(((10, 3.6), phrase("to the back")),),
        ),
        "turn": Scene(
            phrase("The folded edge on the back, sewn down"),
            (rect(0, 0, 20, 12, a, back=True), bound),
            (seam(2.4),),
            labels=(((19, 2.4), phrase("sew down")), ((19, 8), phrase("back"))),
        ),
    }
