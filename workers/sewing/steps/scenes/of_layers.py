"""Scenes of finishing: the top made ready, its backing, the three layers, the label."""

from __future__ import annotations

from service.craft.drawing.scenes import Line, Scene
from service.craft.language import phrase
from workers.sewing.steps.scenes.shapes import frame, iron, rect


def show_layers(a: str, b: str) -> dict[str, Scene]:
    """What is done with the layers."""
    return _top_ready(a, b) | _backed(b) | _layered(a, b)


def _top_ready(a: str, b: str) -> dict[str, Scene]:
    """The top, and the back at the very end."""
    return {
        "press": Scene(
            phrase("The whole top with an iron on it"),
            (rect(0, 0, 20, 12, a), iron(9, 4, 7)),
            labels=(((14, 6), phrase("iron")),),
        ),
        "threads": Scene(
            phrase("The back of the top with loose threads to cut off"),
            (rect(0, 0, 20, 12, a, back=True),),
            (("drawn", ((5, 4), (7, 6))), ("drawn", ((12, 3), (11, 5.5))), ("cut", ((4.4, 4.6), (5.6, 3.4)))),
            labels=(((11, 5), phrase("a loose thread")), ((5, 4), phrase("cut"))),
        ),
        "label": Scene(
            phrase("A label on the lower right of the back"),
            (rect(0, 0, 20, 12, b), rect(14, 8.6, 5, 2.4)),
            frame("sew", 14, 8.6, 5, 2.4),
            labels=(((18.6, 9.6), phrase("label, sewn by hand")),),
        ),
    }


def _backed(b: str) -> dict[str, Scene]:
    """The backing, and its panels."""
    panels = (rect(0, 0, 10, 14, b), rect(10, 0, 10, 14, b))
    middle: tuple[tuple[str, Line], ...] = (("sew", ((10.0, 0.0), (10.0, 14.0))),)
    return {
        "backing": Scene(
            phrase("Lengths to cut for the backing"),
            (rect(0, 0, 20, 10, b),),
            (("cut", ((10, 0), (10, 10))), ("cut", ((0, 0.6), (20, 0.6)))),
            labels=(((10, 4), phrase("cut")), ((19, 0.6), phrase("woven edge off"))),
        ),
        "backing-sew": Scene(
            phrase("Two panels side by side, the seam between them dashed"),
            panels,
            middle,
            labels=(((10, 7), phrase("sew")),),
        ),
        "backing-press": Scene(
            phrase("The seam of the backing pressed open, wedges to both sides"),
            panels,
            middle,
            wedges=(((10, 7), (1, 0)), ((10, 7), (-1, 0))),
            labels=(((11, 7), phrase("open")),),
        ),
    }


def _layered(a: str, b: str) -> dict[str, Scene]:
    """Three layers on each other."""
    stack = (rect(-2, -2, 24, 16, b, back=True), rect(-1, -1, 22, 14), rect(0, 0, 20, 12, a))
    names = (((21.5, 13.5), phrase("backing")), ((20.7, 10), phrase("batting")), ((19, 4), phrase("top")))
    quilted: tuple[tuple[str, Line], ...] = tuple(
        ("sew", ((x, 0.0), (x, 12.0))) for x in (4.0, 8.0, 12.0, 16.0)
    )
    return {
        "layer": Scene(
            phrase("Backing, batting and top on each other, each larger than the one above"),
            stack,
            labels=names,
        ),
        "baste": Scene(
            phrase("The three layers with pins from the middle outwards"),
            stack,
            pins=tuple((float(x), float(y)) for x in (4, 10, 16) for y in (3, 8)),
            labels=(((10, 8), phrase("begin in the middle")),),
        ),
        "quilt": Scene(
            phrase("Lines of stitches through all layers, dashed"),
            stack,
            quilted,
            labels=(((16, 6), phrase("sew through all layers")),),
        ),
        "square": Scene(
            phrase("The lines to cut round the quilted layers"),
            stack,
            frame("cut", -0.4, -0.4, 20.8, 12.8),
            labels=(((20.4, 4), phrase("cut")),),
        ),
    }
