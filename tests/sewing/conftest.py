"""Units of an allotment garden in two-line notation, and plans made of them."""

from __future__ import annotations

import json
from collections.abc import Callable
from fractions import Fraction
from types import SimpleNamespace
from typing import Any

import pytest

from service.craft.document import read_document
from tests.straight_blocks import block
from workers.recipe import JobInput
from workers.sewing.plan import SewingPlan, plan_sewing
from workers.sewing.recipe import make_sewing_plan

Unit = dict[str, Any]
Document = dict[str, Any]

CLOTHS = {
    "frost": {"name": "frost white", "colour": "#eef1ee"},
    "leaf": {"name": "leek green", "colour": "#5f8f4e"},
    "soil": {"name": "soil brown dot", "colour": "#5b4636"},
    "fleece": {"name": "thin white fleece", "colour": "#ffffff", "cut": "trim in place"},
}


def patch(fabric: str, width: str = "3", height: str = "3") -> Unit:
    return {"unit": "patch", "size": [width, height], "fabric": fabric}


def half(first: str, second: str, side: str = "3", method: str = "two at a time") -> Unit:
    return {
        "unit": "half-square triangle",
        "size": [side, side],
        "fabrics": [first, second],
        "method": method,
    }


def geese(goose: str = "leaf", sky: str = "frost", width: str = "6", method: str = "cut triangles") -> Unit:
    size = [width, str(Fraction(width) / 2)]
    return {"unit": "flying geese", "size": size, "goose": goose, "sky": sky, "method": method}


def quarters(*fabrics: str, side: str = "3", **more: Any) -> Unit:
    return {"unit": "quarter-square triangle", "size": [side, side], "fabrics": list(fabrics), **more}


def strips(*strips: tuple[str, str], cut_into: str = "2", **more: Any) -> Unit:
    """A strip set of (cloth, finished width)."""
    listed = [{"fabric": fabric, "width": width} for fabric, width in strips]
    return {"unit": "strip set", "strips": listed, "cut_into": cut_into, **more}


def star(*diamonds: str, background: str = "frost", side: str = "6") -> Unit:
    cloths = list(diamonds)
    return {"unit": "eight-pointed star", "size": [side, side], "diamonds": cloths, "background": background}


def kite(cloth: str = "leaf", background: str = "frost", side: str = "4", **more: Any) -> Unit:
    return {"unit": "kite", "size": [side, side], "kite": cloth, "background": background, **more}


def diamond(*corners: str, width: str = "4", height: str = "6", cloth: str = "leaf") -> Unit:
    """A diamond with frost corners, where none are given."""
    cloths = list(corners) or "frost"
    return {"unit": "diamond", "size": [width, height], "fabric": cloth, "corners": cloths}


def hexagons(*rows: list[str], side: str = "1", edge: str = "frost") -> Unit:
    """A field of three rows, where none are given."""
    cloths = list(rows) or [["leaf", "soil", "leaf"], ["soil", "soil"], ["leaf", "leaf", "soil"]]
    return {"unit": "hexagons", "side": side, "rows": cloths, "edge": edge}


def corners(*places: str, side: str = "3", leg: str = "1", base: str = "frost", corner: str = "leaf") -> Unit:
    where = list(places) or ["nw", "ne", "se", "sw"]
    return {
        "unit": "corner squares",
        "size": [side, side],
        "fabric": base,
        "corners": {"size": leg, "fabric": corner, "at": where},
    }


def grid(*rows: list[Any], **more: Any) -> Unit:
    return {"unit": "grid", "rows": list(rows), **more}


def turned(inside: Any, turn: int) -> Unit:
    return {"unit": "turned", "inside": inside, "turn": turn}


def mirrored(inside: Any) -> Unit:
    return {"unit": "mirrored", "inside": inside}


def on_corner(inside: Any, fabric: str = "leaf", **more: Any) -> Unit:
    return {"unit": "square in a square", "inside": inside, "fabric": fabric, **more}


