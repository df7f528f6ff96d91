"""Straight-seam blocks, each described here from its geometry, as a document writes a unit of the kind polygons.

Names are old names of the trade where one is sure, else what a block looks like. A block is drawn on a grid of
its own and scaled to its size; patches are corners in grid steps and a cloth.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

from hypothesis import strategies as st

from tests.block_shapes import (
    BASE,
    DARK,
    MAIN,
    Block,
    Shape,
    box,
    corners_cut,
    four_turns,
    goose,
    half,
    quarters,
    turned,
)
from tests.more_blocks import MORE

CLOTHS = {
    "frost": {"name": "frost white", "colour": "#eef1ee", "usable_width": "42"},
    "leaf": {"name": "leek green", "colour": "#5f8f4e", "usable_width": "42"},
    "soil": {"name": "soil brown dot", "colour": "#5b4636", "usable_width": "42"},
}


def four_patch() -> Block:
    return 2, [*box(0, 0, 1, 1, MAIN), *box(1, 0, 1, 1, BASE), *box(0, 1, 1, 1, BASE), *box(1, 1, 1, 1, MAIN)]


def nine_patch() -> Block:
    return 3, [s for y in range(3) for x in range(3) for s in box(x, y, 1, 1, (MAIN, BASE)[(x + y) % 2])]


def rail_fence() -> Block:
    return 3, [s for i, cloth in enumerate((BASE, MAIN, DARK)) for s in box(0, i, 3, 1, cloth)]


def pinwheel() -> Block:
    return 2, four_turns(half(0, 0, 1, "ne", MAIN, BASE), 2)


def broken_dishes() -> Block:
    return 2, [
        *half(0, 0, 1, "nw", MAIN, BASE),
        *half(1, 0, 1, "ne", BASE, MAIN),
        *half(0, 1, 1, "sw", BASE, MAIN),
        *half(1, 1, 1, "se", MAIN, BASE),
    ]


def hourglass() -> Block:
    return 2, quarters(0, 0, 2, MAIN, BASE, MAIN, BASE)


def shoofly() -> Block:
    corner = [*half(0, 0, 1, "nw", BASE, MAIN), *box(1, 0, 1, 1, BASE)]
    return 3, [*four_turns(corner, 3), *box(1, 1, 1, 1, MAIN)]


def friendship_star() -> Block:
    side = [*box(0, 0, 1, 1, BASE), *half(1, 0, 1, "nw", BASE, MAIN)]
    return 3, [*four_turns(side, 3), *box(1, 1, 1, 1, MAIN)]


def ohio_star() -> Block:
    side = [*box(0, 0, 1, 1, BASE), *quarters(1, 0, 1, BASE, MAIN, DARK, MAIN)]
    return 3, [*four_turns(side, 3), *box(1, 1, 1, 1, MAIN)]


def sawtooth_star() -> Block:
    side = [*box(0, 0, 1, 1, BASE), *goose(1, 0, 1, "s", BASE, MAIN)]
    return 4, [*four_turns(side, 4), *box(1, 1, 2, 2, DARK)]


def churn_dash() -> Block:
    side = [*half(0, 0, 2, "nw", BASE, MAIN), *box(2, 0, 1, 1, BASE), *box(2, 1, 1, 1, MAIN)]
    return 5, [*four_turns(side, 5), *box(2, 2, 1, 1, BASE)]


def snowball() -> Block:
    return 3, corners_cut(3, 1, MAIN, BASE)


def square_in_a_square() -> Block:
    return 2, corners_cut(2, 1, MAIN, BASE)


def economy_patch() -> Block:
    """A square in a square in a square."""
    outer = corners_cut(4, 2, MAIN, MAIN)[1:]
    return 4, [*box(1, 1, 2, 2, DARK), *four_turns([([(1, 1), (2, 0), (3, 1)], BASE)], 4), *outer]


def dutchmans_puzzle() -> Block:
    quarter = [*goose(0, 0, 1, "e", MAIN, BASE), *goose(1, 0, 1, "e", MAIN, BASE)]
    return 4, four_turns(quarter, 4)


def flock() -> Block:
    """Two large triangles and eight small ones."""
    small = [s for x, y in ((2, 0), (3, 0), (2, 1), (3, 1)) for s in half(x, y, 1, "nw", MAIN, BASE)]
    back = [([(y, x) for x, y in points], cloth) for points, cloth in small]
    return 4, [*half(0, 0, 2, "nw", MAIN, BASE), *small, *back, *half(2, 2, 2, "nw", MAIN, BASE)]


def birds_in_the_air() -> Block:
    cells = [(x, y) for y in range(3) for x in range(3 - y)]
    small = [s for x, y in cells for s in half(x, y, 1, "nw", MAIN, BASE) if x + y < 2 or s[1] == MAIN]
    return 3, [*small, ([(3, 0), (3, 3), (0, 3)], DARK)]


def log_cabin() -> Block:
    """Logs round a middle, clockwise, three rounds."""
    shapes, left, top, right, bottom = box(3, 3, 1, 1, DARK), 3, 3, 4, 4
    for _ in range(3):
        shapes += box(left, top - 1, right - left, 1, BASE)
        top -= 1
        shapes += box(right, top, 1, bottom - top, BASE)
        right += 1
        shapes += box(left, bottom, right - left, 1, MAIN)
        bottom += 1
        shapes += box(left - 1, top, 1, bottom - top, MAIN)
        left -= 1
    return 7, shapes


def courthouse_steps() -> Block:
    shapes = box(3, 3, 1, 1, DARK)
    for i in range(3):
        a, b = 2 - i, 4 + i
        shapes += [*box(a, a + 1, 1, b - a - 1, MAIN), *box(b, a + 1, 1, b - a - 1, MAIN)]
        shapes += [*box(a, a, b - a + 1, 1, BASE), *box(a, b, b - a + 1, 1, BASE)]
    return 7, shapes


def bear_paw() -> Block:
    """Four paws of a square and claws, a cross of strips between them."""
    claws = [*box(0, 0, 1, 1, BASE), *half(1, 0, 1, "nw", BASE, MAIN), *half(2, 0, 1, "nw", BASE, MAIN)]
    claws += [*half(0, 1, 1, "nw", BASE, MAIN), *half(0, 2, 1, "nw", BASE, MAIN), *box(1, 1, 2, 2, MAIN)]
    return 7, [*four_turns([*claws, *box(3, 0, 1, 3, BASE)], 7), *box(3, 3, 1, 1, DARK)]


def jacobs_ladder() -> Block:
    def fours(x: int, y: int) -> list[Shape]:
        return [s for i in range(4) for s in box(x + i % 2, y + i // 2, 1, 1, (DARK, BASE)[(i + i // 2) % 2])]

    cells = [(0, 0), (4, 0), (2, 2), (0, 4), (4, 4)]
    halves = [s for x, y in ((2, 0), (0, 2), (4, 2), (2, 4)) for s in half(x, y, 2, "nw", MAIN, BASE)]
    return 6, [*(s for x, y in cells for s in fours(x, y)), *halves]


def greek_cross() -> Block:
    side = [*half(0, 0, 1, "nw", BASE, MAIN), *box(1, 0, 1, Fraction(1, 2), BASE)]
    side += box(1, Fraction(1, 2), 1, Fraction(1, 2), MAIN)
    return 3, [*four_turns(side, 3), *box(1, 1, 1, 1, DARK)]


def old_maids_puzzle() -> Block:
    quarter = [*half(0, 0, 1, "nw", MAIN, BASE), *box(1, 0, 1, 1, BASE), *box(0, 1, 1, 1, BASE)]
    quarter += half(1, 1, 1, "nw", MAIN, BASE)
    large = half(2, 0, 2, "nw", BASE, DARK)
    both = [*quarter, *large]
    return 4, [*both, *turned(turned(both, 4), 4)]


def diamond_in_a_rectangle() -> Block:
    """Two by one: a diamond with its points at the middles of the sides; long triangles at the corners."""
    middle = [(2, 0), (4, 1), (2, 2), (0, 1)]
    tips = [([(0, 1), (0, 0), (2, 0)], BASE), ([(2, 0), (4, 0), (4, 1)], BASE)]
    return 4, [(middle, MAIN), *tips, ([(4, 1), (4, 2), (2, 2)], BASE), ([(2, 2), (0, 2), (0, 1)], BASE)]


def kites() -> Block:
    """Four kites that meet in the middle, and what is left of the sides: eight long triangles."""
    kite = ([(0, 0), (4, 2), (4, 4), (2, 4)], MAIN)
    sides = [([(0, 0), (4, 0), (4, 2)], BASE), ([(0, 0), (2, 4), (0, 4)], BASE)]
    return 8, four_turns([kite, *sides], 8)


def wedges() -> Block:
    """Eight wedges round the middle with cut corners, an octagon nearly regular: 29 of 99 stand for 1 - 1/√2."""
    ring = [(29, 0), (70, 0), (99, 29), (99, 70), (70, 99), (29, 99), (0, 70), (0, 29)]
    middle = (Fraction(99, 2), Fraction(99, 2))
    shapes: list[Shape] = [([ring[i], ring[(i + 1) % 8], middle], (MAIN, DARK)[i % 2]) for i in range(8)]
    return 99, shapes + [s for s in corners_cut(99, 29, MAIN, BASE) if len(s[0]) == 3]


def slanting_stripes() -> Block:
    """A square in three slanting parallel stripes: two parallelograms' worth of template and two triangles."""
    return 3, [
        ([(0, 0), (1, 0), (0, 3)], BASE),
        ([(1, 0), (2, 0), (1, 3), (0, 3)], MAIN),
        ([(2, 0), (3, 0), (2, 3), (1, 3)], DARK),
        ([(3, 0), (3, 3), (2, 3)], BASE),
    ]


