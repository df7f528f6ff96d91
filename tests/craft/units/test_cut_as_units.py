"""A block given by its corners is cut as the same block put together of the units made for it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pytest

from service.craft.document import read_document
from service.craft.units import Need
from tests.straight_blocks import BASE, BLOCKS, DARK, MAIN, STRAIGHT, block, document

Raw = dict[str, Any]
Cuts = Counter[tuple[str, Fraction, Fraction, str, int, str]]


def list_needs(top: Any) -> list[Need]:
    project = read_document(document(top))
    return [need for inner in project.top.walk() for need in inner.needs(project.rules)]


def cuts_of(top: Any) -> Cuts:
    """Pieces by cloth, sides, what is done then, how many a cut makes; a rectangle the same either way up."""
    counted: Cuts = Counter()
    for need in list_needs(top):
        short, long = sorted((need.width, need.height))
        counted[need.fabric, short, long, need.then, need.makes, need.template] += need.pieces
    return counted


def size(w: Any, h: Any) -> list[str]:
    return [str(Fraction(w)), str(Fraction(h))]


def patch(fabric: str, w: Any, h: Any) -> Raw:
    return {"unit": "patch", "size": size(w, h), "fabric": fabric}


def half(first: str, second: str, side: Any, method: str = "cut triangles") -> Raw:
    return {
        "unit": "half-square triangle",
        "size": size(side, side),
        "fabrics": [first, second],
        "method": method,
    }


def quarter(side: Any, *cloths: str) -> Raw:
    return {
        "unit": "quarter-square triangle",
        "size": size(side, side),
        "fabrics": list(cloths),
        "method": "cut triangles",
    }


def goose(c: Any, cloth: str = BASE, sky: str = MAIN) -> Raw:
    return {"unit": "flying geese", "size": size(2 * c, c), "goose": cloth, "sky": sky}


def corners(fabric: str, corner: str, w: Any, h: Any, leg: Any, *at: str) -> Raw:
    where = {"size": str(leg), "fabric": corner, **({"at": list(at)} if at else {})}
    return {"unit": "corner squares", "size": size(w, h), "fabric": fabric, "corners": where}


def set_square(inside: Any, fabric: str, side: Any) -> Raw:
    return {"unit": "square in a square", "size": size(side, side), "inside": inside, "fabric": fabric}


def grid(*rows: list[Any]) -> Raw:
    return {"unit": "grid", "rows": list(rows)}


def turn(inside: Any, degrees: int = 90) -> Raw:
    return {"unit": "turned", "inside": inside, "turn": degrees}


def framed(corner: Any, side: Any, middle: Any) -> Raw:
    """Three rows of three: corners, sides upright and level, a middle."""
    return grid([corner, side, corner], [turn(side), middle, turn(side)], [corner, side, corner])


def checks(n: int, first: str, second: str, c: Any) -> Raw:
    return grid(*[[patch((first, second)[(x + y) % 2], c, c) for x in range(n)] for y in range(n)])


def strips(fabric_lengths: list[tuple[str, Any, Any]]) -> list[list[Any]]:
    return [[patch(*one)] for one in fabric_lengths]


def repeat(unit: Any, times: int) -> list[Any]:
    return [unit] * times


def log_cabin(c: Any) -> Raw:
    inner: Any = patch(DARK, c, c)
    for i in range(3):
        w = 2 * i + 1
        inner = grid([patch(BASE, w * c, c)], [inner])
        inner = grid([inner, patch(BASE, c, (w + 1) * c)])
        inner = grid([inner], [patch(MAIN, (w + 1) * c, c)])
        inner = grid([patch(MAIN, c, (w + 2) * c), inner])
    return inner


def courthouse_steps(c: Any) -> Raw:
    inner: Any = patch(DARK, c, c)
    for i in range(3):
        w = 2 * i + 1
        inner = grid([patch(MAIN, c, w * c), inner, patch(MAIN, c, w * c)])
        inner = grid([patch(BASE, (w + 2) * c, c)], [inner], [patch(BASE, (w + 2) * c, c)])
    return inner


def bear_paw(c: Any) -> Raw:
    claw, main = half(BASE, MAIN, c), patch(MAIN, 2 * c, 2 * c)
    paw = grid([grid([patch(BASE, c, c), claw, claw])], [grid([grid([claw], [claw]), main])])
    bar = patch(BASE, c, 3 * c)
    return grid([paw, bar, paw], [turn(bar), patch(DARK, c, c), turn(bar)], [paw, bar, paw])


def jacobs_ladder(c: Any) -> Raw:
    four, large = checks(2, DARK, BASE, c), half(MAIN, BASE, 2 * c)
    return grid([four, large, four], [large, four, large], [four, large, four])


def flock(c: Any) -> Raw:
    small, large = half(MAIN, BASE, c), half(MAIN, BASE, 2 * c)
    four = grid([small, small], [small, small])
    return grid([large, four], [four, large])


def old_maids_puzzle(c: Any) -> Raw:
    small, plain = half(MAIN, BASE, c), patch(BASE, c, c)
    four, large = grid([small, plain], [plain, small]), half(BASE, DARK, 2 * c)
    return grid([four, large], [large, four])


def road_of_squares(c: Any) -> Raw:
    return grid(*[[patch(DARK, c, c) if x == y else half(MAIN, BASE, c) for x in range(4)] for y in range(4)])


def sawtooth_star(c: Any) -> Raw:
    return framed(patch(BASE, c, c), goose(c), patch(DARK, 2 * c, 2 * c))


def star_in_a_star(c: Any) -> Raw:
    inner = framed(patch(MAIN, c, c), goose(c, MAIN, DARK), patch(BASE, 2 * c, 2 * c))
    return framed(patch(BASE, 2 * c, 2 * c), goose(2 * c), inner)


def dutchmans_puzzle(c: Any) -> Raw:
    pair = grid([goose(c, MAIN, BASE)], [goose(c, MAIN, BASE)])
    return grid([pair, turn(pair, 180)], [turn(pair, 180), pair])


def panes(c: Any) -> Raw:
    pane = patch(MAIN, 2 * c, 2 * c)
    sashing = {"width": str(c), "fabric": BASE, "around": True}
    return grid([pane, pane], [pane, pane]) | {"sashing": sashing, "cornerstones": DARK}


def quarter_log_cabin(c: Any) -> Raw:
    inner: Any = patch(DARK, c, c)
    for i in range(1, 4):
        cloth = (BASE, MAIN)[i % 2]
        inner = grid([grid([inner, patch(cloth, c, i * c)])], [patch(cloth, (i + 1) * c, c)])
    return inner


def star_of_half_squares(c: Any) -> Raw:
    point, middle = half(BASE, MAIN, c), half(MAIN, DARK, c)
    return framed(patch(BASE, c, c), grid([point, point]), grid([middle, middle], [middle, middle]))


def wreath_of_half_squares(c: Any) -> Raw:
    side = grid([half(BASE, MAIN, c), patch(MAIN, c, c), half(BASE, MAIN, c)])
    corner, flat = half(BASE, DARK, c), patch(DARK, c, c)
    return framed(patch(BASE, c, c), side, framed(corner, flat, patch(BASE, c, c)))


def cake_stand(c: Any) -> Raw:
    tooth, plain = half(BASE, MAIN, c), patch(BASE, c, c)
    cake = grid([grid(*[[tooth]] * 3), half(DARK, MAIN, 3 * c), patch(BASE, c, 3 * c)])
    return grid([grid([*repeat(tooth, 4), plain])], [cake], [grid([plain, patch(BASE, 3 * c, c), tooth])])


def geese_in_two_columns(c: Any) -> Raw:
    up, down = goose(c, MAIN, BASE), turn(goose(c, DARK, BASE), 180)
    return grid(*[[up, down]] * 4)


def octagons_and_nine_patches(c: Any) -> Raw:
    nine, octagon = checks(3, DARK, BASE, c), corners(MAIN, DARK, 3 * c, 3 * c, c)
    return grid([nine, octagon], [octagon, nine])


def zigzag_strips(c: Any) -> Raw:
    left = corners(MAIN, BASE, 4 * c, c, c, "nw", "se")
    right = corners(DARK, BASE, 4 * c, c, c, "ne", "sw")
    return grid([left], [right], [left], [right])


def house(c: Any) -> Raw:
    sky = [patch(BASE, c, c), patch(DARK, c, c), patch(BASE, 2 * c, c), patch(DARK, c, c), patch(BASE, c, c)]
    beside = patch(DARK, c, 2 * c)
    window = grid([patch(BASE, c, c)], [patch(DARK, c, c)])
    right = grid([patch(DARK, 3 * c, c)], [grid([beside, window, beside])])
    wall = [patch(DARK, c, 3 * c), patch(MAIN, c, 3 * c), patch(DARK, c, 3 * c), right]
    return grid([grid(sky)], [corners(MAIN, BASE, 6 * c, 2 * c, 2 * c, "nw", "ne")], [grid(wall)])


def fir_tree(c: Any) -> Raw:
    tier = corners(MAIN, BASE, 8 * c, c, c, "nw", "ne")
    trunk = grid([patch(BASE, 3 * c, 2 * c), patch(DARK, 2 * c, 2 * c), patch(BASE, 3 * c, 2 * c)])
    return grid([goose(4 * c, MAIN, BASE)], [tier], [tier], [trunk])


def paper_windmill(c: Any) -> Raw:
    quarter = grid([patch(BASE, 2 * c, c)], [corners(MAIN, BASE, 2 * c, c, c, "nw")])
    return grid([quarter, turn(quarter)], [turn(quarter, 270), turn(quarter, 180)])


def bow_tie(c: Any) -> Raw:
    plain = patch(MAIN, 2 * c, 2 * c)
    wing, other = (corners(BASE, MAIN, 2 * c, 2 * c, c, at) for at in ("se", "nw"))
    return grid([wing, plain], [plain, other])


def garden_path(c: Any) -> Raw:
    side = [patch(BASE, 2 * c, 2 * c), patch(MAIN, c, 2 * c), patch(BASE, 2 * c, 2 * c)]
    return grid([grid(side)], [patch(MAIN, 5 * c, c)], [grid(side)])


def brick_wall(c: Any) -> Raw:
    full = [patch(MAIN, 2 * c, c), patch(DARK, 2 * c, c)]
    offset = [patch(BASE, c, c), patch(MAIN, 2 * c, c), patch(BASE, c, c)]
    return grid(*[[grid(row)] for row in (full, offset, full, offset)])


def basket_weave(c: Any) -> Raw:
    rail = grid(*[[patch(cloth, 3 * c, c)] for cloth in (MAIN, BASE, DARK)])
    return grid([rail, turn(rail)], [turn(rail), rail])


def rolling_stone(c: Any) -> Raw:
    side = grid([patch(BASE, 2 * c, c)], [patch(DARK, 2 * c, c)])
    return framed(set_square(BASE, MAIN, 2 * c), side, patch(MAIN, 2 * c, 2 * c))


def double_nine_patch(c: Any) -> Raw:
    nine, plain = checks(3, MAIN, BASE, c), patch(BASE, 3 * c, 3 * c)
    return grid([nine, plain, nine], [plain, nine, plain], [nine, plain, nine])


def double_four_patch(c: Any) -> Raw:
    four, plain = checks(2, MAIN, BASE, c), patch(DARK, 2 * c, 2 * c)
    return grid([four, plain], [plain, four])


def churn_dash(c: Any) -> Raw:
    side = grid([patch(BASE, c, c)], [patch(MAIN, c, c)])
    return framed(half(BASE, MAIN, 2 * c), side, patch(BASE, c, c))


def greek_cross(c: Any) -> Raw:
    side = grid([patch(BASE, c, Fraction(c, 2))], [patch(MAIN, c, Fraction(c, 2))])
    return framed(half(BASE, MAIN, c), side, patch(DARK, c, c))


def friendship_star(c: Any) -> Raw:
    return framed(patch(BASE, c, c), half(BASE, MAIN, c), patch(MAIN, c, c))


def star_with_a_set_square(c: Any) -> Raw:
    return framed(patch(BASE, c, c), goose(c), set_square(DARK, MAIN, 2 * c))


def four_hourglasses(c: Any) -> Raw:
    one = quarter(2 * c, MAIN, BASE, MAIN, BASE)
    return grid([one, one], [one, one])


def kites(c: Any) -> Raw:
    """The kite's own unit is a quarter of the block: tail in the corner, head in the middle."""
    kite = {"unit": "kite", "size": size(4 * c, 4 * c), "kite": MAIN, "background": BASE}
    return grid([turn(kite), turn(kite, 180)], [kite, turn(kite, 270)])