def bordered(inside: Any, *borders: Unit) -> Unit:
    return {"unit": "bordered", "inside": inside, "borders": list(borders)}


def on_point(block: Any, rows: int, columns: int, alternate: Any = None, **more: Any) -> Unit:
    unit = {"unit": "on point", "rows": [[block] * columns] * rows, "side": "soil", "corner": "frost", **more}
    return unit | ({"alternate": alternate or block} if rows > 1 and columns > 1 else {})


def nine_patch() -> Unit:
    """Five corner-square units and four plain squares, 3 1/2 in finished each."""
    unit, plain = corners(side="3 1/2"), patch("frost", "3 1/2", "3 1/2")
    return grid([unit, plain, unit], [plain, unit, plain], [unit, plain, unit])


def odd_block() -> Unit:
    """A block of nine that is no turn and no mirror image of itself."""
    return grid(
        [half("frost", "leaf"), patch("soil"), turned(half("leaf", "soil"), 90)],
        [corners("nw", "ne"), mirrored(half("frost", "soil")), patch("frost")],
        [patch("leaf"), corners("se"), turned(corners("nw"), 90)],
    )


def document(top: Any, blocks: dict[str, Any] | None = None, **more: Any) -> Document:
    return {"title": "Leek bed", "fabrics": CLOTHS, "blocks": blocks or {}, "top": top, **more}


@pytest.fixture
def units() -> SimpleNamespace:
    """The builders of units and documents."""
    return SimpleNamespace(
        patch=patch,
        half=half,
        corners=corners,
        geese=geese,
        quarters=quarters,
        strips=strips,
        star=star,
        kite=kite,
        diamond=diamond,
        hexagons=hexagons,
        grid=grid,
        turned=turned,
        mirrored=mirrored,
        on_corner=on_corner,
        bordered=bordered,
        on_point=on_point,
        nine_patch=nine_patch,
        odd_block=odd_block,
        document=document,
    )


def make_tops() -> dict[str, Any]:
    """Tops of every kind of unit, alone and in each other; "b" is the odd block."""
    cross = {"width": "1", "fabric": "soil"}
    first, second = {"width": "1", "fabric": "leaf"}, {"width": "2", "fabric": "soil"}
    tops: dict[str, Any] = {
        "one patch": patch("leaf"),
        "one block": "b",
        "turned": turned("b", 270),
        "mirrored": mirrored("b"),
        "mirrored after turning": mirrored(turned("b", 90)),
        "turned after mirroring": turned(mirrored("b"), 90),
        "four ways": grid(["b", turned("b", 90)], [mirrored("b"), turned(mirrored("b"), 180)]),
        "one row": grid(["b", "b"]),
        "one column": grid(["b"], ["b"]),
        "sashing": grid(["b", turned("b", 90)], [mirrored("b"), "b"], sashing=cross),
        "sashing around": grid(["b", "b"], ["b", "b"], sashing=cross | {"around": True}),
        "cornerstones": grid(["b", "b"], ["b", "b"], sashing=cross, cornerstones="leaf"),
        "cornerstones around": grid(["b", "b"], sashing=cross | {"around": True}, cornerstones="leaf"),
        "square in a square": on_corner("b"),
        "square in a square mirrored": mirrored(on_corner("b")),
        "flipped corners": on_corner("frost", size=["6", "6"], method="corner squares"),
        "plain middle": on_corner("frost", size=["6", "6"]),
        "triangles cut first": half("frost", "soil", method="cut triangles"),
        "borders of each corner": bordered(
            grid(["b", "b"]),
            first,
            second | {"corners": "squares", "corner_fabric": "leaf", "first": "top and bottom"},
            second | {"corners": "mitred"},
            first | {"first": "long sides"},
        ),
        "border with squares": bordered("b", second | {"corners": "squares", "corner_fabric": "leaf"}),
        "deep": bordered(on_point(on_corner(turned("b", 90)), 2, 3, mirrored(on_corner("b"))), second, first),
        "mirrored on point": mirrored(on_point("b", 3, 4, turned("b", 90))),
        "turned on point": turned(on_point("b", 2, 3), 90),
        "extra to trim": on_point("b", 2, 2, extra="1/2"),
    }
    tops |= small_unit_tops()
    for name in ("sawtooth star", "kites", "spool", "ring in a row"):
        shapes = block(name, 6)
        tops[f"by corners, {name}"] = grid(
            [shapes, turned(shapes, 90)], [mirrored(shapes), turned(shapes, 180)]
        )
    for rows in (1, 2, 3):
        for columns in (1, 2, 3):
            tops[f"on point {rows} by {columns}"] = on_point("b", rows, columns, mirrored("b"))
    return tops