def arrow() -> Block:
    """Two parallelograms that meet in a point, a mirror image of each other."""
    return 4, [
        ([(0, 0), (2, 2), (2, 4), (0, 2)], MAIN),
        ([(4, 0), (4, 2), (2, 4), (2, 2)], DARK),
        ([(0, 0), (4, 0), (2, 2)], BASE),
        ([(0, 2), (2, 4), (0, 4)], BASE),
        ([(4, 2), (4, 4), (2, 4)], BASE),
    ]


def storm_at_sea_corner() -> Block:
    """A small square on its corner, two diamonds in rectangles, a large square on its corner."""
    small = corners_cut(2, 1, DARK, BASE)
    flat = [
        ([(2, 1), (4, 0), (6, 1), (4, 2)], MAIN),
        ([(2, 0), (4, 0), (2, 1)], BASE),
        ([(4, 0), (6, 0), (6, 1)], BASE),
        ([(6, 1), (6, 2), (4, 2)], BASE),
        ([(4, 2), (2, 2), (2, 1)], BASE),
    ]
    upright = [([(y, x) for x, y in points], cloth) for points, cloth in flat]
    large = [([(x + 2, y + 2) for x, y in points], cloth) for points, cloth in corners_cut(4, 2, DARK, BASE)]
    return 6, [*small, *flat, *upright, *large]


