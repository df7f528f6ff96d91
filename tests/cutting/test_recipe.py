"""The cutting plan as a whole."""

from __future__ import annotations

import json
from collections import Counter
from copy import deepcopy
from fractions import Fraction

import pytest

from service.craft.document import read_document
from workers.cutting.recipe import KIND, make_cutting_plan
from workers.recipe import CannotMake, JobInput

from .conftest import document, patch, triangle


def cuts_of(plan, fabric, **fields):
    return [
        c
        for c in plan["cuts"]
        if c["fabric"] == fabric and all(c[key] == value for key, value in fields.items())
    ]


def size_of(cut):
    return cut["width"]["text"], cut["height"]["text"]


def test_the_file_is_named_typed_and_of_its_kind(runner):
    for made, name in zip(
        make_cutting_plan(JobInput("cutting", runner)), ("cutting.json", "cutting-studio.json"), strict=True
    ):
        assert (made.name, made.media_type, made.kind) == (name, "application/json", KIND)
    assert KIND == "cutting plan"


def test_the_public_plan_is_the_studios_without_its_shelf_and_purse(runner):
    runner["fabrics"]["frost"] |= {
        "stash": [{"width": "18", "length": "21", "count": 2}],
        "price_per_length": {"amount": "12.50", "per": "36"},
        "sold_as": {"name": "fat quarter", "price": "4.20"},
    }
    public, studio = make_cutting_plan(JobInput("cutting", runner))
    assert (public.public, studio.public) == (True, False)
    shown, whole = json.loads(public.data), json.loads(studio.data)
    assert {"stash", "from_stash", "cost", "left_over"} <= whole["fabrics"][0].keys()
    for cloth in whole["fabrics"]:
        for name in ("stash", "from_stash", "cost", "left_over"):
            cloth.pop(name, None)
            cloth.get("buy_pieces", {}).pop(name, None)
    assert shown == whole


def test_the_same_document_gives_the_same_bytes(runner):
    first, second = (make_cutting_plan(JobInput("cutting", deepcopy(runner))) for _ in range(2))
    assert first == second


def test_every_field_of_the_contract_is_there(runner, plan):
    made = plan(runner)
    for cut in made["cuts"]:
        assert {"fabric", "shape", "width", "height", "count", "then", "makes", "for"} <= set(cut)
        assert cut["shape"] in ("square", "rectangle", "strip", "polygon")
        assert set(cut["width"]) == {"text", "inches", "mm"}
    for cloth in made["fabrics"]:
        lengths = ("length", "buy", "lower_bound", "per_size_rule", "fit_rule")
        assert all(set(cloth[key]) == {"text", "inches", "mm"} for key in lengths)
        assert isinstance(cloth["proved"], bool) and 0 < cloth["used_share"] <= 1
        for strip in cloth["strips"]:
            assert all({"cut", "count", "turned"} == set(piece) for piece in strip["pieces"])
    assert {"binding", "backing", "batting", "fusible"} <= set(made["finishing"])


def test_six_blocks_of_four_half_square_triangles_take_twelve_pairs(runner, plan):
    """24 units of 2 in finished, two at a time: 12 squares of 2 7/8 in of each cloth (rule: f + 7/8)."""
    made = plan(runner)
    for fabric, other in (("frost", "leek green"), ("leaf", "frost white")):
        [cut] = cuts_of(made, fabric, method=f"two at a time with {other}")
        assert (size_of(cut), cut["count"], cut["makes"], cut["then"], cut["for"]) == (
            ("2 7/8 in", "2 7/8 in"),
            12,
            24,
            "",
            ["star"],
        )


def test_setting_triangles_come_from_squares_cut_twice_and_once(runner, plan):
    """b = 6: side 9 3/4, corner 5 1/8 (on-point chart of the tests in tests/outside); 10 sides, 4 corners."""
    made = plan(runner)
    [sides] = cuts_of(made, "leaf", then="cut twice on the diagonal")
    [corners] = cuts_of(made, "leaf", then="cut once on the diagonal")
    assert (size_of(sides)[0], sides["count"], sides["makes"], sides["wanted"]) == ("9 3/4 in", 3, 12, 10)
    assert (size_of(corners)[0], corners["count"], corners["makes"]) == ("5 1/8 in", 2, 4)
    assert sides["for"] == ["top"]


