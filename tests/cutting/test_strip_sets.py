"""Strip sets of the usual patterns against numbers worked out by hand: strips, sets, pieces of a set.

Cloth 42 in wide, so a set is 42 in long; a piece c finished is cut c + 1/2 in.
"""

from __future__ import annotations

import json
from typing import Any

import pytest

from workers.cutting.recipe import make_cutting_plan
from workers.recipe import JobInput
from workers.sewing.recipe import make_sewing_plan

LEAF, FROST, SOIL = "leaf", "frost", "soil"
CLOTHS = {key: {"name": key, "usable_width": "42"} for key in (LEAF, FROST, SOIL)}


def strips(width: str, cut_into: str, *cloths: str) -> dict[str, Any]:
    listed = [{"width": width, "fabric": cloth} for cloth in cloths]
    return {"unit": "strip set", "strips": listed, "cut_into": cut_into}


def turned(inside: Any, turn: int) -> dict[str, Any]:
    return {"unit": "turned", "inside": inside, "turn": turn}


def grid(*rows: list[Any]) -> dict[str, Any]:
    return {"unit": "grid", "rows": list(rows)}


def many(block: Any, columns: int, rows: int) -> dict[str, Any]:
    return grid(*[[block] * columns] * rows)


def rail_fence() -> dict[str, Any]:
    """30 rails, turned in turn: pieces cut 5 in, 8 of a set of 42 in; 4 sets give 32. Each cloth: 4 strips of 2 in."""
    rail = strips("1 1/2", "4 1/2", LEAF, FROST, SOIL)
    return grid(*[[turned(rail, 90) if (x + y) % 2 else rail for x in range(6)] for y in range(5)])


def four_patch() -> dict[str, Any]:
    """24 blocks of 2 in squares: 48 pieces cut 2 1/2 in, 16 of a set; 3 sets, so 3 strips of either cloth."""
    pair = strips("2", "2", LEAF, FROST)
    return many(grid([pair], [turned(pair, 180)]), 6, 4)


def nine_patch() -> dict[str, Any]:
    """20 blocks of 2 in squares: 40 outer rows of 3 sets (48), 20 middle rows of 2 (32).

    Leaf: 2 strips in each of 3 sets and 1 in each of 2, 8; frost: 1 in each of 3 and 2 in each of 2, 7.
    """
    outer, middle = strips("2", "2", LEAF, FROST, LEAF), strips("2", "2", FROST, LEAF, FROST)
    return many(grid([outer], [middle], [outer]), 5, 4)


def checkerboard() -> dict[str, Any]:
    """4 boards of 8 by 8 squares of 1 1/2 in: 32 rows cut 2 in, 21 of a set; 2 sets of 8 strips, 8 of either cloth."""
    row = strips("1 1/2", "1 1/2", *(LEAF, FROST) * 4)
    return many(grid(*[[row], [turned(row, 180)]] * 4), 2, 2)


def written_both_ways() -> dict[str, Any]:
    """The four patches with the second row written from its other end: it is the same set, turned about."""
    return many(grid([strips("2", "2", LEAF, FROST)], [strips("2", "2", FROST, LEAF)]), 5, 4)


EXPECTED: dict[str, Any] = {
    "rail fence": (rail_fence, {LEAF: 4, FROST: 4, SOIL: 4}, "2 in", [(4, 30, 8)]),
    "four patch": (four_patch, {LEAF: 3, FROST: 3}, "2 1/2 in", [(3, 48, 16)]),
    "nine patch": (nine_patch, {LEAF: 8, FROST: 7}, "2 1/2 in", [(3, 40, 16), (2, 20, 16)]),
    "checkerboard": (checkerboard, {LEAF: 8, FROST: 8}, "2 in", [(2, 32, 21)]),
    "written both ways": (written_both_ways, {LEAF: 3, FROST: 3}, "2 1/2 in", [(3, 40, 16)]),
}


def document(top: Any) -> dict[str, Any]:
    return {"title": "Bed", "fabrics": CLOTHS, "top": top, "tracks": [{"name": "by hand", "has": []}]}


@pytest.mark.parametrize("name", EXPECTED)
def test_as_many_strips_are_cut_as_the_sets_take(name: str) -> None:
    """Each as long as the cloth is wide, finished width and two allowances wide."""
    make, counts, width, _ = EXPECTED[name]
    _, made = make_cutting_plan(JobInput("cutting", document(make())))
    cuts = json.loads(made.data)["cuts"]
    found: dict[str, int] = {}
    for cut in cuts:
        assert cut["shape"] == "strip"
        assert {cut["width"]["text"], cut["height"]["text"]} == {"42 in", width}
        found[cut["fabric"]] = found.get(cut["fabric"], 0) + cut["count"]
    assert found == counts


@pytest.mark.parametrize("name", EXPECTED)
def test_the_steps_say_how_many_sets_are_sewn_and_into_how_many_pieces_each_is_cut(name: str) -> None:
    make, _, _, sets = EXPECTED[name]
    files = make_sewing_plan(JobInput("sewing", document(make())))
    steps = json.loads(next(f.data for f in files if f.name.startswith("steps-")))["steps"]
    laid = [s for s in steps if s["id"].startswith("piecing.strip-set") and s["id"].endswith(".lay")]
    said = sorted((s["text"].rpartition("You need ")[2], s["why"].partition(",")[0]) for s in laid)
    expected = [
        (f"{count} sets for {pieces} pieces.", f"Each set is cut into {each} pieces")
        for count, pieces, each in sets
    ]
    assert said == sorted(expected)