def road_of_squares() -> Block:
    """Squares down the diagonal between half-square triangles."""
    shapes: list[Shape] = []
    for y in range(4):
        for x in range(4):
            shapes += box(x, y, 1, 1, DARK) if x == y else half(x, y, 1, "ne" if x > y else "sw", MAIN, BASE)
    return 4, shapes


def attic_window() -> Block:
    """A pane with a sill and a side that meet in a mitre."""
    return 3, [
        *box(1, 0, 2, 2, BASE),
        ([(0, 0), (1, 0), (1, 2), (0, 3)], MAIN),
        ([(1, 2), (3, 2), (3, 3), (0, 3)], DARK),
    ]


def spool() -> Block:
    """A middle and four sides that meet in mitres."""
    side: Shape = ([(0, 0), (3, 0), (2, 1), (1, 1)], MAIN)
    return 3, [*four_turns([side], 3), *box(1, 1, 1, 1, DARK)]


def ring_of_strips() -> Block:
    """Four strips round a square, each overlapping the next."""
    return 3, [*four_turns(box(0, 0, 2, 1, MAIN), 3), *box(1, 1, 1, 1, DARK)]


def ring_in_a_row() -> Block:
    """The ring with strips beside it: two straight seams, and the rest goes round."""
    return 4, [*ring_of_strips()[1], *box(3, 0, 1, 3, BASE), *box(0, 3, 4, 1, BASE)]