SMALL: dict[str, Callable[[Any], Raw]] = {
    "four patch": lambda c: checks(2, MAIN, BASE, c),
    "nine patch": lambda c: checks(3, MAIN, BASE, c),
    "sixteen patch": lambda c: checks(4, MAIN, BASE, c),
    "twenty five patch": lambda c: checks(5, DARK, BASE, c),
    "rail fence": lambda c: grid(*strips([(cloth, 3 * c, c) for cloth in (BASE, MAIN, DARK)])),
    "pinwheel": lambda c: grid(*[repeat(half(MAIN, BASE, c), 2)] * 2),
    "broken dishes": lambda c: grid(*[repeat(half(MAIN, BASE, c), 2)] * 2),
    "hourglass": lambda c: quarter(2 * c, MAIN, BASE, MAIN, BASE),
    "shoofly": lambda c: framed(half(BASE, MAIN, c), patch(BASE, c, c), patch(MAIN, c, c)),
    "ohio star": lambda c: framed(patch(BASE, c, c), quarter(c, BASE, MAIN, DARK, MAIN), patch(MAIN, c, c)),
    "snowball": lambda c: corners(MAIN, BASE, 3 * c, 3 * c, c),
    "square in a square": lambda c: set_square(MAIN, BASE, 2 * c),
    "puss in the corner": lambda c: framed(
        patch(MAIN, c, c), patch(BASE, 2 * c, c), patch(MAIN, 2 * c, 2 * c)
    ),
    "bar across": lambda c: corners(MAIN, BASE, 4 * c, 4 * c, 3 * c, "ne", "sw"),
}
LARGE = (
    *(log_cabin, courthouse_steps, bear_paw, jacobs_ladder, flock, old_maids_puzzle, road_of_squares),
    *(sawtooth_star, star_in_a_star, dutchmans_puzzle, panes, quarter_log_cabin, star_of_half_squares),
    *(wreath_of_half_squares, cake_stand, geese_in_two_columns, octagons_and_nine_patches, zigzag_strips),
    *(house, fir_tree, paper_windmill, bow_tie, garden_path, brick_wall, basket_weave, rolling_stone),
    *(double_nine_patch, double_four_patch, churn_dash, greek_cross, friendship_star, kites),
    *(star_with_a_set_square, four_hourglasses),
)
DEDICATED = SMALL | {make.__name__.replace("_", " "): make for make in LARGE}

