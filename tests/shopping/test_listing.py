"""Lists held against sums done by hand."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from service.craft.outlines import read_svg, to_json
from service.craft.shopping import CannotShop, ShoppingAsked, ShoppingProject
from tests.shopping.conftest import FROST, bed, inches, shop
from workers.cutting.recipe import make_cutting_plan
from workers.recipe import JobInput
from workers.shopping.listing import plan_shopping
from workers.stitches.recipe import make_stitches

SEED = Path(__file__).parents[2] / "seed_data"

BED, ROW = bed("Leek Bed", 2, 3), bed("Leek Row", 1, 2)
"""Six patches and two: two strips and one strip, 20 in and 10 in, bought as 22 1/2 and 13 1/2 in."""


@pytest.fixture(scope="module")
def three_kits():
    return shop(BED, ROW, kits=3)


def test_two_projects_that_share_a_cloth_are_reckoned_as_by_hand(three_kits):
    """Three kits of six and two patches, four to a strip of 10 in, bought in steps of 4 1/2 in at 1.50.

    Apart: 3 x (20 -> 22 1/2) + 3 x (10 -> 13 1/2) = 108 in, 36.00. Project by project: 18 patches, 5 strips,
    50 -> 54 in, and 6 patches, 2 strips, 20 -> 22 1/2 in: 76 1/2 in, 25.50. At once: 24 patches, 6 strips,
    60 -> 63 in, 21.00.
    """
    [cloth] = three_kits["cloths"]
    assert [(inches(s["one_kit"]), inches(s["kits"])) for s in cloth["projects"]] == [
        (22.5, 54),
        (13.5, 22.5),
    ]
    ways = ("one_kit", "apart", "by_project", "at_once")
    figures = [(inches(cloth[way]), cloth[way]["cost"]) for way in ways]
    assert figures == [(36, 12.0), (108, 36.0), (76.5, 25.5), (63, 21.0)]
    saved = {name: (inches(figure), figure["cost"]) for name, figure in cloth["saved"].items()}
    assert saved == {"kits_together": (31.5, 10.5), "projects_together": (13.5, 4.5), "in_all": (45, 15.0)}
    assert cloth["at_once"]["length"]["inches"] == 60


def test_the_studio_takes_a_sample_and_its_step_outs(three_kits):
    """The bed's two equal rows are shown by a third, three patches more: nine, 3 strips, 30 -> 31 1/2 in. The row
    is made once and has no step-out, 13 1/2 in. At once: eleven patches, 3 strips again.
    """
    [cloth] = three_kits["cloths"]
    assert [len(project["step_outs"]) for project in three_kits["projects"]] == [1, 0]
    assert [inches(share["studio"]) for share in cloth["projects"]] == [31.5, 13.5]
    studio = cloth["studio"]
    assert (inches(studio["by_project"]), inches(studio["at_once"])) == (45, 31.5)
    assert (inches(studio["beyond_one_kit"]), studio["beyond_one_kit"]["cost"]) == (9, 3.0)


def test_the_sums_of_the_costs_are_those_of_the_cloths(three_kits):
    """One cloth, so its own figures; every price is known."""
    assert three_kits["cost"] == {
        "complete": True, "price_unknown": [], "one_kit": 12.0, "apart": 36.0, "by_project": 25.5, "at_once": 21.0,
        "saved": 15.0, "studio": 15.0, "studio_at_once": 10.5,
    }  # fmt: skip


def test_a_plan_whose_length_is_its_bound_is_proved(three_kits):
    """Twenty-four patches of 100 square inches fill 60 in of 40 in cloth to the last thread."""
    at_once = three_kits["cloths"][0]["at_once"]
    assert (at_once["lower_bound"]["inches"], at_once["proved"]) == (60, True)


def test_shrinkage_and_straightening_are_bought_as_well():
    """20 in, and 1 in to straighten; 3 % lost in the wash: 21 / 0.97 = 21.65 in, bought as 22 1/2; of 20 in with 10 %
    and 1 in 23.33 in, bought as 27.
    """
    for shrinkage, bought in ((0.03, 22.5), (0.1, 27)):
        [cloth] = shop(bed("Leek Bed", 2, 3, FROST | {"shrinkage": shrinkage, "straightening": 1}))["cloths"]
        assert inches(cloth["one_kit"]) == bought


def test_a_cloth_without_a_price_is_named_and_left_out_of_the_sums():
    """One of two cloths has a price: the sums are its own, and say that they are not complete."""
    plain = {**FROST, "name": "oat linen", "price_per_length": None}
    found = shop(BED, bed("Bean Row", 1, 2, plain), kits=3)
    costs = [(cloth["name"], cloth["price"] is None, cloth["at_once"]["cost"]) for cloth in found["cloths"]]
    assert costs == [("frost white", False, 18.0), ("oat linen", True, None)]
    assert (found["cost"]["complete"], found["cost"]["price_unknown"]) == (False, ["oat linen"])
    assert (found["cost"]["at_once"], found["cost"]["apart"]) == (18.0, 22.5)
    assert shop(bed("Bean Row", 1, 2, plain))["cost"]["at_once"] is None


def test_costs_are_summed_exactly_and_rounded_once():
    """A step of 4 1/2 in costs 1.5625 at 12.50 a yard: a strip of 10 in is three steps, 4.6875, written 4.69; a
    hundred kits apart are 468.75, not 469.00.
    """
    cloth = {**FROST, "price_per_length": {"amount": "12.50", "per": "36"}}
    [found] = shop(bed("Leek Square", 2, 2, cloth), kits=100)["cloths"]
    assert (found["one_kit"]["cost"], found["apart"]["cost"]) == (4.69, 468.75)
    # 400 patches fill 1000 in, 223 steps of 4 1/2 in: 348.4375
    assert (found["at_once"]["cost"], found["saved"]["in_all"]["cost"]) == (348.44, 120.31)


def test_another_cloth_is_another_line():
    """Equal names in another colour are another cloth; nothing is planned together, nothing saved."""
    found = shop(BED, bed("Leek Row", 1, 2, {**FROST, "colour": "#ffffff"}))
    assert len(found["cloths"]) == 2
    assert [inches(cloth["saved"]["in_all"]) for cloth in found["cloths"]] == [0, 0]


def test_a_project_that_cannot_be_cut_is_named_with_every_fault():
    """Two projects with triangles wider than their cloth, one without a fault: both are named, with their pointers."""
    wide = {"unit": "half-square triangle", "size": ["60", "60"], "fabrics": ["ground", "ground"]}
    bad = [{**BED, "title": title, "top": {"unit": "grid", "rows": [[wide]]}} for title in ("A", "B")]
    with pytest.raises(CannotShop) as why:
        shop(bad[0], ROW, bad[1])
    assert [(id_, fault.pointer) for id_, fault in why.value.faults] == [
        ("A", "/top/rows/0/0"),
        ("B", "/top/rows/0/0"),
    ]
    assert all("does not fit" in fault.detail and fault.right for _, fault in why.value.faults)


def test_a_list_without_projects_is_empty():
    """A series nobody has filed a project in yet."""
    found = plan_shopping(ShoppingAsked(()))
    assert (found["cloths"], found["proved"], found["cost"]["at_once"]) == ([], True, None)


def test_without_time_the_rules_of_thumb_are_answered_and_not_proved(runner):
    """The length is that of the better rule, and the list says that it is not proved."""
    hurried = shop(runner, seconds=0)
    assert hurried["proved"] is False
    quick = {c["name"]: c["at_once"]["length"]["inches"] for c in hurried["cloths"]}
    best = {c["name"]: c["at_once"]["length"]["inches"] for c in shop(runner)["cloths"]}
    assert all(best[name] <= quick[name] for name in best)


def test_without_time_step_outs_are_not_looked_for():
    """The notes say of which project; the studio's figures are those of its sample then."""
    found = shop(BED, seconds=0)
    assert found["notes"] == ["Leek Bed: step-outs are not counted, since time ran out"]
    assert found["cloths"][0]["studio"]["at_once"]["length"]["inches"] == 20


