"""One wrong thing gives one fault that says what, where and what would be right; ten give ten."""

from __future__ import annotations

import pytest

from .conftest import faults_of, place

BED = "/blocks/bed"
FIRST = BED + "/rows/0/0"
TRIANGLE = BED + "/rows/0/1/inside"
SNOWBALL = BED + "/rows/1/0/inside"
CORNERS = SNOWBALL + "/corners"
FLIPPED = BED + "/rows/1/1"
PRICE = "/fabrics/frost/price_per_length"
SOLD = "/fabrics/frost/sold_as"
LAST = "/top/inside/rows/1/1"


def patch(width, height):
    return {"unit": "patch", "size": [width, height], "fabric": "leaf"}


CASES = [
    # pointer changed, value, pointer of the fault, part of the detail, part of the remedy
    ("/title", " ", "/title", '"title" is empty', "some text"),
    ("/title", 3, "/title", '"title" is a number', "some text"),
    ("/title", "x" * 201, "/title", "201 characters", "200 at most"),
    ("/summary", 5, "/summary", '"summary" is a number', "some text"),
    ("/measure", "ft", "/measure", '"measure" is "ft"', "one of: in, mm, cm"),
    ("/seam_allowance", "1/0", "/seam_allowance", "divides by zero", "a length such as"),
    ("/seam_allowance", "3", "/seam_allowance", "more than 2 in", '"1/4" in'),
    ("/seam_allowance", 0, "/seam_allowance", "is zero", "above zero"),
    ("/round_to", "1/128", "/round_to", "no ruler shows", '"1/8"'),
    ("/fabrics", [], "/fabrics", "is a list", "an object"),
    ("/fabrics/leaf", "#00ff00", "/fabrics/leaf", "a cloth is text", "an object"),
    ("/fabrics/leaf", {"color": "#00ff00"}, "/fabrics/leaf/color", 'no field "color"', '"colour"'),
    ("/fabrics/frost/colour", "white", "/fabrics/frost/colour", 'the colour is "white"', "six hexadecimal"),
    ("/fabrics/frost/colour", "#eef1ee\n", "/fabrics/frost/colour", "the colour is", "six hexadecimal"),
    ("/fabrics/frost/usable_width", "-4", "/fabrics/frost/usable_width", "less than nothing", "above zero"),
    ("/fabrics/frost/usable_width", "2000", "/fabrics/frost/usable_width", "longer than 25 m", "sewing room"),
    ("/fabrics/frost/directional", "yes", "/fabrics/frost/directional", "is text", "true or false"),
    ("/fabrics/frost/napped", 1, "/fabrics/frost/napped", "is a number", "true or false"),
    ("/fabrics/frost/straightening", -1, "/fabrics/frost/straightening", "less than nothing", "zero, or"),
    ("/fabrics/frost/straightening", "40", "/fabrics/frost/straightening", "more than a yard", '"1 in"'),
    ("/fabrics/frost/buying_step", "1/2 yd", "/fabrics/frost/buying_step", '"1/2 yd"', '"1/8 yd"'),
    ("/fabrics/leaf/buying_stepp", "1/4 yd", "/fabrics/leaf/buying_stepp", "no field", '"buying_step"'),
    ("/cutting", ["tight"], "/cutting", "is a list", "an object"),
    ("/cutting/plan", "fast", "/cutting/plan", '"fast"', "one of: simple, tight"),
    ("/cutting/join", "glued", "/cutting/join", '"glued"', "one of: straight, diagonal"),
    ("/cutting/buying_step", 0.1, "/cutting/buying_step", "is 0.1", "0.1 m"),
    ("/cutting/straightening", "an inch", "/cutting/straightening", "is not a length", "a length such as"),
    ("/fabrics/frost/shrinkage", 3, "/fabrics/frost/shrinkage", '"shrinkage" is 3', "from 0 to 0.5"),
    ("/fabrics/frost/cut", "by hand", "/fabrics/frost/cut", '"cut" is "by hand"', "trim in place"),
    (PRICE + "/amount", "12,50", PRICE + "/amount", '"12,50"', "a number"),
    (PRICE + "/per", 0, PRICE + "/per", "is zero", "above zero"),
    ("/fabrics/frost/stash/0/width", None, "/fabrics/frost/stash/0/width", "is missing", "a length"),
    ("/fabrics/frost/stash/0/count", 1.5, "/fabrics/frost/stash/0/count", '"count" is 1.5', "whole number"),
    ("/fabrics/frost/stash", [{}] * 101, "/fabrics/frost/stash", "names 101 sizes", "100 at most"),
    (SOLD, "fat quarter", SOLD, "is text", "an object"),
    (SOLD + "/name", "", SOLD + "/name", '"name" is empty', "some text"),
    (SOLD + "/width", "-1", SOLD + "/width", "less than nothing", "above zero"),
    (SOLD + "/length", 0, SOLD + "/length", "is zero", "above zero"),
    (SOLD + "/price", -2, SOLD + "/price", '"price" is -2', "from 0 to"),
    ("/fabrics/leaf/sold_as", {"name": "strip", "prize": 2}, "/fabrics/leaf/sold_as/prize", "no field", '"price"'),
    (SOLD, {"name": "panel", "length": "24"}, SOLD, '"width" is missing', "a length such as"),
    ("/cutting/worth_keeping", 0, "/cutting/worth_keeping", "is zero", "above zero"),
    ("/cutting/stacked", "yes", "/cutting/stacked", "is text", "true or false"),
    (FIRST, "bee", FIRST, 'no block called "bee"', 'did you mean "bed"?'),
    (FIRST, 7, FIRST, "a unit is a number", "an object"),
    (FIRST + "/unit", "pach", FIRST + "/unit", 'no unit called "pach"', 'did you mean "patch"?'),
    (FIRST, {"size": ["3", "3"]}, FIRST, "does not say what it is", "one of: patch"),
    (FIRST + "/fabric", "forst", FIRST + "/fabric", '"forst", which is not among', 'did you mean "frost"?'),
    (FIRST + "/size", "3", FIRST + "/size", "not a pair", "[width, height]"),
    (FIRST + "/size/0", "three", FIRST + "/size/0", '"three" is not a length', "a length such as"),
    (FIRST + "/size/1", "4", BED + "/rows/0/1", "3 in high (finished), its neighbour in the row 4 in", "4 in high"),
    (BED + "/rows/0/1/turn", 45, BED + "/rows/0/1/turn", '"turn" is 45', "90, 180 or 270"),
    (TRIANGLE + "/fabrics", ["frost"], TRIANGLE + "/fabrics", "names 1 cloth", "2 cloths"),
    (TRIANGLE + "/method", "ten at a time", TRIANGLE + "/method", "ten at a time", "did you mean"),
    (TRIANGLE + "/size", ["3", "2"], TRIANGLE + "/size", "is square, this one is 3 in by 2", "same"),
    (CORNERS + "/at", [], CORNERS + "/at", "is empty", "1 or more"),
    (CORNERS + "/at/1", "south", CORNERS + "/at/1", 'corner "south"', "nw"),
    (CORNERS + "/at/1", "nw", CORNERS + "/at/1", "named twice", "once"),
    (CORNERS + "/size", "4", CORNERS + "/size", "larger than its base", "at most 3 in"),
    (CORNERS, {"size": "2", "fabric": "leaf"}, CORNERS + "/size", "overlap", "at most 1 1/2 in"),
    (CORNERS + "/size", "3", CORNERS + "/size", "leave nothing", "smaller"),
    (FLIPPED + "/size", ["3", "4"], FLIPPED + "/size", "is square", "same width and height"),
    (FLIPPED + "/inside", {"fabric": "frost", "size": ["1", "1"]}, FLIPPED + "/size", "makes it 1 27/64 in", "leave"),
    (BED + "/rows/0", [], BED + "/rows/0", "a row is empty", "1 or more"),
    (BED + "/sashing/width", "", BED + "/sashing/width", "is not a length", "a length such as"),
    (BED + "/sashing", None, BED + "/cornerstones", "there is no sashing", '"sashing"'),
    (BED + "/cornerstones", "gold", BED + "/cornerstones", '"gold"', "one of"),
    ("/top", "shed", "/top", 'no block called "shed"', "bed"),
    ("/top/inside", "bed", "", "", ""),
    ("/top/borders", [], "/top/borders", "is empty", "1 or more"),
    ("/top/borders/0/width", "0", "/top/borders/0/width", "is zero", "above zero"),
    ("/top/borders/0/corners", "round", "/top/borders/0/corners", '"round"', "butted"),
    ("/top/borders/0/cut", "crosswise", "/top/borders/0/cut", '"crosswise"', "one of: across the width"),
    (BED + "/sashing/cut", "long", BED + "/sashing/cut", '"long"', "along the length"),
    ("/top/borders/0/mitre_allowance", "4", "/top/borders/0/mitre_allowance", "no mitre to allow for", '"mitred"'),
    ("/top/borders/0/first", "last", "/top/borders/0/first", '"last"', "sides"),
    ("/top/inside/alternate", None, "/top/inside", "leave 1 place between the blocks", '"alternate"'),
    ("/top/inside/side", "gold", "/top/inside/side", '"gold"', "one of"),
    ("/top/inside/rows/1", ["bed"], "/top/inside/rows/1", "1 block, the first row 2", "as many blocks"),
    (LAST, patch("9", "8"), LAST, "9 in by 8 in", "wide as"),
    (LAST, patch("8", "8"), LAST, "is 8 in", "9 in, like"),
    ("/pieces/0/at", ["4"], "/pieces/0/at", "not a pair", '["4", "2"]'),
    ("/pieces/0/at/1", -1, "/pieces/0/at/1", "less than nothing", "zero, or"),
    ("/pieces/0/scale", 0, "/pieces/0/scale", '"scale" is 0', "from 0.01 to 100"),
    ("/pieces/0/edge", "glue", "/pieces/0/edge", '"glue"', "satin"),
    ("/pieces/0/thread", {"colour": "#ffffff"}, "/pieces/0/thread", '"name" is missing', "some text"),
    ("/pieces/0/above", ["carrot"], "/pieces/0/above/0", '"carrot", which is not among', "leaf"),
    ("/pieces/0/above", [3], "/pieces/0/above/0", "is a number", "some text"),
    ("/pieces/0/above", ["leaf"], "/pieces/0/above", "in a circle", "lowest piece up"),
    ("/pieces/1/name", "leek", "/pieces/1/name", 'two pieces are called "leek"', "of its own"),
    ("/finish", [], "/finish", "is a list", "an object"),
    ("/finish/binding/fabric", "gold", "/finish/binding/fabric", '"gold"', "one of"),
    ("/finish/binding/cut", "round", "/finish/binding/cut", '"round"', "straight"),
    ("/finish/binding/finished", "3/8", "/finish/binding/strip", '"strip" and a "finished"', "one of them"),
    ("/finish/binding/turn", "1/4", "/finish/binding/turn", 'worked out from "finished"', '"finished" beside it'),
    ("/finish/binding/join", "straight", "/finish/binding/join", "end on the slant", '"diagonal"'),
    ("/finish/binding/fold", "triple", "/finish/binding/fold", '"triple"', "double"),
    ("/finish/binding/extra", -1, "/finish/binding/extra", "less than nothing", "zero, or"),
    ("/finish/binding/foldd", "single", "/finish/binding/foldd", 'no field "foldd"', '"fold"'),
    ("/finish/backing/seams", "round", "/finish/backing/seams", '"round"', "least cloth"),
    ("/finish/sleeve", {}, "/finish/sleeve", '"fabric" is missing, the cloth of the sleeve', "one of"),
    ("/finish/sleeve", {"fabric": "leaf", "depth": "90"}, "/finish/sleeve/depth", "90 in deep", "less deep"),
    ("/finish/sleeve", {"fabric": "leaf", "depth": 0}, "/finish/sleeve/depth", "is zero", "above zero"),
    ("/finish/batting", {"overhangg": "2"}, "/finish/batting/overhangg", "no field", '"overhang"'),
    ("/finish/backing/overhang", -1, "/finish/backing/overhang", "less than nothing", "zero, or"),
    ("/colourways/0/fabrics", {"gold": {}}, "/colourways/0/fabrics/gold", '"gold"', "one of"),
    ("/colourways/0/fabrics/frost/colour", "red", "/colourways/0/fabrics/frost/colour", '"red"', "hexadecimal"),
    ("/tracks/0/has/0", "hoop 5 by 7", "/tracks/0/has/0", 'has "hoop 5 by 7"', "hoop 130x180"),
    ("/tracks/0/has/0", 5, "/tracks/0/has/0", "has 5", "hoop 130x180"),
    ("/parts/0/covers/0", "sowing", "/parts/0/covers/0", '"sowing"', "one of: cutting"),
    ("/parts/1/covers/0", "cutting", "/parts/1/covers/0", "covered twice", "one part"),
    ("/sources/0/rights", "stolen", "/sources/0/rights", '"stolen"', "own"),
    ("/sources/0", {"name": "x", "covers": []}, "/sources/0", "not stated", "own"),
    ("/blocks/geese/size", ["4", "3"], "/blocks/geese/size", "twice as wide as high; this", "4 in by 2 in"),
    ("/blocks/geese/goose", "gold", "/blocks/geese/goose", '"gold"', "one of"),
    ("/blocks/geese/method", "eight", "/blocks/geese/method", '"eight"', "one of: cut triangles"),
    ("/blocks/glass/size", ["4", "3"], "/blocks/glass/size", "is square, this one is 4 in by 3 in", "same width"),
    ("/blocks/glass/fabrics/2", "leaf", "/blocks/glass/method", "each on opposite sides", '"cut triangles"'),
    ("/blocks/glass/fabrics", ["frost"], "/blocks/glass/fabrics", "names 1 cloth", "4 cloths"),
    ("/blocks/rows/strips", [{"width": "1", "fabric": "leaf"}], "/blocks/rows/strips", "is too short", "2 or more"),
    ("/blocks/rows/strips/0/width", 0, "/blocks/rows/strips/0/width", "is zero", "above zero"),
    ("/blocks/rows/cut_into", "x", "/blocks/rows/cut_into", '"x" is not a length', "a length such as"),
    ("/blocks/rows", {"unit": "strip set", "strips": []}, "/blocks/rows", '"cut_into"', "a length such as"),
    ("/blocks/frost", patch("1", "1"), "/blocks/frost", "also the name of a cloth", "of its own"),
    ("/blocks/bed", "bed", "/blocks/bed", "lies inside itself", "smaller ones"),
    (TRIANGLE + "/trim", "wide", TRIANGLE + "/trim", '"wide"', "one of: exact, oversize"),
    (TRIANGLE + "/trimm", "exact", TRIANGLE + "/trimm", 'no field "trimm"', '"trim"'),
    (SNOWBALL + "/spare_triangles", "yes", SNOWBALL + "/spare_triangles", "is text", "true or false"),
    (SNOWBALL + "/spare triangles", True, SNOWBALL + "/spare triangles", "no field", '"spare_triangles"'),
]  # fmt: skip


