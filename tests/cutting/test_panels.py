"""Pieces wider than their cloth come of panels side by side.

The panel model is that of backs in the tests outside: k panels give k times the usable width less two seam allowances
for each of k - 1 seams. That panels of one piece are equal is our own choice; no source.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.craft.document import read_document
from service.craft.fabric import Fabric
from service.craft.joining import join_panels
from service.craft.panels import find_panels
from service.craft.units.base import CuttingRules, Need
from workers.cutting.check import check_plan
from workers.cutting.cut_list import list_cuts
from workers.cutting.recipe import plan_cloths

from .conftest import document, patch

EIGHTH, SEAM = Fraction(1, 8), Fraction(1, 4)
RULES = CuttingRules(SEAM, EIGHTH)
SIXTY = {"text": "60 1/2 in", "inches": 60.5, "mm": 1536.7}
sides = st.integers(8, 1600).map(lambda n: n * EIGHTH)
widths = st.integers(12, 480).map(lambda n: n * EIGHTH)


def on(width: str, size: tuple[str, str], **cloth):
    """A document of one patch on cloth of that usable width."""
    raw = document(patch(*size, "frost"))
    raw["fabrics"]["frost"] |= {"usable_width": width, **cloth}
    return raw


def test_a_square_of_60_on_40_in_cloth_is_two_panels_of_30_and_a_half(plan):
    """Worked by hand, common practice, no source: 60 + 1/2 = 60 1/2 to cut; two of 40 less one seam of 1/2 are
    79 1/2, enough; (60 1/2 + 1/2) / 2 = 30 1/2 each; along the roll 2 x 60 1/2 = 121 in.
    """
    made = plan(on("40", ("60", "60")))
    [cut], [cloth] = made["cuts"], made["fabrics"]
    assert (cut["width"]["text"], cut["height"]["text"], cut["count"]) == ("30 1/2 in", "60 1/2 in", 2)
    assert (cut["makes"], cut["wanted"], cut["may_turn"]) == (1, 1, False)
    assert cut["then"] == "join 2 side by side with straight 1/4 in seams, pressed open"
    assert cut["join"] == {
        "seams": "straight",
        "pieces": 2,
        "joined": SIXTY,
        "laid": "side by side",
        "gives": [{"width": SIXTY, "height": SIXTY, "makes": 1}],
        "seam_allowance": {"text": "1/4 in", "inches": 0.25, "mm": 6.35},
        "trim_to": SIXTY,
    }
    assert cloth["length"]["text"] == cloth["lower_bound"]["text"] == "121 in" and cloth["proved"]


@pytest.mark.parametrize(
    ("usable", "size", "panels", "each", "length"),
    [
        ("40", ("39 5/8", "39 5/8"), 2, "20 3/8 in", "80 1/4 in"),
        ("12", ("60", "60"), 6, "10 1/2 in", "363 in"),
        ("4", ("8", "8"), 3, "3 1/4 in", "25 1/2 in"),
        # 50 across: 2 x 70 1/2 = 141; 70 across: 2 x 50 1/2 = 101
        ("40", ("50", "70"), 2, "35 1/2 in", "101 in"),
        # 79 in finished is cut 79 1/2 = 2 x 40 - 1/2: it just goes; 79 1/8 takes a third
        ("40", ("79", "79"), 2, "40 in", "159 in"),
        ("40", ("79 1/8", "79 1/8"), 3, "26 7/8 in", "238 7/8 in"),
    ],
)
def test_panels_by_hand(plan, usable, size, panels, each, length):
    """The fewest, the direction that takes less; each up to 1/8 of (cut + seams) / panels. Arithmetic, no source."""
    made = plan(on(usable, size))
    [cut], [cloth] = made["cuts"], made["fabrics"]
    assert (cut["count"], cut["width"]["text"], cloth["length"]["text"]) == (panels, each, length)


@pytest.mark.parametrize("which", ["directional", "napped"])
def test_cloth_with_a_direction_is_pieced_upright_though_turned_it_would_fit(plan, which):
    """50 across and 30 down: 50 1/2 is two of 25 1/2; along the roll 2 x 30 1/2 = 61 in."""
    made = plan(on("40", ("50", "30"), **{which: True}))
    [cut], [cloth] = made["cuts"], made["fabrics"]
    assert (cut["width"]["text"], cut["height"]["text"], cut["count"]) == ("25 1/2 in", "30 1/2 in", 2)
    assert cloth["length"]["text"] == "61 in"
    assert any("panels stand side by side, none turned" in note for note in cut["notes"])
    assert not any(piece["turned"] for strip in cloth["strips"] for piece in strip["pieces"])


def test_the_trim_is_told_where_the_panels_come_out_wider(plan):
    """60 1/8 to cut needs 60 5/8 in two: 30 5/16 is 30 3/8 on the ruler, 60 1/4 joined."""
    [cut] = plan(on("40", ("59 5/8", "59 5/8")))["cuts"]
    assert cut["then"].endswith("pressed open, then trim to 60 1/8 in wide")
    assert (cut["join"]["joined"]["text"], cut["join"]["trim_to"]["text"]) == ("60 1/4 in", "60 1/8 in")


def test_the_order_speaks_of_panels_and_keeps_them_together(plan):
    texts = [line["text"] for line in plan(on("40", ("60", "60")))["order"]]
    assert any("cut 2 panels of 30 1/2 × 60 1/2 in, for the top" in text for text in texts)
    assert any("Keep them together: they are joined later" in text for text in texts)


def test_bases_of_corner_squares_cornerstones_and_the_corners_themselves_are_pieced(plan):
    """On 6 in cloth: a base of 12 1/2, corners of 6 1/2, cornerstones of 8 1/2. 12 1/2 is three of 4 1/2, the others
    two (3 1/2, 4 1/2). Six cornerstones, and seven strips of 8 1/2 by 12 1/2: 2 x 12 1/2 is less than 3 x 8 1/2.
    """
    base = {
        "unit": "corner squares",
        "size": ["12", "12"],
        "fabric": "frost",
        "corners": {"size": "6", "fabric": "leaf", "at": ["nw"]},
    }
    sashing = {"width": "8", "fabric": "leaf", "around": True}
    top = {"unit": "grid", "rows": [[base, base]], "sashing": sashing, "cornerstones": "frost"}
    raw = document(top)
    for cloth in raw["fabrics"].values():
        cloth["usable_width"] = "6"
    cuts = [c for c in plan(raw)["cuts"] if c["join"] and c["join"]["laid"] == "side by side"]
    found = {
        (c["join"]["trim_to"]["text"], c["join"]["pieces"], c["width"]["text"], c["count"]) for c in cuts
    }
    assert found == {
        ("12 1/2 in", 3, "4 1/2 in", 6),
        ("6 1/2 in", 2, "3 1/2 in", 4),
        ("8 1/2 in", 2, "4 1/2 in", 12),
        ("8 1/2 in", 2, "4 1/2 in", 14),
    }


def test_a_border_wider_than_its_cloth_is_pieced_as_it_is_asked_to_lie(plan):
    """A border 8 in wide along the length of 6 in cloth: 8 1/2 is two of 4 1/2, each as long as the border."""
    border = {"width": "8", "fabric": "leaf", "cut": "along the length"}
    raw = document({"unit": "bordered", "inside": patch("20", "20", "frost"), "borders": [border]})
    raw["fabrics"]["leaf"]["usable_width"] = "6"
    leaf = [c for c in plan(raw)["cuts"] if c["fabric"] == "leaf"]
    assert leaf and all(c["shape"] == "strip" and c["width"]["text"] == "4 1/2 in" for c in leaf)
    assert all(c["join"]["laid"] == "side by side" and c["grain"] == "along the length" for c in leaf)


def test_where_a_diagonal_join_has_no_room_a_wide_border_is_joined_straight(plan):
    """A border of 45 in on 40 in cloth: a diagonal join takes the strip's width, more than there is."""
    border = {"width": "45", "fabric": "leaf"}
    top = {"unit": "bordered", "inside": patch("60", "60", "frost"), "borders": [border]}
    leaf = [c for c in plan(document(top, cutting={"join": "diagonal"}))["cuts"] if c["fabric"] == "leaf"]
    assert any(c["join"] for c in leaf)
    assert all(c["join"]["seams"] == "straight" for c in leaf if c["join"])


