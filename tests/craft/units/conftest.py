"""Random units as a document writes them, of a wanted finished size."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from hypothesis import strategies as st

from service.craft.document import Project, read_document
from tests.straight_blocks import STRAIGHT, unit

CLOTHS = ("frost", "leaf", "soil")

Raw = dict[str, Any]

cloths = st.sampled_from(CLOTHS)


def text(length: Fraction) -> str:
    return f"{length.numerator}/{length.denominator}"


def size(width: Fraction, height: Fraction) -> list[str]:
    return [text(width), text(height)]


def document(top: Any, **more: Any) -> Raw:
    whole: Raw = {"title": "Bean row", "fabrics": {cloth: {} for cloth in CLOTHS}, "top": top}
    return whole | more


def read(top: Any, **more: Any) -> Project:
    return read_document(document(top, **more))


@st.composite
def patches(draw, width: Fraction, height: Fraction) -> Raw:
    return {"unit": "patch", "size": size(width, height), "fabric": draw(cloths)}


@st.composite
def triangles(draw, side: Fraction) -> Raw:
    methods = st.sampled_from(["two at a time", "four at a time", "eight at a time", "cut triangles"])
    pair = [draw(cloths), draw(cloths)]
    return {
        "unit": "half-square triangle",
        "size": size(side, side),
        "fabrics": pair,
        "method": draw(methods),
        "trim": draw(st.sampled_from(["exact", "oversize"])),
    }


@st.composite
def corner_squares(draw, width: Fraction, height: Fraction) -> Raw:
    leg = min(width, height) * draw(st.sampled_from([Fraction(1, 4), Fraction(1, 3), Fraction(1, 2)]))
    places = draw(st.lists(st.sampled_from(["nw", "ne", "se", "sw"]), min_size=1, unique=True))
    if draw(st.booleans()) and width != height:
        # as large as can be, at two neighbouring corners of the long side: a goose
        leg = min(width, height, max(width, height) / 2)
        places = ["nw", "ne"] if width > height else ["nw", "sw"]
    corners = {"size": text(leg), "fabric": draw(cloths), "at": places}
    return {"unit": "corner squares", "size": size(width, height), "fabric": draw(cloths), "corners": corners}


@st.composite
def squares_in_squares(draw, side: Fraction) -> Raw:
    method = draw(st.sampled_from(["triangles", "corner squares"]))
    whole = {"unit": "square in a square", "size": size(side, side), "fabric": draw(cloths), "method": method}
    return whole | {"inside": draw(cloths)}


@st.composite
def quarter_squares(draw, side: Fraction) -> Raw:
    four = [draw(cloths) for _ in range(4)]
    raw = {"unit": "quarter-square triangle", "size": size(side, side), "fabrics": four}
    return raw | draw(st.sampled_from([{}, {"method": "cut triangles"}]))


@st.composite
def geese(draw, width: Fraction) -> Raw:
    method = draw(st.sampled_from(["cut triangles", "corner squares", "four at a time"]))
    pair = {"goose": draw(cloths), "sky": draw(cloths)}
    return {"unit": "flying geese", "size": size(width, width / 2), "method": method} | pair


@st.composite
def stars(draw, side: Fraction) -> Raw:
    star = {"unit": "eight-pointed star", "size": size(side, side), "background": draw(cloths)}
    return star | {"diamonds": draw(st.lists(cloths, min_size=1, max_size=2))}


@st.composite
def kites(draw, side: Fraction) -> Raw:
    raw = {"unit": "kite", "size": size(side, side), "kite": draw(cloths), "background": draw(cloths)}
    share = draw(st.sampled_from([None, Fraction(1, 4), Fraction(2, 3)]))
    return raw if share is None else raw | {"shoulder": text(side * share)}


@st.composite
def diamonds(draw, width: Fraction, height: Fraction) -> Raw:
    corners = draw(st.one_of(cloths, st.lists(cloths, min_size=4, max_size=4)))
    return {"unit": "diamond", "size": size(width, height), "fabric": draw(cloths), "corners": corners}


@st.composite
def strip_sets(draw, width: Fraction, height: Fraction) -> Raw:
    widths = _split(draw, width, draw(st.integers(2, 4)))
    strips = [{"width": text(w), "fabric": draw(cloths)} for w in widths]
    return {"unit": "strip set", "strips": strips, "cut_into": text(height)}


@st.composite
def by_corners(draw, width: Fraction, height: Fraction) -> Raw:
    """A straight-seam block stretched to that size, so that most of its patches are cut with templates."""
    steps, shapes = STRAIGHT[draw(st.sampled_from([n for n in STRAIGHT if n not in UNEVEN]))]()
    x, y = width / steps, height / steps
    return unit([([(a * x, b * y) for a, b in points], cloth) for points, cloth in shapes], width, height)


UNEVEN = ("wedges", "diamond in a rectangle")
"""A grid too fine to stretch, and a block that is no square on its grid."""


@st.composite
def turned(draw, width: Fraction, height: Fraction, depth: int) -> Raw:
    if draw(st.booleans()):
        return {"unit": "mirrored", "inside": draw(units(width, height, depth - 1))}
    turn = draw(st.sampled_from([90, 180, 270]))
    inner = (width, height) if turn == 180 else (height, width)
    return {"unit": "turned", "turn": turn, "inside": draw(units(*inner, depth - 1))}


@st.composite
def grids(draw, width: Fraction, height: Fraction, depth: int) -> Raw:
    """Columns and rows at random places; with sashing, cells make room for it."""
    columns, rows = draw(st.integers(1, 3)), draw(st.integers(1, 3))
    sash = min(width, height) / 10 if draw(st.booleans()) else Fraction(0)
    around = draw(st.booleans())
    extra = 1 if around else -1
    widths = _split(draw, width - sash * (columns + extra), columns)
    heights = _split(draw, height - sash * (rows + extra), rows)
    cells = [[draw(units(w, h, depth - 1)) for w in widths] for h in heights]
    raw: Raw = {"unit": "grid", "rows": cells}
    if sash:
        raw["sashing"] = {"width": text(sash), "fabric": draw(cloths), "around": around}
        if draw(st.booleans()):
            raw["cornerstones"] = draw(cloths)
    return raw


def _split(draw, total: Fraction, parts: int) -> list[Fraction]:
    shares = [draw(st.integers(1, 4)) for _ in range(parts)]
    return [total * share / sum(shares) for share in shares]


@st.composite
def bordered(draw, width: Fraction, height: Fraction, depth: int) -> Raw:
    count = draw(st.integers(1, 2))
    border = min(width, height) / 12
    inner = draw(units(width - 2 * count * border, height - 2 * count * border, depth - 1))
    borders = [
        {
            "width": text(border),
            "fabric": draw(cloths),
            "corners": draw(st.sampled_from(["butted", "mitred", "squares"])),
            "first": draw(st.sampled_from(["sides", "top and bottom", "long sides"])),
            "corner_fabric": draw(cloths),
        }
        for _ in range(count)
    ]
    return {"unit": "bordered", "inside": inner, "borders": borders}


@st.composite
def units(draw, width: Fraction, height: Fraction, depth: int) -> Raw:
    """A unit of that finished size, nested at most so deep."""
    choices = [
        patches(width, height),
        corner_squares(width, height),
        strip_sets(width, height),
        diamonds(width, height),
        by_corners(width, height),
    ]
    if width == height:
        choices += [
            triangles(width),
            quarter_squares(width),
            squares_in_squares(width),
            stars(width),
            kites(width),
        ]
    if width == 2 * height:
        choices.append(geese(width))
    if depth > 0:
        choices += [turned(width, height, depth), grids(width, height, depth), bordered(width, height, depth)]
    return draw(st.one_of(choices))


sides = st.integers(4, 48).map(lambda n: Fraction(n, 4))


@st.composite
def on_point(draw) -> Raw:
    side, columns, rows = draw(sides), draw(st.integers(1, 3)), draw(st.integers(1, 3))
    blocks = [[draw(units(side, side, 1)) for _ in range(columns)] for _ in range(rows)]
    raw: Raw = {"unit": "on point", "rows": blocks, "side": draw(cloths), "corner": draw(cloths)}
    if columns > 1 and rows > 1:
        raw["alternate"] = draw(units(side, side, 1))
    return raw


@st.composite
def on_its_corner(draw) -> Raw:
    side = draw(sides)
    return {"unit": "square in a square", "fabric": draw(cloths), "inside": draw(units(side, side, 1))}


@st.composite
def tops(draw) -> Raw:
    """Any top: a rectangle nested three deep, a setting on point or a square on its corner, with a border or not."""
    width, height = draw(sides), draw(sides)
    top = draw(st.one_of(units(width, height, 3), on_point(), on_its_corner()))
    if draw(st.booleans()):
        border = {
            "width": text(draw(sides)),
            "fabric": draw(cloths),
            "corners": draw(st.sampled_from(["butted", "mitred", "squares"])),
        }
        top = {"unit": "bordered", "inside": top, "borders": [border]}
    return top
