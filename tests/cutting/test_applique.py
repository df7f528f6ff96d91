"""The cloth and the web of applique pieces: every cloth with its cuts and a length, none forgotten."""

from __future__ import annotations

import json
from dataclasses import replace
from fractions import Fraction

import pytest

from service.craft.document import read_document
from service.craft.outlines import read_svg, to_json
from workers.cutting.applique import applique_cuts, rough_out
from workers.cutting.check import check_pieces
from workers.cutting.recipe import make_cutting_plan
from workers.outlines.asked import read_pieces
from workers.recipe import CannotMake, JobInput

from .conftest import document, patch

BAR = '<path id="bar" d="M0 0H101.6V25.4H0Z"/>'
"""A leek's bed: 4 in by 1 in."""

SVG = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="200mm" viewBox="0 0 200 200">'
    f'{BAR}<path id="post" d="M0 40H25.4V141.6H0Z"/></svg>'
)
HOOP, CUTTER, BOTH, HAND = (
    {"name": "hoop", "has": ["hoop 200x200"]},
    {"name": "cutter", "has": ["cutter 12x12"]},
    {"name": "both", "has": ["hoop 200x200", "cutter 12x12"]},
    {"name": "by hand", "has": []},
)


def bed(*pieces, tracks=(BOTH, HAND), **more):
    """A plain top of frost with pieces of leaf, fleece and a print that stands upright."""
    raw = document(patch("20", "20", "frost"), pieces=list(pieces), tracks=list(tracks), **more)
    raw["fabrics"]["fleece"] = {"name": "thin fleece", "usable_width": "40", "cut": "trim in place"}
    raw["fabrics"]["print"] = {"name": "upright beans", "usable_width": "40", "directional": True}
    return raw


def piece(name, fabric, shape="bar", **more):
    return {"name": name, "outline": f"bed.svg#{shape}", "fabric": fabric, "at": ["10", "10"], **more}


def job(raw):
    return JobInput("cutting", raw, outlines={"bed.svg": to_json(read_svg(SVG.encode(), "bed.svg"))})


def plan(raw):
    [made] = [file for file in make_cutting_plan(job(raw)) if file.name == "cutting.json"]
    return json.loads(made.data)


def sides(cut):
    return cut["width"]["inches"], cut["height"]["inches"]


def cuts_for(made, name):
    return [cut for cut in made["cuts"] if name in cut["for"]]


def test_every_cloth_of_the_pieces_has_cuts_and_a_length_to_buy():
    made = plan(bed(piece("bed", "leaf"), piece("cloud", "fleece"), piece("bean", "print")))
    assert {cut["fabric"] for cut in made["cuts"] if cut["serves"] == "pieces"} == {"leaf", "fleece", "print"}
    bought = {cloth["fabric"]: cloth["buy"]["inches"] for cloth in made["fabrics"]}
    assert all(bought[fabric] > 0 for fabric in ("leaf", "fleece", "print"))


def test_a_piece_cut_to_its_line_takes_half_an_inch_more_all_round():
    """Common practice, no source: 4 by 1 in and 1/2 in on every side come to 5 by 2 in."""
    [cut] = cuts_for(plan(bed(piece("bed", "leaf"))), "bed")
    assert (sides(cut), cut["shape"], cut["count"], cut["serves"]) == ((5, 2), "rectangle", 1, "pieces")
    assert cut["notes"] == ["by its bounding box, with 1/2 in to spare on every side"]


@pytest.mark.parametrize(
    ("fabric", "tracks"), [("fleece", (BOTH, HAND)), ("leaf", (HOOP,))], ids=["always", "in a hoop alone"]
)
def test_cloth_that_is_trimmed_where_it_lies_takes_an_inch_more_all_round(fabric, tracks):
    """Common practice, no source."""
    [cut] = cuts_for(plan(bed(piece("bed", fabric), tracks=tracks)), "bed")
    assert sides(cut) == (6, 3)
    assert "with 1 in to spare" in cut["notes"][0]


def test_equal_rectangles_of_one_cloth_are_cut_together_and_named_each():
    made = plan(bed(piece("one", "leaf"), piece("two", "leaf", "post"), piece("three", "leaf", turn=30)))
    [cut] = [cut for cut in made["cuts"] if cut["serves"] == "pieces"]
    assert (cut["count"], cut["for"]) == (3, ["one", "two", "three"])


def test_a_print_stands_in_its_rectangle_as_the_piece_lies_on_the_top():
    """A quarter turn stands the bar up: 1 in across the roll and 4 in along it, and it may not lie down."""
    made = plan(bed(piece("lying", "print"), piece("standing", "print", turn=90)))
    [lying], [standing] = cuts_for(made, "lying"), cuts_for(made, "standing")
    assert (sides(lying), sides(standing)) == ((5, 2), (2, 5))
    cloth = next(entry for entry in made["fabrics"] if entry["fabric"] == "print")
    assert not any(run["turned"] for strip in cloth["strips"] for run in strip["pieces"])


def test_on_cloth_with_a_pile_a_tall_piece_stands_tall():
    """The pile runs down in all pieces: none is laid on its side, and the plan stands its check."""
    raw = bed(piece("pole", "plush", "post"), piece("bed", "plush", turn=90))
    raw["fabrics"]["plush"] = {"name": "napped plush", "usable_width": "40", "napped": True}
    cuts = [cut for cut in plan(raw)["cuts"] if cut["serves"] == "pieces"]
    assert [(sides(cut), cut["may_turn"], cut["for"]) for cut in cuts] == [((2, 5), False, ["pole", "bed"])]


def test_scale_makes_the_rectangle_larger():
    [cut] = cuts_for(plan(bed(piece("bed", "leaf", scale=2))), "bed")
    assert sides(cut) == (9, 3)


