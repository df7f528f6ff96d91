"""Strips longer than the cloth is wide: joined, or along the length of it, as the document says or as takes less."""

from __future__ import annotations

from fractions import Fraction

import pytest

from service.craft.cutting_choices import ACROSS, ALONG, LEAST_CLOTH
from service.craft.fabric import Fabric
from service.craft.joining import join_strips
from workers.cutting.choosing import choose_ways, count_joins
from workers.cutting.cuts import Cut

from .conftest import document, patch


def bordered(inside, more=None, **border):
    """A top of frost with a 2 in border of leaf, and perhaps other patches of leaf under it."""
    top = {"unit": "bordered", "inside": inside, "borders": [{"width": "2", "fabric": "leaf"} | border]}
    return {"unit": "grid", "rows": [[top], *([] if more is None else [[more]])]}


def leaf_cuts(made):
    return [c for c in made["cuts"] if c["fabric"] == "leaf"]


def size_of(cut):
    return cut["width"]["text"], cut["height"]["text"], cut["count"]


def test_border_strips_along_the_length_are_never_joined_and_never_turned(plan):
    made = plan(document(bordered(patch("30", "60", "frost"), cut=ALONG)))
    assert [size_of(c) for c in leaf_cuts(made)] == [
        ("2 1/2 in", "60 1/2 in", 2),
        ("2 1/2 in", "34 1/2 in", 2),
    ]
    assert all(c["grain"] == ALONG and c["join"] is None for c in leaf_cuts(made))
    assert all("along the length" in c["notes"][0] for c in leaf_cuts(made))
    [leaf] = [f for f in made["fabrics"] if f["fabric"] == "leaf"]
    assert leaf["length"]["text"] == "60 1/2 in"
    assert not any(p["turned"] for s in leaf["strips"] for p in s["pieces"])


def test_border_strips_across_the_width_lie_across_and_are_joined_as_needed(plan):
    """70 1/2 in from 40 in cloth: two of 35 1/2 less one straight seam of 1/2 in. Four strips of 2 1/2, two more."""
    made = plan(document(bordered(patch("35", "70", "frost"), cut=ACROSS)))
    assert [size_of(c) for c in leaf_cuts(made)] == [
        ("39 1/2 in", "2 1/2 in", 2),
        ("35 1/2 in", "2 1/2 in", 4),
    ]
    assert all(c["grain"] == ACROSS for c in leaf_cuts(made))
    joined = leaf_cuts(made)[1]
    assert joined["join"] == {
        "seams": "straight",
        "pieces": 2,
        "joined": {"text": "70 1/2 in", "inches": 70.5, "mm": 1790.7},
        "laid": "end to end",
        "gives": [
            {
                "width": {"text": "70 1/2 in", "inches": 70.5, "mm": 1790.7},
                "height": {"text": "2 1/2 in", "inches": 2.5, "mm": 63.5},
                "makes": 2,
            }
        ],
    }
    [leaf] = [f for f in made["fabrics"] if f["fabric"] == "leaf"]
    assert leaf["length"]["text"] == "15 in"


def test_least_cloth_joins_where_the_border_is_all_there_is(plan):
    """15 in of cloth against 70 1/2 in."""
    made = plan(document(bordered(patch("35", "70", "frost"))))
    assert [c["then"] for c in leaf_cuts(made)] == ["", "join 2 end to end with straight seams"]
    assert made == plan(document(bordered(patch("35", "70", "frost"), cut=LEAST_CLOTH)))


def test_least_cloth_lays_strips_along_the_length_beside_a_long_panel(plan):
    """A panel 34 1/2 by 60 1/2 in leaves 5 1/2 in of 40: two strips of 2 1/2 in lie there for nothing."""
    panel = patch("34", "60", "leaf")
    made = plan(document(bordered(patch("30", "60", "frost"), more=panel)))
    sides = [
        c
        for c in leaf_cuts(made)
        if c["for"] == ["border"] and c["count"] == 2 and c["height"]["inches"] > 40
    ]
    assert [size_of(c) for c in sides] == [("2 1/2 in", "60 1/2 in", 2)]
    assert sides[0]["grain"] == "" and "no more cloth" in sides[0]["notes"][0]