@pytest.mark.parametrize(
    ("pointer", "value", "where", "detail", "right"), CASES, ids=[f"{i}{c[2]}" for i, c in enumerate(CASES)]
)
def test_a_fault_says_what_where_and_what_would_be_right(change, pointer, value, where, detail, right):
    found = change(pointer, value)
    if not detail:
        assert found == []
        return
    assert any(w == where and detail in d and right in r for w, d, r in found), found


@pytest.mark.parametrize("case", [c for c in CASES if c[3]], ids=lambda c: c[0])
def test_no_fault_has_python_in_it_or_ends_without_a_remedy(change, case):
    for _, detail, right in change(case[0], case[1]):
        assert detail and right
        assert not any(
            word in detail + right for word in ("None", "True", "False", "Traceback", "Fraction(", "<class")
        )


def test_ten_different_faults_give_ten_messages_in_one_answer(garden):
    wrong = {
        "/title": "",
        "/fabrics/frost/colour": "white",
        "/fabrics/frost/shrinkage": 2,
        "/blocks/bed/rows/0/0/fabric": "forst",
        "/top/borders/0/width": "1/0",
        "/pieces/0/edge": "glue",
        "/finish/binding/cut": "round",
        "/tracks/0/has/1": "scissors",
        "/parts/0/covers/1": "sowing",
        "/sources/0/rights": "stolen",
    }
    for pointer, value in wrong.items():
        garden = place(garden, pointer, value)
    found = faults_of(garden)
    assert sorted(pointer for pointer, _, _ in found) == sorted(wrong)
    assert len({detail for _, detail, _ in found}) == 10