def small_unit_tops() -> dict[str, Any]:
    """Geese, quarter-square triangles and strip sets by each method, laid every way."""
    tops: dict[str, Any] = {}
    for method in ("cut triangles", "corner squares", "four at a time"):
        goose = geese(method=method)
        tops[f"geese, {method}"] = grid([turned(goose, 90), grid([mirrored(goose)], [turned(goose, 180)])])
    two, four = quarters("soil", "frost", "soil", "frost"), quarters("leaf", "soil", "frost", "frost")
    tops["quarter squares, two cloths"] = grid([two, turned(two, 90)], [mirrored(two), turned(two, 180)])
    tops["quarter squares, three cloths"] = grid(
        [four, turned(four, 90)], [mirrored(four), turned(four, 270)]
    )
    piece = strips(("soil", "1"), ("frost", "1 1/2"), ("leaf", "1/2"), cut_into="3")
    tops["strip sets"] = grid([piece, turned(piece, 90)], [mirrored(piece), turned(piece, 180)])
    tops["pieces of one strip set in turn"] = grid(*[[piece], [turned(piece, 180)]] * 2)
    two, one = star("leaf", "soil"), star("soil")
    tops["stars"] = grid([two, turned(two, 90), one], [mirrored(two), turned(one, 180), two])
    tops["a star on its corner"] = on_corner(two)
    tops["kites round a middle"] = grid(
        [turned(kite(), 270), kite()], [turned(kite(), 180), mirrored(turned(kite(), 180))]
    )
    four = diamond("frost", "soil", "leaf", "soil")
    tops["diamonds"] = grid([four, turned(four, 180)], [mirrored(four), turned(mirrored(four), 180)])
    square = diamond("frost", "soil", "soil", "soil", height="4")
    tops["square diamonds"] = grid([square, turned(square, 90)], [mirrored(square), turned(square, 270)])
    tops["hexagons"] = grid([hexagons()], [mirrored(hexagons())])
    tops["hexagons in a border"] = bordered(turned(hexagons(), 90), {"width": "1", "fabric": "soil"})
    return tops


TOPS = make_tops()


@pytest.fixture(params=list(TOPS), ids=list(TOPS))
def any_top(request: pytest.FixtureRequest) -> Document:
    """A document for each of the tops."""
    return document(TOPS[request.param], {"b": odd_block()})


@pytest.fixture
def plan_of() -> Callable[..., SewingPlan]:
    """The plan of a document."""
    return lambda raw: plan_sewing(read_document(raw))


@pytest.fixture
def sewn() -> Callable[..., SimpleNamespace]:
    """The files of a document read back: `plan`, and `steps` by track."""

    def make(raw: Document, **more: Any) -> SimpleNamespace:
        files = make_sewing_plan(JobInput("sewing", raw, **more))
        read = {file.name: json.loads(file.data) for file in files}
        steps = {v["track"]: v["steps"] for k, v in read.items() if k.startswith("steps-")}
        return SimpleNamespace(plan=read["sewing.json"], steps=steps, files=files)

    return make
