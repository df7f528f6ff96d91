"""Stitch files of pieces with a turned edge, and of pieces that overlap without a word on which lies above."""

from __future__ import annotations

import json

import numpy as np
import pytest
import shapely
from shapely.affinity import translate

from service.craft.outlines import Line, Outline, OutlineFile, Ring, to_json
from tests.stitches.independent_reader import read
from tests.stitches.shapes import circle, leek, square
from workers.recipe import JobInput
from workers.stitches.recipe import make_stitches


def drawing(points):
    corners = [(float(x), float(y)) for x, y in points]
    shape = Outline("shape", (Ring(corners[0], tuple(Line(p) for p in corners[1:])),))
    return to_json(OutlineFile("shape.svg", "0" * 64, (shape,)))


OUTLINES = {"leek": drawing(leek()), "bean": drawing(circle(12, 90)), "plot": drawing(square(30))}
SHAPES = {"leek": leek(), "bean": circle(12, 90), "plot": square(30)}
GREEN, RED = {"name": "leek green", "colour": "#5f8f4e"}, {"name": "bean red", "colour": "#a03c3c"}


def make(*pieces, tracks=("hoop 130x180",)):
    document = {
        "title": "Leek Row",
        "fabrics": {"leaf": {"name": "leek green", "usable_width": "40"}},
        "top": {"unit": "patch", "size": ["20", "20"], "fabric": "leaf"},
        "pieces": [{"fabric": "leaf", "at": ["10", "10"], **piece} for piece in pieces],
        "tracks": [{"name": f"track {i}", "has": [has]} for i, has in enumerate(tracks)],
    }
    return make_stitches(JobInput("stitches", document, OUTLINES))


def reports_of(made):
    return [json.loads(file.data) for file in made if file.kind == "stitch report"]


def piece(name, outline=None, **more):
    return {"name": name, "outline": outline or name, **more}


@pytest.mark.parametrize("outline", list(OUTLINES))
@pytest.mark.parametrize("turn", [0, 30, 90])
def test_a_turned_edge_is_sewn_as_placement_tack_down_and_a_run_and_released(outline, turn):
    report = reports_of(make(piece("leek", outline, edge="turned", turn=turn)))[0]
    assert [p["kind"] for p in report["passes"]] == ["placement", "tack-down", "finish"]
    assert report["stops"] == 2
    assert [check["name"] for check in report["checks"] if not check["ok"]] == []
    assert report["released"]


@pytest.mark.parametrize("outline", list(OUTLINES))
def test_every_stitch_that_holds_a_fold_lies_inside_it_and_the_placement_line_along_it(outline):
    """Read by the tests' own reader, the finished shape laid where the report says the middle of the field is."""
    made = make(piece("leek", outline, edge="turned"))
    (report,) = reports_of(made)
    assert not report["turned"]
    shape = shapely.Polygon(SHAPES[outline])
    x0, y0, x1, y1 = shape.bounds
    cx, cy = report["centre_mm"]
    shape = translate(shape, 254 - cx - (x0 + x1) / 2, 254 - cy - (y0 + y1) / 2)
    events = read(made[0].data).events
    for one in report["passes"]:
        places = [(x / 10, -y / 10) for _, _, _, x, y in events[one["from"] : one["to"] + 1]]
        points = shapely.points(np.array(places))
        from_fold = shapely.distance(shape.exterior, points)
        if one["kind"] == "placement":
            assert np.median(from_fold) < 0.1
        else:
            assert shapely.covers(shape.buffer(0.1), points).all()
            assert from_fold.min() > 0.3
            assert from_fold.max() < 4.0


def test_at_the_stops_of_a_turned_edge_nothing_is_trimmed():
    (report,) = reports_of(make(piece("leek", edge="turned")))
    assert [stop["do"] for stop in report["at_stops"]] == [
        "lay the pressed leek inside the line, its fold along the line",
        "check that the fold of the leek lies on the line all round",
    ]


def test_a_turned_piece_next_to_a_satin_one_shares_its_hooping_and_both_are_released():
    made = make(piece("leek", edge="turned"), piece("bean", at=["12", "10"], edge="satin", thread=RED))
    (report,) = reports_of(made)
    assert report["released"] and report["pieces"] == ["leek", "bean"]


ORDERS = [
    (("leek", "bean"), {}),
    (("bean", "leek"), {}),
    (("leek", "bean"), {"leek": ["bean"]}),
    (("leek", "bean"), {"bean": ["leek"]}),
]


@pytest.mark.parametrize(("order", "above"), ORDERS)
@pytest.mark.parametrize("thread", [GREEN, RED])
def test_what_lies_beneath_is_sewn_first_said_or_by_the_order_of_the_pieces(order, above, thread):
    """Two pieces in one place, of one colour and of two: the upper one is the later, unless `above` says otherwise."""
    threads = {"leek": GREEN, "bean": thread}
    pieces = [piece(n, at=["10", "10"], thread=threads[n], above=above.get(n, [])) for n in order]
    (report,) = reports_of(make(*pieces))
    lower = above[next(iter(above))][0] if above else order[0]
    sewn = list(dict.fromkeys(one["piece"] for one in report["passes"]))
    assert sewn[0] == lower
    assert next(c for c in report["checks"] if c["name"].startswith("placement, stop"))["ok"]


def test_an_overlap_without_a_word_also_holds_across_hoopings():
    """Beds too far apart for one field of 100 mm; the strip on both waits for them."""
    pieces = [
        piece("plot", at=["7", "10"]),
        piece("other plot", "plot", at=["10", "10"]),
        piece("bean", at=["7", "10"]),
    ]
    reports = reports_of(make(*pieces, tracks=("hoop 80x80",)))
    order = [name for report in reports for name in report["pieces"]]
    assert order.index("plot") < order.index("bean")
    assert len(reports) == 2