@pytest.mark.parametrize("field", ["title", "fabrics", "top"])
def test_what_must_be_there_is_missed(garden, field):
    del garden[field]
    found = faults_of(garden)
    assert any(pointer in ("", f"/{field}") and f'"{field}"' in detail for pointer, detail, _ in found), found


def test_a_middle_of_plain_cloth_without_a_size_is_missed(garden):
    """The size of the whole follows from nothing else."""
    for inside in ("frost", {"fabric": "frost"}):
        top = {"unit": "square in a square", "inside": inside, "fabric": "leaf"}
        assert [(p, d) for p, d, _ in faults_of(place(garden, "/top", top))] == [
            ("/top", 'the finished "size" is missing')
        ]


def test_a_faulty_block_used_nine_times_is_named_once(garden):
    garden = place(garden, "/blocks/bed/rows/0/0/fabric", "gold")
    assert len(faults_of(garden)) == 1


def test_blocks_in_a_circle_name_the_circle(garden):
    garden["blocks"] |= {"a": {"unit": "mirrored", "inside": "b"}, "b": {"unit": "mirrored", "inside": "a"}}
    [(pointer, detail, _)] = faults_of(garden)
    assert (pointer, detail) == ("/blocks/a", 'the block lies inside itself: "a" in "b" in "a"')