def test_panels_are_cut_from_the_stash_and_counted_as_too_large_for_fat_quarters(plan):
    """Two panels of 12 3/4 by 25 from a piece of 26 by 26; from a fat quarter of 18 by 22 neither way."""
    cloth = {
        "stash": [{"width": "26", "length": "26", "count": 1}],
        "sold_as": {"name": "fat quarter"},
    }
    [told] = plan(on("20", ("24 1/2", "24 1/2"), **cloth))["fabrics"]
    assert told["from_stash"]["enough"] and len(told["from_stash"]["pieces"]) == 1
    assert told["buy_pieces"]["too_large"] == [0]


@given(wanted=sides, usable=widths)
def test_panels_less_their_seams_are_the_piece_none_wider_than_the_cloth_or_a_sliver(wanted, usable):
    joined = join_panels(wanted, usable, seam_allowance=SEAM, round_to=EIGHTH)
    assert joined is not None and joined.length <= usable
    sewn = joined.length * joined.pieces - 2 * SEAM * (joined.pieces - 1)
    assert wanted <= sewn == joined.total < wanted + joined.pieces * EIGHTH
    assert joined.pieces == 1 or joined.length > usable / 2


@given(width=sides, height=sides, usable=widths, directional=st.booleans())
def test_the_way_that_takes_less_is_chosen_and_a_print_is_never_turned(width, height, usable, directional):
    cloth = Fabric("frost", "frost", "#ffffff", usable, directional=directional)
    panels = find_panels(Need("frost", width, height), cloth, RULES)
    assert panels is not None
    turned = find_panels(Need("frost", height, width), replace(cloth, directional=True), RULES)
    upright = find_panels(Need("frost", width, height), replace(cloth, directional=True), RULES)
    assert turned is not None and upright is not None
    if directional:
        assert (panels.width, panels.height) == (width, height)
    else:
        assert panels.along_roll == min(turned.along_roll, upright.along_roll)


def broken(change):
    """What the checker says of a plan in which the panels' cut is changed."""
    project = read_document(on("40", ("60", "50"), directional=True))
    cuts = list_cuts(project)
    assert check_plan(project, cuts, plan_cloths(project, cuts)) == []
    [cut] = cuts
    assert cut.joined is not None
    wrong = [change(cut)]
    return " ".join(check_plan(project, wrong, plan_cloths(project, wrong)))


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (lambda c: replace(c, width=c.width - 1), "come to"),
        (lambda c: replace(c, count=3), "come to"),
        (lambda c: replace(c, height=c.height - 1), "such patches"),
        (
            lambda c: replace(c, joined=replace(c.joined, wanted=c.height), height=c.joined.wanted),
            "wrong way up",
        ),
        (lambda c: replace(c, joined=replace(c.joined, wanted=c.joined.total + 1)), "panels of"),
    ],
)
def test_the_checker_finds_panels_that_are_too_few_too_small_or_turned(change, said):
    assert said in broken(change)