def test_the_rule_of_strips_size_by_size_can_be_reckoned_anew_from_the_cuts_and_whether_they_may_turn(
    runner, plan
):
    """Strips = ceil(pieces / floor(width / piece)), a piece that may turn lying the way that takes less cloth.

    The rule of the trade: vickisfabriccreations.blogspot.com and others, see the tests of strip rules.
    """
    runner["finish"] = {"backing": {"fabric": "frost", "overhang": "4"}}
    made = plan(runner)
    assert {c["may_turn"] for c in made["cuts"] if c["serves"] == "finishing"} == {False}
    assert {c["may_turn"] for c in made["cuts"]} == {True, False}
    for cloth in made["fabrics"]:
        wide, length = cloth["usable_width"]["inches"], 0.0
        for cut in cuts_of(made, cloth["fabric"]):
            lies = [(cut["width"]["inches"], cut["height"]["inches"])]
            lies += [lies[0][::-1]] if cut["may_turn"] else []
            length += min(-(-cut["count"] // (wide // w)) * h for w, h in lies if w <= wide)
        assert length == cloth["per_size_rule"]["inches"]


def test_cuts_stand_cloth_by_cloth_and_the_largest_first(runner, plan):
    cuts = plan(runner)["cuts"]
    assert [c["fabric"] for c in cuts] == sorted((c["fabric"] for c in cuts), key=["frost", "leaf"].index)
    for fabric in ("frost", "leaf"):
        areas = [c["width"]["inches"] * c["height"]["inches"] for c in cuts if c["fabric"] == fabric]
        assert areas == sorted(areas, reverse=True)


def test_a_strip_holds_no_more_than_the_cloth_is_wide_and_every_piece_is_there_once(runner, plan):
    """Counted again here from the file alone, in fractions of the 1/8 in grid."""
    made = plan(runner)
    found = Counter()
    for cloth in made["fabrics"]:
        total = Fraction(0)
        for strip in cloth["strips"]:
            across = []
            for piece in strip["pieces"]:
                cut = made["cuts"][piece["cut"]]
                assert cut["fabric"] == cloth["fabric"]
                w, h = (Fraction(cut[k]["inches"]) for k in ("width", "height"))
                w, h = (h, w) if piece["turned"] else (w, h)
                assert h <= Fraction(strip["height"]["inches"])
                across.append(w * piece["count"])
                found[piece["cut"]] += piece["count"]
            assert sum(across) <= Fraction(cloth["usable_width"]["inches"])
            total += Fraction(strip["height"]["inches"])
        assert total == Fraction(cloth["length"]["inches"])
        assert cloth["lower_bound"]["inches"] <= cloth["length"]["inches"]
        assert cloth["length"] == min(cloth["per_size_rule"], cloth["fit_rule"], key=lambda v: v["inches"])
        assert cloth["proved"] == (cloth["length"] == cloth["lower_bound"])
        assert cloth["buy"]["inches"] >= cloth["length"]["inches"]
    assert found == {i: cut["count"] for i, cut in enumerate(made["cuts"])}


def test_the_patches_made_are_the_patches_drawn(runner, plan):
    """The top's drawing, corner to corner, and the cutting list agree on how many patches each cloth gives."""
    made = plan(runner)
    drawn = Counter(p.fabric for p in read_document(runner).top.patches())
    for fabric in ("frost", "leaf"):
        patches = [c for c in cuts_of(made, fabric) if c["for"] not in (["binding"], ["backing"])]
        assert sum(c["wanted"] for c in patches) == drawn[fabric]
        assert sum(c["makes"] for c in patches) >= drawn[fabric]


def test_a_cloth_added_for_another_patch_changes_nothing_else(star, plan):
    alone = plan(document("star", blocks={"star": star}))
    row = {"unit": "grid", "rows": [["star", patch("6", "6", "soil")]]}
    more = document(row, blocks={"star": star})
    more["fabrics"]["soil"] = {"usable_width": "42"}
    both = plan(more)
    assert [c for c in both["cuts"] if c["fabric"] != "soil"] == alone["cuts"]
    assert [f for f in both["fabrics"] if f["fabric"] != "soil"] == alone["fabrics"]


def test_a_block_used_in_two_places_is_counted_in_both(star, plan):
    row = {
        "unit": "grid",
        "rows": [["star", "star"], ["star", {"unit": "turned", "inside": "star", "turn": 90}]],
    }
    once, four = plan(document("star", blocks={"star": star})), plan(document(row, blocks={"star": star}))
    assert [c["wanted"] * 4 for c in once["cuts"]] == [c["wanted"] for c in four["cuts"]]
    assert {tuple(c["for"]) for c in four["cuts"]} == {("star",)}


def test_a_cut_says_every_block_it_is_for_in_the_order_of_the_top(plan):
    blocks = {"bed": patch("3", "3", "leaf"), "path": {"unit": "grid", "rows": [[patch("3", "3", "leaf")]]}}
    made = plan(document({"unit": "grid", "rows": [["path", "bed", patch("3", "3", "leaf")]]}, blocks=blocks))
    [cut] = made["cuts"]
    assert (cut["count"], cut["for"]) == (3, ["path", "bed", "top"])


def test_borders_and_sashing_say_what_they_are_for(plan):
    inside = {
        "unit": "grid",
        "rows": [[patch("4", "4", "frost")] * 2],
        "sashing": {"width": "1", "fabric": "leaf"},
    }
    made = plan(
        document({"unit": "bordered", "inside": inside, "borders": [{"width": "2", "fabric": "leaf"}]})
    )
    assert [c["for"] for c in cuts_of(made, "leaf")] == [["border"], ["border"], ["sashing"]]


def test_a_lying_and_a_standing_rectangle_are_one_cut_where_the_cloth_has_no_direction(plan):
    top = {
        "unit": "grid",
        "rows": [[patch("4", "2", "frost")], [patch("2", "2", "leaf"), patch("2", "2", "leaf")]],
    }
    top = {"unit": "grid", "rows": [[top, {"unit": "turned", "inside": top, "turn": 90}]]}
    plain = plan(document(top))
    assert [(size_of(c), c["count"]) for c in cuts_of(plain, "frost")] == [(("4 1/2 in", "2 1/2 in"), 2)]
    directional = document(top)
    directional["fabrics"]["frost"]["directional"] = True
    cuts = cuts_of(plan(directional), "frost")
    assert sorted(size_of(c) for c in cuts) == [("2 1/2 in", "4 1/2 in"), ("4 1/2 in", "2 1/2 in")]


@pytest.mark.parametrize("way", ["directional", "napped"])
def test_cloth_with_a_print_or_a_pile_is_never_turned_in_a_strip(runner, plan, way):
    runner["fabrics"]["leaf"][way] = True
    runner["fabrics"]["frost"][way] = True
    made = plan(runner)
    assert not any(p["turned"] for f in made["fabrics"] for s in f["strips"] for p in s["pieces"])
    assert made["finishing"]["backing"]["other_way"] is None


@pytest.mark.parametrize(("way", "kept"), [("directional", "print upright"), ("napped", "pile running down")])
def test_triangles_and_strips_of_a_print_or_a_pile_carry_a_note(runner, plan, way, kept):
    runner["fabrics"]["leaf"][way] = True
    made = plan(runner)
    [sides] = cuts_of(made, "leaf", then="cut twice on the diagonal")
    assert "different directions" in sides["notes"][0]
    upright = [c for c in cuts_of(made, "leaf") if c["shape"] == "strip" and c["for"] == ["border"]]
    assert upright and all(kept in c["notes"][0] and c["notes"][0].startswith(way) for c in upright)


def test_strips_of_a_set_are_no_triangles_that_need_laying_out(plan):
    """A directional strip keeps its print; only triangles come out in different directions."""
    strips = [{"width": "2", "fabric": "leaf"}, {"width": "2", "fabric": "frost"}]
    raw = document({"unit": "strip set", "strips": strips, "cut_into": "2"})
    raw["fabrics"]["leaf"]["directional"] = True
    [cut] = cuts_of(plan(raw), "leaf")
    assert "print upright" in cut["notes"][0]


def test_stars_share_their_strips_and_say_that_the_print_turns(plan):
    """A 12 in star: strips of 3 in, 20 in long, for four diamonds each; three stars take six of one cloth."""
    star = {
        "unit": "eight-pointed star",
        "size": ["12", "12"],
        "diamonds": ["leaf"],
        "background": "frost",
    }
    raw = document({"unit": "grid", "rows": [[star, star, star]]})
    raw["fabrics"]["leaf"]["directional"] = True
    made = plan(raw)
    [cut] = cuts_of(made, "leaf")
    assert (size_of(cut), cut["count"], cut["makes"]) == (("20 in", "3 in"), 6, 24)
    assert "45 degrees" in cut["then"]
    assert "diamonds lie in different directions" in cut["notes"][0]
    assert [c["makes"] for c in cuts_of(made, "frost")] == [12, 12]


def test_side_borders_of_a_directional_cloth_are_cut_along_it_in_one_piece(plan):
    top = {
        "unit": "bordered",
        "inside": patch("10", "60", "frost"),
        "borders": [{"width": "2", "fabric": "leaf"}],
    }
    raw = document(top)
    raw["fabrics"]["leaf"]["directional"] = True
    made = plan(raw)
    assert [(size_of(c), c["count"], c["then"]) for c in cuts_of(made, "leaf")] == [
        (("2 1/2 in", "60 1/2 in"), 2, ""),
        (("14 1/2 in", "2 1/2 in"), 2, ""),
    ]


def test_a_border_longer_than_the_cloth_is_wide_is_joined(plan):
    """60 1/2 in from 40 in cloth: two pieces of 30 1/2, less one seam of two 1/4 in allowances, is 60 1/2."""
    top = {
        "unit": "bordered",
        "inside": patch("10", "60", "frost"),
        "borders": [{"width": "2", "fabric": "leaf"}],
    }
    made = plan(document(top))
    long, short = cuts_of(made, "leaf")
    assert (size_of(long), long["count"], long["makes"], long["then"]) == (
        ("30 1/2 in", "2 1/2 in"),
        4,
        2,
        "join 2 end to end with straight seams",
    )
    assert (size_of(short), short["count"], short["makes"], short["then"]) == (
        ("14 1/2 in", "2 1/2 in"),
        2,
        2,
        "",
    )


def test_joined_strips_that_come_out_long_say_what_to_trim_to(plan):
    """100 3/8 in from 40 in: three of 33 7/8 in come to 100 5/8."""
    top = {
        "unit": "grid",
        "rows": [[patch("99 7/8", "8", "frost")]] * 2,
        "sashing": {"width": "2", "fabric": "leaf"},
    }
    raw = document(top)
    raw["fabrics"]["frost"]["usable_width"] = "110"
    [cut] = cuts_of(plan(raw), "leaf")
    assert (size_of(cut), cut["count"]) == (("33 7/8 in", "2 1/2 in"), 3)
    assert cut["then"] == "join 3 end to end with straight seams, then trim to 100 3/8 in"


def test_half_square_triangles_of_one_cloth_still_take_two_squares(plan):
    made = plan(document(triangle("2", "leaf", "leaf")))
    assert sum(c["count"] for c in made["cuts"]) == 2


def test_pairs_are_shared_whichever_cloth_is_named_first(plan):
    top = {"unit": "grid", "rows": [[triangle("2", "leaf", "frost"), triangle("2", "frost", "leaf")]]}
    assert [c["count"] for c in plan(document(top))["cuts"]] == [1, 1]


def test_two_pairs_with_different_partners_do_not_share_squares(plan):
    top = {"unit": "grid", "rows": [[triangle("2", "leaf", "frost"), triangle("2", "leaf", "soil")]]}
    raw = document(top)
    raw["fabrics"]["soil"] = {}
    leaf = cuts_of(plan(raw), "leaf")
    assert [(c["count"], c["makes"], c["wanted"]) for c in leaf] == [(1, 2, 1), (1, 2, 1)]


def test_same_sizes_for_different_ends_share_a_strip(plan):
    """Nine 4 in squares of two pools fit one strip of 40 in."""
    top = {"unit": "grid", "rows": [[triangle("3 1/8", "leaf", "frost"), triangle("3 1/8", "leaf", "soil")]]}
    raw = document(top)
    raw["fabrics"]["soil"] = {}
    leaf = next(f for f in plan(raw)["fabrics"] if f["fabric"] == "leaf")
    assert [len(s["pieces"]) for s in leaf["strips"]] == [2]


def test_a_triangle_wider_than_its_cloth_is_named_with_its_place(plan):
    """50 in finished from a square of 50 7/8: with a seam in it each triangle would have that elsewhere."""
    raw = document({"unit": "grid", "rows": [[triangle("50", "frost", "leaf", "cut triangles")]]})
    with pytest.raises(CannotMake) as found:
        plan(raw)
    assert found.value.pointer == "/top/rows/0/0"
    assert "50 7/8 in by 50 7/8 in" in found.value.detail and "40 in wide" in found.value.detail
    assert found.value.right


def test_a_piece_too_wide_is_cut_along_the_length(plan):
    [cloth] = plan(document(patch("50", "30", "frost")))["fabrics"]
    assert cloth["strips"] == [
        {"height": cloth["length"], "pieces": [{"cut": 0, "count": 1, "turned": True}]}
    ]
    assert cloth["length"]["text"] == "50 1/2 in"


def test_directional_cloth_too_narrow_for_panels_says_that_another_could_be_turned(plan):
    raw = document(patch("50", "30", "frost"))
    raw["fabrics"]["frost"] |= {"directional": True, "usable_width": "1"}
    with pytest.raises(CannotMake, match="does not fit") as found:
        plan(raw)
    assert "could be turned" in found.value.right


def test_a_document_with_faults_cannot_be_made():
    with pytest.raises(CannotMake, match="no block called"):
        make_cutting_plan(JobInput("cutting", document("leak")))


def test_more_pieces_than_anybody_cuts_are_refused(plan):
    """Nineteen strips of 900 in from pieces that gain 1/8 in each."""
    top = {
        "unit": "grid",
        "rows": [[patch("900", "1", "leaf")]] * 20,
        "sashing": {"width": "1", "fabric": "frost"},
    }
    raw = document(top)
    raw["fabrics"]["frost"]["usable_width"] = "5/8"
    raw["fabrics"]["leaf"]["usable_width"] = "1000"
    with pytest.raises(CannotMake, match="more than 100000 pieces"):
        plan(raw)


def test_metric_documents_are_cut_to_whole_millimetres_and_bought_by_the_tenth_of_a_metre(star, plan):
    raw = document("star", blocks={"star": star}, measure="mm", finish={"binding": {"fabric": "leaf"}})
    text = json.dumps(raw).replace('"2"', '"50"').replace('"40"', '"1050"')
    made = plan(json.loads(text))
    for cut in made["cuts"]:
        assert cut["width"]["mm"] == round(cut["width"]["mm"], 3) == int(cut["width"]["mm"])
    for cloth in made["fabrics"]:
        assert cloth["buy"]["mm"] % 100 == 0
    square = next(c for c in made["cuts"] if c["method"])
    # 50 + 7.5 (2 + √2) = 75.607, up to the millimetre
    assert square["width"]["mm"] == 76


def test_shrinkage_and_price_are_in_what_to_buy(plan):
    raw = document(patch("35 1/2", "35 1/2", "frost"))
    raw["fabrics"]["frost"] |= {"shrinkage": 0.03, "price_per_length": {"amount": "12.50", "per": "36"}}
    [cloth] = plan(raw)["fabrics"]
    # 36 / 0.97 = 37.113 in (purchase = need / (1 - p), arithmetic); shops cut eighths of a yard, 4 1/2 in
    assert (cloth["length"]["text"], cloth["buy"]["text"], cloth["cost"]) == ("36 in", "40 1/2 in", 14.06)


def test_a_stash_is_carried_along(plan):
    raw = document(patch("4", "4", "frost"))
    raw["fabrics"]["frost"]["stash"] = [{"width": "18", "length": "21", "count": 2}]
    [cloth] = plan(raw)["fabrics"]
    assert [(s["width"]["text"], s["length"]["text"], s["count"]) for s in cloth["stash"]] == [
        ("18 in", "21 in", 2)
    ]


GEESE = {
    "unit": "flying geese",
    "size": ["4", "2"],
    "goose": "leaf",
    "sky": "frost",
    "method": "four at a time",
}


@pytest.mark.parametrize(("wanted", "large", "small"), [(1, 1, 4), (4, 1, 4), (5, 2, 8), (8, 2, 8)])
def test_geese_four_at_a_time_come_in_sets_of_one_large_and_four_small_squares(plan, wanted, large, small):
    """members.shaw.ca/beverlysquiltingpage ffg: 1 square of 5 1/4 and 4 of 2 7/8 give four of 4 by 2 in."""
    made = plan(document({"unit": "grid", "rows": [[GEESE]] * wanted}))
    [goose], [sky] = cuts_of(made, "leaf"), cuts_of(made, "frost")
    assert (goose["count"], goose["makes"], sky["count"], sky["makes"]) == (
        large,
        4 * large,
        small,
        2 * small,
    )
    assert (size_of(goose)[0], size_of(sky)[0]) == ("5 1/4 in", "2 7/8 in")
    assert sky["method"] == "four at a time with leek green"


def strip_set(wanted, length="10"):
    strips = [{"width": "1", "fabric": fabric} for fabric in ("leaf", "frost", "leaf")]
    unit = {"unit": "strip set", "strips": strips, "length": length, "cut_into": "2"}
    return document({"unit": "grid", "rows": [[unit]] * wanted})


@pytest.mark.parametrize(("wanted", "sets"), [(1, 1), (4, 1), (5, 2)])
def test_strip_sets_take_whole_sets_of_strips(plan, wanted, sets):
    """10 in long, cut into pieces of 2 1/2 in: four a set. Two of the three strips are leaf."""
    made = plan(strip_set(wanted))
    [leaf], [frost] = cuts_of(made, "leaf"), cuts_of(made, "frost")
    assert (leaf["count"], frost["count"], leaf["makes"]) == (2 * sets, sets, 8 * sets)
    assert size_of(leaf) == ("10 in", "1 1/2 in") and leaf["shape"] == "strip"
    assert leaf["then"] == "sew into strip sets, then cut into pieces of 2 1/2 in"


def test_strips_of_a_set_longer_than_the_cloth_are_joined_and_still_cut(plan):
    [frost] = cuts_of(plan(strip_set(1, length="60")), "frost")
    assert frost["count"] == 2
    joined, sewn = frost["then"].split("; ")
    assert joined == "join 2 end to end with straight seams"
    assert sewn == "sew into strip sets, then cut into pieces of 2 1/2 in"


def test_hourglasses_come_two_from_a_pair_of_squares(plan):
    """K. Combs, Formulas for Quilters, 2002: 3 in finished from squares of 4 1/4 in."""
    unit = {
        "unit": "quarter-square triangle",
        "size": ["3", "3"],
        "fabrics": ["leaf", "frost", "leaf", "frost"],
    }
    made = plan(
        document({"unit": "grid", "rows": [[unit, unit, {"unit": "turned", "inside": unit, "turn": 90}]]})
    )
    assert [(size_of(c)[0], c["count"], c["makes"], c["wanted"]) for c in made["cuts"]] == [
        ("4 1/4 in", 2, 8, 6)
    ] * 2