STRAIGHT: dict[str, Callable[[], Block]] = {
    make.__name__.replace("_", " "): make
    for make in (
        *(four_patch, nine_patch, rail_fence, pinwheel, broken_dishes, hourglass, shoofly, friendship_star),
        *(
            ohio_star,
            sawtooth_star,
            churn_dash,
            snowball,
            square_in_a_square,
            economy_patch,
            dutchmans_puzzle,
        ),
        *(flock, birds_in_the_air, log_cabin, courthouse_steps, bear_paw, jacobs_ladder, greek_cross),
        *(old_maids_puzzle, diamond_in_a_rectangle, kites, wedges, slanting_stripes),
        *(storm_at_sea_corner, road_of_squares, *MORE),
    )
}
RINGS: dict[str, Callable[[], Block]] = {
    make.__name__.replace("_", " "): make for make in (ring_of_strips, ring_in_a_row)
}
SET_IN: dict[str, Callable[[], Block]] = {
    make.__name__.replace("_", " "): make for make in (arrow, attic_window, spool)
}
BLOCKS = STRAIGHT | RINGS | SET_IN


def text(value: Any) -> str:
    return str(Fraction(value))


def unit(shapes: list[Shape], width: Any, height: Any, scale: Any = 1) -> dict[str, Any]:
    """The unit a document would hold, corners scaled to inches."""
    patches = [
        {
            "points": [[text(x * Fraction(scale)), text(y * Fraction(scale))] for x, y in points],
            "fabric": cloth,
        }
        for points, cloth in shapes
    ]
    return {"unit": "polygons", "size": [text(width), text(height)], "patches": patches}


def block(name: str, side: Any = None) -> dict[str, Any]:
    """A block by its name, with a finished width of `side` inches (a grid step an inch where none is given)."""
    steps, shapes = BLOCKS[name]()
    scale = Fraction(1) if side is None else Fraction(side) / steps
    high = max(y for points, _ in shapes for _, y in points)
    return unit(shapes, steps * scale, high * scale, scale)


def document(top: Any, **more: Any) -> dict[str, Any]:
    """A document with that top."""
    return {"title": "Bean row", "fabrics": CLOTHS, "top": top, **more}


@st.composite
def cut_ups(draw: st.DrawFn) -> tuple[list[Shape], Fraction, Fraction, Fraction]:
    """What `unit` takes for a block cut from edge to edge of a part, again and again, in eighths of an inch."""
    width, height = draw(st.integers(1, 4)) * 8, draw(st.integers(1, 4)) * 8
    parts: list[list[tuple[Any, Any]]] = [[(0, 0), (width, 0), (width, height), (0, height)]]
    for _ in range(draw(st.integers(0, 8))):
        i = draw(st.integers(0, len(parts) - 1))
        ring = parts[i]
        n = len(ring)
        a = draw(st.integers(0, n - 1))
        if n == 3:
            middle = tuple(Fraction(p + q) / 2 for p, q in zip(ring[a], ring[(a + 1) % n], strict=True))
            rest = ring[(a + 1) % n :] + ring[: (a + 1) % n]
            parts[i : i + 1] = [[middle, rest[0], rest[1]], [middle, rest[1], rest[2]]]
        else:
            low, high = sorted((a, (a + draw(st.integers(2, n - 2))) % n))
            parts[i : i + 1] = [ring[low : high + 1], ring[high:] + ring[: low + 1]]
    cloths = st.sampled_from([BASE, MAIN, DARK])
    return [(ring, draw(cloths)) for ring in parts], Fraction(width, 8), Fraction(height, 8), Fraction(1, 8)