WITHOUT = {
    "economy patch": "its inner triangles are cut another way, see below",
    "birds in the air": "small triangles sewn one by one to a large one",
    "double pinwheel": "a large triangle and two small ones make no unit",
    "card trick": "a large triangle and two small ones make no unit",
    "diamond in a rectangle": "templates",
    "wedges": "templates",
    "slanting stripes": "templates",
    "storm at sea corner": "templates",
    "lamp": "corners of two sizes on one base",
}
"""Blocks that no units make, and why."""


def test_every_block_has_a_twin_of_units_or_a_reason() -> None:
    """So that none is forgotten when blocks are added."""
    assert sorted([*DEDICATED, *WITHOUT]) == sorted(STRAIGHT)


@pytest.mark.parametrize("cell", [1, 2, Fraction(5, 4)])
@pytest.mark.parametrize("name", DEDICATED)
def test_what_a_ruler_cuts_is_cut_as_the_units_made_for_it(name: str, cell: Any) -> None:
    """The same squares, rectangles, triangles, bases and corner squares, and as many: they share cuts."""
    steps, _ = BLOCKS[name]()
    assert cuts_of(block(name, steps * cell)) == cuts_of(DEDICATED[name](cell))


def test_triangles_of_a_set_square_inside_another_are_cut_along_their_own_block() -> None:
    """An exception: set on its corner, the inner unit has its triangles' short sides along the threads, as every
    half-square triangle has. By the corners of the whole their long sides run level and upright: + 1 1/4, cut twice.
    """
    inner = set_square(None, BASE, 1) | {"inside": {"fabric": DARK, "size": ["2", "2"]}}
    del inner["size"]
    twin = {"unit": "square in a square", "inside": inner, "fabric": MAIN}
    ours, theirs = cuts_of(block("economy patch", 4)), cuts_of(twin)
    assert ours - theirs == {(BASE, Fraction(13, 4), Fraction(13, 4), "cut twice on the diagonal", 4, ""): 4}
    # √2 + 7/8 = 2.289, up to the next eighth
    assert theirs - ours == {(BASE, Fraction(19, 8), Fraction(19, 8), "cut once on the diagonal", 2, ""): 4}


