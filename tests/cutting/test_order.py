"""The cutting order: every cut once, long cuts before short ones, the largest pieces first, diagonals last."""

from __future__ import annotations

import json
from collections import Counter

import pytest
from hypothesis import HealthCheck, given, settings

from workers.cutting.recipe import make_cutting_plan
from workers.recipe import CannotMake, JobInput

from .conftest import document, patch, triangle
from .test_applique import bed, piece
from .test_applique import plan as plan_with_pieces
from .test_random_tops import documents


def followed(cloth):
    return (cloth["simple"] if cloth["follow"] == "simple" else cloth)["strips"]


def lines_of(made, fabric, action=None):
    return [o for o in made["order"] if o["fabric"] == fabric and action in (None, o["action"])]


def area(cut):
    return cut["width"]["inches"] * cut["height"]["inches"]


def assert_order_holds(made):
    """What has to be true of any order, counted from the file alone."""
    assert [line["number"] for line in made["order"]] == list(range(1, len(made["order"]) + 1))
    cut_off = Counter()
    for line in made["order"]:
        cut_off.update({entry["cut"]: entry["count"] for entry in line["cuts"]})
    assert cut_off == Counter({number: cut["count"] for number, cut in enumerate(made["cuts"])})
    for cloth in made["fabrics"]:
        assert_cloth_holds(made, cloth)


def assert_cloth_holds(made, cloth):
    fabric, strips = cloth["fabric"], followed(cloth)
    actions = [line["action"] for line in lines_of(made, fabric)]
    long_cuts = [i for i, action in enumerate(actions) if action == "strips"]
    assert long_cuts == list(range(long_cuts[0], long_cuts[0] + len(long_cuts)))
    assert not {"pieces", "diagonal"} & set(actions[: long_cuts[-1]])
    listed = [number for line in lines_of(made, fabric, "strips") for number in line["strips"]]
    assert listed == list(range(len(strips)))
    heights = [strip["height"]["inches"] for strip in strips]
    assert heights == sorted(heights, reverse=True)
    largest = [max(area(made["cuts"][e["cut"]]) for e in o["cuts"]) for o in lines_of(made, fabric, "pieces")]
    assert largest == [] or largest[0] == max(largest)
    for line in lines_of(made, fabric, "pieces"):
        runs = {run["cut"] for run in strips[line["strip"]]["pieces"]}
        assert {entry["cut"] for entry in line["cuts"]} <= runs


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(documents())
def test_any_plan_has_an_order_with_every_cut_once_and_the_long_cuts_first(raw):
    try:
        [made] = [m for m in make_cutting_plan(JobInput("cutting", raw)) if m.name == "cutting.json"]
    except CannotMake:
        return
    assert_order_holds(json.loads(made.data))


def test_the_pieces_of_applique_are_in_the_order_too():
    made = plan_with_pieces(bed(*(piece(f"bed {n}", "leaf") for n in range(3)), piece("cloud", "fleece")))
    assert_order_holds(made)
    texts = [line["text"] for line in lines_of(made, "fleece")]
    assert texts == [
        "With scissors, cut off strip 1, 3 in wide. Leave it folded.",
        "From strip 1 cut with scissors 1 rectangle of 6 × 3 in, for the cloud.",
    ]


def test_pieces_lie_in_a_strip_in_the_order_they_are_cut(runner, plan):
    made = plan(runner)
    for cloth in made["fabrics"]:
        for strip in followed(cloth):
            areas = [area(made["cuts"][run["cut"]]) for run in strip["pieces"]]
            assert areas == sorted(areas, reverse=True)


