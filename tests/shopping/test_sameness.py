"""Which cloths are one, and what holds where the documents disagree."""

from __future__ import annotations

from fractions import Fraction

import pytest

from service.craft.fabric import Fabric
from tests.shopping.conftest import FROST, bed, inches, shop
from workers.shopping.sameness import agree, name_cloth


@pytest.mark.parametrize(
    ("other", "same"),
    [
        ({"name": "Frost  WHITE"}, True),
        ({"colour": "#EEF1EE"}, True),
        ({"name": "frost white 2"}, False),
        ({"colour": "#eef1ef"}, False),
    ],
)
def test_name_and_colour_make_a_cloth(other, same):
    """Case and spaces do not count, anything else does."""
    found = shop(bed("Leek Bed", 2, 3), bed("Leek Row", 1, 2, FROST | other))
    assert (len(found["cloths"]) == 1) is same


def test_the_narrower_width_is_used_for_all_and_said():
    """42 in would hold four patches as well; at 36 in three: 6 patches take 2 strips still, 2 one, 8 take 3."""
    found = shop(
        bed("Leek Bed", 2, 3, FROST | {"usable_width": "42"}),
        bed("Leek Row", 1, 2, FROST | {"usable_width": "36"}),
    )
    [cloth] = found["cloths"]
    assert cloth["usable_width"]["inches"] == 36
    assert cloth["at_once"]["length"]["inches"] == 30
    assert cloth["notes"] == ["usable width: 36 in is used; Leek Bed says 42 in"]


def test_a_project_that_does_not_fit_the_narrower_width_keeps_its_own_line():
    """A patch of 38 in does not fit on 36 in: both are planned by themselves, and it is said why."""
    wide = {"unit": "patch", "size": ["37 1/2", "9 1/2"], "fabric": "ground"}
    tall = {
        **bed("Bean Bed", 1, 1, FROST | {"directional": True}),
        "top": {"unit": "grid", "rows": [[wide], [wide]]},
    }
    narrow = bed("Leek Row", 1, 2, FROST | {"usable_width": "36"})
    found = shop(tall, narrow)
    assert [(c["usable_width"]["inches"], len(c["projects"])) for c in found["cloths"]] == [(40, 1), (36, 1)]
    assert "not planned with" in found["cloths"][0]["notes"][-1]
    assert found["cloths"][1]["notes"] == []


def test_a_direction_in_one_project_holds_for_all():
    """A print that has a right way up has it everywhere: patches of 10 by 15 lie upright, four to a strip."""
    upright = {"unit": "patch", "size": ["9 1/2", "14 1/2"], "fabric": "ground"}
    beans = bed("Beans", 1, 1) | {"top": {"unit": "grid", "rows": [[upright] * 4]}}
    one_way = bed("Leek Row", 1, 4, FROST | {"directional": True})
    [alone] = shop(beans)["cloths"]
    [cloth] = shop(beans, one_way)["cloths"]
    assert (alone["one_way"], cloth["one_way"]) == (False, True)
    assert cloth["notes"] == ["direction: one way is used; Beans says any way"]
    assert cloth["projects"][0]["one_kit"]["length"]["inches"] == 15


def test_prices_and_losses_are_taken_on_the_safe_side():
    """The higher price by the inch, the larger losses, the coarser step; equal prices in other words are equal."""
    cloths = [
        ("A", make(price=(Fraction(12), Fraction(36)), shrinkage=Fraction(1, 100))),
        ("B", make(price=(Fraction(6), Fraction(12)), straightening=Fraction(2), buying_step=Fraction(9))),
        ("C", make(price=(Fraction(18), Fraction(36)))),
        ("D", make(price=None)),
    ]
    agreed = agree(cloths, "in")
    assert agreed.fabric.price in ((6, 12), (18, 36))
    assert (agreed.fabric.shrinkage, agreed.fabric.straightening, agreed.fabric.buying_step) == (
        Fraction(1, 100),
        2,
        9,
    )
    assert [note.partition(":")[0] for note in agreed.notes] == [
        "straightening", "step it is bought in", "shrinkage", "price",
    ]  # fmt: skip
    [price] = [note for note in agreed.notes if note.startswith("price")]
    assert price == "price: 6 for 12 in is used; A says 12 for 36 in"


def test_a_price_in_one_project_is_the_price_in_all():
    """It is the same cloth: nothing is unknown, and there is nothing to say."""
    found = shop(bed("Leek Bed", 2, 3), bed("Leek Row", 1, 2, FROST | {"price_per_length": None}))
    [cloth] = found["cloths"]
    assert (cloth["price"]["amount"], cloth["notes"], found["cost"]["complete"]) == (12, [], True)


def test_two_keys_of_one_project_may_name_one_cloth():
    """Six patches under one key and two under another are eight patches of the same cloth: two strips."""
    both = bed("Leek Bed", 2, 3)
    both["fabrics"]["edge"] = dict(FROST)
    patch = {"unit": "patch", "size": ["9 1/2", "9 1/2"], "fabric": "edge"}
    both["top"] = {
        "unit": "grid",
        "rows": [["row"], ["row"], [{"unit": "grid", "rows": [[patch, patch, "extra"]]}]],
    }
    both["blocks"]["extra"] = patch
    [cloth] = shop(both)["cloths"]
    [share] = cloth["projects"]
    assert (share["fabrics"], share["one_kit"]["length"]["inches"]) == (["ground", "edge"], 30)
    assert inches(cloth["one_kit"]) == 31.5


def make(**more):
    return Fabric("ground", "frost", "#eef1ee", Fraction(40), **more)


def test_a_name_is_read_without_regard_to_case_and_spaces():
    """By the rules of Unicode: a German sharp s is two."""
    assert name_cloth(make()) == ("frost", "#eef1ee", None)
    assert name_cloth(Fabric("a", " Straße ", "#ABCDEF", Fraction(1))) == ("strasse", "#abcdef", None)