@pytest.mark.parametrize(
    ("twin", "size"),
    [
        (half(MAIN, BASE, 2, "two at a time"), Fraction(23, 8)),
        (half(MAIN, BASE, 2, "eight at a time"), Fraction(23, 4)),
        (half(MAIN, BASE, 2, "two at a time") | {"trim": "oversize"}, Fraction(3)),
    ],
    ids=["two at a time", "eight at a time", "oversize"],
)
def test_a_way_of_sewing_is_no_part_of_a_block_given_by_its_corners(twin: Raw, size: Fraction) -> None:
    """Exceptions: triangles are cut singly. Two at a time has the same constant, eight at a time twice as much
    (2f + 1 3/4), and to trim, an eighth more (f + 1).
    """
    ours = {need.width for need in list_needs(block("pinwheel", 4))}
    assert ours == {Fraction(2) + Fraction(7, 8)}
    assert {need.width for need in list_needs(twin)} == {size}


def test_a_goose_with_flipped_corners_is_another_choice_than_its_triangles() -> None:
    """An exception: a goose by its corners is a quarter-square triangle between half-square ones."""
    flipped = goose(2, MAIN, BASE) | {"method": "corner squares"}
    plain = cuts_of(goose(2, MAIN, BASE))
    assert cuts_of(flipped) != plain
    points = [[["0", "2"], ["2", "0"], ["4", "2"]], [["0", "2"], ["0", "0"], ["2", "0"]]]
    points.append([["4", "2"], ["4", "0"], ["2", "0"]])
    patches = [{"points": p, "fabric": f} for p, f in zip(points, (MAIN, BASE, BASE), strict=True)]
    assert cuts_of({"unit": "polygons", "size": ["4", "2"], "patches": patches}) == plain
