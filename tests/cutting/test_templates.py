"""Patches that no ruler cuts: planned by their box, named by their template; the rest shares cuts with other units."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

import pytest

from service.craft.document import read_document
from tests.straight_blocks import BLOCKS, CLOTHS, block, document
from workers.cutting.check import check_patches
from workers.cutting.cut_list import list_cuts
from workers.cutting.cuts import Cut
from workers.cutting.recipe import make_cutting_plan
from workers.recipe import JobInput

Rows = list[dict[str, Any]]
PRINT = CLOTHS | {"leaf": CLOTHS["leaf"] | {"directional": True}}


def cuts_of(top: Any, **more: Any) -> list[Cut]:
    return list_cuts(read_document(document(top, **more)))


def by_template(top: Any, **more: Any) -> dict[tuple[str, str], int]:
    """Pieces wanted by cloth and template."""
    found: dict[tuple[str, str], int] = {}
    for cut in cuts_of(top, **more):
        if cut.template:
            found[cut.fabric, cut.template] = found.get((cut.fabric, cut.template), 0) + cut.wanted
    return found


@pytest.mark.parametrize("name", BLOCKS)
def test_every_block_is_cut_and_laid_in_strips(name: str) -> None:
    """The plan stands its own check; every template patch is a polygon with a template's name and a box."""
    _, made = make_cutting_plan(JobInput("cutting", document(block(name, 12))))
    plan = json.loads(made.data)
    planned = {
        piece["cut"] for cloth in plan["fabrics"] for strip in cloth["strips"] for piece in strip["pieces"]
    }
    assert planned == set(range(len(plan["cuts"])))
    for cut in plan["cuts"]:
        assert (cut["shape"] == "polygon") is bool(cut["template"])
        if cut["template"]:
            assert cut["then"].startswith(f"cut with template {cut['template'].removesuffix(' reversed')}")
            assert cut["makes"] == cut["count"] == cut["wanted"]


def test_a_mirrored_block_adds_templates_turned_over() -> None:
    grid = {"unit": "grid", "rows": [["b", {"unit": "mirrored", "inside": "b"}]]}
    assert by_template(grid, blocks={"b": block("slanting stripes", 6)}) == {
        ("frost", "A"): 2,
        ("frost", "A reversed"): 2,
        ("leaf", "B"): 1,
        ("leaf", "B reversed"): 1,
        ("soil", "B"): 1,
        ("soil", "B reversed"): 1,
    }


def test_a_template_turned_is_one_cut_on_plain_cloth() -> None:
    """Eight long triangles of one cloth, turned four ways: one line for each side of the template."""
    cuts = [cut for cut in cuts_of(block("kites", 6)) if cut.fabric == "frost"]
    assert sorted((cut.template, cut.wanted) for cut in cuts) == [("B", 4), ("B reversed", 4)]
    assert all(cut.may_turn for cut in cuts)


def test_a_print_with_a_direction_keeps_the_box_of_each_patch_upright() -> None:
    """A flat diamond and an upright one, of a print: two boxes, nothing turned, and a note that says so."""
    cuts = [c for c in cuts_of(block("storm at sea corner", 6), fabrics=PRINT) if c.fabric == "leaf"]
    assert len(cuts) == 2
    assert (cuts[0].width, cuts[0].height) == (cuts[1].height, cuts[1].width)
    assert not any(cut.may_turn for cut in cuts)
    assert all("print upright" in cut.notes[0] for cut in cuts)


def test_a_block_laid_on_its_side_lays_its_print_on_its_side() -> None:
    diamond = block("diamond in a rectangle", 8)
    (straight,), (turned,) = (
        [cut for cut in cuts_of(top, fabrics=PRINT) if cut.fabric == "leaf"]
        for top in (diamond, {"unit": "turned", "inside": diamond, "turn": 90})
    )
    assert (straight.width, straight.height) == (turned.height, turned.width)


def test_ruler_patches_share_their_cuts_with_other_units() -> None:
    """A nine patch by its corners beside one of plain patches: one line a cloth."""
    plain = {
        "unit": "grid",
        "rows": [
            [{"unit": "patch", "size": ["2", "2"], "fabric": f} for f in row]
            for row in (("leaf", "frost"),) * 3
        ],
    }
    top = {"unit": "grid", "rows": [[block("nine patch", 6), plain]]}
    assert [(cut.fabric, cut.wanted) for cut in cuts_of(top)] == [("frost", 7), ("leaf", 8)]


@pytest.fixture
def answer() -> Callable[[Any], Rows]:
    return lambda top: json.loads(make_cutting_plan(JobInput("cutting", document(top)))[0].data)["cuts"]


def test_the_table_says_what_is_done_with_the_box(answer: Callable[[Any], Rows]) -> None:
    rows = {(row["fabric"], row["template"]): row for row in answer(block("diamond in a rectangle", 8))}
    assert rows["frost", "B reversed"]["then"] == "cut with template B, turned over"
    assert rows["leaf", "A"]["then"] == "cut with template A"


RING = {
    "unit": "fan blade ring",
    "size": ["14", "14"],
    "fabric": "frost",
    "fabrics": ["leaf", "soil", "leaf", "frost"],
    "reach": "6",
    "hole": "1 1/2",
    "centre": {"fabric": "leaf", "size": "3 1/2"},
}


@pytest.mark.parametrize("tips", ["pointed", "flat", "round"])
def test_a_ring_is_cut_as_one_background_its_blades_by_cloth_and_one_centre(tips: str) -> None:
    """The plan stands its own check, which counts the patches of the drawing; two rings take twice as much."""
    cuts = cuts_of(RING | {"tips": tips})
    counted = {(cut.fabric, cut.template): cut.wanted for cut in cuts}
    assert counted == {
        ("frost", ""): 1,
        ("frost", "A"): 5,
        ("leaf", "A"): 10,
        ("soil", "A"): 5,
        ("leaf", "B"): 1,
    }
    [background] = [cut for cut in cuts if not cut.template]
    assert (background.width, background.height) == (14.5, 14.5)
    two = {"unit": "grid", "rows": [["r", {"unit": "turned", "turn": 90, "inside": "r"}]]}
    twice = {(c.fabric, c.template): c.wanted for c in cuts_of(two, blocks={"r": RING | {"tips": tips}})}
    assert twice == {key: 2 * count for key, count in counted.items()}
    for cut in cuts:
        project = read_document(document(RING | {"tips": tips}))
        assert check_patches(project, cuts) == []
        assert check_patches(project, [c for c in cuts if c is not cut]) != []
    make_cutting_plan(JobInput("cutting", document(RING | {"tips": tips})))


def test_a_print_on_blades_runs_along_them() -> None:
    notes = {cut.template: cut.notes for cut in cuts_of(RING, fabrics=PRINT) if cut.fabric == "leaf"}
    assert "turns with the blades" in notes["A"][0]
    assert "print upright" in notes["B"][0]