def test_squares_are_cut_on_the_diagonal_once_all_of_them_are_cut(runner, plan):
    """Three squares give twelve triangles for ten sides, two give the four corners."""
    made = plan(runner)
    lines = lines_of(made, "leaf")
    halved = [line for line in lines if line["action"] == "diagonal"]
    assert [line["text"] for line in halved] == [
        "Cut all 3 squares of 9 3/4 in twice on the diagonal, without moving the pieces in between: 12 triangles.",
        "Cut both squares of 5 1/8 in once on the diagonal: 4 triangles.",
    ]
    for line, then in zip(halved, ("twice", "once"), strict=True):
        [number] = [n for n, c in enumerate(made["cuts"]) if c["then"] == f"cut {then} on the diagonal"]
        before = [o for o in lines[: lines.index(line)] for e in o["cuts"] if e["cut"] == number]
        assert (
            sum(e["count"] for o in before for e in o["cuts"] if e["cut"] == number)
            == made["cuts"][number]["count"]
        )


def test_a_strip_that_is_its_own_piece_is_laid_aside_whole_and_never_cut_across(runner, plan):
    made = plan(runner)
    binding = next(n for n, cut in enumerate(made["cuts"]) if cut["for"] == ["binding"])
    [line] = [o for o in made["order"] for e in o["cuts"] if e["cut"] == binding]
    assert (line["action"], line["keep_folded"]) == ("strips", True)
    assert line["text"].endswith("for the binding. Leave them folded and lay them aside whole.")


def test_strips_of_a_strip_set_stay_whole_and_folded(plan):
    strips = {
        "unit": "strip set",
        "strips": [{"width": "2", "fabric": "frost"}, {"width": "2", "fabric": "leaf"}],
        "length": "30",
        "cut_into": "4",
    }
    [line] = lines_of(plan(document(strips)), "frost", "pieces")
    assert line["text"].endswith("Leave it whole until the strip set is sewn.")
    assert line["keep_folded"]


def test_a_strip_for_pieces_wider_than_half_the_cloth_is_opened_out(plan):
    made = plan(document(patch("30", "3", "leaf")))
    [line] = lines_of(made, "leaf", "strips")
    assert (line["text"], line["keep_folded"]) == (
        "Cut strip 1, 3 1/2 in wide. Open it out before it is cut across.",
        False,
    )


@pytest.mark.parametrize(
    ("count", "folded"),
    [(2, True), (9, True), (11, False)],
    ids=["in pairs", "one to spare", "no room for a spare one"],
)
def test_a_strip_stays_folded_where_every_cut_may_make_two(plan, count, folded):
    """Squares of 3 1/2 in on 40 in: twelve of them come to 42 in, so eleven are cut from the open strip."""
    made = plan(document({"unit": "grid", "rows": [[patch("3", "3", "leaf")] * count]}))
    [line] = lines_of(made, "leaf", "strips")
    assert line["keep_folded"] is folded


def test_strips_of_one_height_are_cut_in_one_line_whatever_is_cut_from_them(plan):
    """Ten squares of 3 1/2 in, and two pieces 15 1/2 in long: both strips are 3 1/2 in wide, and both stay folded."""
    top = {"unit": "grid", "rows": [[patch("3", "3", "leaf")] * 10, [patch("15", "3", "leaf")] * 2]}
    lines = lines_of(plan(document(top)), "leaf", "strips")
    assert [(line["text"], line["strips"]) for line in lines] == [
        ("Cut strips 1 and 2, each 3 1/2 in wide. Leave them folded.", [0, 1])
    ]


def test_a_piece_lower_than_its_strip_is_trimmed(plan):
    top = {"unit": "grid", "rows": [[patch("5", "5", "leaf")], [patch("5", "2", "leaf")]]}
    texts = [line["text"] for line in lines_of(plan(document(top)), "leaf", "pieces")]
    assert texts == [
        "From strip 1 cut 1 square of 5 1/2 in, for the top.",
        "From strip 1 cut 1 rectangle of 5 1/2 × 2 1/2 in, for the top. The strip is higher: trim it to 2 1/2 in.",
    ]


def test_the_plan_says_what_a_rotary_cutter_can_do(plan):
    """Basis: extension-service and school safety sheets for rotary cutters."""
    [caution] = plan(document(triangle("3", "frost", "leaf")))["cautions"]
    assert "close the guard after every cut" in caution and "away from your body" in caution
