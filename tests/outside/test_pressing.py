"""The order of sewing and the way seams are pressed, against what the trade teaches.

Rows and borders: common practice, no source. To the dark: joomag quilting magazine, issue 5, p. 18. Spinning where four
or more seams meet: sewitbetter.com/gallery/tips.htm. Away from the goose: rebeccagracequilting.com 2017/07.
"""

from __future__ import annotations

import json
from typing import Any

import pytest

from workers.recipe import JobInput
from workers.sewing.recipe import make_sewing_plan

CLOTHS = {
    "frost": {"name": "frost white", "colour": "#eef1ee"},
    "leaf": {"name": "leek green", "colour": "#5f8f4e"},
    "soil": {"name": "soil brown dot", "colour": "#5b4636"},
}
PLAIN = {"unit": "patch", "size": ["3 1/2", "3 1/2"], "fabric": "frost"}
CORNERED = {
    "unit": "corner squares",
    "size": ["3 1/2", "3 1/2"],
    "fabric": "frost",
    "corners": {"size": "1", "fabric": "leaf", "at": ["nw", "ne", "se", "sw"]},
}
NINE = {
    "unit": "grid",
    "rows": [[CORNERED, PLAIN, CORNERED], [PLAIN, CORNERED, PLAIN], [CORNERED, PLAIN, CORNERED]],
}


def sew(top: Any, blocks: dict[str, Any] | None = None) -> tuple[dict[str, Any], list[dict[str, Any]]]:
    """The plan and the first track's steps."""
    document = {"title": "Leek bed", "fabrics": CLOTHS, "blocks": blocks or {}, "top": top}
    files = make_sewing_plan(JobInput("sewing", document))
    plan, steps = (json.loads(file.data) for file in files[:2])
    return plan, steps["steps"]


def pressed(plan: dict[str, Any], kind: str) -> list[list[str]]:
    """How the seams of each stage of a kind are pressed."""
    stages = [stage["id"] for stage in plan["stages"] if stage["kind"] == kind]
    return [[seam["press"] for seam in plan["seams"] if seam["stage"] == stage] for stage in stages]


def test_the_rows_of_the_nine_patch_fall_in_out_in_and_nest() -> None:
    """Five corner-square units and four plain ones: outer rows inward, the middle row outward, all four junctions
    nested; 20 corner squares (common practice, no source)."""
    plan, steps = sew(NINE)
    rows = {stage["title"]: stage["count"] for stage in plan["stages"] if stage["kind"] == "row"}
    assert rows == {"Rows 1 and 3 of the top": 2, "Row 2 of the top": 1}
    by_title = {
        stage["title"]: [seam["press"] for seam in plan["seams"] if seam["stage"] == stage["id"]]
        for stage in plan["stages"]
    }
    assert by_title["Rows 1 and 3 of the top"] == ["right", "left"]
    assert by_title["Row 2 of the top"] == ["left", "right"]
    assert (plan["junctions"]["count"], plan["junctions"]["not_nesting"]) == (4, [])
    assert plan["junctions"]["least_proved"] is True
    assert any("20 squares of leek green" in step["text"] for step in steps)


def test_the_first_pair_of_border_strips_is_the_shorter_one_and_its_sides_take_triangles_first() -> None:
    """A nine patch of 10 1/2 in finished, framed with strips cut 1 1/2 in: the first pair 11 in long, the second 13 in;
    then triangles, first on the sides whose border lies under the other (common practice, no source)."""
    framed = {
        "unit": "bordered",
        "inside": "nine",
        "borders": [{"width": "1", "fabric": "soil", "first": "top and bottom"}],
    }
    plan, steps = sew(
        {"unit": "square in a square", "inside": "framed", "fabric": "leaf"}, {"nine": NINE, "framed": framed}
    )
    sizes = [
        (stage["size"]["width"]["inches"], stage["size"]["height"]["inches"])
        for stage in plan["stages"]
        if stage["kind"] == "border pair"
    ]
    assert sizes == [(11.0, 13.0), (13.0, 13.0)]
    said = " ".join(step["text"] for step in steps)
    # the first pair lies at the top and the bottom; on its corner, the top lies at the upper right
    assert (
        "triangle to each of the sides at the upper right and lower left, whose border strips end under"
        in said
    )
    assert pressed(plan, "border pair") == [["up", "down"], ["left", "right"]]


