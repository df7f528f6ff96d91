"""A patch that is wider than its cloth is sewn of its panels in a stage of its own, before it is needed.

How many panels, and how wide, is worked out by hand in the tests of cutting.
"""

from __future__ import annotations

import json
from typing import Any

import pytest

from workers.cutting.recipe import make_cutting_plan
from workers.recipe import JobInput
from workers.sewing.recipe import make_sewing_plan

Raw = dict[str, Any]


def patch(width: str, height: str, fabric: str = "soil") -> Raw:
    return {"unit": "patch", "size": [width, height], "fabric": fabric}


def corners(size: str, leg: str) -> Raw:
    flipped = {"size": leg, "fabric": "leaf", "at": ["nw", "se"]}
    return {"unit": "corner squares", "size": [size, size], "fabric": "soil", "corners": flipped}


def geese(width: str, height: str) -> Raw:
    size = {"size": [width, height], "method": "corner squares"}
    return {"unit": "flying geese", "goose": "soil", "sky": "leaf"} | size


def square(side: str, method: str, fabric: str) -> Raw:
    inside = {"fabric": "soil", "size": [side, side]}
    return {"unit": "square in a square", "inside": inside, "fabric": fabric, "method": method}


def on_point() -> Raw:
    rows = [[patch("9", "9", "wide")] * 2] * 2
    return {"unit": "on point", "rows": rows, "alternate": patch("9", "9"), "side": "wide", "corner": "wide"}


def bed(top: Raw, width: str = "6", **cloth: Any) -> Raw:
    narrow = {"usable_width": width, **cloth}
    cloths = {
        "soil": {"name": "soil brown", **narrow},
        "leaf": {"name": "leek green", **narrow},
        "wide": {"name": "frost"},
    }
    return {"title": "Bean bed", "fabrics": cloths, "top": top, "tracks": [{"name": "by hand", "has": []}]}


def sew(raw: Raw) -> tuple[Raw, list[Raw]]:
    plan, steps = make_sewing_plan(JobInput("sewing", raw))
    return json.loads(plan.data), json.loads(steps.data)["steps"]


def panel_stages(plan: Raw) -> list[Raw]:
    return [stage for stage in plan["stages"] if stage["kind"] == "panels"]


CHECKED = [[patch("9", "9"), patch("9", "9", "wide")], [patch("9", "9", "wide"), patch("9", "9")]]
GRID = {"unit": "grid", "rows": CHECKED}
SASHED = {"unit": "grid", "rows": [[patch("9", "9", "wide")] * 2], "cornerstones": "soil"} | {
    "sashing": {"width": "7", "fabric": "leaf", "around": True}
}
BORDERED = {
    "unit": "bordered",
    "inside": patch("20", "20"),
    "borders": [{"width": "7", "fabric": "wide", "corners": "squares", "corner_fabric": "leaf"}],
}
POLYGONS = {
    "unit": "polygons",
    "size": ["9", "18"],
    "patches": [
        {"points": [["0", "0"], ["9", "0"], ["9", "9"], ["0", "9"]], "fabric": "soil"},
        {"points": [["0", "9"], ["9", "9"], ["9", "18"], ["0", "18"]], "fabric": "leaf"},
    ],
}


@pytest.mark.parametrize(
    ("top", "pieces"),
    [
        (patch("9", "9"), 1),
        (GRID, 2),
        (corners("12", "6"), 3),
        (geese("16", "8"), 3),
        (square("10", "triangles", "wide"), 1),
        (square("16", "corner squares", "leaf"), 5),
        (on_point(), 1),
        (SASHED, 13),
        (BORDERED, 5),
        (POLYGONS, 2),
        ({"unit": "mirrored", "inside": corners("12", "4")}, 1),
    ],
)
def test_every_piece_that_is_cut_in_panels_is_sewn_before_what_it_is_for(top: Raw, pieces: int) -> None:
    """On cloth 6 in wide. As many pieces as the cutting list has panels for, and each stage after all it needs."""
    raw = bed(top)
    plan, _ = sew(raw)
    made, _ = make_cutting_plan(JobInput("cutting", raw))
    joins = [(cut["count"], cut["join"]) for cut in json.loads(made.data)["cuts"] if cut["join"]]
    cut = sum(count // join["pieces"] for count, join in joins if join["laid"] == "side by side")
    assert sum(stage["count"] for stage in panel_stages(plan)) == cut == pieces
    done: set[str] = set()
    for stage in plan["stages"]:
        assert done.issuperset(stage["needs"])
        done.add(stage["id"])
    needed = {need for stage in plan["stages"] for need in stage["needs"]}
    assert all(stage["id"] in needed for stage in panel_stages(plan))


def test_the_stage_says_what_is_joined_how_it_is_pressed_and_what_it_measures() -> None:
    """9 1/2 of 6 in cloth: two of 5 in less 1/2 in. 9 5/8 needs 5 1/16: 5 1/8 on the ruler, 9 3/4 joined."""
    plan, steps = sew(bed(patch("9", "9")))
    [stage], [seam] = panel_stages(plan), plan["seams"]
    assert stage["size"]["width"]["text"] == stage["size"]["height"]["text"] == "9 1/2 in"
    assert seam["press"] == "open" and seam["line"] == [[4.5, 0.0], [4.5, 9.0]]
    assert [patch["points"][0] for patch in stage["patches"]] == [[0.0, 0.0], [4.5, 0.0]]
    texts = [step["text"] for step in steps if step["stage"] == stage["id"]]
    assert [text.split(".")[0] for text in texts] == [
        "Lay both panels of soil brown side by side, all the same way up",
        "Pin two neighbours along their long edges, right sides together: both ends, the middle, then between",
        "Sew the panels to each other with 1/4 in allowance",
        "Press the seam open",
    ]
    assert any("it is the whole top, and its panels are joined" in step["text"] for step in steps)
    _, steps = sew(bed(patch("9 1/8", "9 1/8")))
    assert any(step["text"].startswith("Trim the piece to 9 5/8 in across the panels") for step in steps)


def test_a_block_that_is_also_turned_has_its_print_upright_in_both() -> None:
    """Two stages: 50 in across upright is sewn of two panels, turned it is 30 across and fits."""
    block = {"unit": "grid", "rows": [[patch("50", "30")], [patch("50", "20", "wide")]]}
    top = {"unit": "grid", "rows": [["plot", {"unit": "turned", "turn": 90, "inside": "plot"}]]}
    plan, _ = sew(bed(top, "40", directional=True) | {"blocks": {"plot": block}})
    [panels] = panel_stages(plan)
    by_id = {stage["id"]: stage for stage in plan["stages"]}
    assert panels["count"] == by_id["block.plot"]["count"] == by_id["block.plot.on-its-side"]["count"] == 1
    assert by_id["block.plot"]["needs"] == [panels["id"]] and not by_id["block.plot.on-its-side"]["needs"]


def test_cloth_that_is_wide_enough_has_no_such_stage() -> None:
    assert not panel_stages(sew(bed(GRID, "40"))[0])


def test_joining_panels_takes_minutes() -> None:
    narrow, wide = (sew(bed(GRID, width))[0]["minutes"]["total"]["practised"] for width in ("6", "40"))
    assert narrow > wide