def seed_project(month):
    document = json.loads((SEED / month / "project.json").read_text(encoding="utf-8"))
    files = {f.name: to_json(read_svg(f.read_bytes(), f.name)) for f in (SEED / month).glob("*.svg")}
    return ShoppingProject(month, document["title"], document, files, document["release"])


@pytest.mark.parametrize("month", ["2027-01-leek-row", "2027-02-seed-tray", "2027-03-rhubarb-cushion"])
def test_the_estimate_of_thread_is_near_the_stitch_files(month):
    """By colour, at most a fifth less than what the reports of the stitch files count, and no more than they."""
    project = seed_project(month)
    sewn: dict[str, float] = {}
    for file in make_stitches(JobInput("stitches", project.document, outlines=project.outlines)):
        if file.name.endswith(".json"):
            for colour in json.loads(file.data)["colours"]:
                sewn[colour["name"]] = sewn.get(colour["name"], 0.0) + colour["top_m"]
    threads = plan_shopping(ShoppingAsked((project,), 1, lambda: 0.5))["threads"]
    assert {thread["name"] for thread in threads} == set(sewn)
    for thread in threads:
        assert 0.8 <= thread["one_kit_about_metres"] / sewn[thread["name"]] <= 1.0


@pytest.mark.parametrize("month", ["2027-01-leek-row", "2027-02-seed-tray", "2027-03-rhubarb-cushion"])
def test_one_kit_is_what_the_cutting_plan_says(month):
    """A viewer is told to buy the same by the handout and by the list, of every cloth."""
    project = seed_project(month)
    job = JobInput("cutting", project.document, outlines=project.outlines)
    planned = {cloth["name"]: cloth for cloth in json.loads(make_cutting_plan(job)[0].data)["fabrics"]}
    listed = {cloth["name"]: cloth for cloth in plan_shopping(ShoppingAsked((project,)))["cloths"]}
    assert set(listed) == set(planned)
    for name, cloth in listed.items():
        assert cloth["one_kit"]["buy"] == planned[name]["buy"]