def test_both_ways_of_counting_stand_side_by_side_where_a_track_has_a_cutter():
    made = plan(bed(*(piece(f"bed {n}", "leaf") for n in range(4)), piece("cloud", "fleece")))
    leaf = [entry for entry in made["applique"] if entry["fabric"] == "leaf"]
    assert [entry["counted_by"] for entry in leaf] == ["bounding boxes", "real shapes on the mat"]
    assert [entry["tracks"] for entry in leaf] == [["both", "by hand"], ["both"]]
    boxes, shapes = leaf
    assert (boxes["length"]["inches"], boxes["rectangles"][0]["count"]) == (2, 4)
    # two rows of two on the mat: 4 in each, with 5 mm between and 6 mm all round
    [room] = shapes["rectangles"]
    assert room["width"]["mm"] >= 2 * 101.6 + 5 + 12 and room["height"]["mm"] >= 2 * 25.4 + 5 + 12
    fleece = [entry["counted_by"] for entry in made["applique"] if entry["fabric"] == "fleece"]
    assert fleece == ["bounding boxes"]


def test_without_a_cutter_cloth_is_counted_by_boxes_alone():
    made = plan(bed(piece("bed", "leaf"), tracks=[HAND]))
    assert {entry["counted_by"] for entry in made["applique"]} == {"bounding boxes"}


def test_web_is_counted_for_the_tracks_that_fuse_and_never_for_cloth_trimmed_in_place():
    """By hand the web is traced with 1/4 in all round: 4 1/2 by 1 1/2 in, three side by side on 17 in."""
    pieces = [piece(f"bed {n}", "leaf") for n in range(3)]
    web = plan(bed(*pieces, piece("cloud", "fleece"), tracks=[HOOP, HAND]))["finishing"]["fusible"]
    [count] = web["counts"]
    assert web["width"]["text"] == "17 in"
    assert (count["tracks"], count["pieces"]) == (["by hand"], ["bed 0", "bed 1", "bed 2"])
    assert count["length"]["inches"] == 1.5
    assert count["area"]["square_inches"] == 3 * 4.5 * 1.5
    assert plan(bed(piece("cloud", "fleece")))["finishing"]["fusible"] is None
    assert plan(bed(piece("bed", "leaf"), tracks=[HOOP]))["finishing"]["fusible"] is None


def test_turned_pieces_take_no_web_where_their_cloth_has_fused_ones_too():
    """With a turned piece beside it, a fused one takes the web it takes alone, counted by shape and by boxes."""
    fused, turned = piece("bed", "leaf"), piece("fold", "leaf", scale=2, at=["10", "16"], edge="turned")
    tracks = [CUTTER, HAND]
    alone, both = (
        plan(bed(*pieces, tracks=tracks))["finishing"]["fusible"]["counts"]
        for pieces in ([fused], [fused, turned])
    )
    assert {count["counted_by"] for count in both} == {"bounding boxes", "real shapes on the mat"}
    assert both == alone
    cloth = [c for c in plan(bed(fused, turned, tracks=tracks))["applique"] if c["mat"]]
    assert [sum(r["count"] for r in c["rectangles"]) for c in cloth] == [2]
    only = plan(bed(turned, tracks=tracks))["finishing"]["fusible"]
    assert only is None


def test_narrower_web_takes_more_length_and_a_piece_wider_than_it_is_laid_edge_to_edge():
    pieces = [piece(f"bed {n}", "leaf") for n in range(3)]
    narrow = plan(bed(*pieces, tracks=[HAND], fusible={"width": "9"}))["finishing"]["fusible"]
    assert (narrow["width"]["inches"], narrow["counts"][0]["length"]["inches"]) == (9, 3)
    wide = piece("field", "leaf", scale=4)  # 16 1/2 by 4 1/2 in of web on 4 in: five strips of 3.3 by 4.5
    count = plan(bed(wide, tracks=[HAND], fusible={"width": "4"}))["finishing"]["fusible"]["counts"][0]
    assert count["length"]["inches"] == pytest.approx(22.5, abs=0.02)


def test_a_piece_that_fits_on_its_cloth_in_no_way_is_named():
    raw = bed(piece("field", "leaf", scale=2), tracks=[HAND])
    raw["fabrics"]["leaf"]["usable_width"] = "2"
    with pytest.raises(CannotMake, match='"field" takes 9 in by 3 in of "leek green"') as found:
        make_cutting_plan(job(raw))
    assert found.value.pointer == "/pieces/0"


def test_a_missing_outline_is_named():
    with pytest.raises(CannotMake) as found:
        make_cutting_plan(JobInput("cutting", bed(piece("bed", "leaf"))))
    assert found.value.pointer == "/pieces/0/outline"


def test_the_check_finds_a_piece_without_cloth_and_cloth_too_small_for_its_piece():
    raw = bed(piece("bed", "leaf"), piece("cloud", "fleece"))
    project = read_document(raw)
    bed_cut, cloud_cut = applique_cuts(rough_out(read_pieces(job(raw), project), project), project)
    outlines = job(raw).outlines
    assert check_pieces(project, outlines, [bed_cut, cloud_cut]) == []
    assert check_pieces(project, outlines, [cloud_cut]) == [
        'no cloth is cut for "bed"',
    ]
    small = replace(bed_cut, width=Fraction(3))
    assert check_pieces(project, outlines, [small, cloud_cut]) == [
        'the cloth for "bed" is smaller than the piece'
    ]
    twice = replace(cloud_cut, count=2)
    assert check_pieces(project, outlines, [bed_cut, twice]) == ["3 rectangles are cut for 2 applique pieces"]
