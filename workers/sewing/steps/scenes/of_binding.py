"""Scenes of the binding strip before it is sewn on: cut, joined, folded."""

from __future__ import annotations

from service.craft.drawing.scenes import Line, Piece, Scene
from service.craft.language import phrase
from workers.sewing.steps.scenes.shapes import rect


def show_binding_strip(b: str) -> dict[str, Scene]:
    """What is done with the strip."""
    return _slanting_cuts(b) | _joins(b) | _square_halves(b) | _lined_tube(b)


def _slanting_cuts(b: str) -> dict[str, Scene]:
    """Strips cut on the slant."""
    return {
        "fold-corner": Scene(
            phrase("A corner of the cloth folded over, its fold slanting"),
            (rect(0, 0, 18, 12, b), Piece(((0, 0), (12, 0), (12, 12)), b, True)),
            (("fold", ((0, 0), (12, 12))),),
            labels=(((9, 9), phrase("fold")), ((12, 3), phrase("edges level"))),
        ),
        "cut-fold": Scene(
            phrase("The slanting line to cut"),
            (rect(0, 0, 18, 12, b),),
            (("cut", ((0, 0), (12, 12))),),
            labels=(((9, 9), phrase("cut")),),
        ),
        "cut": Scene(
            phrase("Slanting strips to cut on both sides of the first cut"),
            (rect(0, 0, 18, 12, b),),
            (("cut", ((0, 0), (12, 12))), ("cut", ((4, 0), (16, 12))), ("cut", ((0, 4), (8, 12)))),
            labels=(((14, 10), phrase("cut")), ((11, 8), phrase("a strip"))),
        ),
        "cut round": Scene(
            phrase("The tube with one line that winds round it, to cut"),
            (rect(0, 0, 16, 10, b),),
            tuple(("cut", ((0.0, y), (16.0, y - 1.5))) for y in (3.0, 6.0, 9.0)),
            labels=(((15, 4.6), phrase("cut round and round")),),
        ),
    }


def _joins(b: str) -> dict[str, Scene]:
    """Strips joined and folded."""
    strip = rect(0, 0, 20, 4, b)
    cross = (rect(0, 0, 12, 4, b), rect(8, 0, 4, 12, b, back=True))
    return {
        "join": Scene(
            phrase("Two strips across each other, right sides together, the slanting seam dashed"),
            cross,
            (("sew", ((8, 0), (12, 4))),),
            labels=(((10, 2), phrase("sew")), ((12, 9), phrase("back of the second strip"))),
        ),
        "trim-joins": Scene(
            phrase("The join from the back, the corner outside its seam to cut off"),
            cross,
            (("sewn", ((8, 0), (12, 4))), ("cut", ((9, 0), (12, 3)))),
            labels=(
                ((11.4, 0.8), phrase("falls off")),
                ((10.5, 1.5), phrase("cut")),
                ((9, 1), phrase("the seam")),
            ),
        ),
        "join straight": Scene(
            phrase("Two strips on each other with a straight seam at their ends"),
            (rect(0, 0, 14, 4, b), rect(3, 0.4, 14, 4, b, back=True)),
            (("sew", ((13.2, 0.4), (13.2, 4))),),
            labels=(((13.2, 3), phrase("sew")),),
        ),
        "join slanted": Scene(
            phrase("Two slanting ends on each other, the seam along them dashed"),
            (
                Piece(((0, 0), (16, 0), (12, 4), (0, 4)), b),
                Piece(((13, 0), (17, 0), (11, 12), (8, 10)), b, True),
            ),
            (("sew", ((15.2, 0.6), (11.4, 4))),),
            labels=(((13, 2.4), phrase("sew")),),
        ),
        "press-joins": Scene(
            phrase("A join pressed open, wedges to both sides"),
            (strip,),
            (("sew", ((8, 0), (12, 4))),),
            wedges=(((10, 2), (0.7, -0.7)), ((10, 2), (-0.7, 0.7))),
            labels=(((11, 2), phrase("open")),),
        ),
        "fold": Scene(
            phrase("The strip with its fold, dotted, along the whole length"),
            (rect(0, 0, 20, 2.4, b), rect(0, 2.4, 20, 2.4, b, back=True)),
            (("fold", ((0, 2.4), (20, 2.4))),),
            labels=(((19, 2.4), phrase("fold")),),
        ),
    }


def _square_halves(b: str) -> dict[str, Scene]:
    """A square that becomes one long strip: its halves."""
    square = (rect(0, 0, 12, 12, b),)
    lean = (Piece(((0, 0), (12, 0), (20, 8), (8, 8)), b),)
    return {
        "pins": Scene(
            phrase("A square with pins in its upper and lower edge"),
            square,
            pins=((6, 0.6), (6, 11.6)),
            labels=(((6, 0.6), "a"), ((6, 11.6), "a")),
        ),
        "halves-cut": Scene(
            phrase("A square with the diagonal line to cut"),
            square,
            (("cut", ((0, 0), (12, 12))),),
            labels=(((9, 9), phrase("cut")),),
        ),
        "halves": Scene(
            phrase("The two halves sewn along the pinned edges"),
            lean,
            (("sew", ((12, 0), (8, 8))),),
            labels=(((10, 4), phrase("sew")),),
        ),
        "halves-press": Scene(
            phrase("The leaning piece, its seam pressed open"),
            lean,
            (("sew", ((12, 0), (8, 8))),),
            wedges=(((10, 4), (0.9, 0.4)), ((10, 4), (-0.9, -0.4))),
            labels=(((11, 4.4), phrase("open")),),
        ),
    }


def _lined_tube(b: str) -> dict[str, Scene]:
    """The lines across it, and the tube."""
    lean = (Piece(((0, 0), (12, 0), (20, 8), (8, 8)), b),)
    stripes: tuple[tuple[str, Line], ...] = tuple(
        ("drawn", ((2.0 * i, 2.0 * i), (12.0 + 2 * i, 2.0 * i))) for i in (1, 2, 3)
    )
    return {
        "lines": Scene(
            phrase("Lines drawn across the leaning piece"),
            lean,
            stripes,
            labels=(((15, 4), phrase("draw, one strip apart")),),
        ),
        "lines-trim": Scene(
            phrase("The narrow rest to cut off at the end"),
            lean,
            (*stripes, ("cut", ((7, 7), (19, 7)))),
            labels=(((18, 7), phrase("cut")),),
        ),
        "tube-pin": Scene(
            phrase("The two edges pinned, moved on by one line"),
            lean,
            stripes,
            pins=((4, 4), (16, 4)),
            arrows=(((16, 4), (4, 2)),),
            labels=(((16, 4), phrase("b meets b, one line on")),),
        ),
        "tube": Scene(
            phrase("The pinned edges sewn to a tube"),
            (rect(0, 0, 16, 10, b),),
            (("sew", ((8, 0), (8, 10))),),
            labels=(((8, 4), phrase("sew")),),
        ),
        "tube-press": Scene(
            phrase("The seam of the tube pressed open"),
            (rect(0, 0, 16, 10, b),),
            (("sew", ((8, 0), (8, 10))),),
            wedges=(((8, 5), (1, 0)), ((8, 5), (-1, 0))),
            labels=(((9, 5), phrase("open")),),
        ),
    }