def test_pieces_without_an_outline_are_named_and_the_rest_is_counted():
    """Cloth is ordered before every drawing is there."""
    project = seed_project("2027-01-leek-row")
    bare = ShoppingProject(project.id, project.title, project.document)
    found = plan_shopping(ShoppingAsked((bare,), 1, lambda: 0.5))
    assert "thin white fleece" not in [cloth["name"] for cloth in found["cloths"]]
    [note] = found["notes"]
    assert note.startswith("Leek Row: not counted") and "third leek stalk" in note


def test_what_is_bought_beside_cloth():
    """Batting by its size and packet, web and thread for the pieces, all times the kits."""
    found = plan_shopping(ShoppingAsked((seed_project("2027-01-leek-row"),), 5, lambda: 0.5))
    [batting] = found["batting"]
    assert (batting["width"]["text"], batting["kits"], batting["studio"]) == ("42 in", 5, 1)
    assert [thread["name"] for thread in found["threads"]] == ["leaf green", "white"]
    assert all(
        t["kits_about_metres"] == pytest.approx(5 * t["one_kit_about_metres"], rel=0.02)
        for t in found["threads"]
    )
    assert {track for web in found["fusible"] for track in web["tracks"]} == {
        "hoop and cutter",
        "cutter",
        "by hand",
    }
    assert all(web["kits"]["inches"] == 5 * web["one_kit"]["inches"] for web in found["fusible"])


@pytest.fixture
def runner():
    """A runner of blocks in sizes that do not fill a strip."""
    sizes = (("5", "3"), ("4", "3"), ("2 1/2", "3"), ("7", "3"), ("3 3/4", "3"))
    patches = [{"unit": "patch", "size": list(size), "fabric": "ground"} for size in sizes]
    return bed("Pea Runner", 1, 1) | {"top": {"unit": "grid", "rows": [patches] * 7}}


QUARTER = {"name": "fat quarter", "width": "21", "length": "18", "price": 4}


