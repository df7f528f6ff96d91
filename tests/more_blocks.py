"""More straight-seam blocks, among them bases whose corners are cut off: trapezoids, slanting strips, octagons."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

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
)


def at(x: int, y: int, shapes: list[Shape]) -> list[Shape]:
    """The same moved."""
    return [([(a + x, b + y) for a, b in points], cloth) for points, cloth in shapes]


def checks(n: int, first: str, second: str) -> list[Shape]:
    """A checkerboard of n by n."""
    return [s for y in range(n) for x in range(n) for s in box(x, y, 1, 1, (first, second)[(x + y) % 2])]


def clipped(w: int, h: int, legs: dict[str, int], cloth: str, corner: str) -> list[Shape]:
    """A rectangle with some of its corners cut off, each by a leg of its own."""
    ends = {
        "nw": ((0, legs.get("nw", 0)), (0, 0), (legs.get("nw", 0), 0)),
        "ne": ((w - legs.get("ne", 0), 0), (w, 0), (w, legs.get("ne", 0))),
        "se": ((w, h - legs.get("se", 0)), (w, h), (w - legs.get("se", 0), h)),
        "sw": ((legs.get("sw", 0), h), (0, h), (0, h - legs.get("sw", 0))),
    }
    ring = [p for name, (a, tip, b) in ends.items() for p in ((a, b) if name in legs else (tip,))]
    return [(ring, cloth), *(([*ends[name]], corner) for name in legs)]


def sixteen_patch() -> Block:
    return 4, checks(4, MAIN, BASE)


def twenty_five_patch() -> Block:
    return 5, checks(5, DARK, BASE)


def double_four_patch() -> Block:
    small = checks(2, MAIN, BASE)
    return 4, [*small, *box(2, 0, 2, 2, DARK), *box(0, 2, 2, 2, DARK), *at(2, 2, small)]


def double_nine_patch() -> Block:
    small, plain = checks(3, MAIN, BASE), box(0, 0, 3, 3, BASE)
    return 9, [s for i in range(9) for s in at(i % 3 * 3, i // 3 * 3, plain if i % 2 else small)]


def brick_wall() -> Block:
    full = [s for y in (0, 2) for x in (0, 2) for s in box(x, y, 2, 1, (MAIN, DARK)[x // 2])]
    offset = [(0, 1, BASE), (1, 2, MAIN), (3, 1, BASE)]
    return 4, [*full, *(s for y in (1, 3) for x, w, cloth in offset for s in box(x, y, w, 1, cloth))]


def basket_weave() -> Block:
    cloths = (MAIN, BASE, DARK)
    level = [s for i, cloth in enumerate(cloths) for s in box(0, i, 3, 1, cloth)]
    upright = [s for i, cloth in enumerate(cloths) for s in box(i, 0, 1, 3, cloth)]
    return 6, [*level, *at(3, 0, upright), *at(0, 3, upright), *at(3, 3, level)]


def puss_in_the_corner() -> Block:
    return 4, [*four_turns([*box(0, 0, 1, 1, MAIN), *box(1, 0, 2, 1, BASE)], 4), *box(1, 1, 2, 2, MAIN)]


def garden_path() -> Block:
    """A cross of one long strip and two short ones."""
    arms = [*box(0, 2, 5, 1, MAIN), *box(2, 0, 1, 2, MAIN), *box(2, 3, 1, 2, MAIN)]
    return 5, [*four_turns(box(0, 0, 2, 2, BASE), 5), *arms]


def panes() -> Block:
    """Four panes between bars, a small square at each crossing."""
    bars = [s for x in (1, 4) for y in (0, 3, 6) for s in box(x, y, 2, 1, BASE)]
    posts = [([(y, x) for x, y in points], cloth) for points, cloth in bars]
    stones = [s for x in (0, 3, 6) for y in (0, 3, 6) for s in box(x, y, 1, 1, DARK)]
    return 7, [*bars, *posts, *stones, *(s for x in (1, 4) for y in (1, 4) for s in box(x, y, 2, 2, MAIN))]


def quarter_log_cabin() -> Block:
    """Logs on two sides of a square in the corner."""
    shapes = box(0, 0, 1, 1, DARK)
    for i in range(1, 4):
        cloth = (BASE, MAIN)[i % 2]
        shapes += [*box(i, 0, 1, i, cloth), *box(0, i, i + 1, 1, cloth)]
    return 4, shapes


def double_pinwheel() -> Block:
    """Each quarter a large triangle and two small ones."""
    quarter: list[Shape] = [([(0, 0), (2, 0), (0, 2)], MAIN), ([(2, 0), (2, 2), (1, 1)], BASE)]
    return 4, four_turns([*quarter, ([(2, 2), (0, 2), (1, 1)], DARK)], 4)


def four_hourglasses() -> Block:
    return 4, four_turns(quarters(0, 0, 2, MAIN, BASE, MAIN, BASE), 4)


def geese_in_two_columns() -> Block:
    up = [s for y in range(4) for s in goose(0, y, 1, "n", MAIN, BASE)]
    return 4, [*up, *(s for y in range(4) for s in goose(2, y, 1, "s", DARK, BASE))]


def card_trick() -> Block:
    """Four cards laid over each other: corners of two triangles, sides of three, a middle of four."""
    side: list[Shape] = [([(1, 0), (2, 0), (Fraction(3, 2), Fraction(1, 2))], BASE)]
    side += [([(2, 0), (2, 1), (Fraction(3, 2), Fraction(1, 2))], DARK), ([(1, 0), (2, 1), (1, 1)], MAIN)]
    return 3, [
        *four_turns([*half(0, 0, 1, "nw", BASE, MAIN), *side], 3),
        *quarters(1, 1, 1, *(MAIN, DARK) * 2),
    ]


def star_of_half_squares() -> Block:
    side = [*box(0, 0, 1, 1, BASE), *half(1, 0, 1, "nw", BASE, MAIN), *half(2, 0, 1, "ne", BASE, MAIN)]
    return 4, [*four_turns(side, 4), *four_turns(half(1, 1, 1, "nw", MAIN, DARK), 4)]


def wreath_of_half_squares() -> Block:
    side = [*box(0, 0, 1, 1, BASE), *half(1, 0, 1, "nw", BASE, MAIN), *box(2, 0, 1, 1, MAIN)]
    side += [*half(3, 0, 1, "ne", BASE, MAIN), *half(1, 1, 1, "se", BASE, DARK), *box(2, 1, 1, 1, DARK)]
    return 5, [*four_turns(side, 5), *box(2, 2, 1, 1, BASE)]


def cake_stand() -> Block:
    teeth = [s for x in range(4) for s in half(x, 0, 1, "nw", BASE, MAIN)]
    teeth += [s for y in range(1, 4) for s in half(0, y, 1, "nw", BASE, MAIN)]
    foot = [*box(4, 0, 1, 1, BASE), *box(0, 4, 1, 1, BASE), *box(4, 1, 1, 3, BASE), *box(1, 4, 3, 1, BASE)]
    return 5, [*teeth, *half(1, 1, 3, "nw", DARK, MAIN), *foot, *half(4, 4, 1, "se", BASE, MAIN)]


def star_in_a_star() -> Block:
    outer = [*box(0, 0, 2, 2, BASE), *goose(2, 0, 2, "s", BASE, MAIN)]
    inner = at(2, 2, four_turns([*box(0, 0, 1, 1, MAIN), *goose(1, 0, 1, "s", MAIN, DARK)], 4))
    return 8, [*four_turns(outer, 8), *inner, *box(3, 3, 2, 2, BASE)]


def star_with_a_set_square() -> Block:
    outer = [*box(0, 0, 1, 1, BASE), *goose(1, 0, 1, "s", BASE, MAIN)]
    return 4, [*four_turns(outer, 4), *at(1, 1, corners_cut(2, 1, DARK, MAIN))]


def rolling_stone() -> Block:
    side = [*corners_cut(2, 1, BASE, MAIN), *box(2, 0, 2, 1, BASE), *box(2, 1, 2, 1, DARK)]
    return 6, [*four_turns(side, 6), *box(2, 2, 2, 2, MAIN)]


def bow_tie() -> Block:
    """Two plain squares, two with a corner cut off; the corners meet in the middle."""
    wing = clipped(2, 2, {"se": 1}, BASE, MAIN)
    other = at(2, 2, clipped(2, 2, {"nw": 1}, BASE, MAIN))
    return 4, [*wing, *other, *box(2, 0, 2, 2, MAIN), *box(0, 2, 2, 2, MAIN)]


def zigzag_strips() -> Block:
    """Slanting strips that lean to one side and to the other."""
    left = clipped(4, 1, {"nw": 1, "se": 1}, MAIN, BASE)
    right = clipped(4, 1, {"ne": 1, "sw": 1}, DARK, BASE)
    return 4, [*left, *at(0, 1, right), *at(0, 2, left), *at(0, 3, right)]


def octagons_and_nine_patches() -> Block:
    octagon, nine = corners_cut(3, 1, MAIN, DARK), checks(3, DARK, BASE)
    return 6, [*nine, *at(3, 0, octagon), *at(0, 3, octagon), *at(3, 3, nine)]


def house() -> Block:
    """Two chimneys, a roof with slanting ends, a wall with a door and a window."""
    sky = [*box(0, 0, 1, 1, BASE), *box(1, 0, 1, 1, DARK), *box(2, 0, 2, 1, BASE), *box(4, 0, 1, 1, DARK)]
    roof = at(0, 1, clipped(6, 2, {"nw": 2, "ne": 2}, MAIN, BASE))
    wall = [*box(0, 3, 1, 3, DARK), *box(1, 3, 1, 3, MAIN), *box(2, 3, 1, 3, DARK), *box(3, 3, 3, 1, DARK)]
    wall += [*box(3, 4, 1, 2, DARK), *box(4, 4, 1, 1, BASE), *box(4, 5, 1, 1, DARK), *box(5, 4, 1, 2, DARK)]
    return 6, [*sky, *box(5, 0, 1, 1, BASE), *roof, *wall]


def fir_tree() -> Block:
    """A goose on two trapezoids on a trunk."""
    tier = clipped(8, 1, {"nw": 1, "ne": 1}, MAIN, BASE)
    trunk = [*box(0, 6, 3, 2, BASE), *box(3, 6, 2, 2, DARK), *box(5, 6, 3, 2, BASE)]
    return 8, [*goose(0, 0, 4, "n", MAIN, BASE), *at(0, 4, tier), *at(0, 5, tier), *trunk]


def bar_across() -> Block:
    return 4, clipped(4, 4, {"ne": 3, "sw": 3}, MAIN, BASE)


def paper_windmill() -> Block:
    """In each quarter a strip with one slanting end beside a plain one."""
    return 4, four_turns([*box(0, 0, 2, 1, BASE), *at(0, 1, clipped(2, 1, {"nw": 1}, MAIN, BASE))], 4)


def lamp() -> Block:
    """An octagon whose corners are of two cloths and two sizes, in a frame."""
    ring, *tips = clipped(4, 4, {"nw": 1, "ne": 1, "se": 2, "sw": 2}, MAIN, BASE)
    tips = [(points, (DARK, BASE)[i // 2]) for i, (points, _) in enumerate(tips)]
    frame = [*box(0, 0, 6, 1, DARK), *box(0, 5, 6, 1, DARK), *box(0, 1, 1, 4, DARK), *box(5, 1, 1, 4, DARK)]
    return 6, [*at(1, 1, [ring, *tips]), *frame]


MORE: tuple[Callable[[], Block], ...] = (
    *(sixteen_patch, twenty_five_patch, double_four_patch, double_nine_patch, brick_wall, basket_weave),
    *(puss_in_the_corner, garden_path, panes, quarter_log_cabin, double_pinwheel, four_hourglasses),
    *(geese_in_two_columns, card_trick, star_of_half_squares, wreath_of_half_squares, cake_stand),
    *(star_in_a_star, star_with_a_set_square, rolling_stone, bow_tie, zigzag_strips),
    *(octagons_and_nine_patches, house, fir_tree, bar_across, paper_windmill, lamp),
)