@pytest.mark.parametrize(
    ("join", "each", "words"),
    [
        ("straight", "35 1/2 in", "join 2 end to end with straight seams"),
        ("diagonal", "36 1/2 in", "join 2 end to end on the diagonal"),
    ],
)
def test_a_diagonal_join_costs_the_width_of_the_strip(plan, join, each, words):
    """10 + 10 in at 3 in come to 17 (crayonboxquiltstudio.com 2012/04): 2 x 36 1/2 - 2 1/2 is 70 1/2."""
    made = plan(document(bordered(patch("35", "70", "frost")), cutting={"join": join}))
    joined = leaf_cuts(made)[1]
    assert (joined["width"]["text"], joined["then"]) == (each, words)


def test_sashing_may_lie_along_the_length_too(plan):
    top = {
        "unit": "grid",
        "rows": [[patch("12", "12", "frost")] * 4] * 2,
        "sashing": {"width": "2", "fabric": "leaf", "cut": ALONG},
    }
    made = plan(document(top))
    assert [size_of(c) for c in leaf_cuts(made)] == [
        ("2 1/2 in", "54 1/2 in", 1),
        ("2 1/2 in", "12 1/2 in", 6),
    ]
    assert all(c["grain"] == ALONG for c in leaf_cuts(made))


def test_strips_of_one_length_asked_to_lie_one_way_are_one_cut_whatever_their_cloth(plan):
    """Left, right, top and bottom of a square, of a print: all four along the length."""
    raw = document(bordered(patch("20", "20", "frost"), cut=ALONG, corners="squares"))
    raw["fabrics"]["leaf"]["directional"] = True
    assert [size_of(c) for c in leaf_cuts(plan(raw)) if c["shape"] == "strip"] == [
        ("2 1/2 in", "20 1/2 in", 4)
    ]


@pytest.mark.parametrize(("field", "what"), [("directional", "print"), ("napped", "pile")])
def test_cloth_with_a_direction_is_cut_as_asked_and_the_list_says_what_becomes_of_it(plan, field, what):
    raw = document(bordered(patch("30", "60", "frost"), cut=ALONG))
    raw["fabrics"]["leaf"][field] = True
    cuts = leaf_cuts(plan(raw))
    assert [size_of(c) for c in cuts] == [("2 1/2 in", "60 1/2 in", 2), ("2 1/2 in", "34 1/2 in", 2)]
    assert {c["notes"][0] for c in cuts} == {
        f"cut along the length as asked: the {what} runs along the strip"
    }


@pytest.mark.parametrize(("panel", "taken"), [(39, 1), (38, 0)])
def test_of_two_ways_that_take_the_same_cloth_the_one_without_a_join_is_taken(panel, taken):
    """45 by 3 in joined of two takes 6 in of cloth; beside a panel 39 in high it takes 6 more too, beside 38 in 7."""
    cloth = Fabric("leaf", "leek green", "#5f8f4e", Fraction(40))
    joined = join_strips(Fraction(45), Fraction(40), seam_allowance=Fraction(1, 4), round_to=Fraction(1, 8))
    assert joined is not None

    def cut(width, height, count=1, **more):
        sides = {"width": Fraction(width), "height": Fraction(height)}
        return Cut(fabric="leaf", count=count, makes=1, wanted=1, shape="strip", **sides, **more)

    ways = (cut("91/4", 3, 2, joined=joined), cut(3, 45))
    assert choose_ways([ways], [cut(30, panel)], cloth) == [ways[taken]]
    assert [count_joins([way]) for way in ways] == [1, 0]