def test_a_cloth_sold_in_pieces_is_counted_in_pieces_too():
    """Squares of 10 in: two to a piece of 21 by 18 in. Six take three pieces, two take one; three kits together
    24 squares, 12 pieces at 4.00. The bed's step-out, three squares more, makes the studio's nine: five pieces.
    """
    cloth = {**FROST, "price_per_length": None, "sold_as": QUARTER}
    found = shop(bed("Leek Bed", 2, 3, cloth), bed("Leek Row", 1, 2, cloth), kits=3)
    sold = found["cloths"][0]["in_pieces"]
    ways = ("one_kit", "apart", "by_project", "at_once")
    assert [(sold[way]["count"], sold[way]["cost"]) for way in ways] == [
        (4, 16.0),
        (12, 48.0),
        (12, 48.0),
        (12, 48.0),
    ]
    assert (sold["name"], sold["price"], sold["at_once"]["lower_bound"]) == ("fat quarter", 4.0, 12)
    assert sold["studio"]["by_project"] == {"count": 6, "cost": 24.0}
    assert (found["cost"]["complete"], found["cost"]["at_once"]) == (True, 48.0)


def test_by_the_length_goes_before_by_the_piece_in_the_sums():
    """Where both prices are known, the sums are those of the lengths: 22 1/2 in are 7.50."""
    found = shop(bed("Leek Bed", 2, 3, {**FROST, "sold_as": QUARTER}))
    assert (found["cost"]["at_once"], found["cloths"][0]["in_pieces"]["at_once"]["cost"]) == (7.5, 12.0)


def test_pieces_that_do_not_hold_everything_are_left_out():
    """A strip of 30 in is longer than any fat quarter: there are figures by the length alone."""
    cloth = {**FROST, "sold_as": QUARTER}
    long = {"unit": "patch", "size": ["29 1/2", "9 1/2"], "fabric": "ground"}
    found = shop(bed("Leek Bed", 1, 1, cloth, top={"unit": "grid", "rows": [[long]]}))
    assert found["cloths"][0]["in_pieces"] is None
    assert found["cloths"][0]["at_once"]["length"]["inches"] == 10


def test_the_studio_cuts_what_is_at_home_first():
    """Two leftovers of 21 by 12 in hold two squares each: of the studio's nine, five come from the roll, 20 in.
    What both documents name is there once; a viewer's kit is not made from the studio's leftovers.
    """
    cloth = {**FROST, "stash": [{"width": "21", "length": "12", "count": 2}]}
    [found] = shop(bed("Leek Bed", 2, 3, cloth))["cloths"]
    assert found["studio"]["at_once"]["length"]["inches"] == 30
    assert found["studio"]["after_stash"]["length"]["inches"] == 20
    assert inches(found["studio"]["after_stash"]) == 22.5
    assert found["one_kit"] == shop(bed("Leek Bed", 2, 3))["cloths"][0]["one_kit"]
    [both] = shop(bed("Leek Bed", 2, 3, cloth), bed("Leek Row", 1, 2, cloth))["cloths"]
    assert both["studio"]["after_stash"]["length"]["inches"] == 20


def test_one_kit_is_bought_for_the_plan_that_its_document_asks_for():
    """As its cutting plan says: the simple plan of 26 and 13 patches in two sizes takes a step of the shop more."""
    sizes = [*["9"] * 26, *["7"] * 13]
    top = {
        "unit": "grid",
        "rows": [[{"unit": "patch", "size": ["5", size], "fabric": "ground"}] for size in sizes],
    }
    bought = []
    for choice in ("simple", "tight"):
        document = bed("Pea Column", 1, 1, top=top, cutting={"plan": choice})
        made, _ = make_cutting_plan(JobInput("cutting", document))
        [planned] = json.loads(made.data)["fabrics"]
        [cloth] = shop(document)["cloths"]
        assert cloth["one_kit"]["buy"] == planned["buy"]
        bought.append(inches(cloth["one_kit"]))
    assert bought == [54, 49.5]