@pytest.mark.parametrize("around", [True, False])
def test_sashing_takes_every_seam_and_every_junction_nests(around: bool) -> None:
    """Press towards the sashing (common practice, no source)."""
    sashing = {"width": "1", "fabric": "soil", "around": around}
    top = {"unit": "grid", "rows": [[PLAIN] * 3] * 3, "sashing": sashing, "cornerstones": "leaf"}
    plan, _ = sew(top)
    assert {seam["towards"] for seam in plan["seams"]} == {"the sashing"}
    assert plan["junctions"]["count"] > 0
    assert plan["junctions"]["not_nesting"] == []


def test_seams_fall_away_from_the_goose() -> None:
    """Flying geese are pressed towards the sky."""
    goose = {
        "unit": "flying geese",
        "size": ["6", "3"],
        "goose": "soil",
        "sky": "frost",
        "method": "cut triangles",
    }
    plan, _ = sew({"unit": "grid", "rows": [[goose], [goose]]})
    assert pressed(plan, "flying geese") == [["up", "up"]]


def test_blocks_on_point_are_pressed_to_their_triangles_and_nest() -> None:
    """Setting triangles are plain and take the seams (common practice, no source); repeated odd blocks nest too."""
    odd = {
        "unit": "grid",
        "rows": [[PLAIN, CORNERED], [{"unit": "patch", "size": ["7", "2"], "fabric": "leaf"}]],
    }
    plain_top = {"unit": "grid", "rows": [[PLAIN, CORNERED], [CORNERED, PLAIN]]}
    for block in (odd | {"rows": [[PLAIN, CORNERED], [CORNERED, CORNERED]]}, plain_top):
        top = {
            "unit": "on point",
            "rows": [["b"] * 3] * 3,
            "alternate": "b",
            "side": "soil",
            "corner": "soil",
        }
        plan, _ = sew(top, {"b": block})
        ends = [
            s["towards"] for s in plan["seams"] if ".diagonal." in s["stage"] and "blocks" not in s["stage"]
        ]
        assert set(ends) == {"the setting triangle"}
        assert plan["junctions"]["not_nesting"] == []


def test_four_triangles_that_meet_in_the_middle_are_spun() -> None:
    """A pinwheel and a quarter-square triangle; the step warns of the ripper, and of bulk where eight ends meet."""
    half = {"unit": "half-square triangle", "size": ["3", "3"], "fabrics": ["frost", "leaf"]}

    def turn(by: int) -> dict[str, Any]:
        return {"unit": "turned", "inside": half, "turn": by}

    wheel = {"unit": "grid", "rows": [[turn(90), turn(180)], [half, turn(270)]]}
    plan, steps = sew(wheel)
    (seam,) = [seam for seam in plan["seams"] if seam["stage"] == "top"]
    assert (seam["press"], seam["layers"]) == ("spun", 8)
    assert {half["press"] for half in seam["halves"]} == {"up", "down"}
    (loosen,) = [step for step in steps if step["id"] == "piecing.top.loosen"]
    assert "Seam ripper" in loosen["caution"]
    (step,) = [step for step in steps if step["id"] == "piecing.top.press"]
    assert step["text"].startswith("Spin the last seam")
    assert "Many layers" in step["caution"]
    quarter = {
        "unit": "quarter-square triangle",
        "size": ["3", "3"],
        "fabrics": ["frost", "leaf", "frost", "leaf"],
    }
    plan, steps = sew(quarter)
    assert [seam["press"] for seam in plan["seams"]][-1] == "spun"
    assert not any("Many layers" in step["caution"] for step in steps)


def test_units_are_made_in_batches_before_rows_rows_before_joins() -> None:
    """Cut, sew all units, press all, then rows, then joins: five sewing visits would be a stage each; one visit holds
    all units that are ready (common practice, no source)."""
    plan, _ = sew(NINE)
    visits = plan["trips"]["visits"]
    kinds = {stage["id"]: stage["kind"] for stage in plan["stages"]} | {"cutting": "cutting"}
    assert [(visit["at"], {kinds[stage] for stage in visit["stages"]}) for visit in visits] == [
        ("mat", {"cutting"}),
        ("machine", {"corner squares"}),
        ("iron", {"corner squares"}),
        ("machine", {"row"}),
        ("iron", {"row"}),
        ("machine", {"rows"}),
        ("iron", {"rows"}),
    ]
    assert plan["trips"]["least_proved"] is True
