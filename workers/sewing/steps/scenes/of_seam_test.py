"""Scenes of the seam test: three strips cut, sewn, pressed, measured; the seam moved."""

from __future__ import annotations

from service.craft.drawing.scenes import Piece, Scene
from service.craft.language import phrase
from workers.sewing.steps.scenes.shapes import rect, ruler, seam


def show_seam_test(a: str, b: str) -> dict[str, Scene]:
    """What is done with the three strips, by the end of the step's id."""
    return _strips_sewn(a, b) | _strips_ruled(a, b)


def _strips_sewn(a: str, b: str) -> dict[str, Scene]:
    """Strips at the machine and under the iron."""
    strips = _lay_strips(a, b)
    return {
        "sew": Scene(
            phrase(
                "The first two strips right sides together, a seam along one long edge dashed; "
                "the third strip beside them"
            ),
            (rect(0, 4.6, 12, 3.4, b), rect(0, 4.6, 12, 2.7, a, back=True), rect(0, 0, 12, 3.4, a)),
            (seam(5.3, 0, 12),),
            labels=(
                ((11, 1.7), phrase("the third comes next")),
                ((11, 5.3), phrase("sew")),
                ((11, 6.5), phrase("right side down")),
                ((11, 7.7), phrase("right side up")),
            ),
        ),
        "press": Scene(
            phrase("Three strips with wedges that show both seams pressed to one side"),
            strips,
            (seam(3), seam(6)),
            wedges=(((10, 3), (0, 1)), ((10, 6), (0, 1))),
            labels=(((10, 4.6), phrase("both to one side")),),
        ),
        "correct": Scene(
            phrase("Two strips on each other: the new seam runs closer to the edge than the one before"),
            (rect(0, 0, 20, 7, a, back=True),),
            (("sewn", ((0, 5.0), (20, 5.0))), seam(5.8)),
            labels=(
                ((17, 5.0), phrase("the seam you sewed")),
                ((19, 5.8), phrase("sew here")),
                ((10, 7), phrase("cut edge")),
            ),
        ),
    }


def _strips_ruled(a: str, b: str) -> dict[str, Scene]:
    """Strips under the ruler."""
    tool, marks = ruler(0, 2.6, 20, 2.2)
    upright, upright_marks = ruler(8, -1, 2.4, 11)
    strips = _lay_strips(a, b)
    return {
        "cut": Scene(
            phrase("A scrap with a ruler on it and the lines to cut for strips"),
            (rect(0, 0, 20, 8, a), tool),
            (*marks, ("cut", ((0, 2.4), (20, 2.4))), ("cut", ((0, 5.0), (20, 5.0)))),
            labels=(((19, 2.4), phrase("cut")), ((19, 4.0), phrase("ruler"))),
        ),
        "measure": Scene(
            phrase("A ruler across the three sewn strips"),
            (*strips, upright),
            (seam(3), seam(6), *upright_marks),
            labels=(((10, 1), phrase("ruler across")), ((19, 4.5), phrase("middle strip"))),
        ),
    }


def _lay_strips(a: str, b: str) -> tuple[Piece, ...]:
    return rect(0, 0, 20, 3, a), rect(0, 3, 20, 3, b), rect(0, 6, 20, 3, a)