def test_two_tracks_whose_file_names_are_the_same_are_refused(garden):
    garden["tracks"].append({"name": "By  machine!"})
    assert [(p, d) for p, d, _ in faults_of(garden)] == [
        ("/tracks/1/name", 'two tracks are called "By  machine!"')
    ]


def test_metric_faults_speak_metric(garden):
    garden = place(garden, "/measure", "mm")
    garden["top"] = {
        "unit": "grid",
        "rows": [[{"unit": "patch", "size": ["30", h], "fabric": "leaf"} for h in ("40", "50")]],
    }
    details = [d for p, d, _ in faults_of(garden) if p == "/top/rows/0/1"]
    assert details == ["the unit is 50 mm high (finished), its neighbour in the row 40 mm"]


def test_a_piece_with_another_fault_still_has_the_names_it_lies_above_checked(garden):
    """One answer holds both: the cloth nobody knows and the piece nobody knows."""
    garden["pieces"][1] |= {"fabric": "gold", "above": ["leek", "carrot"]}
    assert [p for p, _, _ in faults_of(garden)] == ["/pieces/1/fabric", "/pieces/1/above/1"]


def test_a_piece_with_another_fault_is_still_known_by_its_name(garden):
    """Lying above a piece whose cloth is unknown is no second fault."""
    garden["pieces"][0]["fabric"] = "gold"
    assert [p for p, _, _ in faults_of(garden)] == ["/pieces/0/fabric"]


def test_a_circle_by_way_of_a_faulty_piece_is_found(garden):
    garden["pieces"][0] |= {"fabric": "gold", "above": ["leaf"]}
    assert [p for p, _, _ in faults_of(garden)] == ["/pieces/0/fabric", "/pieces/0/above"]


def test_a_name_in_above_is_pointed_at_where_it_stands(garden):
    """What is not text before it does not shift the pointer."""
    garden["pieces"][1]["above"] = [3, "carrot"]
    assert [p for p, _, _ in faults_of(garden)] == ["/pieces/1/above/0", "/pieces/1/above/1"]


def test_pieces_without_names_are_not_two_of_one_name(garden):
    for piece in garden["pieces"]:
        del piece["name"]
    garden["pieces"][1]["above"] = []
    assert [p for p, _, _ in faults_of(garden)] == ["/pieces/0", "/pieces/1"]
