"""Any stash, any pieces sold, with or without stacking: what the plan says of them stands its own check."""

from __future__ import annotations

import json

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from workers.cutting.recipe import make_cutting_plan
from workers.recipe import CannotMake, JobInput

from ..test_random_tops import documents

SIDES = st.integers(4, 80).map(lambda n: f"{n}/2")
STASHES = st.lists(
    st.fixed_dictionaries({"width": SIDES, "length": SIDES, "count": st.integers(1, 3)}), max_size=3
)
SOLD = st.sampled_from(
    [
        None,
        {"name": "fat quarter", "price": 4},
        {"name": "fat eighth"},
        {"name": "strip"},
        {"name": "square", "width": "25 cm"},
        {"name": "remnant", "width": "31 1/3", "length": "0.7"},
    ]
)


@st.composite
def stocked(draw):
    raw = draw(documents())
    for cloth in raw["fabrics"].values():
        cloth["stash"], cloth["sold_as"] = draw(STASHES), draw(SOLD)
    raw["cutting"]["stacked"] = draw(st.booleans())
    return raw


def count(pieces):
    return sum(run["count"] for piece in pieces for strip in piece["strips"] for run in strip["pieces"])


@settings(deadline=None, max_examples=12, suppress_health_check=[HealthCheck.too_slow])
@given(stocked())
def test_a_stash_never_makes_more_to_buy_and_every_piece_is_cut_once(raw):
    try:
        _, made = make_cutting_plan(JobInput("cutting", raw))
    except CannotMake as why:
        assert why.pointer and "does not stand its own check" not in why.detail
        return
    plan = json.loads(made.data)
    for cloth in plan["fabrics"]:
        due = sum(cut["count"] for cut in plan["cuts"] if cut["fabric"] == cloth["fabric"])
        stash, sold, stacked = (cloth.get(name) for name in ("from_stash", "buy_pieces", "stacked"))
        if stash:
            rest = stash["still_to_buy"] or {"pieces": []}
            if "length" in rest:
                assert rest["length"]["inches"] <= cloth["length"]["inches"]
                assert rest["lower_bound"]["inches"] <= rest["length"]["inches"]
            bought = rest["pieces"] if "pieces" in rest else [{"strips": rest["strips"]}]
            assert count(stash["pieces"]) + count(bought) == due
        if sold:
            large = sum(plan["cuts"][number]["count"] for number in sold["too_large"])
            assert count(sold["pieces"]) + large == due
        if stacked:
            assert stacked["length"]["inches"] <= cloth["length"]["inches"]
