"""Scenes of what is done round the piecing: test of the seam, cutting, applique, finishing."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from service.craft.drawing.scenes import Line, Piece, Scene
from workers.sewing.names import label
from workers.sewing.steps.scenes.shapes import LEAF, frame, iron, rect, ring, ruler, shape
from workers.sewing.steps.step import Lesson, Step

LEAF_AT = (6.0, 2.0)
INNER = tuple((4 + (x - 4) * 0.9, 4 + (y - 4) * 0.9) for x, y in LEAF)
WIDER = tuple((4 + (x - 4) * 1.35, 4 + (y - 4) * 1.35) for x, y in LEAF)
HOOP = (
    (3.0, 0.5),
    (17.0, 0.5),
    (18.5, 2.0),
    (18.5, 10.0),
    (17.0, 11.5),
    (3.0, 11.5),
    (1.5, 10.0),
    (1.5, 2.0),
)


def _strips(a: str, b: str) -> tuple[Piece, ...]:
    return rect(0, 0, 20, 3, a), rect(0, 3, 20, 3, b), rect(0, 6, 20, 3, a)


def _seam(y: float, x0: float = 0.0, x1: float = 20.0) -> tuple[str, Line]:
    return "sew", ((x0, y), (x1, y))


def _seam_test(a: str, b: str) -> dict[str, Scene]:
    tool, marks = ruler(0, 2.6, 20, 2.2)
    upright, upright_marks = ruler(8, -1, 2.4, 11)
    strips = _strips(a, b)
    return {
        "cut": Scene(
            "A scrap with a ruler on it and the lines to cut for strips",
            (rect(0, 0, 20, 8, a), tool),
            (*marks, ("cut", ((0, 2.4), (20, 2.4))), ("cut", ((0, 5.0), (20, 5.0)))),
            labels=(((19, 2.4), "cut"), ((19, 4.0), "ruler")),
        ),
        "sew": Scene(
            "Three strips side by side, two seams dashed",
            strips,
            (_seam(3), _seam(6)),
            labels=(((19, 3), "sew"), ((19, 6), "sew")),
        ),
        "press": Scene(
            "Three strips with wedges that show both seams pressed to one side",
            strips,
            (_seam(3), _seam(6)),
            wedges=(((10, 3), (0, 1)), ((10, 6), (0, 1))),
            labels=(((10, 4.6), "both to one side"),),
        ),
        "measure": Scene(
            "A ruler across the three sewn strips",
            (*strips, upright),
            (_seam(3), _seam(6), *upright_marks),
            labels=(((10, 1), "ruler across"), ((19, 4.5), "middle strip")),
        ),
        "correct": Scene(
            "Two strips on each other: the new seam runs closer to the edge than the one before",
            (rect(0, 0, 20, 7, a, back=True),),
            (("sewn", ((0, 5.0), (20, 5.0))), _seam(5.8)),
            labels=(((17, 5.0), "the seam you sewed"), ((19, 5.8), "sew here"), ((10, 7), "cut edge")),
        ),
    }


def _cutting(a: str, b: str) -> dict[str, Scene]:
    tool, marks = ruler(3, -1, 3, 12)
    across, across_marks = ruler(0, 3.4, 20, 2.4)
    card = shape(LEAF, "", (0, 0))
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


def _applique(a: str, b: str) -> dict[str, Scene]:
    top, leaf = rect(0, 0, 20, 12, a), shape(LEAF, b, LEAF_AT)
    outline, inside = ring("sew", LEAF, LEAF_AT), ring("sewn", INNER, LEAF_AT)
    hoop = Piece(HOOP, "")
    cover = shape(WIDER, b, LEAF_AT)
    hooped = (rect(-1, -1, 22, 14, a), hoop, rect(2.5, 1.5, 15, 9, a))
    web = rect(0, 0, 14, 10)
    edge = (14.0, 6.0)
    return {
        "bring": Scene(
            "A sheet of paper with an outline of your own",
            (web,),
            ring("drawn", LEAF, (3, 1)),
            labels=(((11, 5), "your own pattern"),),
        ),
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
        "web": Scene(
            "Fusible web on the back of the cloth, an iron on it",
            (rect(0, 0, 18, 10, b, back=True), rect(2, 1.5, 12, 7), iron(6, 3, 6)),
            labels=(((10, 5), "iron"), ((14, 7), "web, paper side up"), ((17, 9), "back of the cloth")),
        ),
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
        "trace": Scene(
            "The outline drawn on the paper side of the web",
            (web,),
            ring("drawn", LEAF, (3, 1)),
            labels=(((11, 5), "draw, mirrored"), ((13.5, 9), "paper side of the web")),
        ),
        "cut": Scene(
            "The outline to cut through paper, web and cloth",
            (rect(0, 0, 14, 10, b, back=True), web),
            ring("cut", LEAF, (3, 1)),
            labels=(((11, 5), "cut"),),
        ),
        "applique.look": Scene(
            "The back of the top on a towel, an iron on it",
            (rect(-1, -1, 22, 14), rect(0, 0, 20, 12, a, back=True), iron(10, 5, 6)),
            labels=(((14, 7), "iron, from the back"), ((20.6, 12.6), "towel")),
        ),
    }


def _layers(a: str, b: str) -> dict[str, Scene]:
    stack = (rect(-2, -2, 24, 16, b, back=True), rect(-1, -1, 22, 14), rect(0, 0, 20, 12, a))
    names = (((21.5, 13.5), "backing"), ((20.7, 10), "batting"), ((19, 4), "top"))
    quilted: tuple[tuple[str, Line], ...] = tuple(
        ("sew", ((x, 0.0), (x, 12.0))) for x in (4.0, 8.0, 12.0, 16.0)
    )
    panels = (rect(0, 0, 10, 14, b), rect(10, 0, 10, 14, b))
    middle: tuple[tuple[str, Line], ...] = (("sew", ((10.0, 0.0), (10.0, 14.0))),)
    return {
        "press": Scene(
            "The whole top with an iron on it",
            (rect(0, 0, 20, 12, a), iron(9, 4, 7)),
            labels=(((14, 6), "iron"),),
        ),
        "threads": Scene(
            "The back of the top with loose threads to cut off",
            (rect(0, 0, 20, 12, a, back=True),),
            (("drawn", ((5, 4), (7, 6))), ("drawn", ((12, 3), (11, 5.5))), ("cut", ((4.4, 4.6), (5.6, 3.4)))),
            labels=(((11, 5), "a loose thread"), ((5, 4), "cut")),
        ),
        "backing": Scene(
            "Lengths to cut for the backing",
            (rect(0, 0, 20, 10, b),),
            (("cut", ((10, 0), (10, 10))), ("cut", ((0, 0.6), (20, 0.6)))),
            labels=(((10, 4), "cut"), ((19, 0.6), "woven edge off")),
        ),
        "backing-sew": Scene(
            "Two panels side by side, the seam between them dashed",
            panels,
            middle,
            labels=(((10, 7), "sew"),),
        ),
        "backing-press": Scene(
            "The seam of the backing pressed open, wedges to both sides",
            panels,
            middle,
            wedges=(((10, 7), (1, 0)), ((10, 7), (-1, 0))),
            labels=(((11, 7), "open"),),
        ),
        "layer": Scene(
            "Backing, batting and top on each other, each larger than the one above", stack, labels=names
        ),
        "baste": Scene(
            "The three layers with pins from the middle outwards",
            stack,
            pins=tuple((float(x), float(y)) for x in (4, 10, 16) for y in (3, 8)),
            labels=(((10, 8), "begin in the middle"),),
        ),
        "quilt": Scene(
            "Lines of stitches through all layers, dashed",
            stack,
            quilted,
            labels=(((16, 6), "sew through all layers"),),
        ),
        "square": Scene(
            "The lines to cut round the quilted layers",
            stack,
            frame("cut", -0.4, -0.4, 20.8, 12.8),
            labels=(((20.4, 4), "cut"),),
        ),
        "label": Scene(
            "A label on the lower right of the back",
            (rect(0, 0, 20, 12, b), rect(14, 8.6, 5, 2.4)),
            frame("sew", 14, 8.6, 5, 2.4),
            labels=(((18.6, 9.6), "label, sewn by hand"),),
        ),
    }


def _sleeve(a: str, b: str) -> dict[str, Scene]:
    strip, tube = rect(0, 0, 20, 5, b), rect(1, 1, 18, 3, b)
    back = rect(0, 0, 20, 12, a)
    return {
        "sleeve.join": Scene(
            "Two strips end to end, the seam dashed",
            (strip,),
            (("sew", ((10, 0), (10, 5))),),
            labels=(((10, 2), "sew"),),
        ),
        "sleeve.trim": Scene(
            "The long strip with the line to cut",
            (strip,),
            (("cut", ((17, 0), (17, 5))),),
            labels=(((17, 2), "cut"),),
        ),
        "sleeve.fold": Scene(
            "The ends of the strip folded in twice, dotted",
            (strip,),
            (
                ("fold", ((1, 0), (1, 5))),
                ("fold", ((2, 0), (2, 5))),
                ("fold", ((19, 0), (19, 5))),
                ("fold", ((18, 0), (18, 5))),
            ),
            labels=(((19, 2), "fold twice"),),
        ),
        "sleeve.hem": Scene(
            "A seam along the folded ends",
            (strip,),
            (("sew", ((1, 0), (1, 5))), ("sew", ((19, 0), (19, 5)))),
            labels=(((19, 2), "sew"),),
        ),
        "sleeve.tube": Scene(
            "The strip doubled, its long edges sewn to each other",
            (strip,),
            (_seam(4.4), ("fold", ((0, 0), (20, 0)))),
            labels=(((19, 4.4), "sew"), ((19, 0), "fold")),
        ),
        "sleeve.press": Scene(
            "The tube with its seam pressed open in the middle of one side",
            (strip,),
            (_seam(2.5),),
            wedges=(((10, 2.5), (0, 1)), ((10, 2.5), (0, -1))),
            labels=(((16, 2.5), "open"),),
        ),
        "sleeve.pin": Scene(
            "The tube pinned along the upper edge of the back",
            (back, tube),
            pins=((3, 1), (10, 1), (17, 1)),
            labels=(((18, 2.5), "tube, its seam inside"), ((19, 10), "back")),
        ),
        "sleeve.sew": Scene(
            "Both long edges of the tube to sew down",
            (back, tube),
            (_seam(1.2, 1, 19), _seam(3.8, 1, 19)),
            labels=(((18, 1.2), "sew by hand"), ((18, 3.8), "sew by hand")),
        ),
    }


def _binding(a: str, b: str) -> dict[str, Scene]:
    strip, edge = rect(0, 0, 20, 4, b), rect(0, 0, 20, 12, a)
    bound = rect(0, 0, 20, 2.6, b)
    cross = (rect(0, 0, 12, 4, b), rect(8, 0, 4, 12, b, back=True))
    square = (rect(0, 0, 12, 12, b),)
    lean = (Piece(((0, 0), (12, 0), (20, 8), (8, 8)), b),)
    stripes: tuple[tuple[str, Line], ...] = tuple(
        ("drawn", ((2.0 * i, 2.0 * i), (12.0 + 2 * i, 2.0 * i))) for i in (1, 2, 3)
    )
    return {
        "fold-corner": Scene(
            "A corner of the cloth folded over, its fold slanting",
            (rect(0, 0, 18, 12, b), Piece(((0, 0), (12, 0), (12, 12)), b, True)),
            (("fold", ((0, 0), (12, 12))),),
            labels=(((9, 9), "fold"), ((12, 3), "edges level")),
        ),
        "cut-fold": Scene(
            "The slanting line to cut",
            (rect(0, 0, 18, 12, b),),
            (("cut", ((0, 0), (12, 12))),),
            labels=(((9, 9), "cut"),),
        ),
        "cut": Scene(
            "Slanting strips to cut on both sides of the first cut",
            (rect(0, 0, 18, 12, b),),
            (("cut", ((0, 0), (12, 12))), ("cut", ((4, 0), (16, 12))), ("cut", ((0, 4), (8, 12)))),
            labels=(((14, 10), "cut"), ((11, 8), "a strip")),
        ),
        "cut round": Scene(
            "The tube with one line that winds round it, to cut",
            (rect(0, 0, 16, 10, b),),
            tuple(("cut", ((0.0, y), (16.0, y - 1.5))) for y in (3.0, 6.0, 9.0)),
            labels=(((15, 4.6), "cut round and round"),),
        ),
        "join": Scene(
            "Two strips across each other, right sides together, the slanting seam dashed",
            cross,
            (("sew", ((8, 0), (12, 4))),),
            labels=(((10, 2), "sew"), ((12, 9), "back of the second strip")),
        ),
        "join straight": Scene(
            "Two strips on each other with a straight seam at their ends",
            (rect(0, 0, 14, 4, b), rect(3, 0.4, 14, 4, b, back=True)),
            (("sew", ((13.2, 0.4), (13.2, 4))),),
            labels=(((13.2, 3), "sew"),),
        ),
        "join slanted": Scene(
            "Two slanting ends on each other, the seam along them dashed",
            (
                Piece(((0, 0), (16, 0), (12, 4), (0, 4)), b),
                Piece(((13, 0), (17, 0), (11, 12), (8, 10)), b, True),
            ),
            (("sew", ((15.2, 0.6), (11.4, 4))),),
            labels=(((13, 2.4), "sew"),),
        ),
        "press-joins": Scene(
            "A join pressed open, wedges to both sides",
            (strip,),
            (("sew", ((8, 0), (12, 4))),),
            wedges=(((10, 2), (0.7, -0.7)), ((10, 2), (-0.7, 0.7))),
            labels=(((11, 2), "open"),),
        ),
        "pins": Scene(
            "A square with pins in its upper and lower edge",
            square,
            pins=((6, 0.6), (6, 11.6)),
            labels=(((6, 0.6), "a"), ((6, 11.6), "a")),
        ),
        "halves-cut": Scene(
            "A square with the diagonal line to cut",
            square,
            (("cut", ((0, 0), (12, 12))),),
            labels=(((9, 9), "cut"),),
        ),
        "halves": Scene(
            "The two halves sewn along the pinned edges",
            lean,
            (("sew", ((12, 0), (8, 8))),),
            labels=(((10, 4), "sew"),),
        ),
        "halves-press": Scene(
            "The leaning piece, its seam pressed open",
            lean,
            (("sew", ((12, 0), (8, 8))),),
            wedges=(((10, 4), (0.9, 0.4)), ((10, 4), (-0.9, -0.4))),
            labels=(((11, 4.4), "open"),),
        ),
        "lines": Scene(
            "Lines drawn across the leaning piece",
            lean,
            stripes,
            labels=(((15, 4), "draw, one strip apart"),),
        ),
        "lines-trim": Scene(
            "The narrow rest to cut off at the end",
            lean,
            (*stripes, ("cut", ((7, 7), (19, 7)))),
            labels=(((18, 7), "cut"),),
        ),
        "tube-pin": Scene(
            "The two edges pinned, moved on by one line",
            lean,
            stripes,
            pins=((4, 4), (16, 4)),
            arrows=(((16, 4), (4, 2)),),
            labels=(((16, 4), "b meets b, one line on"),),
        ),
        "tube": Scene(
            "The pinned edges sewn to a tube",
            (rect(0, 0, 16, 10, b),),
            (("sew", ((8, 0), (8, 10))),),
            labels=(((8, 4), "sew"),),
        ),
        "tube-press": Scene(
            "The seam of the tube pressed open",
            (rect(0, 0, 16, 10, b),),
            (("sew", ((8, 0), (8, 10))),),
            wedges=(((8, 5), (1, 0)), ((8, 5), (-1, 0))),
            labels=(((9, 5), "open"),),
        ),
        "fold": Scene(
            "The strip with its fold, dotted, along the whole length",
            (rect(0, 0, 20, 2.4, b), rect(0, 2.4, 20, 2.4, b, back=True)),
            (("fold", ((0, 2.4), (20, 2.4))),),
            labels=(((19, 2.4), "fold"),),
        ),
        "sew": Scene(
            "The binding on the edge of the front, raw edges level, the seam dashed",
            (edge, bound),
            (_seam(1.2, 5, 20),),
            labels=(((19, 0), "raw edges level"), ((19, 1.2), "sew"), ((1, 2), "free end")),
        ),
        "corner": Scene(
            "The seam stops before the corner",
            (edge, bound),
            (_seam(1.2, 0, 18.6),),
            rings=((18.6, 1.2),),
            labels=(((18.6, 1.2), "stop here"),),
        ),
        "corner-up": Scene(
            "The binding folded straight up at the corner",
            (edge, rect(0, 0, 17, 2.6, b), Piece(((20, 0), (17.4, 2.6), (17.4, -6), (20, -6)), b)),
            (("fold", ((17.4, 2.6), (20, 0))),),
            labels=(((20, -4), "up"), ((18.7, 1.3), "slanting fold")),
        ),
        "corner-down": Scene(
            "The binding folded down along the next side",
            (edge, rect(0, 0, 17.4, 2.6, b), rect(17.4, 0, 2.6, 12, b)),
            (("fold", ((17.4, 0), (20, 0))),),
            arrows=(((18.7, 2), (18.7, 10)),),
            labels=(((19.6, 0), "fold level with the edge"), ((20, 8), "down")),
        ),
        "corner-on": Scene(
            "The seam goes on along the next side, from the edge",
            (edge, rect(0, 0, 17.4, 2.6, b), rect(17.4, 0, 2.6, 12, b)),
            (("sew", ((18.7, 0), (18.7, 12))), _seam(1.2, 0, 18.6)),
            labels=(((18.7, 5), "sew on"),),
        ),
        "stop": Scene(
            "The seam stops a hand's length before its beginning",
            (edge, bound),
            (_seam(1.2, 0, 5), _seam(1.2, 15, 20)),
            rings=((15, 1.2),),
            labels=(((5, 1.2), "the beginning"), ((15, 1.2), "stop")),
        ),
        "fold-ends": Scene(
            "Both free ends folded back, the folds meeting",
            (edge, bound, rect(6, 0, 4, 2.6, b, back=True), rect(10, 0, 4, 2.6, b, back=True)),
            (("fold", ((10, 0), (10, 2.6))),),
            labels=(((10, 1.5), "the folds meet"),),
        ),
        "close": Scene(
            "The two ends of the binding sewn along the folds",
            (edge, bound),
            (("sew", ((10, 0), (10, 2.6))),),
            labels=(((10, 2), "sew"),),
        ),
        "trim-ends": Scene(
            "What is over at the join cut off",
            (edge, bound, rect(8, -2, 4, 2, b, back=True)),
            (("sew", ((8, 0), (12, 0))), ("cut", ((8, -0.8), (12, -0.8)))),
            labels=(((12, -0.8), "cut"),),
        ),
        "close-rest": Scene(
            "The gap in the seam sewn shut",
            (edge, bound),
            (_seam(1.2, 5, 15), ("sewn", ((0, 1.2), (5, 1.2))), ("sewn", ((15, 1.2), (20, 1.2)))),
            labels=(((14, 1.2), "sew"),),
        ),
        "turn-over": Scene(
            "The binding turned over the edge to the back",
            (rect(0, 1.2, 20, 11, a, back=True), rect(0, 0, 20, 2.6, b)),
            arrows=(((10, 0), (10, 4)),),
            labels=(((10, 3.6), "to the back"),),
        ),
        "turn": Scene(
            "The folded edge on the back, sewn down",
            (rect(0, 0, 20, 12, a, back=True), bound),
            (_seam(2.4),),
            labels=(((19, 2.4), "sew down"), ((19, 8), "back")),
        ),
    }


def find_table_scene(step: Step, lesson: Lesson) -> Scene:
    """The scene of a step that belongs to no stage; by its tools where it is called as no other."""
    try:
        return _find_by_name(step.id, lesson)
    except KeyError:
        return _find_by_tools(step, lesson)


def _find_by_tools(step: Step, lesson: Lesson) -> Scene:
    """Sewn, pressed, cut or drawn, on the top or on the piece that the step is about."""
    a, b = _cloths(lesson)
    fabrics = {piece.name: piece.fabric for piece in lesson.project.pieces}
    scenes = _applique(a, next((fabrics[name] for name in step.pieces), b))
    ways = {
        "sewing machine": "finish",
        "hand needle": "finish",
        "iron": "fuse",
        "rotary cutter": "cut",
        "scissors": "cut",
    }
    return scenes[next((ways[tool] for tool in step.tools if tool in ways), "draw")]


def _find_by_name(step_id: str, lesson: Lesson) -> Scene:
    a, b = _cloths(lesson)
    chapter, _, rest = step_id.partition(".")
    last = step_id.rpartition(".")[2]
    if step_id.startswith("piecing.seam-test"):
        return _seam_test(a, b)["measure" if last == "seam-test" else last]
    if chapter == "cutting":
        name = rest.partition(".")[0]
        return _cutting(_named(lesson, rest) or a, b)[f"cutting.{name}"]
    if chapter == "applique":
        return _applique_scene(step_id, last, lesson, a)
    kinds: Mapping[str, Callable[[str, str], dict[str, Scene]]] = {"sleeve": _sleeve, "binding": _binding}
    group = rest.partition(".")[0]
    if group in kinds and "." in rest:
        return kinds[group](a, _finish_cloth(lesson, group) or b)[_variant(last, group, lesson)]
    return _layers(a, _finish_cloth(lesson, "backing") or b)[rest]


def _variant(last: str, group: str, lesson: Lesson) -> str:
    binding = lesson.project.finish.binding
    if group == "sleeve":
        return f"sleeve.{last}"
    if binding is None:
        return last
    if last == "join" and binding.join == "straight":
        return "join straight"
    if last == "join" and binding.cut != "straight":
        return "join slanted"
    return "cut round" if last == "cut" and binding.cut == "continuous" else last


def _applique_scene(step_id: str, last: str, lesson: Lesson, a: str) -> Scene:
    pieces = {piece.name: piece.fabric for piece in lesson.project.pieces}
    named = step_id.split(".")
    own = next((fabric for name, fabric in pieces.items() if len(named) > 2 and label(name) == named[2]), "")
    own = own or next(
        (fabric for fabric in pieces.values() if len(named) > 2 and label(fabric) == named[2]), a
    )
    scenes = _applique(a, own)
    if named[1] in ("mark", "hoop", "look"):
        return scenes[f"applique.{named[1]}"]
    hoop, trims = lesson.track.hoop is not None, lesson.project.fabrics[own].trim_in_place
    whole = trims or (hoop and lesson.track.cutter is None)
    if last == "lay" and named[1] == "piece":
        return scenes["lay over" if whole else "lay in hoop" if hoop else "lay"]
    if last == "tack-down" and not hoop:
        return scenes["tack back"]
    if last == "cut" and lesson.track.cutter is not None:
        return scenes["cut on mat"]
    return scenes[last]


def _cloths(lesson: Lesson) -> tuple[str, str]:
    used = list(dict.fromkeys(patch.fabric for patch in lesson.project.top.patches()))
    return used[0], used[min(1, len(used) - 1)]


def _named(lesson: Lesson, rest: str) -> str:
    return next((key for key in lesson.project.fabrics if rest == f"cloth.{label(key)}"), "")


def _finish_cloth(lesson: Lesson, part: str) -> str:
    made = getattr(lesson.project.finish, part, None)
    return made.fabric if made is not None else ""
